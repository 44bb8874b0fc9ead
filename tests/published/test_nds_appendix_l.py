"""Screw steel and diameters against NDS 2018, Appendix L (tables L2 and L3) and Appendix I.

Root diameters D_r of table L3 are from memory (No. 10: 0.152 second hand); those of the lag
screws 1/4, 5/16 and 3/8 (table L2) are from memory and confirmed by all legible cells of table
12K, which was seen in a scan. Head diameters D_H are second hand. F_yb by nominal diameter,
table I1, is from memory (80,000 psi for No. 10 second hand). Specific gravities, table 12.3.3A,
are second hand, from a public finite-element library that transcribes them.
"""

import math

import pytest

from bracecalc.records.reference import ScrewKind
from bracecalc.tables.load import load_tables

ROOT = {"6": 0.113, "7": 0.122, "8": 0.131, "9": 0.142, "10": 0.152, "12": 0.171, "14": 0.196,
        "16": 0.209, "18": 0.232, "20": 0.255, "24": 0.298}  # fmt: skip
LAG_ROOT = {"1/4": 0.173, "5/16": 0.227, "3/8": 0.265, "7/16": 0.328, "1/2": 0.371}
HEAD = {"6": 0.262, "7": 0.287, "8": 0.312, "9": 0.337, "10": 0.363, "12": 0.414, "14": 0.480,
        "16": 0.515, "18": 0.602, "20": 0.616, "24": 0.724}  # fmt: skip
LAG_STEEL = {"1/4": 70_000, "5/16": 60_000, "3/8": 45_000, "7/16": 45_000, "1/2": 45_000}
GRAVITY = {
    "Douglas Fir-Larch": 0.50,
    "Douglas Fir-Larch (North)": 0.49,
    "Douglas Fir-South": 0.46,
    "Hem-Fir": 0.43,
    "Hem-Fir (North)": 0.46,
    "Spruce-Pine-Fir": 0.42,
    "Spruce-Pine-Fir (South)": 0.36,
    "Southern Pine": 0.55,
    "Western Cedars": 0.36,
    "Western Woods": 0.36,
    "Eastern Softwoods": 0.36,
}


@pytest.mark.parametrize(
    ("size", "root"), [pytest.param(s, d, id=f"L3, No. {s}, D_r") for s, d in ROOT.items()]
)
def test_wood_screw_root_diameter(size: str, root: float) -> None:
    assert load_tables().screws[size].root_diameter == root


@pytest.mark.parametrize(
    ("size", "root"), [pytest.param(s, d, id=f"L2, {s} in, D_r") for s, d in LAG_ROOT.items()]
)
def test_lag_screw_root_diameter(size: str, root: float) -> None:
    row = load_tables().screws[size]
    assert row.kind is ScrewKind.LAG
    assert row.root_diameter == root
    top, bottom = size.split("/")
    assert row.diameter == int(top) / int(bottom)


@pytest.mark.parametrize(
    ("size", "head"), [pytest.param(s, d, id=f"L3, No. {s}, D_H") for s, d in HEAD.items()]
)
def test_head_diameter(size: str, head: float) -> None:
    assert load_tables().screws[size].head_diameter == head


@pytest.mark.parametrize("size", [*ROOT, *LAG_ROOT])
def test_root_is_less_than_shank_and_shank_less_than_head(size: str) -> None:
    row = load_tables().screws[size]
    assert row.root_diameter < row.diameter < row.head_diameter


# Upper limit of the nominal diameter, in, and F_yb, psi. Table I1, from memory.
@pytest.mark.parametrize(
    ("over", "to", "steel"),
    [
        (0.099, 0.142, 100_000),
        (0.142, 0.177, 90_000),
        (0.177, 0.236, 80_000),
        (0.236, 0.273, 70_000),
        (0.273, 0.344, 60_000),
        (0.344, math.inf, 45_000),
    ],
)
def test_bending_yield_by_nominal_diameter(over: float, to: float, steel: float) -> None:
    rows = [
        row for row in load_tables().screws.values() if not row.metric and over < row.diameter <= to
    ]
    assert rows
    assert {row.bending_yield for row in rows} == {steel}


@pytest.mark.parametrize(("size", "steel"), LAG_STEEL.items())
def test_lag_screw_steel(size: str, steel: float) -> None:
    assert load_tables().screws[size].bending_yield == steel


@pytest.mark.parametrize(
    ("name", "gravity"),
    [pytest.param(n, g, id=f"12.3.3A, {n}") for n, g in GRAVITY.items()],
)
def test_specific_gravity(name: str, gravity: float) -> None:
    assert load_tables().species[name].specific_gravity == gravity


def test_every_species_of_the_table_is_checked_here() -> None:
    assert set(load_tables().species) == set(GRAVITY)


# NDS Supplement 2018, table 4A, No. 2 (SPF: No. 1/No. 2): F_b, F_v, E, F_c-perp, psi. From
# memory; a public beam library transcribes the same.
@pytest.mark.parametrize(
    ("name", "values"),
    [
        ("SPF", (875, 135, 1_400_000, 425)),
        ("DF-L", (900, 180, 1_600_000, 625)),
        ("Hem-Fir", (850, 150, 1_300_000, 405)),
    ],
)
def test_design_values(name: str, values: tuple[float, ...]) -> None:
    row = load_tables().species[name]
    assert (row.bending, row.shear, row.modulus, row.compression_across) == values


# Table 4B, Southern Pine No. 2 (from 2013 on), F_b with the size effect in it, from memory; and
# the size factor C_F of table 4A, which other species take, second hand.
@pytest.mark.parametrize(
    ("width", "table_4b", "size_factor"),
    [(4, 1100, 1.5), (6, 1000, 1.3), (8, 925, 1.2), (10, 800, 1.1), (12, 750, 1.0)],
)
def test_southern_pine_never_above_its_own_table(
    width: int, table_4b: float, size_factor: float
) -> None:
    kept = load_tables().species["Southern Pine"].bending * size_factor
    assert 0.9 * table_4b < kept <= table_4b, width


@pytest.mark.parametrize("name", GRAVITY)
def test_density_by_the_supplement(name: str) -> None:
    """NDS Supplement 2018, 3.1.3, from memory; 15 percent moisture, up to the next 0.5 lb/ft3."""
    gravity, moisture = GRAVITY[name], 15
    density = 62.4 * gravity / (1 + 0.009 * gravity * moisture) * (1 + moisture / 100)
    assert 0 <= load_tables().species[name].density_pcf - density < 0.5
