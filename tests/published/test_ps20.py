"""Lumber sizes against DOC PS 20, American Softwood Lumber Standard.

Minimum dressed sizes, dry, of boards (thickness 1 nominal: 3/4 in) and of dimension lumber were
seen in a reference page that reproduces the standard's table; the board foot (1 in by 12 in by
1 ft, nominal) in another that cites PS 20-05.
"""

import pytest

from bracecalc.records.reference import SoldIn
from bracecalc.tables.load import load_tables

BOARD_THICKNESS = {1: 3 / 4}
DIMENSION_THICKNESS = {2: 1 + 1 / 2, 4: 3 + 1 / 2}
WIDTH = {
    2: 1 + 1 / 2,
    3: 2 + 1 / 2,
    4: 3 + 1 / 2,
    6: 5 + 1 / 2,
    8: 7 + 1 / 4,
    10: 9 + 1 / 4,
    12: 11 + 1 / 4,
}
SIZES = [
    pytest.param(thick, wide, id=f"PS 20, dry, {thick}x{wide}")
    for thick, wide in [
        (1, 2), (1, 3), (1, 4), (1, 6), (1, 8),
        (2, 2), (2, 3), (2, 4), (2, 6), (2, 8), (2, 10), (2, 12), (4, 4),
    ]
]  # fmt: skip


@pytest.mark.parametrize(("thick", "wide"), SIZES)
def test_dressed_size(thick: int, wide: int) -> None:
    size = load_tables().lumber[f"{thick}x{wide}"]
    assert size.thickness == (BOARD_THICKNESS | DIMENSION_THICKNESS)[thick]
    assert size.width == WIDTH[wide]


@pytest.mark.parametrize(("thick", "wide"), SIZES)
def test_nominal_size(thick: int, wide: int) -> None:
    size = load_tables().lumber[f"{thick}x{wide}"]
    assert (size.nominal_thickness, size.nominal_width) == (thick, wide)


def test_every_size_of_the_table_is_checked_here() -> None:
    lumber = load_tables().lumber
    sold = {name for name in lumber if lumber[name].sold_in is SoldIn.INCH}
    assert sold == {f"{p.values[0]}x{p.values[1]}" for p in SIZES}


@pytest.mark.parametrize(("feet", "board_feet"), [(8, 5.333), (10, 6.667), (12, 8.0)])
def test_board_feet_of_a_2x4_by_nominal_size(feet: int, board_feet: float) -> None:
    size = load_tables().lumber["2x4"]
    nominal = size.nominal_thickness * size.nominal_width / 12 * feet
    assert nominal == pytest.approx(board_feet, abs=0.0005)
