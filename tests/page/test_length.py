"""The keypad writes what the engine reads, whatever keys are pressed."""

from __future__ import annotations

import json
import shutil
import subprocess
from pathlib import Path

import pytest
from page.conftest import missing

from bracecalc.page.build import SITE
from bracecalc.text.lengths import QuantityError, Units, parse_length

SCRIPT = Path(__file__).with_name("keys_in_node.mjs")
KEYS = 6
# by hand: what a person means by the keys
MEANT = {
    "3 3 7/8 sixteenth sixteenth": "34",
    "3 3 7/8 sixteenth": "33 15/16",
    "7 feet 1 1 7/8 sixteenth sixteenth": "8' 0",
    "1/8 minus": "-1/8",
    "minus 7 feet 2": "-7' 2",
    "minus 7 feet 2 1/2 minus": "7' 2 1/2",
    "8 4 . 5 1/8": "84.5",
    "8 4 . 5 sixteenth": "84.5",
    "8 4 1/8 3": "84 1/8",
    "8 4 1/8 3/8": "84 3/8",
    "8 4 . 5 . 5": "84.55",
    "7 feet 1 2": "7' 1",
    "7 feet feet": "7' ",
    "feet 7": "7",
    "8 4 1/8 delete delete": "8",
    "7 feet 2 delete delete": "7",
    "0 0 5": "5",
    ". 5": "0.5",
    "9 9 9 9 9": "9999",
    "9 9 9 9 7/8 sixteenth sixteenth": "9999 15/16",
}


def node(*arguments: str) -> str:
    command = shutil.which("node")
    if command is None:
        missing("no Node to run the page's scripts")
        raise AssertionError
    done = subprocess.run(
        [command, str(SCRIPT), str(SITE / "js"), *arguments],
        capture_output=True,
        text=True,
        encoding="utf-8",
        check=True,
        timeout=300,
    )
    return done.stdout


def test_a_sequence_of_keys_writes_what_is_meant() -> None:
    wrote = json.loads(node("these", "in", json.dumps([keys.split() for keys in MEANT])))
    assert dict(zip(MEANT, wrote, strict=True)) == MEANT


@pytest.mark.parametrize("unit", ["in", "mm"])
def test_every_sequence_of_keys_reads_as_the_engine_reads_it(unit: str) -> None:
    """Every text that up to six keys can write: the same value, or refused by both."""
    differing, read = [], 0
    for line in node("all", unit, str(KEYS)).splitlines():
        stored, _, ours = line.partition("\t")
        if not stored:
            continue
        try:
            engine: float | None = parse_length(stored, units=Units.INCH)
        except QuantityError:
            engine = None
        upper, _, lower = ours.partition("/")
        mine = int(upper) / int(lower) if ours else None
        read += mine is not None
        if mine != engine:
            differing.append((stored, mine, engine))
    assert differing[:20] == []
    assert read > 100_000
