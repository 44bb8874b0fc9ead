"""A job file: what is read, and every mistake in one line."""

from __future__ import annotations

import io
import os
import subprocess
import sys
from dataclasses import replace
from fractions import Fraction
from pathlib import Path
from typing import Any

import pint
import pytest

from bracecalc.errors import JobError
from bracecalc.jobfile.build import build_job
from bracecalc.jobfile.read import make_job, parse_job, read_job
from bracecalc.jobfile.write import job_to_toml
from bracecalc.records.job import Earthquake, Job, Layer, Method, StudLayout, StudMaterial, Units
from bracecalc.records.surroundings import FloorLoad, Opening

DEMO = Path(__file__).parents[2] / "data" / "demo"

NICHE = """\
title = "Quillet Yard 3B, kitchen"
units = "inch"

[niche]
width = '33 1/4 in'
depth = '24 3/4 in'
soffit = '92 1/2 in'
soffit_solid = true
soffit_layers = [{ material = "gypsum board", thickness = '5/8 in' }]

[floor]
front_left = 0
front_right = '1/8 in'
rear_left = 0
rear_right = '1/4 in'

[wall]
layers = [{ material = "gypsum board", thickness = '1/2 in' }]
stud = { material = "wood", species = "SPF", width = '1 1/2 in', depth = '3 1/2 in' }
stud_spots = ['6 3/8 in', '22 1/4 in']

[unit]
height = '80 5/8 in'
height_overall = '80 7/8 in'
width = '32 3/4 in'
depth = '23 1/8 in'
proud = 0
leg_travel = '1 3/8 in'
leg_pitch = '1/16 in'
weight = '540 lb'
cg_height = '43 in'
cg_behind_front_legs = '9 1/2 in'
front_legs_behind_front = '2 3/4 in'
restraint_height = '81 5/8 in'

[[unit.doors]]
own_weight = '36 lb'
contents = '22 lb'
reach = '14 in'
closed_reach = '1 in'
edge = '31 in'

[boards]
size = "2x4"
species = "SPF"

[screws]
[rules]
[loads]
"""

SHORT = """\
[niche]
width = 33.25
depth = 24.75
[wall]
layers = [{ material = "gypsum board", thickness = 0.5 }]
stud_spots = [6.375, 22.25]
[unit]
height = 80.625
width = 32.75
depth = 23.125
leg_travel = 1.375
"""


def mistakes_of(text: str) -> list[str]:
    with pytest.raises(JobError) as caught:
        parse_job(text, where="niche.toml")
    lines = str(caught.value).splitlines()
    assert len(lines) == len(caught.value.mistakes)
    return lines


def changed(old: str, new: str, text: str = SHORT) -> str:
    assert text.count(old) == 1
    return text.replace(old, new)


def test_the_whole_job_is_read() -> None:
    job = parse_job(NICHE, where="niche.toml")
    assert (job.title, job.units, job.where) == (
        "Quillet Yard 3B, kitchen",
        Units.INCH,
        "niche.toml",
    )
    assert (job.niche.width, job.niche.depth, job.niche.soffit) == ((33.25,), (24.75,), (92.5,))
    assert job.niche.soffit_layers == (Layer(material="gypsum board", thickness=0.625),)
    assert (job.floor.front_right, job.floor.rear_right) == (0.125, 0.25)
    assert job.wall.stud_spots == (6.375, 22.25)
    assert job.wall.stud.material is StudMaterial.WOOD
    assert (job.unit.leg_travel_front, job.unit.leg_travel_rear) == (1.375, 1.375)
    assert job.unit.weight == 540.0
    assert job.unit.doors is not None
    assert job.unit.doors[0].edge == 31.0


def test_defaults_are_those_of_the_records() -> None:
    job = parse_job(SHORT, where="quillet/3b.toml")
    bare = Job(title="3b", niche=job.niche, wall=job.wall, unit=job.unit)
    assert job == bare
    assert job.unit.doors is None
    assert job.unit.weight is None


def test_a_layout_in_place_of_spots() -> None:
    text = changed("stud_spots = [6.375, 22.25]", "stud_layout = { spacing = 16, first = 6 }")
    assert parse_job(text, where="").wall.stud_layout == StudLayout(spacing=16.0, first=6.0)


