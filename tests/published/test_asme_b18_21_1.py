"""Washers under lag screws against ASME B18.21.1, type A plain washers, wide series.

1/4, 3/8 and 1/2 were seen in a page that reproduces the table; 5/16 and 7/16 are from memory.
"""

import pytest

from bracecalc.records.reference import ScrewKind
from bracecalc.tables.load import load_tables

WIDE = {
    "1/4": (0.734, 0.065),
    "5/16": (0.875, 0.083),
    "3/8": (1.000, 0.083),
    "7/16": (1.250, 0.083),
    "1/2": (1.375, 0.109),
}


@pytest.mark.parametrize(
    ("size", "diameter", "thickness"),
    [pytest.param(size, *values, id=f"type A, wide, {size}") for size, values in WIDE.items()],
)
def test_washer(size: str, diameter: float, thickness: float) -> None:
    row = load_tables().screws[size]
    assert (row.washer_diameter, row.washer_thickness) == (diameter, thickness)


def test_a_screw_with_a_hexagon_head_has_a_washer_and_a_wood_screw_none() -> None:
    for size, row in load_tables().screws.items():
        assert (row.washer_diameter is not None) == (row.kind is not ScrewKind.WOOD), size
