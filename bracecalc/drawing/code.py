"""The job as a code that can be scanned off the sheet, and back.

The words of the code are ``BRACECALC1:`` and, after it, the job file (TOML, UTF-8) packed by
DEFLATE (RFC 1951, raw, with code_dictionary.toml as its preset dictionary) and written in Base45
(RFC 9285), whose letters a QR code (ISO/IEC 18004) holds in its dense alphanumeric mode.
"""

from __future__ import annotations

import hashlib
import zlib
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files

PREFIX = "BRACECALC1:"
_LETTERS = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:"
_LARGEST = 22  # version: 105 cells, each 0.35 mm on the sheet, which a phone still reads
_STURDY = 16  # up to this version the code bears 15 percent of dirt, above it 7
_MASK = 3  # one for all: the packed job is as good as random, so that all eight do alike
_MOST_TEXT = 1_000_000  # bytes; a code can't hold a job that unpacks to more


@dataclass(frozen=True, slots=True)
class Symbol:
    """The cells of a code, row by row from the top, without the white margin of four cells."""

    rows: tuple[tuple[bool, ...], ...]


@dataclass(frozen=True, slots=True)
class NoSymbol:
    """Why there is no code."""

    why: str


def revision(job_text: str) -> str:
    """Return the short hash of a job file's text that tells one revision from another.

    >>> revision('title = "Quillet Yard 3B"')
    'f38c577a'
    """
    return hashlib.sha256(job_text.encode()).hexdigest()[:8]


@lru_cache(maxsize=1)
def dictionary() -> bytes:
    """Return what most job files hold, the commonest last; it belongs to the prefix, for good."""
    return files("bracecalc.drawing").joinpath("code_dictionary.toml").read_bytes()


def pack(job_text: str) -> str:
    """Return the words of the code that holds a job file's text."""
    press = zlib.compressobj(9, zlib.DEFLATED, -15, 9, zlib.Z_DEFAULT_STRATEGY, dictionary())
    return PREFIX + _base45(press.compress(job_text.encode()) + press.flush())


def unpack(words: str) -> str:
    """Return the job file's text that the words of a code hold.

    Raises:
        ValueError: if the words are not those of a code of ours, whole.

    >>> unpack(pack('title = "Quillet Yard 3B"'))
    'title = "Quillet Yard 3B"'
    """
    if not words.startswith(PREFIX):
        raise ValueError(f"a code starts with {PREFIX}, read {words[:16]!r}")
    loose = zlib.decompressobj(-15, dictionary())
    try:
        text = loose.decompress(_base45_bytes(words.removeprefix(PREFIX)), _MOST_TEXT)
    except zlib.error as error:
        raise ValueError("the code is damaged") from error
    if not loose.eof or loose.unused_data:
        raise ValueError("the code is damaged or cut short")
    return text.decode()


def _base45(data: bytes) -> str:
    letters = []
    for start in range(0, len(data), 2):
        pair = data[start : start + 2]
        number = int.from_bytes(pair, "big")
        for _ in range(len(pair) + 1):
            number, digit = divmod(number, 45)
            letters.append(_LETTERS[digit])
    return "".join(letters)


def _base45_bytes(letters: str) -> bytes:
    data = bytearray()
    for start in range(0, len(letters), 3):
        part = letters[start : start + 3]
        digits = [_LETTERS.find(letter) for letter in part]
        number = sum(digit * 45**power for power, digit in enumerate(digits))
        length = len(part) - 1
        if min(digits) < 0 or length == 0 or number >= 256**length:
            raise ValueError(f"not Base45: {part!r}")
        data += number.to_bytes(length, "big")
    return bytes(data)


def symbol(job_text: str) -> Symbol | NoSymbol:
    """Return the code that holds a job, or why there is none."""
    try:
        import segno
    except ImportError:
        return NoSymbol("segno is not installed (pip install 'bracecalc[sheet]')")
    words = pack(job_text)
    for error, largest in (("m", _STURDY), ("l", _LARGEST)):
        try:
            made = segno.make_qr(words, error=error, boost_error=False, mask=_MASK)
        except segno.DataOverflowError:
            continue
        if isinstance(made.version, int) and made.version <= largest:
            return Symbol(tuple(tuple(bool(cell) for cell in row) for row in made.matrix))
    return NoSymbol("the job is too long for a code")