def test_several_readings_and_other_units() -> None:
    text = changed("width = 33.25", "width = ['33 1/4 in', '845 mm', 33]")
    assert parse_job(text, where="").niche.width == (33.25, 845 / 25.4, 33.0)


def test_bare_numbers_are_millimetres_in_a_metric_job() -> None:
    values = {
        "units": "mm",
        "niche.width": 845,
        "niche.depth": 629.5,
        "wall.layers": [],
        "wall.stud_spots": [162, 565],
        "unit.height": 2048,
        "unit.width": 832,
        "unit.depth": 587,
        "unit.leg_travel": 35,
    }
    job = build_job(values, where="")
    assert job.units is Units.MM
    assert job.niche.width == (float(Fraction(845) * 5 / 127),)
    assert job.niche.depth == (float(Fraction("629.5") * 5 / 127),)


def test_readings_down_from_a_line_are_heights_above_the_lowest_spot() -> None:
    down = "[floor.down_from_line]\nfront_left = 41.75\nfront_right = 41.5\nrear_left = 41.75\n"
    floor = parse_job(SHORT + down + "rear_right = 40.25\n", where="").floor
    heights = (floor.front_left, floor.front_right, floor.rear_left, floor.rear_right)
    assert heights == (0.0, 0.25, 0.0, 1.5)
    assert floor.down_from_line


def test_a_line_of_known_height_and_a_finish_to_come() -> None:
    text = (
        SHORT
        + "[floor]\nfinish_to_come = '3/8 in'\n[floor.down_from_line]\nline = 40\nfront_left = 40\n"
        + "front_right = 39.75\nrear_left = 40.25\nrear_right = 40\npath_high = 39\n"
    )
    floor = parse_job(text, where="").floor
    heights = (floor.front_left, floor.front_right, floor.rear_left, floor.rear_right)
    assert heights == (0.375, 0.625, 0.125, 0.375)
    assert floor.path_high == 1.375


def test_a_finish_to_come_is_added_to_heights_given_up() -> None:
    text = SHORT + "[floor]\nrear_left = '1/8 in'\npath_high = 1\nfinish_to_come = '1/2 in'\n"
    floor = parse_job(text, where="").floor
    assert (floor.front_left, floor.rear_left, floor.path_high) == (None, 0.625, 1.5)
    assert floor.spots == (0.5, 0.5, 0.625, 0.5)


def test_up_and_down_are_the_same_floor() -> None:
    up = parse_job(
        SHORT + "[floor]\nfront_left = 0\nfront_right = 0\nrear_left = 0.25\nrear_right = 0.125\n",
        where="",
    ).floor
    down = parse_job(
        SHORT + "[floor.down_from_line]\nfront_left = 40\nfront_right = 40\n"
        "rear_left = 39.75\nrear_right = 39.875\n",
        where="",
    ).floor
    assert replace(down, down_from_line=False) == up
    assert (up.line, down.line) == (None, 40.0)


def test_the_rest_of_the_job() -> None:
    text = (
        SHORT
        + """
[opening]
width_range = ['33 in', '33 1/2 in']
diagonals = [98.5, 98.25]
[[clearances]]
name = "above, for venting"
required = 1
measured = 2
[floor_load]
design = '1.9 kPa'
[loads]
S_DS = 1.0
pull = '20 lbf'
pull_height = 56
method = "ec5"
gamma_M = 1.25
load_duration = { climb = 1.15 }
[built]
underside = 81.5
boards = [1.5, 1.5]
"""
    )
    job = parse_job(text, where="")
    around = job.surroundings
    assert around.opening == Opening(width_range=(33.0, 33.5), diagonals=(98.5, 98.25))
    assert around.clearances[0].name == "above, for venting"
    assert around.floor_load is not None
    assert around.floor_load.design_psf == pytest.approx(39.68, abs=0.005)  # 1.9 kPa
    assert job.loads.earthquake == Earthquake(s_ds=1.0)
    assert (job.loads.method, job.loads.gamma_m) == (Method.EC5, 1.25)
    assert job.loads.load_duration == {"climb": 1.15}
    assert job.built is not None
    assert job.built.boards == (1.5, 1.5)


