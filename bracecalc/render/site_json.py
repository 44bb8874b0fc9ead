"""The check on site and the tolerance of a plan as JSON: inches and lbf, unrounded."""

from __future__ import annotations

from dataclasses import asdict
from typing import Any

from bracecalc.records.plan import Margin
from bracecalc.records.site import LegTurn, Miss, Point, Remedy, SiteCheck, ToleranceReport
from bracecalc.render.json import margin_to_dict, plan_to_dict

SCHEMA = "bracecalc check 1"


def check_to_dict(check: SiteCheck) -> dict[str, Any]:
    """Return a check as plain dicts, lists, strings and numbers, ready for ``json.dumps``."""
    contact = check.contact
    return {
        "schema": SCHEMA,
        "title": check.title,
        "verdict": check.verdict.value,
        "after": check.after.value,
        "todo": [_remedy(remedy) for remedy in check.todo],
        "changes": list(check.changes),
        "misses": [_miss(miss) for miss in check.misses],
        "points": [_point(point) for point in check.points],
        "legs": {corner: _leg(leg) for corner, leg in check.legs.items()},
        "legs_after": {corner: _leg(leg) for corner, leg in check.legs_after.items()},
        "contact": None if contact is None else asdict(contact),
        "studs": None if check.studs is None else asdict(check.studs),
        "found": plan_to_dict(check.found),
        "mended": plan_to_dict(check.mended),
    }


def tolerance_to_dict(report: ToleranceReport) -> dict[str, Any]:
    """Return the tolerance of a plan as plain dicts, lists, strings and numbers."""
    return {
        "verdict": report.verdict.value,
        "searched": report.searched,
        "drifts": [asdict(drift) for drift in report.drifts],
        "together": [asdict(one) for one in report.together],
        "shares": None if report.shares is None else asdict(report.shares),
    }


def _remedy(remedy: Remedy) -> dict[str, Any]:
    return {
        "mends": remedy.mends,
        "effort": remedy.effort,
        "text": remedy.text,
        "verdict": remedy.verdict.value,
    }


def _miss(miss: Miss) -> dict[str, Any]:
    return {
        "code": miss.finding.code,
        "text": miss.finding.text,
        "in_plan": miss.in_plan,
        "remedies": [_remedy(remedy) for remedy in miss.remedies],
    }


def _point(point: Point) -> dict[str, Any]:
    return {
        "key": point.key,
        "name": point.name,
        "planned": point.planned,
        "found": point.found,
        "difference": point.difference,
        "measured": point.measured,
        "uncertainty": point.uncertainty,
        "limit": point.limit,
        **_margin(point.margin),
        "verdict": point.verdict.value,
        "note": point.note,
    }


def _margin(margin: Margin | None) -> dict[str, Any]:
    if margin is None:
        return {"margin": None, "worst_case_margin": None, "rss_margin": None}
    return margin_to_dict(margin)


def _leg(leg: LegTurn) -> dict[str, Any]:
    return {
        "extension": leg.extension,
        "now": leg.now,
        "out": leg.out,
        "turns": leg.turns,
        **margin_to_dict(leg.margin),
        "verdict": leg.margin.verdict.value,
    }
