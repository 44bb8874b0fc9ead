"""How the trade writes a piece of lumber, read into size, species, grade and length.

``2x8 SPF 16 ft``, ``2x8x16 #2 SPF``, ``2x8-16' SPF No. 2``, ``47x145 C24 4,8 m``. Nothing is
guessed: a word that isn't known makes another product of it, so the item isn't read at all.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any, NamedTuple

from bracecalc.records.job import Units
from bracecalc.records.reference import Tables
from bracecalc.tables.load import spellings
from bracecalc.text.lengths import QuantityError, parse_length

PER_INCH = 32
LONGEST_BARE_FEET = 24  # 2x8x16 is 16 ft; 2x4x96 is 96 in
SHORTEST_BARE_INCHES = 48
LEAST_METRIC = (12, 16)  # mm: thinner and narrower than any section that is sold
LONGEST_BARE_METRES = 13
ANY_LENGTH = 0


class Lumber(NamedTuple):
    """Lumber as an item names it: names of the tables, length in 1/32 in (0: none given).

    A section in millimetres is called ``47x145``. ``grade`` is empty where none is named.
    """

    size: str
    species: str
    length: int
    grade: str = ""
    treated: bool = False

    @property
    def metric(self) -> bool:
        """Whether the section is in millimetres, at its real size."""
        return is_metric(self.size)


class Unread(NamedTuple):
    """Why an item is not read."""

    why: str


_PLAIN = str.maketrans(
    {
        "\N{MULTIPLICATION SIGN}": "x",
        "\N{PRIME}": "'",
        "\N{RIGHT SINGLE QUOTATION MARK}": "'",
        "\N{DOUBLE PRIME}": '"',
        "\N{RIGHT DOUBLE QUOTATION MARK}": '"',
        "\N{NO-BREAK SPACE}": " ",
        "\N{EN DASH}": "-",
    }
)
_NUMBER = r"[0-9]+(?:[.,][0-9]+)?(?:(?:\s+|-)[0-9]+/[0-9]+)?"
_FEET = r"(?:'|ft\.?|feet|foot)"
_INCH = r"(?:\"|in(?:ch(?:es)?)?\.?)"
_LENGTH_UNIT = rf"(?:{_FEET}|{_INCH}|mm|cm|m(?:et(?:er|re)s?)?)"
_LENGTH = rf"{_NUMBER}\s*{_LENGTH_UNIT}(?:\s*-?\s*{_NUMBER}\s*{_INCH})?(?![a-z0-9])"
_WIDTH_UNIT = rf"(?:{_INCH}|mm)?"
_SIZE = re.compile(
    r"(?<![\w.,/])(?P<thick>[0-9]+(?:[.,][0-9]+)?)\s*" + _WIDTH_UNIT + r"\s*x\s*"
    r"(?P<wide>[0-9]+(?:[.,][0-9]+)?)(?![0-9/])\s*" + _WIDTH_UNIT
    + rf"(?:\s*(?:x|-)\s*(?P<length>{_LENGTH}|{_NUMBER}(?![0-9/a-z'\"])))?"
)  # fmt: skip
_LENGTH_ALONE = re.compile(rf"(?<![\w.,/]){_LENGTH}")
_BARE_ALONE = re.compile(rf"(?<![\w.,/#]){_NUMBER}(?![\w/'\"])")
_OR_BETTER = r"(?:\s*(?:&|and|\+|or)\s*(?:btr|better|bet)\.?)?"
_NUMBERED = re.compile(rf"(?<![\w])(?:#|no\.?\s*)(?P<grade>[1-4]){_OR_BETTER}(?![0-9])")
_GRADES = {
    "select structural": "select structural",
    "sel struct": "select structural",
    "sel str": "select structural",
    "stud grade": "stud",
    "construction": "construction",
    "standard": "standard",
    "utility": "utility",
    "economy": "economy",
}
_TREATED = re.compile(
    r"(?<!\w)(?:pressure[ -]treated|treated|pt|acq|mca|ca-?c|cca|uc ?[1-5][ab]?|"
    r"ground contact)(?!\w)"
)
# words that change nothing in what is bought: dry and planed is what the tables are for
_NOISE = re.compile(
    r"(?<!\w)(?:kd-?ht|kd ?1[59]|kd|s-?dry|kiln[ -]dried|dry|s4s|planed|par|lumber|timber|"
    r"dimension(?:al)?|framing|sawn|regulari[sz]ed|boards?|sticks?|lengths?|ht|pcs?|pieces?|"
    r"long|each|of|x)(?!\w)"
)


def is_metric(size: str) -> bool:
    """Return whether a size is a section in millimetres.

    >>> is_metric("47x145"), is_metric("2x4")
    (True, False)
    """
    thick, _, wide = size.partition("x")
    return _metric(thick, wide)


def lumber_item(text: str, tables: Tables) -> Lumber | Unread | None:
    """Return what an item of lumber is, why it can't be read, or None where it is no lumber.

    >>> from bracecalc.tables.load import load_tables
    >>> lumber_item("2x8-16' No. 2 SPF", load_tables())
    Lumber(size='2x8', species='Spruce-Pine-Fir', length=6144, grade='2', treated=False)
    >>> lumber_item("47x145 C24 4,8 m", load_tables())
    Lumber(size='47x145', species='C24', length=6047, grade='', treated=False)
    >>> lumber_item("2x4 SPF 8 ft finger-jointed", load_tables())
    Unread(why="it without 'finger-jointed', which is not known here")
    >>> lumber_item("door knob", load_tables()) is None
    True
    """
    rest = _folded(text)
    found = _SIZE.search(rest)
    if found is None:
        return None
    size = _size(found["thick"], found["wide"], tables)
    if size is None:
        return Unread("a size of the lumber table, as 2x8, or a section in mm, as 47x145")
    written = found["length"]
    rest = f"{rest[: found.start()]} {rest[found.end() :]}"
    treated = _TREATED.search(rest) is not None
    rest, species = _species(rest, tables)
    rest, grade = _grade(_TREATED.sub(" ", rest))
    if written is None:
        rest, written = _taken(_LENGTH_ALONE, rest)
        if written is None:
            rest, written = _taken(_BARE_ALONE, rest)
    left = re.sub(r"[\s,;:.()/-]+", " ", _NOISE.sub(" ", rest)).strip()
    if left:
        return Unread(f"it without {_left_words(rest)!r}, which is not known here")
    if species is None:
        return Unread("its species or class with it, as SPF or C24")
    length = ANY_LENGTH if written is None else _length(written, metric=is_metric(size))
    if length is None:
        return Unread(f"a length with its unit in place of {written!r}, as 16 ft")
    return Lumber(size, species, length, grade, treated)


def _folded(text: str) -> str:
    plain = text.casefold().translate(_PLAIN)
    return " ".join(plain.replace("''", '"').split())


def _left_words(rest: str) -> str:
    return " ".join(_NOISE.sub(" ", rest).split()).strip(" ,;:.-")


def _taken(pattern: re.Pattern[str], text: str) -> tuple[str, str | None]:
    """Return the text without what the pattern finds first, and that."""
    found = pattern.search(text)
    if found is None:
        return text, None
    return f"{text[: found.start()]} {text[found.end() :]}", found.group()


def _size(thick: str, wide: str, tables: Tables) -> str | None:
    name = f"{thick}x{wide}"
    row = tables.lumber.get(name)
    if row is not None:
        return row.size
    return name.replace(",", ".") if _metric(thick, wide) else None


def _metric(thick: str, wide: str) -> bool:
    try:
        sides = float(thick.replace(",", ".")), float(wide.replace(",", "."))
    except ValueError:
        return False
    return all(side >= least for side, least in zip(sides, LEAST_METRIC, strict=True))


def _species(text: str, tables: Tables) -> tuple[str, str | None]:
    """Return the text without its species or class, and the name of that in its table."""
    spaced = text.replace("-", " ")  # as long as the text, so that places agree
    best: tuple[int, int, str] | None = None
    for table in (tables.species, tables.timber_classes):
        for spelling in spellings(table):
            name = " ".join(spelling.casefold().replace("-", " ").split())
            found = re.search(rf"(?<!\w){re.escape(name)}(?!\w)", spaced)
            if found is not None and (best is None or len(name) > best[1] - best[0]):
                best = found.start(), found.end(), _name_of(table, spelling)
    if best is None:
        return text, None
    return f"{text[: best[0]]} {text[best[1] :]}", best[2]


def _name_of(table: Mapping[str, Any], spelling: str) -> str:
    return str(table[spelling].name)


def _grade(text: str) -> tuple[str, str]:
    found = _NUMBERED.search(text)
    if found is not None:
        return f"{text[: found.start()]} {text[found.end() :]}", found["grade"]
    for words, grade in _GRADES.items():
        if re.search(rf"(?<!\w){words}(?!\w)", text):
            return re.sub(rf"(?<!\w){words}{_OR_BETTER}(?!\w)", " ", text), grade
    return text, ""


def _length(written: str, *, metric: bool) -> int | None:
    """Return a length in 1/32 in, rounded down; without a unit what its size can only mean."""
    text = written.strip()
    if re.fullmatch(_NUMBER, text):
        unit = _unit_of_bare(text, metric=metric)
        if unit is None:
            return None
        text = f"{text.replace('-', ' ')} {unit}"
    try:
        inches = parse_length(text, units=Units.INCH)
    except QuantityError:
        return None
    return int(inches * PER_INCH + 1e-6) or None


def _unit_of_bare(text: str, *, metric: bool) -> str | None:
    whole = float(re.split(r"[ -]", text)[0].replace(",", "."))
    if metric:
        if whole <= LONGEST_BARE_METRES:
            return "m"
        return "mm" if whole >= 300 else None
    if whole <= LONGEST_BARE_FEET:
        return "ft"
    return "in" if whole >= SHORTEST_BARE_INCHES else None


def grades_of(written: str) -> frozenset[str]:
    """Return the grades that a species' strength values are for, as ``lumber_item`` has them.

    >>> sorted(grades_of("No. 1/No. 2"))
    ['1', '2']
    """
    return frozenset(match["grade"] for match in _NUMBERED.finditer(written.casefold()))
