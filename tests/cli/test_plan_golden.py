"""The whole output of ``bracecalc plan`` for every demo job, read by a person when it changes."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner
from golden import agrees

from bracecalc.cli.main import group

GOLDEN = Path(__file__).parent / "golden" / "plan"
SCREENS = GOLDEN.parent / "screen"
DEMO = Path(__file__).parents[2] / "data" / "demo"
DEMOS = sorted(path.stem for path in DEMO.glob("*.toml"))
MAIN = "3b-kitchen"
OTHERS = {
    f"{MAIN}-explain": ("--explain",),
    f"{MAIN}-markdown": ("--format", "markdown", "--full"),
    f"{MAIN}-json": ("--format", "json"),
    f"{MAIN}-csv": ("--format", "csv"),
    f"{MAIN}-mm": ("--units", "mm", "--full"),
}


def shown(demo: str, *options: str) -> str:
    result = CliRunner().invoke(group, ["plan", str(DEMO / f"{demo}.toml"), *options])
    assert result.exit_code in (0, 1)
    return f"exit {result.exit_code}\n--- out\n{result.stdout}--- err\n{result.stderr}"


@pytest.mark.parametrize("demo", DEMOS)
def test_every_demo_job_whole(demo: str) -> None:
    agrees(GOLDEN / f"{demo}.txt", shown(demo, "--full"))


@pytest.mark.parametrize("demo", DEMOS)
def test_the_first_screen_of_every_demo_job(demo: str) -> None:
    told = shown(demo)
    agrees(SCREENS / f"{demo}.txt", told)
    lines = told.split("--- out\n")[1].split("--- err")[0].splitlines()
    assert len(lines) <= 40 if demo == MAIN else 60
    assert max(map(len, lines)) <= 80


@pytest.mark.parametrize("name", OTHERS)
def test_the_main_demo_job_in_its_other_forms(name: str) -> None:
    agrees(GOLDEN / f"{name}.txt", shown(MAIN, *OTHERS[name]))


def test_no_golden_file_is_left_over() -> None:
    kept = {path.stem for path in GOLDEN.glob("*")}
    assert kept == {*DEMOS, *OTHERS}
