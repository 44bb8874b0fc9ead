"""A file that tells two stories is too long: none of the package has over 400 lines."""

from __future__ import annotations

from pathlib import Path

PACKAGE = Path(__file__).parents[2] / "bracecalc"
MOST = 400


def test_no_module_is_longer_than_a_reader_keeps_in_mind() -> None:
    longer = {
        path.relative_to(PACKAGE).as_posix()
        for path in PACKAGE.rglob("*.py")
        if len(path.read_text(encoding="utf-8").splitlines()) > MOST
    }
    assert longer == set()
