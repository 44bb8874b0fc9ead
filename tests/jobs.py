"""Jobs for the tests: one that holds, and any other by hypothesis. Invented."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from hypothesis import strategies as st

from bracecalc.records.job import (
    Boards,
    Door,
    Floor,
    Job,
    Layer,
    Loads,
    Niche,
    Stud,
    StudLayout,
    Unit,
    Wall,
)

GYPSUM = Layer(material="gypsum board", thickness=0.5)
PLYWOOD = Layer(material="plywood", thickness=0.75, fixed_to_stud=True)
DOOR = Door(own_weight=36.0, contents=22.0, reach=14.0, closed_reach=1.0, edge=31.0)


def unit(**changes: Any) -> Unit:
    """An invented unit, every measurement given."""
    given: dict[str, Any] = {
        "height": 80.625,
        "width": 32.75,
        "depth": 23.125,
        "leg_travel_front": 1.375,
        "leg_travel_rear": 1.375,
        "leg_pitch": 1 / 16,
        "weight": 540.0,
        "cg_height": 43.0,
        "cg_behind_front_legs": 9.5,
        "front_legs_behind_front": 2.75,
        "doors": (DOOR,),
    }
    return Unit(**{**given, **changes})


def job(**changes: Any) -> Job:
    """A niche that holds: two boards on three studs, no soffit. Parts can be changed whole."""
    given: dict[str, Any] = {
        "title": "Quillet Yard, invented for a test",
        "niche": Niche(width=(33.25,), depth=(23.75,)),
        "floor": Floor(front_left=0.0, front_right=0.0, rear_left=0.0, rear_right=0.0),
        "wall": Wall(layers=(GYPSUM,), stud_spots=(4.0, 16.625, 29.0)),
        "unit": unit(),
        "boards": Boards(size="2x4"),
        "loads": Loads(minimum=80.0),  # two 2x4 over gypsum hold it by stock screws
    }
    return Job(**{**given, **changes})


def sixteenths(low: float, high: float) -> st.SearchStrategy[float]:
    """Lengths on 1/16 in marks."""
    return st.integers(round(low * 16), round(high * 16)).map(lambda n: n / 16)


@st.composite
def jobs(draw: st.DrawFn) -> Job:
    """Any niche that somebody could meet, holding or not."""
    width = draw(sixteenths(24, 48))
    unit_depth = draw(sixteenths(20, 26))
    spots = sorted(draw(st.sets(sixteenths(0, width), max_size=4)))
    spacing = draw(st.sampled_from([12.0, 16.0, 19.2, 24.0]))
    measured = draw(st.booleans())
    height = draw(sixteenths(68, 86))
    soffit = draw(st.none() | sixteenths(height - 2, height + 14))
    known = draw(st.booleans())
    return Job(
        title="Quillet Yard, generated",
        niche=Niche(
            width=(width,),
            depth=(unit_depth + draw(sixteenths(-1, 6)),),
            soffit=() if soffit is None else (soffit,),
            soffit_solid=draw(st.booleans()),
            soffit_layers=draw(st.sampled_from([None, (), (GYPSUM,)])),
        ),
        floor=Floor(
            front_left=draw(sixteenths(0, 1)),
            front_right=draw(sixteenths(0, 1)),
            rear_left=draw(sixteenths(0, 1)),
            rear_right=draw(sixteenths(0, 1)),
        ),
        wall=Wall(
            layers=draw(st.sampled_from([(), (GYPSUM,), (PLYWOOD,), (GYPSUM, PLYWOOD)])),
            stud=Stud(width=draw(st.sampled_from([1.5, 3.0]))),
            stud_spots=tuple(spots) if measured else None,
            stud_layout=None
            if measured
            else StudLayout(spacing=spacing, first=draw(st.none() | sixteenths(0, 24))),
        ),
        unit=unit(
            height=height,
            width=width - draw(sixteenths(-1, 2)),
            depth=unit_depth,
            leg_travel_front=draw(sixteenths(0.5, 3)),
            leg_travel_rear=draw(sixteenths(0.5, 3)),
            **({} if known else {"weight": None, "doors": None}),
        ),
        boards=Boards(size=draw(st.sampled_from(["2x4", "2x6", "1x4"]))),
        loads=Loads(minimum=draw(st.sampled_from([50.0, 100.0, 200.0]))),
    )


def moved(given: Job, **changes: Any) -> Job:
    """The job with fields of its parts changed: ``moved(job, niche={"depth": (25.0,)})``."""
    parts = {name: replace(getattr(given, name), **fields) for name, fields in changes.items()}
    return replace(given, **parts)
