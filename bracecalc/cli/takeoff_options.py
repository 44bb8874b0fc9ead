"""What ``bracecalc takeoff`` is asked: its options, and how the texts in them are read."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path
from typing import Any

import click

FORMATS = {".txt": "table", ".md": "markdown", ".json": "json", ".csv": "csv"}
CUT_LISTS = {".pdf": "pdf", ".svg": "svg", ".txt": "table"}
LABELS = {".html": "html", ".csv": "csv"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Options:
    """What was asked for on the command line; lengths in 1/32 in."""

    jobs: tuple[str, ...]
    prices: Path | None
    group_by: str | None
    ignore: tuple[str, ...]
    sheet: str | None
    skip_bad: bool
    only_holding: bool
    alternate: tuple[str, ...]
    project: str | None
    stock: str | None
    on_hand: Path | None
    kerf: int
    end_trim: int
    overage: Fraction
    waste: Fraction
    box: int
    time_limit: float
    units: str
    form: str | None
    out: Path | None
    cut_list: Path | None
    labels: Path | None
    offcuts_out: Path | None
    force: bool

    @property
    def outputs(self) -> tuple[tuple[str, Path], ...]:
        """Every file that is written, with its option."""
        named = (
            ("--out", self.out),
            ("--cut-list", self.cut_list),
            ("--labels", self.labels),
            ("--offcuts-out", self.offcuts_out),
        )
        return tuple((option, path) for option, path in named if path is not None)


class Length(click.ParamType[int]):
    """A length as people write it, read into 1/32 in."""

    name = "length"

    def __init__(self, *, up: bool) -> None:
        self.up = up

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> int:
        """Return 1/32 in, rounded up or down."""
        from bracecalc.records.job import Units
        from bracecalc.text.lengths import QuantityError, parse_length

        if isinstance(value, int):
            return value
        try:
            inches = parse_length(value, units=Units.INCH)
        except QuantityError as error:
            self.fail(f"read {value!r}; expected {error}", param, ctx)
        if inches < 0:
            self.fail(f"read {value!r}; expected a length of 0 or more", param, ctx)
        exact = inches * 32
        return -int(-(exact - 1e-6) // 1) if self.up else int(exact + 1e-6)


class Percent(click.ParamType[Fraction]):
    """A part in percent, kept exact."""

    name = "percent"

    def convert(
        self, value: Any, param: click.Parameter | None, ctx: click.Context | None
    ) -> Fraction:
        """Return the part of one."""
        if isinstance(value, Fraction):
            return value
        try:
            part = Fraction(str(value).strip().removesuffix("%").strip()) / 100
        except (ValueError, ZeroDivisionError):
            self.fail(f"read {value!r}; expected a percentage, as 10", param, ctx)
        if not 0 <= part <= 10:
            self.fail(f"read {value!r}; expected 0 to 1000 percent", param, ctx)
        return part


def out_form(out: Path | None, form: str | None) -> str:
    """Return how the order is written.

    Raises:
        UsageError: if the file's ending is none that is known.
    """
    ending = "" if out is None else out.suffix.lower()
    if ending == ".xlsx":
        if form is not None:
            raise click.UsageError("a file ending in .xlsx is a workbook; leave --format out")
        return "xlsx"
    if form is not None:
        return form
    if out is not None and ending not in FORMATS:
        known = ", ".join(FORMATS)
        raise click.UsageError(f"--out: read {out.name!r}; expected a name in .xlsx, {known}")
    return FORMATS.get(ending, "table")


def form_of(option: str, path: Path, known: dict[str, str]) -> str:
    """Return how a file beside the order is written, by its ending.

    Raises:
        UsageError: if the file's ending is none that is known.
    """
    ending = path.suffix.lower()
    if ending not in known:
        right = " or ".join(known)
        raise click.UsageError(f"{option}: read {path.name!r}; expected a name in {right}")
    return known[ending]


def stock_lengths(text: str | None) -> tuple[int, ...]:
    """Return the lengths of ``--stock`` in 1/32 in; each has its unit.

    Raises:
        UsageError: if one has no unit or is no length.

    >>> stock_lengths("3 m, 4 m, 4,8 m") == tuple(int(m / 0.0254 * 32) for m in (3, 4, 4.8))
    True
    """
    from bracecalc.text.lists import split_list
    from bracecalc.text.units import QuantityError

    if text is None:
        return ()
    down = Length(up=False)
    lengths = set()
    try:
        parts = [part for part in split_list(text) if part]
    except QuantityError as error:
        raise click.UsageError(f"--stock: read {text!r}; expected {error}") from None
    for part in parts:
        if not any(sign.isalpha() or sign in "'\"\u2032\u2033\u2019\u201d" for sign in part):
            raise click.UsageError(f"--stock: read {part!r}; expected its unit too, as '12 ft'")
        lengths.add(down.convert(part, None, None))
    if 0 in lengths or not lengths:
        raise click.UsageError("--stock: read a length of 0; expected lengths, as '8 ft, 12 ft'")
    return tuple(sorted(lengths))
