"""The README shows what the program prints, and its links lead somewhere."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from pathlib import Path

from bracecalc.jobfile.read import parse_job
from bracecalc.planning.plan import make_plan
from bracecalc.records.plan import Verdict

ROOT = Path(__file__).parents[2]
README = ROOT / "README.md"
BLOCK = re.compile(r"(<!-- demo -->\n)(.*?)(<!-- /demo -->)", re.DOTALL)


def demo_output() -> str:
    command = [sys.executable, "-m", "bracecalc", "plan", "data/demo/3b-kitchen.toml"]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=True)
    return "".join(f"    {line}".rstrip() + "\n" for line in ["", *done.stdout.splitlines()])


def test_the_demo_is_what_the_program_prints() -> None:
    text = README.read_text(encoding="utf-8")
    wanted = demo_output()
    if os.environ.get("BRACECALC_RENEW"):
        README.write_text(BLOCK.sub(rf"\g<1>{wanted}\g<3>", text), encoding="utf-8")
        return
    found = BLOCK.search(text)
    assert found is not None
    assert found[2] == wanted


def test_links_lead_to_files() -> None:
    for page in [README, ROOT / "DEVELOPERS.md", *sorted((ROOT / "docs").glob("*.md"))]:
        for target in re.findall(r"\]\(([^)#]+)\)", page.read_text(encoding="utf-8")):
            if "://" not in target:
                assert (page.parent / target).exists(), f"{page.name}: {target}"


def test_the_job_that_the_readme_shows_holds() -> None:
    """A reader who types it off gets a plan to build, with what is open named."""
    text = README.read_text(encoding="utf-8")
    block = text[text.index('    title = "Kitchen') :].split("\n\nLengths are written")[0]
    lines = [line[4:] if line.startswith("    ") else line for line in block.splitlines()]
    assert len([line for line in lines if line.strip()]) <= 12
    plan = make_plan(parse_job("\n".join(lines), where="README.md"))
    assert plan.verdict is not Verdict.FAILS
    assert plan.open