def test_what_was_found_on_site_is_passed_on() -> None:
    text = SHORT + "[as_found]\nwidth = '33 in'\n[[as_found_record]]\nname = 'x'\n"
    assert parse_job(text, where="").as_found == {"width": "33 in"}


def test_names_are_read_in_any_spelling_and_kept_in_the_table_s() -> None:
    text = SHORT + '[boards]\nsize = "2 X 4"\nspecies = "spf"\n'
    text += '[screws]\ncarried = [{ size = "#10", lengths = 3 }]\n'
    job = parse_job(text, where="")
    assert (job.boards.size, job.boards.species, job.screws.carried[0].size) == ("2x4", "SPF", "10")


ONE_MISTAKE = [
    (
        "width = 33.25",
        "width = '33 ib'",
        "niche.width: read '33 ib'; expected a length, as '84 1/4 in'",
    ),
    (
        "width = 33.25",
        "width = '33/0 in'",
        "niche.width: read '33/0 in'; expected a fraction whose",
    ),
    ("width = 33.25", "width = nan", "niche.width: read nan; expected a finite length"),
    ("width = 33.25", "width = -inf", "niche.width: read -inf; expected a finite length"),
    ("width = 33.25", "width = 1e400", "niche.width: read inf; expected a finite length"),
    ("width = 33.25", "width = '1e400 in'", "niche.width: read '1e400 in'; expected a value that"),
    (
        "width = 33.25",
        "width = -33",
        "niche.width: read -33; expected 8 in to 120 in (finished opening",
    ),
    ("width = 33.25", "width = '5 kg'", "niche.width: read '5 kg'; expected a length"),
    ("width = 33.25", "width = true", "niche.width: read true; expected a length"),
    ("width = 33.25", "width = []", "niche.width: read []; expected at least one length"),
    ("width = 33.25", "width = 1979-05-27", "niche.width: read 1979-05-27; expected a length"),
    ("width = 33.25", "width = { a = 1 }", "niche.width: read a table; expected a length"),
    ("width = 33.25", "widht = 33.25", "niche.widht: read an unknown key; expected niche.width"),
    ("width = 33.25\n", "", "niche.width: read nothing; expected a length, or several"),
    ("[niche]", "niche2 = 1\n[niche]", "niche2: read an unknown key; expected niche"),
    (
        "leg_travel = 1.375",
        "",
        "unit.leg_travel: read nothing; expected a length: how far",
    ),
    ("leg_travel = 1.375", "leg_travel_rear = 1", "unit.leg_travel_front: read nothing"),
    (
        "leg_travel = 1.375",
        "leg_travel = 1\nleg_travel_rear = 1",
        "unit.leg_travel: read unit.leg_tr",
    ),
    (
        "height = 80.625",
        "height = 80.625\nheight_overall = 80",
        "unit.height_overall: read less than",
    ),
    (
        "height = 80.625",
        "height = 80.625\ncg_height = 81",
        "unit.cg_height: read unit.height or more",
    ),
    (
        "height = 80.625",
        "height = 80.625\nweight = 540",
        "unit.weight: read 540; expected a weight or",
    ),
    (
        "height = 80.625",
        "height = 80.625\nweight = '540 in'",
        "unit.weight: read '540 in'; expected a",
    ),
    (
        "height = 80.625",
        "height = 80.625\ndoors = 3",
        "unit.doors: read 3; expected a list of tables",
    ),
    ('"gypsum board"', '"gypsum bord"', "wall.layers.1.material: read 'gypsum bord'; expected"),
    ("thickness = 0.5", "thicknes = 0.5, thickness = 1", "wall.layers.1.thicknes: read an unknown"),
    (
        ", thickness = 0.5",
        "",
        "wall.layers.1.thickness: read nothing; expected a length",
    ),
    (
        "stud_spots = [6.375, 22.25]",
        "",
        "wall.stud_spots: read nothing; expected the centre of each",
    ),
    ("stud_spots = [6.375, 22.25]", "stud_spots = [6, 6]", "wall.stud_spots: read the same spot"),
    (
        "[6.375, 22.25]",
        "[6.375]\nstud_layout.spacing = 16",
        "wall.stud_spots: read wall.stud_layout",
    ),
    ("[6.375, 22.25]", "[6.375, 'x']", "wall.stud_spots: read [6.375, 'x']; expected a length"),
]


