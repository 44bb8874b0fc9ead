"""Golden files: whole output kept beside the tests, renewed by one command and read by a person.

BRACECALC_RENEW=1 python -m pytest tests/cli
"""

from __future__ import annotations

import os
from pathlib import Path

RENEW = "BRACECALC_RENEW"


def agrees(path: Path, text: str) -> None:
    """Assert that a text is what the golden file holds; write it there when asked to renew."""
    if os.environ.get(RENEW) == "1":
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8", newline="\n")
    assert path.read_text(encoding="utf-8") == text, f"read the difference, then {RENEW}=1"
