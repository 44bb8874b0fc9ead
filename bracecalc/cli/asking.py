"""Asks for what was found on site, in the order of a walk with a tape, and loses no answer."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from pathlib import Path
from textwrap import wrap
from typing import Any, NamedTuple

import click

from bracecalc.errors import JobError, OutputError
from bracecalc.jobfile.as_found import read_as_found
from bracecalc.records.job import CORNERS, Job
from bracecalc.text.findings import Lengths
from bracecalc.text.messages import Count

WIDTH = 80
BACK = "back"
DOWN = "d "  # before readings down from a level line
SIDE = ".asked.toml"  # added to the job file's own name
BOARDS_UP, MORE = "boards_up", "more"  # questions that open others; no keys of [as_found]


class Question(NamedTuple):
    """One question of the walk.

    Attributes:
        key: of ``[as_found]``, or of a question that opens others; ``ask.`` and it names its words.
        planned: returns what the plan has there, as it would be typed; "" where it has nothing.
        after: the question whose yes opens this one; "" where it is always asked.
    """

    key: str
    planned: Callable[[Job, Lengths], str] = lambda job, lengths: ""
    after: str = ""

    @property
    def opens(self) -> bool:
        """Whether it only opens others."""
        return self.key in (BOARDS_UP, MORE)


def _corners(values: Mapping[str, float], lengths: Lengths) -> str:
    return "; ".join(lengths.near(values[corner]) for corner in CORNERS)


def _floor(job: Job, lengths: Lengths) -> str:
    return _corners(dict(zip(CORNERS, job.floor.spots, strict=True)), lengths)


def _studs(job: Job, lengths: Lengths) -> str:
    spots = job.wall.stud_spots
    return "by spacing" if spots is None else "; ".join(lengths.near(spot) for spot in spots)


def _layers(job: Job, lengths: Lengths) -> str:
    return "; ".join(f"{one.material} {lengths.near(one.thickness)}" for one in job.wall.layers)


def _soffit(job: Job, lengths: Lengths) -> str:
    return lengths.near(job.niche.lowest_soffit) if job.niche.soffit else "none"


# from the door to the wall, then what stands, then what is in the way
WALK = (
    Question("path_high"),
    Question("width", lambda j, n: n.near(j.niche.narrowest)),
    Question("depth", lambda j, n: n.near(j.niche.deepest)),
    Question("soffit", _soffit),
    Question("line"),
    Question("floor", _floor),
    Question("studs", _studs),
    Question("layers", _layers),
    Question(BOARDS_UP),
    Question("board", after=BOARDS_UP),
    Question("projection", after=BOARDS_UP),
    Question("fixed", after=BOARDS_UP),
    Question("fixed_at", after=BOARDS_UP),
    Question("legs"),
    Question("screws"),
    Question(MORE),
    Question("soffit_solid", after=MORE),
    Question("soffit_depth", after=MORE),
    Question("framing", after=MORE),
    Question("blocking", after=MORE),
    Question("board_start", after=MORE),
    Question("board_length", after=MORE),
    Question("twist", after=MORE),
    Question("seized", after=MORE),
    Question("trim", after=MORE),
    Question("unit_in", after=MORE),
)


def side_file(path: Path) -> Path:
    """Return where answers are kept of a walk that was stopped.

    >>> side_file(Path("niches/3b.toml")).name
    '3b.asked.toml'
    """
    return path.with_name(f"{path.stem}{SIDE}")


def ask(job: Job, raw: Mapping[str, Any], path: Path) -> dict[str, Any]:
    """Return what was measured, with an answer for each thing that was not given yet.

    Args:
        job: the plan's.
        raw: what is known already, by the keys of ``[as_found]``; it is not asked for.
        path: of the job file; answers of a walk that is stopped are kept beside it.

    Raises:
        OutputError: if the walk is stopped; the answers are in the side file then.
    """
    kept = side_file(path)
    walk = _Walk(job, raw)
    _say(walk.lengths.say("ask.how"))
    try:
        walk.answers.update(_taken_up(kept, walk.lengths))
        walk.go()
    except (click.Abort, EOFError):
        click.echo("", err=True)
        raise OutputError(_stopped(walk.answers, kept, walk.lengths)) from None
    kept.unlink(missing_ok=True)
    return walk.found()


class _Walk:
    """The questions one after the other, with a way back."""

    def __init__(self, job: Job, raw: Mapping[str, Any]) -> None:
        self.job = job
        self.raw = raw
        self.lengths = Lengths(job)
        self.answers: dict[str, str] = {}  # by key, as typed; "" where Enter kept the plan's

    def go(self) -> None:
        """Ask until every question has its answer."""
        asked: list[Question] = []
        while True:
            question = next((one for one in WALK if self._is_open(one)), None)
            if question is None:
                return
            answer = self._answer(question)
            if answer is None:
                if asked:
                    del self.answers[asked.pop().key]
                else:
                    _say(f"  {self.lengths.say('ask.first')}")
                continue
            self.answers[question.key] = answer
            asked.append(question)

    def _is_open(self, question: Question) -> bool:
        if question.key in self.raw or question.key in self.answers:
            return False
        return not question.after or self.answers.get(question.after) == "yes"

    def _answer(self, question: Question) -> str | None:
        """Return what was typed, "" for the plan's value, None to go back."""
        words = self.lengths.say(f"ask.{question.key}")
        planned = question.planned(self.job, self.lengths)
        offer = " [y/N]" if question.opens else f" [{planned}]" if planned else ""
        while True:
            text: str = click.prompt(
                f"{words}{offer}",
                default="",
                show_default=False,
                err=True,
            ).strip()
            if text.casefold() == BACK:
                return None
            if text == "?":
                _say(self.lengths.say("ask.how"))
            elif question.opens:
                if text.casefold() in ("", "n", "no", "y", "yes"):
                    return "yes" if text.casefold().startswith("y") else "no"
                _say("  y or n")
            elif not text or self._can_be_read(question.key, text):
                return text

    def _can_be_read(self, key: str, text: str) -> bool:
        tried = {key: _value(key, text)}
        if key == "floor" and "line" in self.found():
            tried["line"] = self.found()["line"]
        if key == "seized" and "legs" in self.found():
            tried["legs"] = self.found()["legs"]
        try:
            read_as_found(tried, self.job, wheres={key: ""})
        except JobError as error:
            for mistake in error.mistakes:
                _say(f"  read {mistake.read}; expected {mistake.right}")
            return False
        return True

    def found(self) -> dict[str, Any]:
        """Return what is known by the keys of ``[as_found]``."""
        opening = (BOARDS_UP, MORE)
        typed = {
            key: _value(key, text)
            for key, text in self.answers.items()
            if text and key not in opening
        }
        return {**self.raw, **typed}