@pytest.mark.parametrize(("old", "new", "line"), ONE_MISTAKE)
def test_a_mistake_is_one_line_that_says_what_would_be_right(old: str, new: str, line: str) -> None:
    (found,) = mistakes_of(changed(old, new))
    assert found.startswith(f"niche.toml: {line}")


MORE_MISTAKES = [
    ('units = "feet"', 'units: read \'feet\'; expected "inch" or "mm"'),
    ('title = ""', "title: read ''; expected text on one line"),
    ('title = "a\\u001bb"', "title: read 'a\\x1bb'; expected text on one line"),
    ("[floor]\nfront_left = 'x'", "floor.front_left: read 'x'; expected a length"),
    (
        "[floor.down_from_line]",
        "floor.down_from_line.front_left: read nothing; expected a length",
    ),
    ("[boards]\nsize = '2x5'", "boards.size: read '2x5'; expected"),
    ("[boards]\nspecies = 'Hemm Fir'", "boards.species: read 'Hemm Fir'; expected"),
    ("[loads]\nS_DS = 4.5", "loads.S_DS: read 4.5; expected more than 0 and at most 4 (design"),
    ("[loads]\nS_DS = 0", "loads.S_DS: read 0; expected more than 0 and at most 4"),
    (
        "[loads]\nearthquake.S_DS = 1",
        "loads.earthquake: read an unknown key; expected loads.S_DS and",
    ),
    ("[loads]\nI_p = 1.5", "loads.S_DS: read nothing; expected S_DS of the site"),
    ("[loads]\nminimum = 100", "loads.minimum: read 100; expected a weight or force with its unit"),
    ("[loads]\npull = '20 lb'", "loads.pull_height: read nothing; expected the height"),
    (
        "[loads]\ntemperature = 70",
        "loads.temperature: read 70; expected a temperature with its unit",
    ),
    ("[loads]\nmethod = 'nsd'", 'loads.method: read \'nsd\'; expected "NDS" or "EC5"'),
    (
        "[loads]\nload_duration = { climb = 2 }",
        "loads.load_duration.climb: read 2; expected 0.5 to 1.6",
    ),
    ("[loads]\nwet_service = 1", "loads.wet_service: read 1; expected true or false"),
    ("[rules]\nmost_boards = 2.5", "rules.most_boards: read 2.5; expected a whole number"),
    ("[rules]\noverlapp = 2", "rules.overlapp: read an unknown key; expected rules.overlap"),
    (
        "[boards]\nheight = '3 1/2 in'",
        "boards.height: read an unknown key; expected boards.width, its width as measured",
    ),
    ("[rules]\nzzz = 2", "rules.zzz: read an unknown key; expected one of overlap, "),
    ("[opening]\nwidth_range = [34, 33]", "opening.width_range: read [34, 33]; expected the least"),
    ("[opening]\nwidth_range = 34", "opening.width_range: read 34; expected two lengths"),
    ("[[opening]]\nheight = 34", "opening: read [{'height': 34}]; expected a table, as [opening]"),
    ("[clearances]\nname = 'x'", "clearances: read a table; expected a list of tables"),
    ("[built]", "built.underside: read nothing; expected a length: its lowest"),
    (
        "[built]\nunderside = 81\nboards = [1.5]\npackers = [1.5]",
        "built.packers: read built.boards",
    ),
    ("[screws]\ncarried = [{ size = '10', lengths = [] }]", "screws.carried.1.lengths: read []"),
    ("[tables]\nscrews = 'missing.csv'", "missing.csv"),
    ("as_found = 3", "as_found: read 3; expected a table, as [as_found]"),
]


