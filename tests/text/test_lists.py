"""One way in which several values stand in a text."""

from __future__ import annotations

import pytest

from bracecalc.text.layers import read_layers
from bracecalc.text.lists import split_list
from bracecalc.text.units import QuantityError


@pytest.mark.parametrize(
    ("text", "values"),
    [
        ("6 3/8; 22 1/4", ["6 3/8", "22 1/4"]),
        ("6 3/8, 22 1/4", ["6 3/8", "22 1/4"]),
        ("6 3/8 ,22 in", ["6 3/8", "22 in"]),
        ('6 3/8",22 1/4"', ['6 3/8"', '22 1/4"']),
        ("33\N{VULGAR FRACTION ONE HALF},34", ["33\N{VULGAR FRACTION ONE HALF}", "34"]),
        ("2139,95; 2140,5", ["2139,95", "2140,5"]),
        ("2139,95 mm", ["2139,95 mm"]),
        ("3 m, 4 m, 4,8 m", ["3 m", "4 m", "4,8 m"]),
        ("8 ft, 12", ["8 ft", "12"]),
        ("-, 81 1/2", ["-", "81 1/2"]),
        ("0, -, , 1/8", ["0", "-", "", "1/8"]),
        ("#10 x 3 1/2, #10 x 3", ["#10 x 3 1/2", "#10 x 3"]),
        ("33 1/4", ["33 1/4"]),
        ("", [""]),
    ],
)
def test_values_are_parted(text: str, values: list[str]) -> None:
    assert split_list(text) == values


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("2139,95", "as '2139; 95'; or a point in a decimal, as '2139.95'"),
        ("6,22", "as '6; 22'; or a point"),
        ("6,22 in", "as '6; 22 in'"),
        ("8,10,12", "as '8; 10; 12'"),
        ("0,1/8,0,1/4", "as '0; 1/8; 0; 1/4'"),
        ("6 3/8,22 1/4", "as '6 3/8; 22 1/4'"),
        ("2139,95, 2140", "as '2139; 95'"),
    ],
)
def test_a_comma_that_reads_two_ways_is_refused_with_both(text: str, said: str) -> None:
    with pytest.raises(QuantityError) as caught:
        split_list(text)
    assert said in str(caught.value)


@pytest.mark.parametrize(
    ("text", "layers"),
    [
        ("gypsum board 1/2 in; plywood 3/4", [("gypsum board", "1/2 in"), ("plywood", "3/4")]),
        ("5/8 drywall", [("drywall", "5/8")]),
        ('5/8" drywall, 1/4 in tile', [("drywall", '5/8"'), ("tile", "1/4 in")]),
        ("1 1/4 in plaster", [("plaster", "1 1/4 in")]),
        ("12,5 mm plasterboard", [("plasterboard", "12,5 mm")]),
        ("gypsum board, 1/2; tile: 3/8", [("gypsum board", "1/2"), ("tile", "3/8")]),
        ("gypsum board, 1/2 in", [("gypsum board", "1/2 in")]),
        ("tile=3/8", [("tile", "3/8")]),
    ],
)
def test_a_layer_is_a_material_and_its_thickness(text: str, layers: list[tuple[str, str]]) -> None:
    assert read_layers(text) == layers


@pytest.mark.parametrize("text", ["gypsum board", "1/2", "", "1/2 in; 3/4 in"])
def test_half_a_layer_is_none(text: str) -> None:
    with pytest.raises(QuantityError, match="layers as"):
        read_layers(text)
