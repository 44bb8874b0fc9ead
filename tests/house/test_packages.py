"""What is installed has every package: a folder that setup.cfg forgets is missed by users alone."""

from __future__ import annotations

from configparser import ConfigParser
from pathlib import Path

PROJECT = Path(__file__).parents[2]


def test_setup_lists_every_package() -> None:
    told = ConfigParser()
    told.read(PROJECT / "setup.cfg")
    listed = set(told["options"]["packages"].split())
    folders = {path.parent for path in (PROJECT / "bracecalc").rglob("__init__.py")}
    there = {".".join(folder.relative_to(PROJECT).parts) for folder in folders}
    assert listed - {"bracecalc.data", "bracecalc.data.demo"} == there
