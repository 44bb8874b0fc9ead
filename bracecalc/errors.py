"""The errors that a user can cause; everything else is a fault of ours.

Imports nothing of bracecalc.
"""

from __future__ import annotations

from dataclasses import dataclass


class BraceError(Exception):
    """Base of every error that bracecalc raises about its input."""


@dataclass(frozen=True, slots=True)
class Mistake:
    """One thing that is wrong in the input.

    Attributes:
        where: file, row or option in which it stands, as the user named it.
        key: path of the key, as ``niche.width``; empty where the whole file is meant.
        read: what was read there, as text.
        right: what would be right, in words.

    >>> print(Mistake("niche.toml", "niche.width", "'33 ib'", "a length, as '33 1/4 in'"))
    niche.toml: niche.width: read '33 ib'; expected a length, as '33 1/4 in'
    """

    where: str
    key: str
    read: str
    right: str

    def __str__(self) -> str:
        place = ": ".join(part for part in (self.where, self.key) if part)
        read = f"read {self.read}; " if self.read else ""
        line = f"{place}: {read}expected {self.right}"
        if line.isprintable():
            return line
        # what a file holds must not steer the terminal that it is told on
        return "".join(
            sign if sign.isprintable() else sign.encode("unicode_escape").decode() for sign in line
        )


class JobError(BraceError):
    """The input can't be used; carries every mistake that was found in it."""

    def __init__(self, *mistakes: Mistake) -> None:
        self.mistakes = mistakes
        super().__init__("\n".join(str(mistake) for mistake in mistakes))


class TableError(JobError):
    """A reference table, ours or the user's, can't be used."""


class OutputError(BraceError):
    """The output can't be written; nothing was."""
