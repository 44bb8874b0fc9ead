"""Wires and pipes: whose rules are told, and from which face a depth counts."""

from __future__ import annotations

from dataclasses import replace

import pytest
from jobs import GYPSUM, job, moved

from bracecalc.planning.plan import make_plan
from bracecalc.records.job import English, Job, Rules, Units, Wiring
from bracecalc.text.findings import Lengths

UK = job(units=Units.MM, english=English.UK)
SOFFIT = {"soffit": (83.0,), "soffit_solid": True, "soffit_layers": (GYPSUM,)}


def told(given: Job) -> str:
    return next(one.text for one in make_plan(given).findings if one.code == "concealed-services")


@pytest.mark.parametrize(
    ("given", "rule"),
    [
        (job(), Wiring.IRC_NEC),
        (job(units=Units.MM), Wiring.NONE),
        (UK, Wiring.BS_7671),
        (job(english=English.UK), Wiring.BS_7671),
        (job(units=Units.MM, english=English.US), Wiring.NONE),
        (job(units=Units.MM, rules=Rules(wiring=Wiring.IRC_NEC)), Wiring.IRC_NEC),
        (replace(UK, rules=Rules(wiring=Wiring.NONE)), Wiring.NONE),
    ],
)
def test_a_job_gets_the_rules_of_its_own_country(given: Job, rule: Wiring) -> None:
    assert given.wiring is rule
    names = {Wiring.IRC_NEC: "NEC 300.4", Wiring.BS_7671: "BS 7671", Wiring.NONE: "No wiring rule"}
    assert [one for one, name in names.items() if name in told(given)] == [rule]


def test_the_plate_rule_counts_from_the_face_of_the_framing() -> None:
    deepest = max(row.embedment for row in make_plan(job()).screws)
    assert f"That is {Lengths(job()).up(deepest - 1.25)} more than the 1 1/4 in" in told(job())
    shallow = moved(job(), rules={"plate_depth": deepest})
    assert "plate" not in told(shallow)


def test_the_british_depth_counts_from_the_face_of_the_wall() -> None:
    # regulation 522.6.202, quoted second hand: from "a surface of the wall or partition"
    plan = make_plan(UK)
    reach = max(row.embedment for row in plan.screws) + 0.5
    assert f"They reach {Lengths(UK).up(reach)} under the face of the wall" in told(UK)
    assert "Less than 50 mm under it cables keep to zones, within 150 mm of a corner" in told(UK)


def test_screws_beside_a_corner_are_named() -> None:
    # 4 in and 29 in of a niche of 33-1/4: within 150 mm (5.9 in) of its sides; 16-5/8 isn't
    assert "The screws in the studs at 102 mm and 737 mm stand in a corner's zone" in told(UK)
    middle = moved(UK, wall={"stud_spots": (10.0, 16.625, 25.0)})
    assert "corner's zone" not in told(middle)


def test_a_joist_has_a_rule_of_its_own() -> None:
    text = told(moved(UK, niche=SOFFIT))
    assert "from 50 mm above their underside on" in text
    assert "522.6.201" in text
