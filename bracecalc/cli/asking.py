"""Asks for what was found on site, one measurement after the other."""

from __future__ import annotations

from collections.abc import Mapping
from textwrap import wrap
from typing import Any

import click

from bracecalc.errors import JobError
from bracecalc.jobfile.as_found import read_as_found
from bracecalc.records.job import CORNERS, Job
from bracecalc.text.findings import Lengths

LINE = "line"
WIDTH = 80
HOW = (
    "Points stand between semicolons, as 33 1/4; 33 3/16. Several pulls of one length are joined "
    "by and, as 33 1/4 and 33 5/16."
)
DOWN = "d"


def ask(job: Job, raw: Mapping[str, Any]) -> dict[str, Any]:
    """Return what was measured, with an answer for each thing that was not given yet.

    An empty answer is "not measured". What can't be read is asked for again.
    """
    lengths, found = Lengths(job), dict(raw)
    _say("Enter for what was not measured. " + HOW)
    for key, question in _lines(job, lengths):
        if key not in found:
            _keep(found, key, _answer(job, key, question))
    if "floor" not in found:
        _ask_floor(job, found, lengths)
    if "board" not in found:
        left = _answer(job, "board", "Underside of the boards above the datum: left, right")
        _keep(found, "board", left)
    if "projection" not in found:
        _keep(
            found,
            "projection",
            _answer(job, "projection", "Finished wall to the face of the front board: left, right"),
        )
    if "screws" not in found:
        _keep(found, "screws", _answer(job, "screws", "Screws on the van, as 10 x 3 1/2"))
    if "legs" not in found:
        _keep_corners(job, found, "legs", "Leg screwed out so far")
    return found


def _say(text: str) -> None:
    indent = " " * (len(text) - len(text.lstrip()))
    for line in wrap(text, WIDTH, subsequent_indent=indent):
        click.echo(line, err=True)


def _lines(job: Job, lengths: Lengths) -> list[tuple[str, str]]:
    niche, wall = job.niche, job.wall
    asked = [
        ("width", f"Niche width at each point (plan {lengths.near(niche.narrowest)})"),
        ("depth", f"Niche depth at each point (plan {lengths.near(niche.deepest)})"),
    ]
    if niche.soffit:
        asked.append(
            (
                "soffit",
                f"Soffit above the datum at each point (plan {lengths.near(niche.lowest_soffit)})",
            )
        )
    spots = "" if wall.stud_spots is None else ", ".join(map(lengths.near, wall.stud_spots))
    asked.append(
        ("studs", f"Stud centres from the left side (plan {spots if spots else 'by spacing'})")
    )
    layers = ", ".join(f"{layer.material} {lengths.near(layer.thickness)}" for layer in wall.layers)
    asked.append(("layers", f"Wall from the room to the studs (plan {layers})"))
    return asked


def _ask_floor(job: Job, found: dict[str, Any], lengths: Lengths) -> None:
    line = _answer(
        job,
        LINE,
        "Floor read down from a line? Its height above the datum, or d where that is not known "
        "(Enter: heights above the datum)",
    )
    planned = dict(zip(CORNERS, job.floor.spots, strict=True))
    if line:
        answers = _corners(job, "Floor down from the line", {}, key="floor")
        floor: dict[str, Any] = {"floor": {"down_from_line": answers}}
        if line != DOWN:
            floor[LINE] = line
        if answers and _fits(job, floor):
            found.update(floor)
        return
    shown = {corner: f" (plan {lengths.near(height)})" for corner, height in planned.items()}
    answers = _corners(job, "Floor above the datum", shown, key="floor")
    if answers:
        found["floor"] = answers


def _fits(job: Job, floor: Mapping[str, Any]) -> bool:
    """Return whether the floor can be read so; else say why, and that it is left out."""
    try:
        read_as_found(floor, job)
    except JobError as error:
        for mistake in error.mistakes:
            _say(f"  read {mistake.read}; expected {mistake.right}")
        _say("  The floor is taken as not measured.")
        return False
    return True


def _keep_corners(job: Job, found: dict[str, Any], key: str, question: str) -> None:
    answers = _corners(job, question, {}, key=key)
    if answers:
        found[key] = answers


def _corners(job: Job, question: str, shown: Mapping[str, str], *, key: str) -> dict[str, str]:
    answers = {}
    for corner in CORNERS:
        words = f"{question}, {corner.replace('_', ' ')}{shown.get(corner, '')}"
        answer = _answer(job, key, words, corner=corner)
        if answer:
            answers[corner] = answer
    return answers


def _keep(found: dict[str, Any], key: str, answer: str) -> None:
    if answer:
        found[key] = answer


def _answer(job: Job, key: str, question: str, *, corner: str | None = None) -> str:
    while True:
        answer: str = click.prompt(question, default="", show_default=False, err=True).strip()
        if not answer or (key == LINE and answer.casefold() == DOWN):
            return answer.casefold()
        if answer == "?":
            _say(HOW)
            continue
        try:
            read_as_found(
                {key: answer if corner is None else {corner: answer}}, job, wheres={key: question}
            )
        except JobError as error:
            for mistake in error.mistakes:
                _say(f"  read {mistake.read}; expected {mistake.right}")
        else:
            return answer
