"""What is said of a plan: findings, what was tried against them, margins and verdicts."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum

from bracecalc.records.actions import Action
from bracecalc.records.job import Job


class Verdict(StrEnum):
    """What a check comes to."""

    HOLDS = "holds"
    CLOSE = "holds if measured closely"
    FAILS = "fails"


class Severity(StrEnum):
    """How much a finding matters."""

    FAILS = "fails"
    WARNS = "warns"
    NOTES = "notes"


@dataclass(frozen=True, slots=True, kw_only=True)
class Margin:
    """Room left before a limit: as read, all uncertainties against it, and root sum of squares."""

    nominal: float
    worst_case: float
    rss: float
    verdict: Verdict


@dataclass(frozen=True, slots=True, kw_only=True)
class Fix:
    """What makes a plan hold that fails: ``job`` has the actions done, and was planned again."""

    actions: tuple[Action, ...]
    margin: Margin  # of the restraint's height then
    verdict: Verdict
    job: Job = field(repr=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """Something the reader must know, and what mends it. ``code`` is a stable word.

    ``fixes`` are changes that were planned again, and make the whole plan hold; ``remedy`` says
    them, or what else can be done, in words.
    """

    TOLD = ("code", "severity", "text", "remedy")

    code: str
    severity: Severity
    text: str
    remedy: str = ""
    fixes: tuple[Fix, ...] = ()


# how a record that has a margin tells it, docs/json.md
MARGIN_TOLD = (
    "margin=margin.nominal",
    "worst_case_margin=margin.worst_case",
    "rss_margin=margin.rss",
)