@pytest.mark.parametrize(("added", "line"), MORE_MISTAKES)
def test_a_mistake_in_an_added_key(added: str, line: str) -> None:
    top = added if added.startswith(("units", "title", "as_found")) else ""
    text = f"{top}\n{SHORT}" if top else f"{SHORT}\n{added}\n"
    assert mistakes_of(text)[0].startswith(f"niche.toml: {line}" if "csv" not in line else line)


def test_7_22_asks_for_its_own_factors() -> None:
    lines = mistakes_of(SHORT + '[loads]\nS_DS = 1\nedition = "7-22"\nH_f = 1.5\n')
    assert [line.split(": ")[1] for line in lines] == ["loads.R_mu", "loads.C_AR", "loads.R_po"]


def test_all_mistakes_are_told_at_once() -> None:
    text = SHORT.replace("33.25", "'33 ib'").replace("80.625", "-1").replace("[wall]", "[walls]")
    keys = [line.split(": ")[1] for line in mistakes_of(text)]
    assert keys == ["niche.width", "walls", "unit.height", "wall.layers", "wall.stud_spots"]


def test_a_wrong_key_is_not_told_again_as_missing() -> None:
    assert len(mistakes_of(changed("height = 80.625", "height = 'tall'"))) == 1


def test_heights_up_and_down_do_not_mix() -> None:
    down = "[floor]\nrear_left = 0\n[floor.down_from_line]\nfront_left = 1\nfront_right = 1\n"
    (line,) = mistakes_of(SHORT + down + "rear_left = 1\nrear_right = 1\n")
    assert line.startswith("niche.toml: floor.rear_left: read a height beside readings from a line")


def test_a_solid_soffit_has_a_height() -> None:
    (line,) = mistakes_of(changed("depth = 24.75", "depth = 24.75\nsoffit_solid = true"))
    assert line.startswith("niche.toml: niche.soffit: read nothing; expected its height")


def test_steel_studs_need_no_places() -> None:
    text = changed("stud_spots = [6.375, 22.25]", 'stud = { material = "steel" }')
    assert parse_job(text, where="").wall.stud_spots is None


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ("", "niche.toml: read an empty file; expected a job"),
        (" \n\n", "niche.toml: read an empty file; expected a job"),
        ("[niche\n", "niche.toml: line 1, column 7: read '[niche'; expected valid TOML ("),
        (
            "a = 1\nwidth = 33 1/4 in\n",
            "niche.toml: line 2, column 12: read 'width = 33 1/4 in'; exp",
        ),
        ("a = [", "niche.toml: end of file: expected valid TOML (invalid value; text"),
        ("a = 1\na = 2", "niche.toml: end of file: expected valid TOML (cannot overwrite a value)"),
        ("a = " + "[" * 5000, "niche.toml: read lists in lists without end; expected a job file"),
        ("a = " + "9" * 5000, "niche.toml: read "),
    ],
)
def test_broken_toml_is_one_line(text: str, line: str) -> None:
    (found,) = mistakes_of(text)
    assert found.startswith(line)
    assert len(found) < 250


@pytest.mark.parametrize(
    ("data", "line"),
    [
        (b"", "read an empty file; expected a job"),
        (b"\x89PNG\r\n\x1a\n\0\0\0", "read bytes that aren't text (at byte 1)"),
        (b"a = 1\0", "read binary data; expected a TOML file in UTF-8"),
        ("title = 'é'".encode("latin-1"), "read bytes that aren't text (at byte 10)"),
        (b"\xff\xfe[\0n\0", "read bytes that aren't text (at byte 1)"),
        (b"#" * 10_000_000, "read more than 1000000 bytes; expected a job file of less than 1 MB"),
    ],
)
def test_a_file_that_is_no_job_is_one_line(data: bytes, line: str, tmp_path: Path) -> None:
    path = tmp_path / "niche.toml"
    path.write_bytes(data)
    with pytest.raises(JobError) as caught:
        read_job(path)
    assert str(caught.value).startswith(f"{path}: {line}")
    assert "\n" not in str(caught.value)


