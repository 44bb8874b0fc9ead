"""Many niches as a stream: each worked out once, the same over one core and two, ended cleanly."""

from __future__ import annotations

import os
import random
from pathlib import Path

import pytest
from ordering import niche, outcome, stream

from bracecalc.errors import JobError, Mistake
from bracecalc.jobfile.build import build_job
from bracecalc.jobfile.rows import Columns, NicheRow
from bracecalc.order import workers
from bracecalc.order.outcome import Use, work_out
from bracecalc.order.takeoff import niche_rows, take
from bracecalc.order.tally import MOST_PLACED, Tally


def fake_work(tasks: list[workers.Task], how: workers.How) -> list[workers.Result]:
    """A planner that knows only the width."""
    found: list[workers.Result] = []
    for where, values in tasks:
        width = float(str(values["niche.width"]).split()[0])
        if width < 0:
            found.append((Mistake(where, "niche.width", str(width), "more than 0"),))
        else:
            found.append(outcome(length=width))
    return found


def killed(tasks: list[workers.Task], how: workers.How) -> list[workers.Result]:
    """A worker that is ended from outside."""
    os._exit(9)


def test_equal_niches_are_worked_out_once(monkeypatch: pytest.MonkeyPatch) -> None:
    seen: list[workers.Task] = []

    def work(tasks: list[workers.Task], how: workers.How) -> list[workers.Result]:
        seen.extend(tasks)
        return fake_work(tasks, how)

    monkeypatch.setattr(workers, "work_batch", work)
    tally = take(stream(5_000, different=7))
    assert (tally.rows, tally.planned, len(seen)) == (5_000, 7, 7)
    assert tally.total.niches == 5_000
    boards = sum(n for (use, *_), n in tally.cuts.items() if use is Use.BOARD)
    assert boards == 10_000


