"""``bracecalc table``: the reference tables, each value with its source."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

import click

from bracecalc.cli import options

ALIAS = "alias_of"

if TYPE_CHECKING:
    from bracecalc.tables.rows import Fact, Schema

WIDTH = 80
GAP = 2
ON_A_RULER = ("stocked_length_in", "thickness_in", "width_in")
RULER = 1 / 32  # in
FOLDED = 18  # a column of lists may be folded down to this
SAID = "[n] at a heading is the source of what stands under it, at a value of that value"
CONTENTS = {
    "screws": "wood, lag and coach screws: diameters, steel, lengths",
    "lumber": "boards and dimension lumber: dressed and nominal sizes (in)",
    "species": "species groups: specific gravity and design values (psi)",
    "layers": "what lies between a wall's face and its studs; how it behaves",
    "packers": "stock thicknesses for packers and shims (in)",
    "timber-classes": "strength classes of EN 338, for Eurocode 5 (N/mm2, kg/m3)",
}
UNITS = (
    ("_kg_m3", "kg/m3"),
    ("_n_mm2", "N/mm2"),
    ("_psi", "psi"),
    ("_pcf", "pcf"),
    ("_in", "in"),
)


@click.command(name="table")
@click.argument("name", required=False)
@options.form(
    "table markdown json csv",
    help="How it is written. The csv can be edited and given back with --own.",
)
@options.file("--own", help="Your own table, laid over ours row by row (docs/tables.md).")
def command(name: str | None, form: str, own: Path | None) -> None:
    """Show a reference table with the source of each value.

    NAME is one of: screws, lumber, species, layers, packers, timber-classes. Without it the
    tables are listed.
    """
    if name is None:
        if own is not None:
            raise click.UsageError("--own FILE needs the NAME of the table that it is laid over")
        click.echo(_listing(form))
        return
    from bracecalc.tables.load import NAMES, SCHEMAS, facts, load_tables, one_of

    table = name.strip().casefold().replace("_", "-")
    if table not in SCHEMAS:
        raise click.UsageError(f"no table {name!r}; expected {one_of(table, NAMES)}")
    if own is not None:
        load_tables(overrides={table: own})  # the whole of it is checked before it is shown
    rows = facts(table, own=own)
    writers = {"json": as_json, "csv": as_csv}
    if form in writers:
        click.echo(writers[form](SCHEMAS[table], rows), nl=False)
        return
    click.echo(as_text(SCHEMAS[table], rows, title=CONTENTS[table], markdown=form == "markdown"))


def _listing(form: str) -> str:
    import json

    if form == "json":
        return json.dumps([{"name": name, "contents": what} for name, what in CONTENTS.items()])
    if form == "csv":
        return "\n".join(
            ["name,contents", *(f'{name},"{what}"' for name, what in CONTENTS.items())]
        )
    bullet = "- " if form == "markdown" else "  "
    lines = [f"{bullet}{name:<15} {what}" for name, what in CONTENTS.items()]
    return "\n".join(["Reference tables; show one with: bracecalc table NAME", "", *lines])


def as_json(schema: Schema, rows: Iterable[Fact]) -> str:
    """Return the facts as a JSON array, numbers as numbers."""
    import json

    from bracecalc.tables.rows import number

    def value(fact: Fact) -> str | float:
        known = schema.properties.get(fact.property)
        read = number(fact.value, fact.property) if known is not None and known.number else None
        return fact.value if read is None else read

    return (
        json.dumps(
            [
                {
                    "name": fact.name,
                    "property": fact.property,
                    "value": value(fact),
                    "source": fact.source,
                    "read": fact.read,
                }
                for fact in rows
            ],
            indent=2,
        )
        + "\n"
    )


def as_csv(schema: Schema, rows: Iterable[Fact]) -> str:
    """Return the facts as the CSV that ``--own`` reads."""
    import csv
    import io

    from bracecalc.tables.rows import COLUMNS

    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(COLUMNS)
    writer.writerows(fact[: len(COLUMNS)] for fact in rows)
    return text.getvalue()


class _Notes:
    """Numbers the sources in the order in which they are met."""

    def __init__(self) -> None:
        self.numbers: dict[tuple[str, str], int] = {}

    def of(self, fact: Fact) -> int:
        """Return the number of the fact's source."""
        return self.numbers.setdefault((fact.source, fact.read), len(self.numbers) + 1)

    def lines(self) -> list[str]:
        """Return the sources, one a note."""
        return [f"[{n}] {source} ({read})" for (source, read), n in self.numbers.items()]


@dataclass(frozen=True, slots=True)
class _Column:
    """One property of every name. A ``loose`` one may stand below the grid, or be folded."""

    header: tuple[str, ...]
    cells: tuple[str, ...]
    loose: bool

    @property
    def least(self) -> int:
        widest = max(map(len, self.header))
        full = max(map(len, (*self.header, *self.cells)))
        return max(widest, min(full, FOLDED)) if self.loose else full


