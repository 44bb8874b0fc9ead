"""Everything that many niches need, added up in whole numbers, and what is wrong with some."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from typing import NamedTuple

from bracecalc.errors import Mistake
from bracecalc.jobfile.rows import NicheRow
from bracecalc.order.outcome import Lumber, Outcome, Section, Use
from bracecalc.records.plan import Verdict
from bracecalc.records.reference import PackerKind

MOST_LISTED = 1_000  # failing niches that are named; the rest are counted
MOST_PLACED = 20_000  # rows whose pieces are told one by one; past it by building part alone

CutKey = tuple[Use, Lumber, int]  # length in 1/32 in
FlatKey = tuple[str, PackerKind, int, int]  # name, kind, width and length in 1/32 in
ScrewKey = tuple[str, str, float]


class Told(NamedTuple):
    """A row of niches that must be told by name, and why."""

    where: str
    title: str
    codes: tuple[str, ...] = ()
    niches: int = 1


class Placed(NamedTuple):
    """Where the pieces of a row go: its labels, its niche, and how it stands."""

    labels: tuple[str, ...]  # in the order of ``Tally.columns``
    title: str
    niches: int
    cuts: tuple[tuple[CutKey, int], ...]
    fails: bool


@dataclass(slots=True)
class Sum:
    """What the niches with one label need together, net."""

    niches: int = 0
    failing: int = 0
    unchecked: int = 0
    pieces: int = 0
    blocking: int = 0
    packers: int = 0
    screws: int = 0
    lengths: Counter[Lumber] = field(default_factory=Counter)  # 1/32 in

    def copy(self) -> Sum:
        """Return an equal sum of its own."""
        return replace(self, lengths=Counter(self.lengths))

    def add(self, outcome: Outcome, count: int) -> None:
        """Add so many niches of one outcome."""
        self.niches += count
        self.failing += count * (outcome.verdict is Verdict.FAILS)
        self.unchecked += count * (not outcome.checked)
        self.screws += count * sum(screw.number for screw in outcome.screws)
        self.packers += count * sum(flat.number for flat in outcome.flats)
        for cut in outcome.cuts:
            if cut.use is Use.SPACER:
                self.packers += count * cut.number
            elif cut.use is Use.BLOCKING:
                self.blocking += count * cut.number
            else:
                self.pieces += count * cut.number
            self.lengths[cut.lumber] += count * cut.number * cut.length


@dataclass(slots=True)
class Tally:
    """Everything added up, in whole numbers.

    Attributes:
        rows: rows and job files read.
        planned: niches worked out; the others were equal to one of these.
        skipped: rows with mistakes; ``left_out`` are niches that fail and were not wanted.
        sums: by label column, then by what stands in it.
        parts: pieces by building part, that is by all labels of a row together.
        listed: rows of failing niches, the first of them; ``failing_rows`` counts all.
        unchecked: rows of niches of which what tips the unit wasn't worked out.
        mistakes: rows by file, key, what was read and what would be right.
        own: the jobs' own tables, by which prices and offcuts are read too.
    """

    only_holding: bool = False
    rows: int = 0
    planned: int = 0
    skipped: int = 0
    left_out: int = 0
    total: Sum = field(default_factory=Sum)
    close: int = 0  # niches that hold only if measured closely
    cuts: Counter[CutKey] = field(default_factory=Counter)
    flats: Counter[FlatKey] = field(default_factory=Counter)
    screws: Counter[ScrewKey] = field(default_factory=Counter)
    washers: Counter[str] = field(default_factory=Counter)
    sections: dict[Lumber, Section] = field(default_factory=dict)
    columns: list[str] = field(default_factory=list)
    sums: dict[str, dict[str, Sum]] = field(default_factory=dict)
    parts: dict[tuple[str, ...], Counter[CutKey]] = field(default_factory=dict)
    placed: list[Placed] = field(default_factory=list)
    placed_all: bool = True
    failing_rows: int = 0
    codes: Counter[str] = field(default_factory=Counter)
    listed: list[Told] = field(default_factory=list)
    unchecked_rows: int = 0
    unchecked: list[Told] = field(default_factory=list)
    mistakes: dict[tuple[str, str, str, str], list[tuple[int, str]]] = field(default_factory=dict)
    own: dict[str, str] = field(default_factory=dict)

    def add(self, row: NicheRow, outcome: Outcome) -> None:
        """Add a niche that was worked out; one by other tables than those before is skipped."""
        other = [(table, path) for table, path in outcome.own if self._another(table, path)]
        if other:
            self.skip(row, [self._two_tables(row, table, path) for table, path in other])
            return
        self._tell(row, outcome)
        if outcome.verdict is Verdict.FAILS and self.only_holding:
            self.left_out += row.count
            return
        count = row.count
        for column in row.labels:
            if column not in self.sums:  # what came before had no such column
                self.columns.append(column)
                self.sums[column] = {"": self.total.copy()} if self.total.niches else {}
        for column, by_label in self.sums.items():
            label = row.labels.get(column, "")
            if label not in by_label:
                by_label[label] = Sum()
            by_label[label].add(outcome, count)
        self.total.add(outcome, count)
        if outcome.verdict is Verdict.CLOSE:
            self.close += count
        for screw in outcome.screws:
            self.screws[screw.kind, screw.size, screw.length] += count * screw.number
        for size, number in outcome.washers:
            self.washers[size] += count * number
        for flat in outcome.flats:
            self.flats[flat.name, flat.kind, flat.width, flat.length] += count * flat.number
        for lumber, section in outcome.sections:
            self.sections.setdefault(lumber, section)
        self._place(row, outcome)

    def _place(self, row: NicheRow, outcome: Outcome) -> None:
        cuts: dict[CutKey, int] = {}
        for use, lumber, length, number in outcome.cuts:
            key = use, lumber, length
            cuts[key] = cuts.get(key, 0) + number
        for key, number in cuts.items():
            self.cuts[key] += row.count * number
        labels = tuple(row.labels.get(column, "") for column in self.columns)
        if labels not in self.parts:
            self.parts[labels] = Counter()
        part = self.parts[labels]
        for key, number in cuts.items():
            part[key] += row.count * number
        if not cuts or not row.count:
            return
        if len(self.placed) >= MOST_PLACED:
            self.placed_all = False
            return
        self.placed.append(
            Placed(
                labels=labels,
                title=str(row.values.get("title", row.where)),
                niches=row.count,
                cuts=tuple(cuts.items()),
                fails=outcome.verdict is Verdict.FAILS,
            )
        )

    def _tell(self, row: NicheRow, outcome: Outcome) -> None:
        title = str(row.values.get("title", ""))
        if outcome.verdict is Verdict.FAILS and row.count:
            self.failing_rows += 1
            self.codes.update(outcome.codes)
            if len(self.listed) < MOST_LISTED:
                self.listed.append(Told(row.where, title, outcome.codes, row.count))
        if not outcome.checked and row.count:
            self.unchecked_rows += 1
            if len(self.unchecked) < MOST_LISTED:
                self.unchecked.append(Told(row.where, title, (), row.count))

    def _another(self, table: str, path: str) -> bool:
        return self.own.setdefault(table, path) != path

    def _two_tables(self, row: NicheRow, table: str, path: str) -> Mistake:
        right = f"one table of {table} for all niches of an order; {self.own[table]} stood before"
        return Mistake(row.where, f"tables.{table}", path, right)

    def skip(self, row: NicheRow, mistakes: Iterable[Mistake]) -> None:
        """Keep the mistakes of a row that can't be worked out."""
        self.skipped += 1
        title = str(row.values.get("title", ""))
        for mistake in mistakes:
            file = row.where.removesuffix(f" row {row.number}")
            same = (file, mistake.key, mistake.read, mistake.right)
            self.mistakes.setdefault(same, []).append((row.number, title))

    def mistake_lines(self) -> tuple[Mistake, ...]:
        """Return the mistakes, a line for each; rows that have the same one share a line."""
        return tuple(
            Mistake(f"{file}{_rows_text(rows)}", key, read, right)
            for (file, key, read, right), rows in self.mistakes.items()
        )

    def part_labels(self, labels: tuple[str, ...]) -> Mapping[str, str]:
        """Return what stands in each label column of a building part."""
        padded = (*labels, *[""] * (len(self.columns) - len(labels)))
        return dict(zip(self.columns, padded, strict=True))


def _rows_text(rows: list[tuple[int, str]]) -> str:
    """Return row numbers as people write them, with the niche where there is one row.

    >>> _rows_text([(3, "3B")]), _rows_text([(3, ""), (4, ""), (9, "")]), _rows_text([(0, "")])
    (' row 3 (3B)', ' rows 3-4, 9', '')
    """
    numbers = sorted({number for number, _ in rows})
    if numbers == [0]:
        return ""
    if len(rows) == 1:
        number, title = rows[0]
        named = title not in ("", f"row {number}")
        return f" row {number} ({title})" if named else f" row {number}"
    return f" rows {runs_text(numbers)}"


def runs_text(numbers: Iterable[int]) -> str:
    """Return numbers as people write them, runs drawn together.

    >>> runs_text([3, 4, 5, 9])
    '3-5, 9'
    """
    parts: list[list[int]] = []
    for row in sorted(set(numbers)):
        if parts and row == parts[-1][1] + 1:
            parts[-1][1] = row
        else:
            parts.append([row, row])
    return ", ".join(str(a) if a == b else f"{a}-{b}" for a, b in parts)