def test_paths_that_can_not_be_read(tmp_path: Path) -> None:
    for path, line in (
        (tmp_path / "none.toml", "no such file; expected a job file"),
        (tmp_path, "read a folder; expected a job file in it"),
        (Path("a\0b"), "read embedded null byte; expected a job file that can be read"),
        (tmp_path / ("x" * 300), "read File name too long; expected a job file that can be read"),
    ):
        with pytest.raises(JobError) as caught:
            read_job(path)
        assert str(caught.value) == next(iter(str(caught.value).splitlines()))
        assert line in str(caught.value)


@pytest.mark.skipif(not Path("/dev/zero").exists(), reason="no endless file here")
def test_an_endless_file_is_not_read_whole() -> None:
    with pytest.raises(JobError, match="more than 1000000 bytes"):
        read_job("/dev/zero")


def test_no_permission(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "niche.toml"
    path.write_text(SHORT)

    def refuse(*_: object) -> None:  # root may read anything, so chmod shows nothing here
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "open", refuse)
    with pytest.raises(JobError, match="read no permission to read it; expected a file"):
        read_job(path)


def test_a_byte_order_mark_and_windows_line_ends_are_read(tmp_path: Path) -> None:
    path = tmp_path / "niche.toml"
    path.write_bytes(b"\xef\xbb\xbf" + SHORT.replace("\n", "\r\n").encode())
    assert read_job(str(path)).niche.width == (33.25,)


def test_standard_input(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(SHORT.encode())))
    job = read_job("-")
    assert (job.title, job.where) == ("Untitled", "-")


def test_the_job_s_own_tables_start_at_its_folder(tmp_path: Path) -> None:
    (tmp_path / "ours.csv").write_text(
        "name,property,value,source,read\n"
        "House Pine,alias_of,Southern Pine,invented for a test,invented for a test\n"
    )
    path = tmp_path / "niche.toml"
    path.write_text(SHORT + '[tables]\nspecies = "ours.csv"\n[boards]\nspecies = "house pine"\n')
    job = read_job(path)
    assert job.boards.species == "House Pine"
    assert job.tables is not None
    assert job.tables.species["House Pine"].name == "Southern Pine"
    with pytest.raises(JobError, match=r"boards.species: read 'house pine'"):
        parse_job(path.read_text().replace('species = "ours.csv"', ""), where="")


MAPPING: dict[str, Any] = {
    "niche": {"width": 33.25, "depth": "24 3/4 in"},
    "wall": {"layers": "gypsum board 1/2 in", "stud_spots": [6.375, 22.25]},
    "unit": {"height": 80.625, "width": 32.75, "depth": 23.125, "leg_travel": 1.375},
}


def test_a_mapping_is_the_same_as_its_file() -> None:
    assert make_job(MAPPING, where="a.toml") == parse_job(SHORT, where="a.toml")


def test_pint_quantities_and_pounds_at_the_edge_of_python() -> None:
    ureg: pint.UnitRegistry[float] = pint.UnitRegistry(cache_folder=":auto:")
    unit = {**MAPPING["unit"], "weight": ureg.Quantity(540, "lbf"), "contents": 120.0}
    job = make_job({**MAPPING, "unit": unit, "floor_load": {"design": 40}})
    assert (job.unit.weight, job.unit.contents) == (540.0, 120.0)
    assert job.surroundings.floor_load == FloorLoad(design_psf=40.0)
    with pytest.raises(JobError, match=r"unit.height: read 2 kilogram; expected a length"):
        make_job({**MAPPING, "unit": {**unit, "height": ureg.Quantity(2, "kg")}})
    with pytest.raises(JobError, match=r"unit.contents: read nan; expected a weight"):
        make_job({**MAPPING, "unit": {**unit, "contents": float("nan")}})


def test_a_bare_load_in_a_metric_job_is_refused_from_python_too() -> None:
    unit = {**MAPPING["unit"], "weight": 245}
    with pytest.raises(JobError, match=r"unit.weight: read 245; expected a weight"):
        make_job({**MAPPING, "units": "mm", "unit": unit})