def as_text(schema: Schema, rows: Sequence[Fact], *, title: str, markdown: bool) -> str:
    """Return the table with a note number at each column, and at each value that differs."""
    names = list(dict.fromkeys(fact.name for fact in rows if fact.property != ALIAS))
    notes = _Notes()
    columns = _columns(schema, rows, names, notes)
    if markdown:
        parts = [f"## {title}", _markdown(names, columns)]
        listed = [f"- {line}" for line in notes.lines()]
    else:
        grid, below = _fitting(names, columns)
        parts = [title, _grid(names, grid), *(_below(names, column) for column in below)]
        listed = [_wrapped(line, indent=5) for line in notes.lines()]
    return "\n\n".join([*parts, SAID, "\n".join(listed)])


def _columns(
    schema: Schema, rows: Sequence[Fact], names: Sequence[str], notes: _Notes
) -> list[_Column]:
    columns = []
    for key, known in schema.properties.items():
        plain = known.required and not known.many
        loose = not (plain and (known.number or bool(known.words)))
        columns.append((key, [fact for fact in rows if fact.property == key], loose))
    turned = [f._replace(name=f.value, value=f.name) for f in rows if f.property == ALIAS]
    columns.append(("also_written", turned, True))
    return [
        _Column(
            _header(key, usual), tuple(_cell(name, facts, notes, usual) for name in names), loose
        )
        for key, facts, loose in columns
        for usual in _usual(facts, notes)
    ]


def _usual(facts: Sequence[Fact], notes: _Notes) -> list[int]:
    """Return the note that most values of a property share; nothing where there is no value."""
    counted = Counter(notes.of(fact) for fact in facts).most_common(1)
    return [note for note, _ in counted]


def _header(key: str, note: int) -> tuple[str, ...]:
    for ending, unit in UNITS:
        if key.endswith(ending):
            return (*key.removesuffix(ending).split("_"), f"{unit} [{note}]")
    return (*key.split("_"), f"[{note}]")


def _cell(name: str, facts: Sequence[Fact], notes: _Notes, usual: int) -> str:
    values: dict[int, list[str]] = {}
    for fact in facts:
        if fact.name == name:
            values.setdefault(notes.of(fact), []).append(_shown(fact))
    shown = (
        ", ".join(group) if note == usual else f"{', '.join(group)} [{note}]"
        for note, group in values.items()
    )
    return ", ".join(shown)


def _shown(fact: Fact) -> str:
    """Return the value as the trade writes it: a length that lies on a ruler as a fraction."""
    from bracecalc.tables.rows import number
    from bracecalc.text.lengths import format_length

    inches = number(fact.value, fact.property) if fact.property in ON_A_RULER else None
    if inches is None or fact.value.endswith("mm") or inches % RULER != 0.0:
        return fact.value
    return format_length(inches, grid=RULER).removesuffix(" in")


def _fitting(
    names: Sequence[str], columns: Sequence[_Column]
) -> tuple[list[_Column], list[_Column]]:
    """Return the columns that a line of WIDTH takes, and those to be listed below."""
    grid = [column for column in columns if not column.loose]
    below: list[_Column] = []
    used = max(map(len, names)) + sum(GAP + column.least for column in grid)
    for column in columns:
        if column.loose:
            used += GAP + column.least
            (grid if used <= WIDTH else below).append(column)
    return grid, below


def _grid(names: Sequence[str], columns: Sequence[_Column]) -> str:
    from tabulate import tabulate

    spare = WIDTH - max(map(len, names)) - sum(GAP + column.least for column in columns)
    loose = sum(column.loose for column in columns)
    widths = [max(map(len, names)) + min(spare, 0)]  # long names are folded where there is no room
    widths += [column.least + (spare // loose if column.loose else 0) for column in columns]
    tall = max((len(column.header) for column in columns), default=1)
    heads = [("name",), *(column.header for column in columns)]
    head = ["\n" * (tall - len(lines)) + "\n".join(lines) for lines in heads]
    body = zip(names, *(column.cells for column in columns), strict=True)
    # The heading goes in as rows: tabulate pads what it knows to be a heading.
    text = tabulate(
        [head, ["-" * width for width in widths], *body],
        tablefmt="plain",
        disable_numparse=True,
        maxcolwidths=widths,
    )
    return "\n".join(line.rstrip() for line in text.split("\n"))


def _below(names: Sequence[str], column: _Column) -> str:
    wide = max(map(len, names)) + GAP
    lines = [
        _wrapped(f"  {name:<{wide}}{cell}", indent=wide + 2)
        for name, cell in zip(names, column.cells, strict=True)
        if cell
    ]
    return "\n".join([" ".join(column.header), *lines])


def _wrapped(text: str, *, indent: int) -> str:
    import textwrap

    return textwrap.fill(
        text, WIDTH, subsequent_indent=" " * indent, break_on_hyphens=False, drop_whitespace=True
    )


def _markdown(names: Sequence[str], columns: Sequence[_Column]) -> str:
    from tabulate import tabulate

    text: str = tabulate(
        list(zip(names, *(column.cells for column in columns), strict=True)),
        ["name", *(" ".join(column.header) for column in columns)],
        tablefmt="github",
        disable_numparse=True,
    )
    return text
