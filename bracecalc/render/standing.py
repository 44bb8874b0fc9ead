"""What stands, screw by screw, and what each remedy needs, in words."""

from __future__ import annotations

from collections.abc import Iterator

from bracecalc.records.job import Units
from bracecalc.records.plan import Item, Need
from bracecalc.records.scheme import ScrewState
from bracecalc.records.site import Remedy, SiteCheck
from bracecalc.render.sections import Grid, Paragraph, Section, SectionCode
from bracecalc.text.findings import Lengths, joined, used
from bracecalc.text.messages import Count
from bracecalc.text.screw_names import counter_size


def remedy_text(remedy: Remedy, lengths: Lengths) -> str:
    """Return a remedy with what it needs from the truck and what is to spare then."""
    parts = [remedy.text]
    if remedy.needs:
        needs = joined([_need(one, lengths) for one in remedy.needs])
        parts.append(lengths.say("fix.needs", needs=needs))
    if remedy.actions and remedy.worst_case_margin is not None:
        spare = lengths.down(remedy.worst_case_margin)
        if remedy.utilisation is None:
            parts.append(lengths.say("fix.then", spare=spare))
        else:
            share = used(remedy.utilisation)
            parts.append(lengths.say("fix.then-used", spare=spare, used=share))
    return ". ".join(parts)


def _need(need: Need, lengths: Lengths) -> str:
    item, size = need.item.value, need.size
    if need.item is Item.BLOCKING and need.length is not None:
        long = lengths.near(need.length)
        return lengths.say("fix.blocking", count=Count(need.count), size=size, length=long)
    if need.length is None:
        return lengths.say("fix.shim", count=Count(need.count), size=size)
    if need.item is Item.PLATE:
        corner = size.replace("_", " ")
        return lengths.say("fix.plate", thick=lengths.near(need.length), corner=corner)
    many = item if need.count == 1 else f"{item}s"
    return f"{need.count} {many}, {counter_size(item, size)} x {lengths.near(need.length)}"


def standing_section(check: SiteCheck, lengths: Lengths) -> Iterator[Section]:
    """Yield the screws of boards that are up, where any of them is in doubt."""
    states = check.standing
    if not any(one.fault is not None or one.close for one in states):
        return
    unit = "mm" if check.job.units is Units.MM else "in"
    headings = tuple(
        lengths.say(f"stands.{name}", unit=unit)
        for name in ("board", "screw", "from-left", "above", "into", "state")
    )
    rows = tuple(_row(one, lengths) for one in states)
    yield Section(
        SectionCode.STANDING,
        lengths.say("stands.title"),
        (Paragraph(lengths.say("stands.how")), Grid(headings, rows)),
    )


def _row(state: ScrewState, lengths: Lengths) -> tuple[str, ...]:
    screw = state.screw
    told = lengths.say("stands.holds")
    if state.fault is not None:
        told = lengths.say(f"stands.{state.fault.name}")
    elif state.close:
        told = lengths.say("stands.close")
    bare = (
        lengths.near(value).rsplit(" ", 1)[0]
        for value in (screw.length, screw.from_left, screw.above, max(0.0, state.embedment))
    )
    length, left, above, into = bare
    size = f"{counter_size(screw.kind, screw.size)} x {length}"
    return str(screw.board), size, left, above, into, told
