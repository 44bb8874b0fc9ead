"""Words that people use, read as the table's own; an unknown word names the nearest one."""

from __future__ import annotations

import pytest

from bracecalc.jobfile.build import build_job
from bracecalc.planning.plan import make_plan
from bracecalc.tables.load import load_tables
from bracecalc.tables.names import row_name
from bracecalc.text.units import QuantityError

VALUES: dict[str, object] = {
    "niche.width": 33.25,
    "niche.depth": 24.75,
    "wall.stud_spots": [6.375, 22.25],
    "unit.height": 80.625,
    "unit.width": 32.75,
    "unit.depth": 23.125,
    "unit.leg_travel": 1.375,
}


@pytest.mark.parametrize(
    ("table", "written", "name"),
    [
        ("layers", "drywall", "gypsum board"),
        ("layers", "Wallboard", "gypsum board"),
        ("layers", "plasterboard", "gypsum board"),
        ("layers", "type X drywall", "gypsum board"),
        ("layers", "green board", "gypsum board"),
        ("layers", "furring channel", "hat channel"),
        ("layers", "fibreglass", "mineral wool"),
        ("layers", "cavity", "air gap"),
        ("screws", "1/4 lag", "1/4"),
        ("screws", "3/8 lag bolt", "3/8"),
        ("screws", "#10 wood screw", "10"),
        ("screws", "M8", "8 mm"),
        ("lumber", "2 x 6", "2x6"),
    ],
)
def test_words_of_the_trade_are_read(table: str, written: str, name: str) -> None:
    assert row_name(getattr(load_tables(), table), written, called=table) == name


@pytest.mark.parametrize("written", ["5/8 drywall", "drywall 5/8", '5/8" wallboard'])
def test_a_job_keeps_and_prints_the_table_s_own_word(written: str) -> None:
    job = build_job({**VALUES, "wall.layers": written}, where="")
    assert [(layer.material, layer.thickness) for layer in job.wall.layers] == [
        ("gypsum board", 0.625)
    ]


def test_a_channel_under_the_board_is_read_and_fails() -> None:
    layers = "5/8 drywall; hat channel 7/8"
    plan = make_plan(build_job({**VALUES, "wall.layers": layers}, where=""))
    assert "compressible-wall" in {finding.code for finding in plan.findings}


def test_dot_and_dab_is_refused_as_a_board_with_a_gap_behind_it() -> None:
    with pytest.raises(QuantityError, match=r"air gap 15 mm.*board on dabs stands off the wall"):
        row_name(load_tables().layers, "Dot and Dab", called="layers")


@pytest.mark.parametrize(
    ("table", "written", "said"),
    [
        ("layers", "gypsum bord", "'gypsum board' (bracecalc table layers lists them)"),
        ("layers", "blue plasterboard", "'gypsum board' (bracecalc"),
        ("layers", "plywod", "'plywood' (bracecalc"),
        ("layers", "foo", "a name of bracecalc table layers"),
        ("layers", "xyzzy", "a name of bracecalc table layers"),
        ("screws", "3/8 x 6", "'3/8' (bracecalc table screws"),
        ("species", "Duglas Fir-Larch", "'Douglas Fir-Larch' (bracecalc"),
    ],
)
def test_an_unknown_word_names_the_nearest_row_or_none(table: str, written: str, said: str) -> None:
    with pytest.raises(QuantityError) as caught:
        row_name(getattr(load_tables(), table), written, called=table)
    assert str(caught.value).startswith(said)
