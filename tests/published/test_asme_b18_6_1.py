"""Wood screw diameters against ASME B18.6.1.

Numbers 6 to 10 were seen in an open size chart (0.138, 0.151, 0.164, 0.177, 0.190 in). The
formula 0.060 + 0.013 N in is from memory; it fits all twelve sizes of that chart.
"""

import pytest

from bracecalc.records.reference import ScrewKind
from bracecalc.tables.load import load_tables

CHART = {0: 0.060, 1: 0.073, 2: 0.086, 3: 0.099, 4: 0.112, 5: 0.125,
         6: 0.138, 7: 0.151, 8: 0.164, 9: 0.177, 10: 0.190, 11: 0.203}  # fmt: skip


def by_formula(number: int) -> float:
    return 0.060 + 0.013 * number


@pytest.mark.parametrize(
    ("number", "diameter"),
    [pytest.param(n, d, id=f"size chart, No. {n}") for n, d in CHART.items()],
)
def test_the_formula_fits_the_chart(number: int, diameter: float) -> None:
    assert by_formula(number) == pytest.approx(diameter, abs=0.0005)


@pytest.mark.parametrize("number", [6, 7, 8, 9, 10])
def test_diameter_as_in_the_chart(number: int) -> None:
    assert load_tables().screws[str(number)].diameter == CHART[number]


@pytest.mark.parametrize("number", [6, 7, 8, 9, 10, 12, 14, 16, 18, 20, 24])
def test_diameter_by_the_formula(number: int) -> None:
    diameter = load_tables().screws[str(number)].diameter
    assert diameter == pytest.approx(by_formula(number), abs=0.0005)


# Longest and shortest lengths seen in a chart: No. 10 from 3/4 to 4 in, No. 12 and 14 to 6 in.
@pytest.mark.parametrize(("number", "longest"), [("8", 3.0), ("10", 4.0), ("12", 6.0), ("14", 6.0)])
def test_longest_stocked_length(number: str, longest: float) -> None:
    assert load_tables().screws[number].lengths[-1] == longest


def test_shortest_stocked_length_of_number_10() -> None:
    assert load_tables().screws["10"].lengths[0] == 0.75


# Greatest flat head diameters, seen in dimension charts of the standard. They are those of a
# sharp edge; the head diameters of the table are NDS ones and must be smaller.
@pytest.mark.parametrize(
    ("number", "sharp"), [("6", 0.279), ("8", 0.332), ("10", 0.385), ("12", 0.438), ("14", 0.507)]
)
def test_head_is_below_the_sharp_edge_maximum(number: str, sharp: float) -> None:
    head = load_tables().screws[number].head_diameter
    assert 0.9 * sharp < head < sharp


def test_lag_screws_are_stocked_to_12_in() -> None:
    lags = [row for row in load_tables().screws.values() if row.kind is ScrewKind.LAG]
    assert max(length for row in lags for length in row.lengths) == 12.0  # common practice
