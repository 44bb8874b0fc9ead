"""Any job, and any rubbish: a job that reads back, or one line for each mistake."""

from __future__ import annotations

import json
import math
from dataclasses import replace
from typing import Any

from hypothesis import assume, given, settings
from hypothesis import strategies as st

from bracecalc.errors import JobError
from bracecalc.jobfile.build import build_job
from bracecalc.jobfile.read import make_job, parse_job
from bracecalc.jobfile.readers import compiled
from bracecalc.jobfile.write import job_to_toml
from bracecalc.planning.plan import make_plan
from bracecalc.records.job import (
    Boards,
    Built,
    CarriedScrew,
    Door,
    Earthquake,
    Floor,
    Job,
    Layer,
    Loads,
    Method,
    Niche,
    Rules,
    Screws,
    Stud,
    StudLayout,
    StudMaterial,
    Unit,
    Units,
    Wall,
)
from bracecalc.records.keys import keys_of
from bracecalc.records.surroundings import Clearance, Opening, Surroundings


def any_of(record: type[Any], field: str) -> st.SearchStrategy[float]:
    """Any value that a key may have, marks of a tape among them."""
    (within,) = (key.within for key in keys_of(record) if key.field == field)
    assert within.most is not None
    least = 1 / 64 if within.least is None else within.least
    marks = st.integers(math.ceil(least * 16), math.floor(within.most * 16))
    return st.floats(least, within.most) | marks.map(lambda n: n / 16)


def readings_of(record: type[Any], field: str) -> st.SearchStrategy[tuple[float, ...]]:
    return st.lists(any_of(record, field), min_size=1, max_size=3).map(tuple)


TITLES = st.text(st.characters(exclude_categories=("C", "Z")), min_size=1, max_size=30)
LAYERS = st.builds(
    Layer,
    material=st.sampled_from(["gypsum board", "plywood", "tile", "air gap"]),
    thickness=any_of(Layer, "thickness"),
    fixed_to_stud=st.booleans(),
)
DOORS = st.builds(Door, **{key.field: any_of(Door, key.field) for key in keys_of(Door)})
SPOTS = st.lists(any_of(Wall, "stud_spots"), max_size=4, unique=True).map(
    lambda spots: tuple(sorted(spots))
)


@st.composite
def units_of_appliance(draw: st.DrawFn, narrowest: float) -> Unit:
    height = draw(st.floats(60, 100))
    front = draw(any_of(Unit, "leg_travel_front"))
    return Unit(
        height=height,
        height_overall=draw(st.none() | st.just(height + 0.25)),
        width=draw(st.floats(8, narrowest + 3)),
        depth=draw(any_of(Unit, "depth")),
        proud=draw(any_of(Unit, "proud")),
        leg_travel_front=front,
        leg_travel_rear=draw(st.just(front) | any_of(Unit, "leg_travel_rear")),
        weight=draw(st.none() | any_of(Unit, "weight")),
        cg_height=draw(st.none() | st.floats(1, 59)),
        doors=draw(st.none() | st.lists(DOORS, max_size=2).map(tuple)),
        bearing_zone=draw(st.none() | st.just((0.5, 4.25))),
    )


@st.composite
def floors(draw: st.DrawFn) -> Floor:
    to_come = draw(st.just(0.0) | st.integers(1, 32).map(lambda n: n / 16))
    marks = st.integers(-64, 64).map(lambda n: n / 16)
    return Floor(
        front_left=draw(marks),
        front_right=draw(marks),
        rear_left=draw(marks),
        rear_right=draw(marks),
        path_high=draw(st.none() | marks),
        finish_to_come=to_come,
        down_from_line=draw(st.booleans()),
        uncertainty=draw(st.none() | any_of(Floor, "uncertainty")),
    )


