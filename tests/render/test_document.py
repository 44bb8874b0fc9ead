"""A plan as sections: order, what stands in each, and rounding to the safe side."""

from __future__ import annotations

from dataclasses import replace

import pytest
from jobs import job, moved, unit

from bracecalc.planning.plan import make_plan
from bracecalc.records.job import CarriedScrew, Loads, Screws, Stud, StudMaterial, Units
from bracecalc.records.plan import CaseName, LoadCase, Plan, Severity, Verdict
from bracecalc.records.scheme import Part
from bracecalc.render.document import plan_document
from bracecalc.render.open_words import VERDICTS
from bracecalc.render.sections import Grid, Items, Paragraph, Section, SectionCode
from bracecalc.text.findings import Lengths


def sections(plan: Plan) -> dict[SectionCode, Section]:
    found = plan_document(plan)
    assert len({(section.code, section.of) for section in found}) == len(found)
    assert len({section.heading for section in found}) == len(found)
    return {section.code: section for section in found}


def grid_of(section: Section) -> Grid:
    return next(block for block in section.blocks if isinstance(block, Grid))


def said(section: Section) -> str:
    parts: list[str] = []
    for block in section.blocks:
        if isinstance(block, Paragraph):
            parts.append(block.text)
        elif isinstance(block, Items):
            parts.extend(f"{first} {text}" for first, text in block.items)
        else:
            parts.extend(" ".join(row) for row in block.rows)
    return "\n".join(parts)


def test_build_first_then_why_then_cautions() -> None:
    shown = sections(make_plan(job()))
    wanted = ["verdict", "mark", "cut", "fasten", "set", "heights", "legs", "screws", "strength",
              "materials", "alternatives", "findings", "cautions"]  # fmt: skip
    assert [code for code in shown if code in wanted] == wanted
    assert next(iter(shown)) is SectionCode.VERDICT
    assert list(shown)[-1] is SectionCode.CAUTIONS
    assert shown[SectionCode.VERDICT].heading == job().title


@pytest.mark.parametrize("verdict", list(Verdict))
def test_the_verdict_comes_first_in_plain_words(verdict: Verdict) -> None:
    plan = replace(make_plan(job()), verdict=verdict)
    first = plan_document(plan)[0].blocks[0]
    assert first == Paragraph(VERDICTS[verdict])


def test_what_fails_stands_with_the_verdict() -> None:
    plan = make_plan(moved(job(), wall={"stud_spots": (16.0,)}))
    first = said(plan_document(plan)[0])
    for finding in plan.findings:
        assert (finding.text in first) == (finding.severity is Severity.FAILS)


def test_every_finding_is_told_with_its_code_and_remedy_the_worst_first() -> None:
    plan = make_plan(moved(job(), wall={"stud_spots": (16.0,)}, unit={"weight": None}))
    section = sections(plan)[SectionCode.FINDINGS]
    items = next(block for block in section.blocks if isinstance(block, Items)).items
    assert len(items) == len(plan.findings)
    for finding, (_, text) in zip(plan.findings, items, strict=True):
        assert text.startswith(f"{finding.code}: ")
        assert finding.remedy in text
    words = [first for first, _ in items]
    assert words == sorted(words, key=["FAILS", "Warning", "Note"].index)


def test_the_target_stands_between_the_ends_of_the_band() -> None:
    rows = grid_of(sections(make_plan(job()))[SectionCode.HEIGHTS]).rows
    assert [row[1] for row in rows] == ["82 in", "81 3/8 in", "80 3/4 in"]


def case(**changes: float | None) -> LoadCase:
    plain = LoadCase(
        name=CaseName.MINIMUM, force=100.0, C_D=0.9, capacity=125.0, utilisation=0.8, moments={},
        limited_by=Part.SCREWS,
    )  # fmt: skip
    return replace(plain, **changes)  # type: ignore[arg-type]


def strength_row(one: LoadCase) -> tuple[str, ...]:
    plan = make_plan(job())
    demand = replace(plan.demand, cases=(one,))
    return grid_of(sections(replace(plan, demand=demand))[SectionCode.STRENGTH]).rows[0]


