"""What a document is made of: sections of paragraphs, lists and tables, each known by a code."""

from __future__ import annotations

from enum import StrEnum, unique
from typing import NamedTuple


@unique
class SectionCode(StrEnum):
    """What a section is about, whatever its heading says; stable, for who places or finds it."""

    VERDICT = "verdict"
    FIRST_SCREEN = "first-screen"
    # the four steps of the work
    MARK = "mark"
    CUT = "cut"
    FASTEN = "fasten"
    SET = "set"
    # why, in a plan
    HEIGHTS = "heights"
    LEGS = "legs"
    SCREWS = "screws"
    STRENGTH = "strength"
    CHECKS = "checks"
    MATERIALS = "materials"
    ALTERNATIVES = "alternatives"
    SCHEMES = "schemes"
    FINDINGS = "findings"
    WORK = "work"
    CAUTIONS = "cautions"
    # the check on site
    TODO = "todo"
    STANDING = "standing"
    PROBLEM = "problem"
    CONTACT = "contact"
    LEGS_AFTER = "legs-after"
    POINTS = "points"
    SCREW_PLACES = "screw-places"
    WARNINGS = "warnings"
    TOLERANCE = "tolerance"
    # the takeoff
    LUMBER = "lumber"
    BLOCKING = "blocking"
    SCREWS_TO_BUY = "screws-to-buy"
    SHEETS = "sheets"
    PIECES = "pieces"
    SERVICES = "services"
    COST = "cost"
    SIDE_BY_SIDE = "side-by-side"
    UNUSED_PRICES = "unused-prices"
    SUMS = "sums"
    SUMS_COUNT = "sums-count"
    FAILING = "failing"
    UNCHECKED = "unchecked"
    SKIPPED = "skipped"
    CUT_LIST = "cut-list"


class Paragraph(NamedTuple):
    """Running text."""

    text: str


class Items(NamedTuple):
    """A list, each item a first word or two and its text."""

    items: tuple[tuple[str, str], ...]


class Grid(NamedTuple):
    """A table; numbers are already written as people read them."""

    headings: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


Block = Paragraph | Items | Grid


class Section(NamedTuple):
    """A heading and what stands under it; ``of`` tells apart those of one code."""

    code: SectionCode
    heading: str
    blocks: tuple[Block, ...]
    of: str = ""
