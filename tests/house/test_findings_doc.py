"""docs/findings.md lists every code that the program can say, and no other."""

from __future__ import annotations

import re
from pathlib import Path

from bracecalc.stack.standing import CODES

ROOT = Path(__file__).parents[2]


def test_every_code_stands_in_the_docs() -> None:
    said = {
        code
        for path in (ROOT / "bracecalc").rglob("*.py")
        for found in re.findall(
            r"\b(?:fails|warns|notes)\(\s*\"([a-z-]+)\"|\"(opening-too-[a-z]+)\"",
            path.read_text(encoding="utf-8"),
        )
        for code in found
        if code
    }
    said |= set(CODES.values())  # said by what is wrong with a screw
    page = (ROOT / "docs" / "findings.md").read_text(encoding="utf-8")
    firsts = [line.split("|")[1] for line in page.splitlines() if line.startswith("|")]
    listed = {code for first in firsts for code in re.findall(r"`([a-z-]+)`", first)}
    assert said == listed