def _value(key: str, text: str) -> Any:
    """Return an answer as ``[as_found]`` has it."""
    if key == "floor" and text[: len(DOWN)].casefold() == DOWN:
        return {"down_from_line": text[len(DOWN) :]}
    return text


def _say(text: str) -> None:
    indent = " " * (len(text) - len(text.lstrip()))
    for line in wrap(text, WIDTH, subsequent_indent=indent):
        click.echo(line, err=True)


def _taken_up(kept: Path, lengths: Lengths) -> dict[str, str]:
    """Return the answers of a walk that was stopped, where they are wanted again."""
    import tomllib

    if not kept.is_file():
        return {}
    try:
        answers = tomllib.loads(kept.read_text(encoding="utf-8"))
    except (OSError, ValueError):
        _say(f"  {kept}: it can't be read and is left alone.")
        return {}
    known = {one.key for one in WALK}
    answers = {key: str(value) for key, value in answers.items() if key in known}
    typed = sum(1 for text in answers.values() if text)
    question = lengths.say("ask.go-on", count=Count(typed))
    word: str = click.prompt(question, default="", show_default=False, err=True)
    return {} if word.strip().casefold().startswith("n") else answers


def _stopped(answers: Mapping[str, str], kept: Path, lengths: Lengths) -> str:
    """Keep the answers of a walk that is stopped, and return what to say of it."""
    from bracecalc.writing import write_whole

    if not any(answers.values()):
        return lengths.say("ask.nothing")
    # a TOML basic string is written as a JSON string
    lines = [f"{key} = {json.dumps(text)}" for key, text in answers.items()]
    write_whole(kept, "\n".join(lines) + "\n", force=True)
    return lengths.say("ask.stopped", file=kept)
