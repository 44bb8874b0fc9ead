"""The page gives what the command line gives, field by field, on generated jobs."""

from __future__ import annotations

import json
import math
from base64 import b64encode
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from click.testing import CliRunner
from page.generated import job_text

from bracecalc.cli.main import group

if TYPE_CHECKING:
    from page.phone import Phone

pytestmark = pytest.mark.browser

JOBS = 50
# The last bits of a power differ between the C libraries under the two Pythons.
RELATIVE, ABSOLUTE = 1e-12, 1e-12


def differences(ours: Any, other: Any, path: str = "") -> Iterator[str]:
    """Yield each field that differs, by its path."""
    if isinstance(ours, dict) and isinstance(other, dict):
        for name in sorted(ours.keys() | other.keys()):
            if name not in ours or name not in other:
                yield f"{path}.{name} is on one side alone"
            else:
                yield from differences(ours[name], other[name], f"{path}.{name}")
    elif isinstance(ours, list) and isinstance(other, list) and len(ours) == len(other):
        for number, (one, two) in enumerate(zip(ours, other, strict=True)):
            yield from differences(one, two, f"{path}[{number}]")
    elif isinstance(ours, float) and isinstance(other, (int, float)):
        if not math.isclose(ours, other, rel_tol=RELATIVE, abs_tol=ABSOLUTE):
            yield f"{path}: {ours!r} and {other!r}"
    elif ours != other:
        yield f"{path}: {ours!r} and {other!r}"


def test_a_difference_is_seen() -> None:
    one = {"legs": [{"turns": 16.0}], "verdict": "holds"}
    other = {"legs": [{"turns": 16.0000001}], "verdict": "fails"}
    assert len(list(differences(one, other))) == 2
    assert not list(differences(one, one))


@pytest.mark.parametrize("number", range(JOBS))
def test_plan_and_check(open_page: Phone, tmp_path: Path, number: int) -> None:
    text = job_text(number)
    path = tmp_path / "job.toml"
    path.write_text(text)
    opened = open_page.ask("open", bytes=b64encode(text.encode()).decode(), name="job.toml")
    assert opened["text"] == text
    for command, method in (("plan", "plan data"), ("check", "check data")):
        result = CliRunner().invoke(group, [command, str(path), "--format", "json"])
        assert result.exit_code in (0, 1), result.output
        wanted = json.loads(result.stdout)
        answer = open_page.ask(method, text=opened["text"], entries={})
        assert list(differences(wanted, answer)) == []


def test_the_jobs_are_of_every_kind() -> None:
    from bracecalc.jobfile.read import parse_job
    from bracecalc.planning.plan import make_plan

    plans = [make_plan(parse_job(job_text(number), where="job")) for number in range(JOBS)]
    assert len({plan.verdict for plan in plans}) == 3
    assert {plan.verdict.value for plan in plans if plan.stack} >= {"holds", "fails"}
    assert {plan.restraint.kind.value for plan in plans} == {"soffit", "packers", "stack", "none"}
    assert sum(plan.demand.checked for plan in plans) > JOBS // 3
