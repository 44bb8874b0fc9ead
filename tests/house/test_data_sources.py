"""Every row of every table says where its value comes from and how it was read."""

import pytest

from bracecalc.tables.load import NAMES
from bracecalc.tables.rows import Fact, facts

READINGS = (
    "seen in ",
    "second hand",
    "from memory",
    "common practice",
    "invented for the demo",
)
ROWS = [fact for name in NAMES for fact in facts(name)]


def test_there_are_rows() -> None:
    assert len(ROWS) > 400


@pytest.mark.parametrize("name", NAMES)
def test_source_and_reading_of_each_row(name: str) -> None:
    wrong = [
        fact.where
        for fact in facts(name)
        if not fact.source or not fact.read.startswith(READINGS) or fact.source == fact.read
    ]
    assert wrong == []


@pytest.mark.parametrize(
    "fact", [f for f in ROWS if f.read == "common practice" and "table" in f.source]
)
def test_a_value_of_a_table_is_not_called_common_practice(fact: Fact) -> None:
    assert "nominal D" in fact.source  # the size is its own name


def test_a_source_names_a_document_or_the_trade() -> None:
    documents = (
        "NDS",
        "ASME",
        "DOC PS",
        "ASTM",
        "ANSI",
        "EN 338",
        "EN 14592",
        "DIN",
        "ISO",
        "construction textbook",
    )
    trade = ("trade", "usual depth", "after it is set", "behind a board")
    for fact in ROWS:
        assert fact.source.startswith(documents) or any(word in fact.source for word in trade), fact
