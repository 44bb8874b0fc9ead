"""The make of a job's stack, worked out once and kept for every niche that has it."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache

from bracecalc.mechanics.nds.spacing import Place, Screw
from bracecalc.records.job import Job, Loads, Screws, StudMaterial
from bracecalc.records.plan import Stack
from bracecalc.records.reference import Tables
from bracecalc.records.scheme import Backing
from bracecalc.stack import screws as seats
from bracecalc.stack.make import MakeKey, StackMake
from bracecalc.stack.studs import BuildUp, build_up, known_spots

NEAR_HOLE = 4.0  # in: no distance between two screws reaches farther


def screws_for(job: Job) -> Screws:
    """Return what may be used in the wall: where it has no wood, a maker's own anchors alone."""
    if job.wall.stud.material is StudMaterial.WOOD:
        return job.screws
    return replace(job.screws, carried=())


def make_of(job: Job, tables: Tables, stack: Stack) -> StackMake:
    """Return the make of a stack."""
    wall, rules, loads = job.wall, job.rules, job.loads
    behind = BuildUp(0.0, 0.0)
    crushing = None
    if stack.cut_back <= 0.0:
        behind = build_up(wall.layers, wall.finish_to_come, tables)
        crushing = tables.layers[wall.layers[0].material].crushing if wall.layers else None
    asked = job.screws.counterbore
    key = MakeKey(
        tables=tables,
        options=seats.options_of(screws_for(job), tables, loads.method),
        counterbore=asked if asked > 0.0 else None,
        thicknesses=stack.thicknesses,
        width=stack.least_width,
        species=stack.species,
        stud_species=wall.stud.species,
        stud_width=wall.stud.width,
        stud_depth=wall.stud.depth,
        backing=stack.backing,
        build_up=behind,
        crushing=crushing,
        washer=job.screws.washer,
        wanted=rules.embedment,
        under_head=rules.under_head,
        uncertainty=rules.tape_uncertainty,
        pivot_ease=rules.pivot_ease,
        method=loads.method,
        wet=loads.wet_service,
        temperature=loads.temperature,
        timber_class=loads.timber_class,
        gamma_m=loads.gamma_m,
        taken=_taken(job, tables, stack.backing),
    )
    return _kept(key, _Companion(loads))


def _taken(job: Job, tables: Tables, backing: Backing) -> tuple[tuple[Screw, Place], ...]:
    """Return the holes that others left near any stud, as if all were at one of them."""
    holes = () if job.built is None else job.built.holes
    if not holes:
        return ()
    found = []
    for hole in holes:
        screw = seats.as_hole(hole, tables, backing)
        for spot in known_spots(job) or ():
            across = hole.from_left - spot
            if abs(across) <= NEAR_HOLE:
                found.append((screw, (across, hole.above)))
    return tuple(dict.fromkeys(found))


class _Companion:
    """Loads beside the key: what the make uses of them is in the key already."""

    __slots__ = ("loads",)

    def __init__(self, loads: Loads) -> None:
        self.loads = loads

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Companion)

    def __hash__(self) -> int:
        return 0


@lru_cache(maxsize=512)
def _kept(key: MakeKey, companion: _Companion) -> StackMake:
    return StackMake(key, companion.loads)
