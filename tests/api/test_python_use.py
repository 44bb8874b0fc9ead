"""From Python: the lines of the README as people type them, and quantities of pint at the edge."""

from __future__ import annotations

import json
import re
import threading
from dataclasses import FrozenInstanceError
from pathlib import Path
from typing import Any

import pint
import pytest

import bracecalc
from bracecalc import make_plan, read_job
from bracecalc.errors import JobError
from bracecalc.jobfile.read import make_job

ROOT = Path(__file__).parents[2]
MAIN = ROOT / "data" / "demo" / "3b-kitchen.toml"


def readme_code() -> str:
    """The indented lines under the README's heading on Python, up to the next heading."""
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    section = text[text.index("## From Python") :].split("\n## ", 1)[0]
    lines = [line[4:] for line in section.split("\n") if line.startswith("    ")]
    fenced = re.findall(r"```python\n(.*?)```", section, re.DOTALL)
    return "\n".join(lines) if lines else "\n".join(fenced)


def test_the_lines_of_the_readme_run_as_they_stand(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "niche.toml").write_bytes(MAIN.read_bytes())
    (tmp_path / "data" / "demo").mkdir(parents=True)
    (tmp_path / "data" / "demo" / MAIN.name).write_bytes(MAIN.read_bytes())
    monkeypatch.chdir(tmp_path)
    code = readme_code()
    assert "read_job" in code
    assert "make_plan" in code
    names: dict[str, Any] = {}
    exec(compile(code, "README.md", "exec"), names)
    plan = names["plan"]
    assert plan.verdict.value == "holds"
    assert plan.to_dict()["schema"] == "bracecalc plan 1"
    if "print(" not in code:
        assert capsys.readouterr().out == ""


def test_nothing_is_printed(capfd: pytest.CaptureFixture[str]) -> None:
    make_plan(read_job(MAIN)).to_dict()
    assert capfd.readouterr() == ("", "")


def test_a_path_may_be_text_or_path() -> None:
    assert read_job(str(MAIN)) == read_job(MAIN)


def test_the_public_names() -> None:
    names = set(bracecalc.__all__) - {"__version__"}
    assert names == {
        "Job", "Plan", "check_site", "draw_sheet", "make_plan", "read_job", "takeoff",
    }  # fmt: skip
    for name in names:
        assert callable(getattr(bracecalc, name))
    assert bracecalc.make_plan is make_plan
    with pytest.raises(AttributeError, match="has no attribute 'nothing'"):
        bracecalc.nothing  # noqa: B018


def test_records_are_frozen() -> None:
    plan = make_plan(read_job(MAIN))
    with pytest.raises(FrozenInstanceError):
        plan.verdict = None  # type: ignore[misc,assignment]
    with pytest.raises(FrozenInstanceError):
        plan.job.unit.weight = 1.0  # type: ignore[misc]


def niche(**changes: object) -> dict[str, object]:
    given: dict[str, object] = {
        "title": "Quillet Yard, invented for a test",
        "niche": {"width": 33.25, "depth": 23.75},
        "wall": {"layers": "gypsum board 1/2 in", "stud_spots": [4.0, 16.625, 29.0]},
        "unit": {
            "height": 80.625, "width": 32.75, "depth": 23.125, "leg_travel": 1.375,
            "weight": 540.0, "cg_height": 43.0, "cg_behind_front_legs": 9.5,
            "front_legs_behind_front": 2.75, "doors": [],
        },
    }  # fmt: skip
    return {**given, **changes}


def test_floats_are_inches_and_pounds() -> None:
    job = make_job(niche())
    assert job.unit.height == 80.625
    assert job.unit.weight == 540.0
    assert make_plan(job).stack is not None


def test_quantities_of_pint_come_to_the_same_job() -> None:
    ureg: Any = pint.UnitRegistry()
    unit = {
        "height": 80.625 * ureg.inch,
        "width": 831.85 * ureg.mm,
        "depth": 0.587375 * ureg.meter,
        "leg_travel": 3.4925 * ureg.cm,
        "weight": 540 * 0.45359237 * ureg.kg,
        "cg_height": 43 * ureg.inch,
        "cg_behind_front_legs": 9.5 * ureg.inch,
        "front_legs_behind_front": 2.75 * ureg.inch,
        "doors": [],
    }
    given = niche(niche={"width": 33.25 * ureg.inch, "depth": 603.25 * ureg.mm}, unit=unit)
    plain, metric = make_plan(make_job(niche())), make_plan(make_job(given))
    assert metric.job.unit.width == pytest.approx(32.75, abs=1e-9)
    assert metric.job.unit.weight == pytest.approx(540.0)
    # inch and mm are each exact: 25.4
    assert metric.stack is not None
    assert plain.stack is not None
    assert metric.stack.overlap == pytest.approx(plain.stack.overlap)
    assert metric.verdict is plain.verdict
    assert [row.size for row in metric.screws] == [row.size for row in plain.screws]


@pytest.mark.parametrize("wrong", ["kg", "degC", "second"])
def test_a_quantity_of_the_wrong_dimension_names_its_key(wrong: str) -> None:
    ureg: Any = pint.UnitRegistry()
    given = niche(niche={"width": ureg.Quantity(33.25, wrong), "depth": 23.75})
    with pytest.raises(JobError, match=r"niche\.width.*length"):
        make_job(given)


@pytest.mark.parametrize("bad", [float("nan"), float("inf"), -1.0])
def test_a_number_that_is_none_names_its_key(bad: float) -> None:
    with pytest.raises(JobError, match=r"niche\.width"):
        make_job(niche(niche={"width": bad, "depth": 23.75}))
    ureg: Any = pint.UnitRegistry()
    with pytest.raises(JobError, match=r"niche\.width"):
        make_job(niche(niche={"width": bad * ureg.inch, "depth": 23.75}))


def test_several_threads_come_to_the_same_plans() -> None:
    jobs = [read_job(path) for path in sorted((ROOT / "data" / "demo").glob("*.toml"))[:6]]
    alone = [json.dumps(make_plan(job).to_dict()) for job in jobs]
    together: list[list[str]] = []

    def work() -> None:
        together.append([json.dumps(make_plan(job).to_dict()) for job in jobs])

    threads = [threading.Thread(target=work) for _ in range(4)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert together == [alone] * 4