ROW = {
    "title": "4D",
    "niche.width": "33.25",
    "niche.depth": "24 1/2 in; 24 3/4 in",
    "wall.layers.1.material": "tile",
    "wall.layers.1.thickness": "3/8 in",
    "wall.layers.2.material": "cement board",
    "wall.layers.2.thickness": "1/2 in",
    "wall.stud_spots": "22 1/4 in; 6 3/8 in",
    "wall.corner_studs": "TRUE",
    "unit.height": 80.625,
    "unit.width": 32.75,
    "unit.depth": 23.125,
    "unit.leg_travel": 1.375,
    "unit.doors.1.own_weight": "36 lb",
    "unit.doors.1.contents": "22 lb",
    "unit.doors.1.reach": "14",
    "unit.doors.1.closed_reach": "1",
    "unit.doors.1.edge": "31",
    "opening.width_range": "33 in to 33 1/2 in",
}


def test_a_row_of_a_spreadsheet_is_read_by_the_same_checks() -> None:
    job = build_job(ROW, where="niches.csv: row 2")
    assert job.niche.depth == (24.5, 24.75)
    assert [layer.thickness for layer in job.wall.layers] == [0.375, 0.5]
    assert job.wall.stud_spots == (6.375, 22.25)
    assert job.wall.corner_studs
    assert job.unit.doors is not None
    assert job.unit.doors[0].own_weight == 36.0
    assert job.surroundings.opening is not None
    assert job.surroundings.opening.width_range == (33.0, 33.5)


def test_a_mistake_in_a_row_names_the_row() -> None:
    with pytest.raises(JobError) as caught:
        build_job({**ROW, "unit.doors.1.reach": "x", "niche.width": "-1"}, where="a.csv: row 2")
    assert [str(mistake).split("; ")[0] for mistake in caught.value.mistakes] == [
        "a.csv: row 2: niche.width: read '-1'",
        "a.csv: row 2: unit.doors.1.reach: read 'x'",
    ]


@pytest.mark.parametrize(
    ("text", "layers"),
    [
        ("gypsum board 1/2 in", [("gypsum board", 0.5)]),
        ("1/2 in gypsum board", [("gypsum board", 0.5)]),
        ("gypsum board: 5/8", [("gypsum board", 0.625)]),
        ('½" gypsum board; 3/4" plywood', [("gypsum board", 0.5), ("plywood", 0.75)]),
    ],
)
def test_layers_as_text(text: str, layers: list[tuple[str, float]]) -> None:
    job = make_job({**MAPPING, "wall": {"layers": text, "stud_spots": 6}})
    assert [(layer.material, layer.thickness) for layer in job.wall.layers] == layers


def test_layers_as_text_that_is_none() -> None:
    with pytest.raises(JobError, match=r"wall.layers: read 'drywall'; expected layers as 'gypsum"):
        make_job({**MAPPING, "wall": {"layers": "drywall", "stud_spots": 6}})


@pytest.mark.parametrize("comments", [True, False])
@pytest.mark.parametrize(
    "path",
    sorted(DEMO.glob("*.toml")),
    ids=lambda path: path.stem,
)
def test_a_demo_job_written_and_read_is_the_same_job(path: Path, comments: bool) -> None:
    job = read_job(path)
    assert parse_job(job_to_toml(job, comments=comments), where=str(path)) == job


def test_a_written_job_keeps_to_80_columns_where_it_can() -> None:
    text = job_to_toml(parse_job(NICHE, where=""))
    assert all(len(line) <= 80 for line in text.splitlines() if line.startswith("#"))
    assert "width = '33 1/4 in'" in text


def test_reading_a_job_in_inches_loads_no_pint() -> None:
    code = (
        "import sys; from bracecalc.jobfile.read import parse_job\n"
        f"parse_job({NICHE!r}, where='')\n"
        "assert not {'pint', 'numpy', 'tabulate', 'click', 'difflib'} & set(sys.modules)"
    )
    subprocess.run([sys.executable, "-c", code], check=True, timeout=60, env=dict(os.environ))


@pytest.mark.parametrize(("given", "words"), [('"uk"', "uk"), ('"US"', "us")])
def test_the_english_of_a_job_is_read_and_written(given: str, words: str) -> None:
    job = parse_job(f"english = {given}\n{SHORT}", where="niche.toml")
    assert job.words.value == words
    assert parse_job(job_to_toml(job), where="niche.toml") == job