@st.composite
def jobs(draw: st.DrawFn) -> Job:
    spots = draw(st.none() | SPOTS)
    layout = None
    if spots is None:
        layout = draw(
            st.builds(
                StudLayout,
                spacing=any_of(StudLayout, "spacing"),
                first=st.none() | any_of(StudLayout, "first"),
            )
        )
    stud = st.builds(Stud, material=st.sampled_from(StudMaterial), width=any_of(Stud, "width"))
    niche = draw(
        st.builds(
            Niche,
            width=readings_of(Niche, "width"),
            depth=readings_of(Niche, "depth"),
            soffit=readings_of(Niche, "soffit"),
            soffit_solid=st.booleans(),
            soffit_layers=st.none() | st.lists(LAYERS, max_size=2).map(tuple),
        )
    )
    return Job(
        title=draw(TITLES),
        units=draw(st.sampled_from(Units)),
        niche=niche,
        wall=Wall(
            layers=draw(st.lists(LAYERS, max_size=3).map(tuple)),
            stud=draw(stud),
            stud_spots=spots,
            stud_layout=layout,
        ),
        unit=draw(units_of_appliance(niche.narrowest)),
        floor=draw(floors()),
        boards=draw(
            st.builds(
                Boards,
                size=st.sampled_from(["2x4", "2x6"]),
                end_gap=st.floats(0, min(6, niche.narrowest / 4)),
            )
        ),
        screws=draw(
            st.builds(
                Screws,
                carried=st.lists(
                    st.builds(
                        CarriedScrew,
                        size=st.sampled_from(["10", "1/4"]),
                        lengths=readings_of(CarriedScrew, "lengths"),
                    ),
                    max_size=2,
                ).map(tuple),
                counterbore=any_of(Screws, "counterbore"),
            )
        ),
        rules=draw(
            st.builds(Rules, overlap=any_of(Rules, "overlap"), most_boards=st.integers(1, 9))
        ),
        loads=draw(
            st.builds(
                Loads,
                minimum=any_of(Loads, "minimum"),
                method=st.sampled_from(Method),
                earthquake=st.none() | st.builds(Earthquake, s_ds=st.floats(0.01, 4)),
                load_duration=st.just({}) | st.just({"climb": 1.15}),
            )
        ),
        surroundings=draw(
            st.builds(
                Surroundings,
                opening=st.none() | st.builds(Opening, height=readings_of(Opening, "height")),
                clearances=st.lists(
                    st.builds(
                        Clearance,
                        name=TITLES,
                        required=any_of(Clearance, "required"),
                        measured=any_of(Clearance, "measured"),
                    ),
                    max_size=2,
                ).map(tuple),
            )
        ),
        built=draw(
            st.none()
            | st.builds(
                Built, underside=any_of(Built, "underside"), boards=SPOTS.map(lambda _: (1.5,))
            )
        ),
        as_found=draw(st.just({}) | st.just({"width": ["33 in", 33.5], "a b": {"x": True}})),
    )


@settings(max_examples=80, deadline=None)
@given(jobs(), st.booleans())
def test_a_job_written_and_read_is_the_same_job(job: Job, comments: bool) -> None:
    text = job_to_toml(job, comments=comments)
    assert parse_job(text, where=job.where) == job


@settings(max_examples=30, deadline=None)
@given(jobs())
def test_the_units_of_the_writing_change_nothing(job: Job) -> None:
    job = replace(job, units=Units.INCH)
    metric = replace(job, units=Units.MM)
    assert replace(parse_job(job_to_toml(metric), where=""), units=Units.INCH) == job


@settings(max_examples=60, deadline=None)
@given(jobs())
def test_any_job_that_can_be_is_planned(job: Job) -> None:
    assert json.dumps(make_plan(job).to_dict(), allow_nan=False)


SCALARS: st.SearchStrategy[Any] = (
    st.none()
    | st.booleans()
    | st.integers()
    | st.floats()
    | st.text(max_size=12)
    | st.sampled_from(["33 1/4 in", "540 lb", "1/0", "9" * 70, "nan", "yes", "2x4"])
)
VALUES = st.recursive(
    SCALARS,
    lambda inner: (
        st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=6), inner, max_size=3)
    ),
    max_leaves=6,
)
KNOWN = sorted((*compiled().single, *compiled().arrays, *compiled().tables))
PATHS = st.sampled_from(KNOWN) | st.text("abc._1[", max_size=12)
FILES = st.sampled_from([path for path in KNOWN if path.startswith("tables.")])


def one_line_each(error: JobError) -> bool:
    lines = str(error).split("\n")
    return len(lines) == len(error.mistakes) and all(
        mistake.right and line.isprintable()
        for mistake, line in zip(error.mistakes, lines, strict=True)
    )


@settings(max_examples=100, deadline=None)
@given(st.dictionaries(PATHS, VALUES, max_size=8))
def test_any_values_are_a_job_or_one_line_each(values: dict[str, Any]) -> None:
    assume(not any(path.startswith("tables") for path in values))
    for read in (build_job, make_job):
        try:
            read(values, where="row 2")
        except JobError as error:
            assert one_line_each(error)  # noqa: PT017


@settings(max_examples=100, deadline=None)
@given(st.text(max_size=80) | st.text("[]{}\"'=.,\n# aniche132-_widthunits", max_size=80))
def test_any_text_is_a_job_or_one_line_each(text: str) -> None:
    try:
        parse_job(text, where="niche.toml")
    except JobError as error:
        assert one_line_each(error)  # noqa: PT017


@settings(max_examples=80, deadline=None)
@given(jobs(), st.data())
def test_a_job_file_with_a_bite_taken_out_never_breaks(job: Job, data: st.DataObject) -> None:
    text = job_to_toml(job, comments=False)
    start = data.draw(st.integers(0, len(text)))
    stop = data.draw(st.integers(start, min(len(text), start + 10)))
    bitten = text[:start] + data.draw(st.text(max_size=3)) + text[stop:]
    try:
        parse_job(bitten, where="niche.toml")
    except JobError as error:
        assert one_line_each(error)  # noqa: PT017