def test_both_cores_give_what_one_gives(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(workers, "work_batch", fake_work)
    monkeypatch.setattr(os, "cpu_count", lambda: 1)
    alone = take(stream(3_000, different=1_000))
    monkeypatch.setattr(os, "cpu_count", lambda: 2)
    both = take(stream(3_000, different=1_000))
    assert both == alone


def test_a_worker_that_is_killed_is_told_in_a_line(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(workers, "work_batch", killed)
    monkeypatch.setattr(os, "cpu_count", lambda: 2)
    with pytest.raises(workers.WorkerLostError, match=r"^a process .* nothing was written$"):
        take(stream(3_000, different=1_000))


def test_a_fault_of_ours_names_its_row_and_stops_only_that_niche_when_asked(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def at_fault(*_: object) -> None:
        raise ZeroDivisionError("by nothing")

    monkeypatch.setattr(workers, "_work_one", at_fault)
    with pytest.raises(RuntimeError, match=r"^n.csv row 7: ZeroDivisionError: by nothing$"):
        take([niche(7)])
    tally = take([niche(7)], how=workers.How(pass_faults=True))
    assert tally.skipped == 1
    assert "a fault (ZeroDivisionError: by nothing)" in str(tally.mistake_lines()[0])


def test_rows_with_the_same_mistake_share_a_line(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(workers, "work_batch", fake_work)
    bad = [
        NicheRow(
            where=f"n.csv row {number}",
            number=number,
            values={"title": f"T{number}", "niche.width": "-1 in"},
            count=1,
            labels={},
        )
        for number in (2, 3, 4, 9)
    ]
    tally = take([niche(7), *bad])
    (line,) = tally.mistake_lines()
    assert str(line) == "n.csv rows 2-4, 9: niche.width: read -1.0; expected more than 0"
    assert (tally.skipped, tally.total.niches) == (4, 1)
    (alone,) = take([niche(7), bad[0]]).mistake_lines()
    assert alone.where == "n.csv row 2 (T2)"


def test_a_piece_that_no_stick_gives_is_told_by_its_row(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(workers, "work_batch", fake_work)
    tally = take([niche(30), niche(400)], longest=lambda _wood, _section: 24 * 12 * 32)
    assert (tally.total.niches, tally.skipped) == (1, 1)
    (line,) = tally.mistake_lines()
    assert str(line) == (
        "n.csv row 400 (=T400): 2x6 SPF: read a board 400 in long; expected at most 288 in, "
        "which the longest stick gives"
    )


def test_sums_by_label_make_up_the_whole() -> None:
    tally = Tally()
    tally.add(niche(2, count=10, building="A"), outcome())
    tally.add(niche(3, count=4, building="B"), outcome(fails=True, checked=False))
    assert (tally.total.niches, tally.total.failing, tally.total.unchecked) == (14, 4, 4)
    assert {label: part.niches for label, part in tally.sums["building"].items()} == {
        "A": 10,
        "B": 4,
    }
    tally.add(niche(9), outcome())  # a job file has no building
    assert sum(part.niches for part in tally.sums["building"].values()) == tally.total.niches
    late = Tally()
    late.add(niche(1), outcome())
    late.add(niche(2, building="A"), outcome())
    assert {label: part.niches for label, part in late.sums["building"].items()} == {"": 1, "A": 1}


def test_past_some_thousands_of_rows_pieces_are_told_by_building_part_alone() -> None:
    tally = Tally()
    for number in range(MOST_PLACED + 5):
        tally.add(niche(number, building="AB"[number % 2]), outcome())
    assert not tally.placed_all
    assert len(tally.placed) == MOST_PLACED
    assert len(tally.parts) == 2


def test_the_same_file_twice_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "n.csv"
    path.write_text("niche.width\n33 in\n", encoding="utf-8")
    link = tmp_path / "again.csv"
    link.symlink_to(path)
    for jobs in ([str(path), str(path)], [str(path), str(link)]):
        with pytest.raises(JobError, match="a second time; expected each file once"):
            list(niche_rows(jobs, Columns()))


def test_two_tables_of_lumber_in_one_order_are_told() -> None:
    tally = Tally()
    tally.add(niche(2), outcome()._replace(own=(("lumber", "a.csv"),)))
    tally.add(niche(3), outcome()._replace(own=(("lumber", "b.csv"),)))
    assert (tally.total.niches, tally.skipped) == (1, 1)
    assert "one table of lumber for all niches" in str(tally.mistake_lines()[0])


def any_niche(draw: random.Random, number: int) -> NicheRow:
    """Return a row that nothing stands in for: read, planned and added up in earnest."""
    width = draw.randint(28 * 16, 40 * 16) / 16
    values: dict[str, object] = {
        "title": f"T{number}",
        "niche.width": f"{width} in",
        "niche.depth": f"{draw.randint(23 * 16, 27 * 16) / 16} in",
        "wall.layers": draw.choice(["gypsum board 1/2 in", "gypsum board 5/8 in"]),
        "wall.stud_layout.spacing": draw.choice(["16 in", "400 mm", "24 in"]),
        "wall.stud_layout.first": f"{draw.randint(2, 15)} in",
        "unit.height": "80 5/8 in",
        "unit.width": f"{width - 0.5} in",
        "unit.depth": "23 1/8 in",
        "unit.leg_travel": "1 3/8 in",
        "boards.size": draw.choice(["2x6", "2x8", "2x10"]),
    }
    if draw.random() < 0.5:
        values["niche.soffit"] = f"{draw.randint(80 * 8, 96 * 8) / 8} in"
        values["niche.soffit_solid"] = draw.choice(["yes", "no"])
    if draw.random() < 0.5:
        values["floor.rear_left"] = f"{draw.randint(0, 24) / 16} in"
    if draw.random() < 0.1:
        values["unit.depth"] = "23 ib"
    return NicheRow(
        where=f"n.csv row {number}",
        number=number,
        values=values,
        count=draw.randint(1, 4),
        labels={"building": draw.choice("AB")},
    )


def test_all_together_give_what_one_by_one_gives() -> None:
    draw = random.Random(14)
    rows = [any_niche(draw, number) for number in range(2, 802)]
    one_by_one = Tally(rows=len(rows))
    for row in rows:
        try:
            outcome_of = work_out(build_job(row.values, where=row.where))
        except JobError as error:
            one_by_one.skip(row, error.mistakes)
        else:
            one_by_one.add(row, outcome_of)
    one_by_one.planned = len(rows)
    assert take(rows) == one_by_one
    assert one_by_one.skipped > 20
    assert one_by_one.total.failing > 20
