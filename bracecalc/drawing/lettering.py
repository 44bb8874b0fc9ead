"""How wide words are on paper, and how they are broken into lines.

The widths are those of the typeface that the PDF embeds. SVG names typefaces of about the same
width, and its writer pins the length of each word to what is measured here.
"""

from __future__ import annotations

import csv
import re
import unicodedata
from collections.abc import Mapping
from enum import StrEnum
from functools import lru_cache
from importlib.resources import files

ASCENT = 0.76  # of the letter size, above and below the base line; the tallest letters of the face
DESCENT = 0.24
CAPITAL = 0.714  # height of a capital, of the letter size (Noto Sans 2.015, table OS/2)
LEAST = 7.2  # points: capitals of 1.8 mm
_UNKNOWN = 1.1  # em; no letter of a script that the table doesn't hold is taken for narrow
_KEPT_FORMAT = {0x200C, 0x200D}  # joiners, without which some scripts can't be read
_TIE = "\u00a0"  # a space at which no line is broken
_ISOLATE, _WHOLE, _END = "\u2067", "\u2068", "\u2069"  # Unicode Standard Annex 9
_INVISIBLE = {ord(one): None for one in (_ISOLATE, _WHOLE, _END)}

_RIGHTWARD = "\u0590-\u08ff\ufb1d-\ufdff\ufe70-\ufefc\U00010800-\U00010fff\U0001e800-\U0001efff"
_RUN = re.compile(rf"[{_RIGHTWARD}](?:[{_RIGHTWARD}\s.,'-]*[{_RIGHTWARD}])?")
_TIED = re.compile(
    r"(?<=\d) (?=\d+/\d)"  # a whole number and its fraction
    r"|(?<=\d) (?=(?:in|mm|cm|m|ft|lbf|lb|kg|N|kN|psi|psf|kPa|x|turns?|pt)\b)"
    r"|(?<=\d[ \u00a0]x) (?=\d)"
    r"|(?<=\bNo\.) (?=\d)"
)


class Face(StrEnum):
    """The two faces of the sheet."""

    REGULAR = "regular"
    BOLD = "bold"


@lru_cache(maxsize=1)
def letter_widths() -> Mapping[Face, Mapping[str, float]]:
    """Return the width of each letter in em, by face."""
    text = files("bracecalc.data").joinpath("letter_widths.csv").read_text(encoding="utf-8")
    tables: dict[Face, dict[str, float]] = {face: {} for face in Face}
    for row in csv.DictReader(text.splitlines()):
        letter = chr(int(row["code_point"]))
        for face in Face:
            tables[face][letter] = float(row[f"{face.value}_per_mille"]) / 1000.0
    return tables


def clean(text: str) -> str:
    r"""Return the text on one line: numbers tied to their units, no letter that can't be shown.

    Runs of letters that are read from the right are isolated, so that they move nothing beside
    them.

    >>> clean("Kitchen\x00\n  3B")
    'Kitchen 3B'
    >>> clean("at 81 5/8 in up")
    'at 81\xa05/8\xa0in up'
    """
    if text.isascii() and text.isprintable() and "  " not in text:
        return _tied(text.strip())
    kept = []
    for letter in text:
        kind = unicodedata.category(letter)
        if kind in ("Cc", "Zl", "Zp"):
            kept.append(" ")
        elif kind in ("Cs", "Cn", "Co") or (kind == "Cf" and ord(letter) not in _KEPT_FORMAT):
            continue
        else:
            kept.append(letter)
    plain = _tied(" ".join("".join(kept).split()))
    return _RUN.sub(lambda run: f"{_ISOLATE}{run[0]}{_END}", plain)


def name(text: str) -> str:
    r"""Return a name as a whole of its own, read from the side that its first letter says.

    >>> name("Flat 3B")
    'Flat 3B'
    """
    plain = clean(text).translate(_INVISIBLE)
    return f"{_WHOLE}{plain}{_END}" if _RUN.search(plain) else plain


def bare(text: str) -> str:
    """Return words without the marks that tie and isolate them: as people would type them."""
    return text.translate(_INVISIBLE).replace(_TIE, " ")


@lru_cache(maxsize=8192)
def _tied(text: str) -> str:
    return _TIED.sub(_TIE, _TIED.sub(_TIE, text))


def measure(text: str, size: float, face: Face = Face.REGULAR) -> float:
    """Return the width of a line of text in points.

    >>> measure("00", 10.0)
    11.44
    """
    return size * _ems(text, face)


@lru_cache(maxsize=32768)
def _ems(text: str, face: Face) -> float:
    table = letter_widths()[face]
    return sum(table[c] if c in table else _unknown_width(c) for c in text)


def _unknown_width(letter: str) -> float:
    if unicodedata.combining(letter) or unicodedata.category(letter) == "Cf":
        return 0.0
    return 1.0 if unicodedata.east_asian_width(letter) in ("W", "F") else _UNKNOWN


def is_measured(text: str) -> bool:
    """Return whether every letter is in the table, so that the width is exact."""
    table = letter_widths()[Face.REGULAR]
    return all(letter in table for letter in text)


@lru_cache(maxsize=16384)
def wrap(text: str, width: float, size: float, face: Face = Face.REGULAR) -> tuple[str, ...]:
    r"""Break a text into lines no wider than ``width`` points; a word that is too long is split.

    A number, its fraction and its unit are one word, as ``clean`` ties them.

    >>> wrap("Screw board 1 to each stud", 60.0, 8.0)
    ('Screw board 1', 'to each stud')
    """
    lines: list[str] = []
    line, left = "", width
    space = measure(" ", size, face)
    for word in text.split(" "):
        wide = measure(word, size, face)
        if line and wide + space <= left + 1e-9:
            line, left = f"{line} {word}", left - wide - space
            continue
        if line:
            lines.append(line)
        if wide > width:
            *full, line = _split_word(word, width, size, face)
            lines.extend(full)
            wide = measure(line, size, face)
        else:
            line = word
        left = width - wide
    if line:
        lines.append(line)
    return tuple(_kept_isolated(lines) if not text.isascii() else lines)


def _kept_isolated(lines: list[str]) -> list[str]:
    """Return the lines with each isolate that a break cut in two closed and opened again."""
    still_open, whole = "", []
    for line in lines:
        told = still_open + line
        for letter in line:
            still_open = letter if letter in (_ISOLATE, _WHOLE) else still_open
            still_open = "" if letter == _END else still_open
        whole.append(told + _END if still_open else told)
    return whole


def _split_word(word: str, width: float, size: float, face: Face) -> list[str]:
    """Return a word in parts, at its own spaces first: a number on whole lines, else anywhere."""
    if _TIE in word:
        return list(wrap(word.replace(_TIE, " "), width, size, face))
    parts, left = [""], width
    for letter in word:
        wide = measure(letter, size, face)
        if parts[-1] and wide > left + 1e-9:
            parts.append("")
            left = width
        parts[-1] += letter
        left -= wide
    return parts


def widest_word(text: str, size: float, face: Face = Face.REGULAR) -> float:
    """Return the width in points of the widest word of a text."""
    return max((measure(word, size, face) for word in text.split(" ")), default=0.0)
