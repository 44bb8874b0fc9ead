"""The table of messages: every sentence can be said in every English, and nothing idle is in it."""

from __future__ import annotations

import pkgutil
import string
from pathlib import Path

import pytest

from bracecalc.records.job import English
from bracecalc.text import messages
from bracecalc.text.messages import tables, us

PACKAGE = Path(messages.__file__).parents[2]
SOURCES = "\n".join(
    path.read_text(encoding="utf-8")
    for path in PACKAGE.rglob("*.py")
    if path.parent.name != "messages"
)


def fields_of(template: str) -> set[str]:
    return {name for _, name, _, _ in string.Formatter().parse(template) if name}


def test_every_english_has_a_table() -> None:
    found = {info.name for info in pkgutil.iter_modules(messages.__path__)}
    assert found == {english.value for english in English}


@pytest.mark.parametrize("english", English)
def test_a_table_adds_no_sentence_and_no_value_of_its_own(english: English) -> None:
    sentences, terms = tables(english)
    assert set(sentences) == set(us.SENTENCES)
    assert set(terms) == set(us.TERMS)
    for key, template in sentences.items():
        assert fields_of(template) - set(terms) <= fields_of(us.SENTENCES[key]) - set(terms), key


@pytest.mark.parametrize("key", us.SENTENCES)
def test_every_sentence_is_said_somewhere(key: str) -> None:
    group, _, last = key.partition(".")
    assert f'"{key}"' in SOURCES or f"'{key}'" in SOURCES or (f'f"{group}.' in SOURCES and last)
