"""Timber classes against EN 338:2016, table 1.

From memory; a public timber design package transcribes the same for every class here. Columns:
class, rho_k kg/m3, f_m,k, f_v,k, f_c,90,k and E_m,0,mean N/mm2.
"""

import pytest

from bracecalc.tables.load import load_tables

ROWS = [
    ("C14", 290, 14, 3.0, 2.0, 7_000),
    ("C16", 310, 16, 3.2, 2.2, 8_000),
    ("C18", 320, 18, 3.4, 2.2, 9_000),
    ("C20", 330, 20, 3.6, 2.3, 9_500),
    ("C22", 340, 22, 3.8, 2.4, 10_000),
    ("C24", 350, 24, 4.0, 2.5, 11_000),
    ("C27", 360, 27, 4.0, 2.5, 11_500),
    ("C30", 380, 30, 4.0, 2.7, 12_000),
    ("C35", 390, 35, 4.0, 2.7, 13_000),
    ("C40", 400, 40, 4.0, 2.8, 14_000),
]


@pytest.mark.parametrize("row", [pytest.param(row, id=f"table 1, {row[0]}") for row in ROWS])
def test_class(row: tuple[str, float, float, float, float, float]) -> None:
    found = load_tables().timber_classes[row[0]]
    values = found.density, found.bending, found.shear, found.compression_across, found.modulus
    assert values == row[1:]


@pytest.mark.parametrize("row", [pytest.param(row, id=f"table 1, {row[0]}") for row in ROWS])
def test_compression_across_by_the_rule_of_en_384(
    row: tuple[str, float, float, float, float, float],
) -> None:
    """f_c,90,k = 0.007 rho_k for softwood: EN 384, from memory; the table gives one decimal."""
    found = load_tables().timber_classes[row[0]]
    assert found.compression_across == pytest.approx(0.007 * found.density, abs=0.0501)
