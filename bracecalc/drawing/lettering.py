"""How wide words are on paper, and how they are broken into lines.

The widths are those of the typeface that the PDF embeds. SVG and HTML name typefaces of the same
or a lesser width, and the SVG writer pins the length of each word to what is measured here.
"""

from __future__ import annotations

import csv
import unicodedata
from collections.abc import Mapping
from enum import StrEnum
from functools import lru_cache
from importlib.resources import files

ASCENT = 0.76  # of the letter size, above and below the base line; the tallest letters of the face
DESCENT = 0.24
_UNKNOWN = 1.1  # em; no letter of a script that the table doesn't hold is taken for narrow
_WIDE = 1.4
_KEPT_FORMAT = {0x200C, 0x200D}  # joiners, without which some scripts can't be read


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
    r"""Return the text on one line, without what can't be shown or turns its neighbours round.

    >>> clean("Kitchen\x00\n  3B")
    'Kitchen 3B'
    """
    kept = []
    for letter in text:
        kind = unicodedata.category(letter)
        if kind in ("Cc", "Zl", "Zp"):
            kept.append(" ")
        elif kind in ("Cs", "Cn", "Co") or (kind == "Cf" and ord(letter) not in _KEPT_FORMAT):
            continue
        else:
            kept.append(letter)
    return " ".join("".join(kept).split())


def measure(text: str, size: float, face: Face = Face.REGULAR) -> float:
    """Return the width of a line of text in points.

    >>> measure("00", 10.0)
    12.72
    """
    table = letter_widths()[face]
    return size * sum(table[c] if c in table else _unknown_width(c) for c in text)


def _unknown_width(letter: str) -> float:
    if unicodedata.combining(letter):
        return 0.0
    wide = unicodedata.east_asian_width(letter) in ("W", "F") or ord(letter) > 0xFFFF
    return _WIDE if wide else _UNKNOWN


def is_measured(text: str) -> bool:
    """Return whether every letter is in the table, so that the width is exact."""
    table = letter_widths()[Face.REGULAR]
    return all(letter in table for letter in text)


def wrap(text: str, width: float, size: float, face: Face = Face.REGULAR) -> tuple[str, ...]:
    """Break a text into lines no wider than ``width`` points; a word that is too long is split.

    >>> wrap("Screw board 1 to each stud", 60.0, 8.0)
    ('Screw board 1', 'to each stud')
    """
    lines: list[str] = []
    line, left = "", width
    space = measure(" ", size, face)
    for word in text.split():
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
    return tuple(lines)


def _split_word(word: str, width: float, size: float, face: Face) -> list[str]:
    parts, left = [""], width
    for letter in word:
        wide = measure(letter, size, face)
        if parts[-1] and wide > left + 1e-9:
            parts.append("")
            left = width
        parts[-1] += letter
        left -= wide
    return parts


def shorten(text: str, width: float, size: float, face: Face = Face.REGULAR) -> str:
    """Return the text, cut off with three dots where it is wider than ``width`` points.

    >>> shorten("Quillet Yard 3B, kitchen", 60.0, 8.0)
    'Quillet Yard...'
    """
    if measure(text, size, face) <= width:
        return text
    left = width - measure("...", size, face)
    for count, letter in enumerate(text):
        left -= measure(letter, size, face)
        if left < 0.0:
            return f"{text[:count].rstrip()}..."
    return text
