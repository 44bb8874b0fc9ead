"""Asks for what was found on site, one measurement after the other."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import click

from bracecalc.errors import JobError
from bracecalc.findings import Lengths
from bracecalc.reach import floor_spots
from bracecalc.readings import read_as_found
from bracecalc.records.job import Job
from bracecalc.records.plan import CORNERS

LINE = "line"


def ask(job: Job, raw: Mapping[str, Any]) -> dict[str, Any]:
    """Return what was measured, with an answer for each thing that was not given yet.

    An empty answer is "not measured". What can't be read is asked for again.
    """
    lengths, found = Lengths(job), dict(raw)
    click.echo(
        "Enter for what was not measured. Points go between commas; several pulls of one length "
        "are joined by and.",
        err=True,
    )
    for key, question in _lines(job, lengths):
        if key not in found:
            _keep(found, key, _answer(job, key, question))
    if "floor" not in found:
        _ask_floor(job, found, lengths)
    if "board" not in found:
        left = _answer(job, "board", "Underside of the boards above the datum: left, right")
        _keep(found, "board", left)
    if "projection" not in found:
        _keep(found, "projection", _answer(job, "projection", "Wall to the face of the boards"))
    if "screws" not in found:
        _keep(found, "screws", _answer(job, "screws", "Screws on the van, as 10 x 3 1/2"))
    if "legs" not in found:
        _keep_corners(job, found, "legs", "Leg screwed out now")
    return found


def _lines(job: Job, lengths: Lengths) -> list[tuple[str, str]]:
    niche, wall = job.niche, job.wall
    asked = [
        ("width", f"Niche width at each point (plan {lengths.near(min(niche.width))})"),
        ("depth", f"Niche depth at each point (plan {lengths.near(max(niche.depth))})"),
    ]
    if niche.soffit:
        asked.append(
            (
                "soffit",
                f"Soffit above the datum at each point (plan {lengths.near(min(niche.soffit))})",
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
        "Floor read down from a line? The line's height above the datum (Enter: heights above it)",
    )
    planned = dict(zip(CORNERS, floor_spots(job.floor), strict=True))
    if line:
        found[LINE] = line
        answers = _corners(job, "Floor down from the line", {}, key="floor")
        if answers:
            found["floor"] = {"down_from_line": answers}
        return
    shown = {corner: f" (plan {lengths.near(height)})" for corner, height in planned.items()}
    answers = _corners(job, "Floor above the datum", shown, key="floor")
    if answers:
        found["floor"] = answers


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
        if not answer:
            return ""
        try:
            read_as_found(
                {key: answer if corner is None else {corner: answer}}, job, wheres={key: question}
            )
        except JobError as error:
            click.echo(str(error), err=True)
        else:
            return answer
