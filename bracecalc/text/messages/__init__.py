"""Every sentence that people read, by its key: one table a kind of English.

``us.py`` has them all; another table has those that differ, and its own words for the trade's
things, so that a new one needs no change of code. A template names its values in braces; a
``Count`` brings its noun along: ``{boards:board|boards}``.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from importlib import import_module

from bracecalc.records.job import English


class Count(int):
    """A number of things, which chooses between the singular and the plural of its template.

    >>> "{n:board|boards}".format(n=Count(1)), "{n:board|boards}".format(n=Count(3))
    ('1 board', '3 boards')
    """

    def __format__(self, format_spec: str) -> str:
        one, bar, many = format_spec.partition("|")
        return f"{int(self)} {one if self == 1 else many}" if bar else format(int(self), one)


def say(english: English, key: str, **values: object) -> str:
    """Return a sentence in one kind of English.

    Args:
        english: whose words.
        key: of the sentence, as in ``us.py``.
        values: what stands in its braces; the words of the trade are there already.

    Raises:
        KeyError: if no table has the key, or a value is missing.

    >>> say(English.US, "step.fasten"), say(English.UK, "step.fasten")
    ('Fasten', 'Fix')
    >>> say(English.US, "set.shim", gap="1/8 in")
    'At the other end shim the gap of up to 1/8 in tight, over the whole overlap.'
    """
    sentences, terms = tables(english)
    return sentences[key].format(**terms, **values)


@cache
def tables(english: English) -> tuple[Mapping[str, str], Mapping[str, str]]:
    """Return the sentences, and the words of the trade, of one kind of English."""
    first = import_module(f"{__name__}.us")
    own = import_module(f"{__name__}.{english.value}")
    return {**first.SENTENCES, **own.SENTENCES}, {**first.TERMS, **own.TERMS}