def test_force_and_use_are_rounded_up_and_capacity_down() -> None:
    assert strength_row(case(force=100.2))[1] == "101 lbf"
    assert strength_row(case(capacity=124.9))[2] == "124 lbf"
    assert strength_row(case(utilisation=1.001))[3] == "101%"
    assert strength_row(case(utilisation=0.9999))[3] == "100%"
    assert strength_row(case(force=100.0))[1:4] == ("100 lbf", "125 lbf", "80%")


def test_what_was_not_worked_out_says_so_and_why() -> None:
    missing = case(capacity=None, utilisation=None)
    assert strength_row(missing)[2] == "not worked out"
    too_short = Screws(carried=(CarriedScrew(size="10", lengths=(2.0,)),))
    stack = grid_of(sections(make_plan(job(screws=too_short)))[SectionCode.STRENGTH]).rows[0]
    assert stack[-1] == "no screws"
    soffit = moved(job(), niche={"soffit": (81.5,), "soffit_solid": True})
    framing = grid_of(sections(make_plan(soffit))[SectionCode.STRENGTH]).rows[0]
    assert framing[-1] == "the soffit's framing"


def test_a_use_of_0_never_stands_alone() -> None:
    # service and climb need nothing here: the minimum case stands beside them
    rows = grid_of(sections(make_plan(job()))[SectionCode.STRENGTH]).rows
    assert rows[0][0] == "minimum"
    assert rows[0][3] != "0%"
    assert "0%" in {row[3] for row in rows}


def test_a_demand_that_was_not_checked_is_said_loudly_and_names_the_keys() -> None:
    text = said(sections(make_plan(job(unit=unit(weight=None))))[SectionCode.STRENGTH])
    assert "NOT fully checked" in text  # a child alone is worked out
    assert "unit.weight" in text


def test_margins_are_rounded_down_and_needs_up() -> None:
    # middle of a band that ends 1/64 in short of a mark
    plan = make_plan(job(unit=unit(height=80.625 + 1 / 64)))
    margins = [row[4] for row in grid_of(sections(plan)[SectionCode.LEGS]).rows]
    assert plan.legs is not None
    for shown, leg in zip(margins, plan.legs.values(), strict=True):
        assert shown == "9/16 in"  # 0.609 or less, never 5/8
        assert leg.margin.nominal >= 9 / 16


def test_work_is_shown_only_where_it_is_asked_for() -> None:
    assert SectionCode.WORK not in sections(make_plan(job()))
    plan = make_plan(job(), show_work=True)
    shown = [section for section in plan_document(plan) if section.code is SectionCode.WORK]
    assert sum(len(block.items) for section in shown for block in section.blocks
               if isinstance(block, Items)) == len(plan.steps)  # fmt: skip
    assert "Source: " in said(shown[0])


def test_marks_run_from_the_left_and_up() -> None:
    plan = make_plan(job(loads=Loads(minimum=150.0)))
    grids = [
        block for block in sections(plan)[SectionCode.SCREWS].blocks if isinstance(block, Grid)
    ]
    marks = grids[1].rows
    assert len(marks) == sum(row.count for row in plan.screws)
    places = [place for row in plan.screws for place in sorted(row.positions)]
    assert len(marks) == len(places)
    for (_, across, height), place in zip(marks, places, strict=True):
        lengths = Lengths(plan.job)
        assert (across, height) == (lengths.near(place[0]), lengths.near(place[1]))


def test_a_board_to_buy_is_no_longer_than_the_one_to_cut() -> None:
    # 33-1/4 in less 1/4 in is 838.2 mm; 33-3/16 less 1/4 is 836.6 mm: cut 836, not 837
    given = job(units=Units.MM, niche=replace(job().niche, width=(33.1875,)))
    found = sections(make_plan(given))
    assert "836 mm long" in said(found[SectionCode.CUT])
    assert grid_of(found[SectionCode.MATERIALS]).rows[0][2] == "836 mm"


def test_no_sentence_ends_twice() -> None:
    steel = moved(job(), wall={"stud": Stud(material=StudMaterial.STEEL)})
    for given in (steel, job()):
        for section in plan_document(make_plan(given)):
            assert ".." not in said(section)


def test_materials_list_boards_and_screws_with_counts() -> None:
    plan = make_plan(job(loads=Loads(minimum=60.0)))
    rows = grid_of(sections(plan)[SectionCode.MATERIALS]).rows
    assert ("2", "board 2x4 SPF", "33 in") in rows
    assert len(rows) == len(plan.materials.boards) + len(plan.materials.screws)
