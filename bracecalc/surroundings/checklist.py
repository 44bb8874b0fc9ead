"""Collects checks and findings of one job while its surroundings are gone through."""

from __future__ import annotations

from bracecalc.records.conversions import KG_PER_LB, KPA_PER_PSF
from bracecalc.records.job import Job, Units
from bracecalc.records.plan import Check, Finding, Verdict
from bracecalc.text.findings import Lengths, notes


class Checklist:
    """Checks and findings in the order in which they were made.

    A length within the tape's uncertainty of its limit holds only if it is measured closely; one
    note at the end names them all.
    """

    def __init__(self, job: Job) -> None:
        self.job = job
        self.lengths = Lengths(job)
        self.checks: list[Check] = []
        self.findings: list[Finding] = []
        self._close: list[str] = []

    def length(self, name: str, *, required: str, found: str, margin: float) -> bool:
        """Keep one check of lengths and return whether it holds, closely or not.

        Args:
            name: what was checked.
            required: what was asked, in words.
            found: what is there, in words.
            margin: room left to the limit, in; below 0 where it is passed.
        """
        uncertainty = self.job.rules.tape_uncertainty
        verdict = Verdict.HOLDS
        if margin < -1e-9:
            verdict = Verdict.FAILS
        elif margin < uncertainty - 1e-9:
            verdict = Verdict.CLOSE
            self._close.append(name)
        self.checks.append(Check(name=name, required=required, found=found, verdict=verdict))
        return verdict is not Verdict.FAILS

    def plain(self, name: str, *, required: str, found: str, holds: bool) -> bool:
        """Keep one check that no tape takes part in, and return whether it holds."""
        verdict = Verdict.HOLDS if holds else Verdict.FAILS
        self.checks.append(Check(name=name, required=required, found=found, verdict=verdict))
        return holds

    def say(self, finding: Finding) -> None:
        """Keep one finding."""
        self.findings.append(finding)

    def weight(self, pounds: float) -> str:
        """Return a weight as the job's people read it, rounded up.

        >>> from bracecalc.records.job import Niche, Unit, Wall
        >>> unit = Unit(height=80, width=32, depth=23, leg_travel_front=1, leg_travel_rear=1)
        >>> niche = Niche(width=(33.0,), depth=(24.0,))
        >>> Checklist(Job(title="", niche=niche, wall=Wall(layers=()), unit=unit)).weight(539.2)
        '540 lb'
        """
        if self.job.units is Units.MM:
            return f"{_up(pounds * KG_PER_LB)} kg"
        return f"{_up(pounds)} lb"

    def pressure(self, psf: float) -> str:
        """Return a floor load as the job's people read it."""
        if self.job.units is Units.MM:
            return f"{psf * KPA_PER_PSF:.1f} kPa"
        return f"{psf:.0f} psf"

    def result(self) -> tuple[tuple[Check, ...], tuple[Finding, ...]]:
        """Return all checks and findings."""
        if self._close:
            uncertainty = self.lengths.near(self.job.rules.tape_uncertainty)
            self.say(
                notes(
                    "measure-closely",
                    f"Within {uncertainty} of the limit: {', '.join(self._close)}.",
                    "Measure these again before the appliance is moved.",
                )
            )
        return tuple(self.checks), tuple(self.findings)


def _up(value: float) -> int:
    return -int(-(value - 1e-9) // 1)
