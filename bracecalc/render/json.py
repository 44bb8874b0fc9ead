"""A plan as the JSON of docs/json.md: inches and lbf, unrounded."""

from __future__ import annotations

from dataclasses import asdict
from typing import Any

from bracecalc.records.plan import Demand, Leg, Margin, Materials, Plan, ScrewRow

SCHEMA = "bracecalc plan 1"


def plan_to_dict(plan: Plan) -> dict[str, Any]:
    """Return a plan as plain dicts, lists, strings and numbers, ready for ``json.dumps``."""
    return {
        "schema": SCHEMA,
        "title": plan.job.title,
        "verdict": plan.verdict.value,
        "reach_band": {"low": plan.reach_band.low, "high": plan.reach_band.high},
        "restraint": {
            "kind": plan.restraint.kind.value,
            "target_height": plan.restraint.target_height,
            "alternatives": [
                {"kind": one.kind.value, "why_not": one.why_not}
                for one in plan.restraint.alternatives
            ],
        },
        "legs": None
        if plan.legs is None
        else {corner: _leg(leg) for corner, leg in plan.legs.items()},
        "stack": _stack(plan),
        "packers": None
        if plan.packers is None
        else {
            "pieces": list(plan.packers.pieces),
            "total": plan.packers.total,
            "length": plan.packers.length,
            "depth": plan.packers.depth,
            "from_wall": plan.packers.from_wall,
        },
        "studs": None
        if plan.studs is None
        else {
            "spots": list(plan.studs.spots),
            "used": list(plan.studs.used),
            "sure": plan.studs.sure,
            "best_case": plan.studs.best_case,
        },
        "screws": [_screws(row) for row in plan.screws],
        "strength": None if plan.strength is None else asdict(plan.strength),
        "demand": _demand(plan.demand),
        "findings": [
            {
                "code": finding.code,
                "severity": finding.severity.value,
                "text": finding.text,
                "remedy": finding.remedy,
            }
            for finding in plan.findings
        ],
        "materials": _materials(plan.materials),
        "checks": [
            {
                "name": check.name,
                "required": check.required,
                "found": check.found,
                "verdict": check.verdict.value,
            }
            for check in plan.checks
        ],
    }


def margin_to_dict(margin: Margin) -> dict[str, Any]:
    """Return a margin under the contract's names."""
    return {
        "margin": margin.nominal,
        "worst_case_margin": margin.worst_case,
        "rss_margin": margin.rss,
    }


def _leg(leg: Leg) -> dict[str, Any]:
    return {"extension": leg.extension, "turns": leg.turns, **margin_to_dict(leg.margin)}


def _stack(plan: Plan) -> dict[str, Any] | None:
    stack = plan.stack
    if stack is None:
        return None
    return {
        "boards": stack.boards,
        "board": stack.board,
        "length": stack.length,
        "rear_gap": stack.rear_gap,
        "overlap": stack.overlap,
    }


def _screws(row: ScrewRow) -> dict[str, Any]:
    return {
        "board": row.board,
        "size": row.size,
        "kind": row.kind.value,
        "length": row.length,
        "counterbore": row.counterbore,
        "embedment": row.embedment,
        "per_stud": row.per_stud,
        "count": row.count,
        "tip_to_far_side": row.tip_to_far_side,
        "holes": [hole._asdict() for hole in row.holes],
        "positions": [list(position) for position in row.positions],
    }


def _demand(demand: Demand) -> dict[str, Any]:
    return {
        "checked": demand.checked,
        "governs": demand.governs,
        "cases": [
            {
                "name": case.name,
                "force": case.force,
                "C_D": case.C_D,
                "capacity": case.capacity,
                "utilisation": case.utilisation,
                "moments": dict(case.moments),
                "limited_by": case.limited_by,
            }
            for case in demand.cases
        ],
    }


def _materials(materials: Materials) -> dict[str, Any]:
    return {
        "boards": [asdict(need) for need in materials.boards],
        "screws": [asdict(need) for need in materials.screws],
    }
