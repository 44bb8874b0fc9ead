"""Common writings of a piece of lumber, each read as what it is or not at all."""

from __future__ import annotations

import pytest

from bracecalc.order.items import Lumber, Unread, lumber_item
from bracecalc.tables.load import load_tables

SPF = "Spruce-Pine-Fir"
FT = 384  # 1/32 in
METRE_4_8 = 6047  # 4800 / 25.4 * 32 = 6047.2, rounded down


@pytest.mark.parametrize(
    ("text", "read"),
    [
        ("2x4 SPF 8 ft", Lumber("2x4", SPF, 8 * FT)),
        ("2x8x16 SPF", Lumber("2x8", SPF, 16 * FT)),
        ("2X8X16' SPF", Lumber("2x8", SPF, 16 * FT)),
        ("2x8-16' SPF", Lumber("2x8", SPF, 16 * FT)),
        ('2" x 8" x 12\' SPF', Lumber("2x8", SPF, 12 * FT)),
        ("SPF 2 x 8 12ft", Lumber("2x8", SPF, 12 * FT)),
        ("2x4-92 5/8 SPF", Lumber("2x4", SPF, 2964)),
        ("2x4x96 SPF", Lumber("2x4", SPF, 8 * FT)),
        ("2\u00d78 SPF 16\u2032", Lumber("2x8", SPF, 16 * FT)),
        ("2x10 SPF 8'-6\"", Lumber("2x10", SPF, 3264)),
        ("2x8 #2 SPF 12 ft", Lumber("2x8", SPF, 12 * FT, "2")),
        ("2x8 SPF #2 12 ft", Lumber("2x8", SPF, 12 * FT, "2")),
        ("2x8 SPF No. 2 & Btr KD 12 ft", Lumber("2x8", SPF, 12 * FT, "2")),
        ("2x6 PT SYP 8'", Lumber("2x6", "Southern Pine", 8 * FT, treated=True)),
        ("2x6 DF-L (N) 10 ft", Lumber("2x6", "Douglas Fir-Larch (North)", 10 * FT)),
        ("2x6 douglas fir larch 10 ft", Lumber("2x6", "Douglas Fir-Larch", 10 * FT)),
        ("2x4 SPF", Lumber("2x4", SPF, 0)),
        ("47x145 C24 4,8 m", Lumber("47x145", "C24", METRE_4_8)),
        ("C24 47 x 145 mm 4800", Lumber("47x145", "C24", METRE_4_8)),
        ("47x145x4.8 C24 planed", Lumber("47x145", "C24", METRE_4_8)),
    ],
    ids=lambda value: str(value) if isinstance(value, str) else "",
)
def test_writings_of_the_trade(text: str, read: Lumber) -> None:
    assert lumber_item(text, load_tables()) == read


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("2x8x16", "its species"),
        ("2x4 SPF 30", "a length with its unit"),
        ("2x4 SPF 8 ft finger-jointed", "finger-jointed"),
        ("2x4 SPF green 8 ft", "green"),
        ("2x13 SPF 8 ft", "a size of the lumber table"),
        ("2x4x8 oak", "oak"),
    ],
)
def test_what_may_be_another_product_is_not_read(text: str, why: str) -> None:
    found = lumber_item(text, load_tables())
    assert isinstance(found, Unread)
    assert why in found.why


@pytest.mark.parametrize("text", ["door knob", "5/4x6 SPF 8 ft", "1/4 x 4 in lag screw", ""])
def test_what_is_no_lumber(text: str) -> None:
    assert lumber_item(text, load_tables()) is None
