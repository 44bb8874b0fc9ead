"""Reads a PDF as other programs do: its paths with pypdf, its letters with pdfium."""

from __future__ import annotations

import io
from collections.abc import Iterator
from typing import Any, NamedTuple

import pypdfium2
import pypdfium2.raw as pdfium
from pypdf import PdfReader
from pypdf.generic import ContentStream

Matrix = tuple[float, float, float, float, float, float]
SAME: Matrix = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)


class Letter(NamedTuple):
    """One letter: itself, its size and the box of its ink in points from the page's left top."""

    letter: str
    size: float
    left: float
    top: float
    right: float
    bottom: float


def _times(one: Matrix, other: Matrix) -> Matrix:
    a, b, c, d, e, f = one
    g, h, i, j, k, m = other
    return (
        a * g + b * i, a * h + b * j, c * g + d * i, c * h + d * j,
        e * g + f * i + k, e * h + f * j + m,
    )  # fmt: skip


def paths(data: bytes, number: int = 0) -> list[list[tuple[float, float]]]:
    """Return the runs of points of a page's paths, in points from its left top."""
    reader = PdfReader(io.BytesIO(data))
    page = reader.pages[number]
    tall = float(page.mediabox.height)
    contents = page.get_contents()
    assert contents is not None
    matrix, stack = SAME, []
    found: list[list[tuple[float, float]]] = []

    def place(x: float, y: float) -> tuple[float, float]:
        a, b, c, d, e, f = matrix
        return (a * x + c * y + e, tall - (b * x + d * y + f))

    for operands, operator in ContentStream(contents, reader).operations:
        if operator == b"q":
            stack.append(matrix)
        elif operator == b"Q":
            matrix = stack.pop()
        elif operator == b"cm":
            a, b, c, d, e, f = (float(one) for one in operands)
            matrix = _times((a, b, c, d, e, f), matrix)
        elif operator == b"m":
            found.append([place(*(float(one) for one in operands))])
        elif operator == b"l":
            found[-1].append(place(*(float(one) for one in operands)))
        elif operator == b"re":
            x, y, wide, high = (float(one) for one in operands)
            corners = ((x, y), (x + wide, y), (x + wide, y + high), (x, y + high))
            found.append([place(*corner) for corner in corners])
    return found


def letters(data: bytes) -> list[list[Letter]]:
    """Return every letter that shows, page by page."""
    document = pypdfium2.PdfDocument(data)
    return [list(_letters(page)) for page in document]


def _letters(page: Any) -> Iterator[Letter]:
    words = page.get_textpage()
    tall = page.get_height()
    for index in range(words.count_chars()):
        letter = chr(pdfium.FPDFText_GetUnicode(words.raw, index))
        if letter.isspace() or pdfium.FPDFText_IsGenerated(words.raw, index) == 1:
            continue
        left, low, right, high = words.get_charbox(index)
        size = pdfium.FPDFText_GetFontSize(words.raw, index) * _stretch(words, index)
        yield Letter(letter, size, left, tall - high, right, tall - low)


def _stretch(words: Any, index: int) -> float:
    """Return by how much the letter's matrix enlarges it upward."""
    matrix = pdfium.FS_MATRIX()
    assert pdfium.FPDFText_GetMatrix(words.raw, index, matrix)
    return float((matrix.c**2 + matrix.d**2) ** 0.5)


def page_words(data: bytes) -> list[str]:
    """Return the text of each page as it is copied or searched."""
    return [page.get_textpage().get_text_range() for page in pypdfium2.PdfDocument(data)]
