"""Ways to spoil a job file, a table of niches, a workbook or site readings, as life does."""

from __future__ import annotations

import io
import random
import re
import zipfile
from collections.abc import Callable

VALUES = (
    "0", "-1", "1e308", "-1e308", "1e-320", "nan", "inf", "0.0000001", "99999999999999999999",
    "845", "13/4", "1/0", "84 1/4 in", "84,5", "2139,95 mm", "7' 0 1/4\"", "1 mile", "3 kg", "''",
    "true", "[]", "{}", "'\\u202e1/2 in'", "'１／２ in'", "'½'", "'x' * 9", "-0.0", "1_000", "0x10",
    "1979-05-27", "[[[[1]]]]", "'" + "9" * 400 + "'", "'84 1/4 84 1/4'", "'-'", "';'", "','",
)  # fmt: skip
TOKENS = (
    "=",
    "[",
    "]",
    "{",
    "}",
    ",",
    ";",
    ".",
    "\n",
    "#",
    "'",
    '"',
    "[[",
    "\t",
    "\x00",
    "\x1b[2J",
)
KEYS = ("niche.width", "unit", "wall", "floor", "boards.end_gap", "built", "tables.screws", "rules")
NUMBER = re.compile(r"-?\d+(?: \d+/\d+|\.\d+|/\d+)?")
VALUE = re.compile(r"(?<== )[^\n]+")
Text = Callable[[str, random.Random], str]


def other_number(text: str, draw: random.Random) -> str:
    """Put another value in place of a number."""
    found = list(NUMBER.finditer(text))
    if not found:
        return text
    spot = draw.choice(found)
    scaled = draw.choice(["0", "-" + spot[0], spot[0] + "0", spot[0] + "000", "25.4", "1e9"])
    return text[: spot.start()] + scaled + text[spot.end() :]


def other_value(text: str, draw: random.Random) -> str:
    """Put something else in place of a whole value."""
    found = list(VALUE.finditer(text))
    if not found:
        return text
    spot = draw.choice(found)
    return text[: spot.start()] + draw.choice(VALUES) + text[spot.end() :]


def token(text: str, draw: random.Random) -> str:
    """Put a sign in, or take one out."""
    at = draw.randrange(len(text) + 1)
    return text[:at] + draw.choice((*TOKENS, "")) + text[at + draw.randrange(2) :]


def line(text: str, draw: random.Random) -> str:
    """Lose, double or move a line."""
    lines = text.split("\n")
    at = draw.randrange(len(lines))
    taken = lines.pop(at)
    for _ in range(draw.randrange(3)):
        lines.insert(draw.randrange(len(lines) + 1), taken)
    return "\n".join(lines)


def key(text: str, draw: random.Random) -> str:
    """Write a key that is none, or one twice."""
    name, value = draw.choice(KEYS), draw.choice(VALUES)
    return draw.choice((f"{name} = {value}\n{text}", f"{text}\n{name} = {value}\n"))


def forgotten_units(text: str, draw: random.Random) -> str:
    """Forget that the job is in millimetres, or claim it."""
    if "units" in text:
        return re.sub(r"(?m)^units = .*$", "", text)
    return f'units = "{draw.choice(("mm", "inch", "cm"))}"\n{text}'


def spoiled_bytes(data: bytes, draw: random.Random) -> bytes:
    """Change, lose or add a few bytes."""
    found = bytearray(data)
    for _ in range(draw.randrange(1, 6)):
        at = draw.randrange(len(found) + 1)
        found[at : at + draw.randrange(3)] = draw.randbytes(draw.randrange(3))
    return bytes(found)


def spoiled_workbook(data: bytes, draw: random.Random) -> bytes:
    """Change one member of a workbook: its text, its name, or that it is there."""
    out = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(data)) as old, zipfile.ZipFile(out, "w") as new:
        names = old.namelist()
        chosen = draw.choice(names)
        for name in names:
            content = old.read(name)
            if name == chosen:
                what = draw.randrange(3)
                if what == 0:
                    continue
                if what == 1:
                    content = content.replace(b"<v>", draw.choice((b"<f>1+1</f><v>", b"<v>#REF!")))
                content = spoiled_bytes(content, draw) if what == 2 else content
            new.writestr(name, content)
    return out.getvalue()


TEXTS: tuple[Text, ...] = (other_number, other_value, token, line, key, forgotten_units)
