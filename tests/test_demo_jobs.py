"""Each demo job shows what it is named for, and says that it is invented."""

import tomllib
from pathlib import Path

import pytest

from bracecalc import make_plan, read_job
from bracecalc.records.plan import Plan, RestraintKind, Severity, Verdict

FOLDER = Path(__file__).parents[1] / "data" / "demo"

# file: verdict, kind of restraint, findings that it is there to show
SHOWS = {
    "3b-kitchen.toml": ("holds", "stack", ["concealed-services"]),
    "1a-solid-soffit.toml": ("holds", "soffit", []),
    "2c-packed-soffit.toml": ("holds", "packers", ["concealed-services"]),
    "5d-nothing-solid.toml": ("fails", "none", ["no-restraint", "no-wood-to-bite"]),
    "1b-soffit-too-low.toml": ("fails", "none", ["does-not-go-in"]),
    "1c-floor-out-of-level.toml": ("fails", "none", ["floor-uses-up-travel"]),
    "2a-soffit-out-of-reach.toml": ("fails", "none", ["leg-travel-exceeded", "no-restraint"]),
    "2d-one-stud.toml": ("fails", "stack", ["too-few-studs"]),
    "3a-no-weight.toml": ("holds", "stack", ["demand-not-checked"]),
    "3c-short-screws.toml": ("fails", "stack", ["no-stock-screw-long-enough"]),
    "4a-steel-studs.toml": ("fails", "none", ["no-wood-to-bite"]),
    "4c-deep-niche.toml": ("fails", "stack", ["stack-too-deep"]),
    "4d-loose-rear.toml": ("fails", "stack", ["overlap-lost"]),
    "5a-earthquake.toml": ("fails", "stack", ["sliding-not-restrained"]),
    "5b-foam-behind.toml": ("fails", "none", ["compressible-wall"]),
    "5c-heavy-doors.toml": ("fails", "stack", ["overstressed"]),
    "6a-metric.toml": ("holds", "stack", ["concealed-services"]),
    "6b-spacing-alone.toml": ("holds if measured closely", "stack", ["too-few-studs"]),
}
# every finding that makes a plan fail, as the contract lists them
FAILING = {
    "leg-travel-exceeded", "floor-uses-up-travel", "does-not-go-in", "no-restraint",
    "too-few-studs", "no-wood-to-bite", "no-stock-screw-long-enough", "stack-too-deep",
    "overlap-lost", "sliding-not-restrained", "compressible-wall", "overstressed",
}  # fmt: skip


def plan_of(name: str) -> Plan:
    return make_plan(read_job(FOLDER / name))


def test_every_demo_job_is_named_here() -> None:
    assert {path.name for path in FOLDER.glob("*.toml")} == set(SHOWS)


@pytest.mark.parametrize("name", SHOWS)
def test_says_that_it_is_invented(name: str) -> None:
    text = (FOLDER / name).read_text(encoding="utf-8")
    assert text.startswith("# Invented for the demo: the Quillet Yard apartments")
    title = tomllib.loads(text)["title"]
    assert title.startswith("Quillet Yard")
    assert title.endswith("(invented demo)")


@pytest.mark.parametrize("name", SHOWS)
def test_shows_what_it_is_named_for(name: str) -> None:
    verdict, kind, codes = SHOWS[name]
    plan = plan_of(name)
    found = {finding.code for finding in plan.findings}
    assert (plan.verdict.value, plan.restraint.kind.value) == (verdict, kind), found
    assert set(codes) <= found


@pytest.mark.parametrize("name", SHOWS)
def test_fails_for_what_it_shows_and_nothing_else(name: str) -> None:
    plan = plan_of(name)
    failing = {f.code for f in plan.findings if f.severity is Severity.FAILS}
    assert (plan.verdict is Verdict.FAILS) == bool(failing)
    assert failing <= {*SHOWS[name][2], "no-wood-to-bite", "compressible-wall", "no-restraint"}


def test_every_restraint_kind_is_shown() -> None:
    assert {kind for _, kind, _ in SHOWS.values()} == {kind.value for kind in RestraintKind}


def test_every_finding_that_fails_is_shown() -> None:
    shown = {
        finding.code
        for name in SHOWS
        for finding in plan_of(name).findings
        if finding.severity is Severity.FAILS
    }
    assert shown >= FAILING


def test_the_readme_names_every_job() -> None:
    text = (FOLDER / "README.md").read_text(encoding="utf-8")
    assert [name for name in SHOWS if name not in text] == []
