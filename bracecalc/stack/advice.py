"""What is said of the schemes: which was chosen and why, what would help where none holds."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace

from bracecalc.records.job import Contact, Job, Screws
from bracecalc.records.plan import Demand, Finding
from bracecalc.records.scheme import Backing, Design, Lack, Layup, Reason, Scheme, Shortfall
from bracecalc.stack.check import governing
from bracecalc.stack.search import Found, Site, Tried, search
from bracecalc.text.findings import Lengths, fails, used
from bracecalc.text.screw_names import counter_name

LEAST_HELP = 0.01  # of the strength: less is not worth the saying
NUMBERS = {1: "one", 2: "two", 3: "three", 4: "four"}
LAID = {
    Layup.FLAT: "",
    Layup.AS_BUILT: "",
    Layup.THIN_LAST: ", the outermost a 1-by",
    Layup.EDGE_FIRST: ", the one at the wall on edge",
}


def design(site: Site, found: Found, given: Found | None) -> tuple[Design, Tried]:
    """Return the record of the search, and the scheme that the plan tells.

    Args:
        site: the niche.
        found: over every size that may be used.
        given: over the size that the job gives alone; None where it gives none.
    """
    lengths = Lengths(site.job)
    own = found if given is None else given
    chosen = own.strongest if own.holds is None else own.holds
    reason = Reason.CHEAPEST if given is None else Reason.SIZE_GIVEN
    if site.job.built is not None and site.job.built.boards:
        reason = Reason.AS_BUILT
    elif own.holds is None:
        reason = Reason.STRONGEST
    would = None
    if found.holds is not None and found.holds.scheme != chosen.scheme:
        eased = chosen.scheme.finish_cut or chosen.scheme.backing is Backing.BLOCKING
        would = found.holds.scheme if own.holds is None or eased else None
    others = _others(found, own, chosen)
    why = _why(lengths, reason, chosen.scheme, own)
    return (
        Design(
            chosen=chosen.scheme,
            reason=reason,
            why=why,
            would_hold=would,
            alternatives=tuple(tried.scheme for tried in others),
        ),
        chosen,
    )


def _others(found: Found, own: Found, chosen: Tried) -> tuple[Tried, ...]:
    """Return the schemes beside the chosen one, each once, in order of effort."""
    tried = {one.scheme: one for one in (*own.tried, *found.tried) if one is not chosen}
    tried.pop(chosen.scheme, None)
    order = {one.scheme: index for index, one in enumerate(found.tried)}
    return tuple(sorted(tried.values(), key=lambda one: order.get(one.scheme, -1)))


def _why(lengths: Lengths, reason: Reason, scheme: Scheme, own: Found) -> str:
    words = scheme_words(lengths, scheme)
    if reason is Reason.CHEAPEST:
        missed = _nearest_before(own)
        if missed is None:
            return f"{words}: the least effort that holds"
        return f"{words}: the least effort that holds; {_missed(lengths, missed, scheme)}"
    if reason is Reason.STRONGEST and scheme.shortfall is not None:
        return f"no scheme holds; the nearest is {words}: {shortfall_words(lengths, scheme)}"
    return f"{words}: {reason.value}"


def _nearest_before(own: Found) -> Scheme | None:
    """Return the scheme of less effort that comes nearest to holding."""
    before = []
    for tried in own.tried:
        if tried is own.holds:
            break
        before.append(tried)
    return min(before, key=lambda tried: tried.use).scheme if before else None


def _missed(lengths: Lengths, missed: Scheme, chosen: Scheme) -> str:
    name = _name(missed) if _name(missed) != _name(chosen) else scheme_words(lengths, missed)
    short = missed.shortfall
    if missed.use is not None and short is not None and short.lack is Lack.STRENGTH:
        return f"{name} would be {used(missed.use)} used"
    return f"{name}: {shortfall_words(lengths, missed)}"


def _name(scheme: Scheme) -> str:
    number = NUMBERS.get(scheme.boards, str(scheme.boards))
    name = f"{number} {scheme.board}{LAID[scheme.layup]}"
    if scheme.backing is Backing.BLOCKING:
        name += " on solid blocking"
    if scheme.finish_cut:
        name += " with the finish cut away behind them"
    return name


def scheme_words(lengths: Lengths, scheme: Scheme) -> str:
    """Return a scheme in words: boards, what they stand on, screws."""
    name = _name(scheme)
    if scheme.kind is None:
        return name
    screw = counter_name(scheme.kind.value, scheme.screw, scheme.length)
    at = "place" if scheme.backing is Backing.BLOCKING else "stud"
    sunk = f", sunk {lengths.near(scheme.counterbore)}" if scheme.counterbore > 0.0 else ""
    rows = scheme.per_place - scheme.boards + 1
    return f"{name}, {rows} x {screw} per {at}{sunk}"


def shortfall_words(lengths: Lengths, scheme: Scheme) -> str:
    """Return why a scheme isn't had, in words; its use where strength alone is short."""
    short = scheme.shortfall
    if short is None:
        return "" if scheme.use is None else f"{used(scheme.use)} used"
    if short.lack is Lack.STRENGTH:
        return (
            "" if scheme.use is None else f"{used(scheme.use)} used, limited by {scheme.limited_by}"
        )
    return _LACKS[short.lack](lengths, short, scheme)


def _screw_too_short(lengths: Lengths, short: Shortfall, scheme: Scheme) -> str:
    board = "the outermost board" if short.board == scheme.boards else f"board {short.board}"
    return (
        f"{board} needs a screw of {lengths.up(short.wanted or 0.0)} or more, the longest at hand "
        f"is {lengths.down(short.there or 0.0)}"
    )


def _does_not_seat(lengths: Lengths, short: Shortfall, scheme: Scheme) -> str:
    board = "the outermost board" if short.board == scheme.boards else f"board {short.board}"
    return (
        f"no screw at hand of {lengths.up(short.wanted or 0.0)} or a little more for {board} keeps "
        "its tip inside the stud with its thread filling it"
    )


def _covered(lengths: Lengths, short: Shortfall, scheme: Scheme) -> str:
    return (
        f"board {short.board} is covered by the next and needs a screw of its own of "
        f"{lengths.up(short.wanted or 0.0)} or a little more, whose head does not stand out"
    )


def _end_distance(lengths: Lengths, short: Shortfall, scheme: Scheme) -> str:
    return (
        f"the second stud is {lengths.down(short.there or 0.0)} from the board's end, screws need "
        f"{lengths.up(short.wanted or 0.0)}"
    )


_LACKS: dict[Lack, Callable[[Lengths, Shortfall, Scheme], str]] = {
    Lack.STUDS: lambda lengths, short, scheme: (
        "the boards meet fewer than two studs"
        if scheme.backing is Backing.STUDS
        else "the blocking has no room for two places of screws"
    ),
    Lack.END_DISTANCE: _end_distance,
    Lack.SCREW_TOO_SHORT: _screw_too_short,
    Lack.SCREW_DOES_NOT_SEAT: _does_not_seat,
    Lack.COVERED_BOARD: _covered,
    Lack.CROWDED: lambda lengths, short, scheme: "the screws have no room beside each other",
    Lack.SOFFIT: lambda lengths, short, scheme: (
        f"{lengths.near(short.wanted or 0.0)} of board has no room under the soffit"
    ),
    Lack.TOO_DEEP: lambda lengths, short, scheme: (
        f"{scheme.boards} boards, {short.there:.0f} are the most"
    ),
    Lack.NOT_COVERED: lambda lengths, short, scheme: (
        "the standard covers no screw at hand; one with its maker's values may do"
    ),
}


def no_screws(site: Site, tried: Tried, told: Design) -> tuple[Finding, ...]:
    """Return why a stack has no screws at all, and the scheme that would hold, if there is one."""
    scheme, lengths = tried.scheme, Lengths(site.job)
    if scheme.shortfall is None:
        return ()
    said = shortfall_words(lengths, scheme)
    text = f"{_name(scheme)}: {said}."
    code, remedy = _NO_SCREWS.get(scheme.shortfall.lack, _NO_SCREWS[Lack.SCREW_TOO_SHORT])
    if told.would_hold is not None:
        would = scheme_words(lengths, told.would_hold)
        remedy = f"Use {would}: {used(told.would_hold.use or 0.0)} used. {remedy}"
    return (fails(code, text[0].upper() + text[1:], remedy),)


_NO_SCREWS = {
    Lack.SCREW_TOO_SHORT: (
        "no-stock-screw-long-enough",
        "Carry lag screws or screws with published values of that length, or fur the wall out "
        "with solid blocking so that the stack gets thinner.",
    ),
    Lack.SCREW_DOES_NOT_SEAT: (
        "no-stock-screw-long-enough",
        "Carry screws of that length, or ones with published values.",
    ),
    Lack.COVERED_BOARD: (
        "no-stock-screw-long-enough",
        "Carry a screw of that length for the covered board.",
    ),
    Lack.NOT_COVERED: (
        "no-stock-screw-long-enough",
        "Carry screws that the standard covers, or give their maker's values.",
    ),
    Lack.CROWDED: ("no-stock-screw-long-enough", "Carry thinner screws, or use wider boards."),
    Lack.END_DISTANCE: (
        "too-few-studs",
        "Build solid blocking between the studs, or carry screws that need less end distance.",
    ),
    Lack.STUDS: (
        "too-few-studs",
        "Build solid blocking between the studs, behind the whole stack, before the wall is "
        "closed.",
    ),
    Lack.SOFFIT: (
        "no-restraint",
        "Use narrower boards, or have the soffit raised or made solid.",
    ),
    Lack.TOO_DEEP: (
        "stack-too-deep",
        "Fur the wall out with solid blocking between the studs, or set the unit farther back.",
    ),
}


def overstressed(site: Site, told: Design, demand: Demand, *, helps: bool) -> tuple[Finding, ...]:
    """Return the finding of a stack whose worst case asks for more than it holds."""
    worst = governing(demand.cases)
    if worst is None or worst.utilisation is None or worst.utilisation <= 1.0 + 1e-9:
        return ()
    lengths = Lengths(site.job)
    offered = []
    if told.would_hold is not None:
        words = scheme_words(lengths, told.would_hold)
        offered.append((f"use {words}: {used(told.would_hold.use or 0.0)} used", True))
    offered.extend(_helps(site, worst.utilisation) if helps else ())
    if not any(enough for _, enough in offered):
        offered.append(("have an engineer design the restraint", True))
    remedy = "; ".join(words for words, _ in offered)
    one_end = ""
    if site.job.rules.contact is Contact.ONE_END:
        one_end = " That is with contact at one end only: the shim at the other end matters."
    return (
        fails(
            "overstressed",
            f"In the {worst.name} case the stack must hold {lengths.force_up(worst.force)}; it "
            f"holds {lengths.force_down(worst.capacity or 0.0)} ({used(worst.utilisation)} used), "
            f"limited by {worst.limited_by}.{one_end}",
            remedy[0].upper() + remedy[1:] + ".",
        ),
    )


def _helps(site: Site, now: float) -> Iterator[tuple[str, bool]]:
    """Yield each change that lowers the use, in words, and whether it is enough by itself."""
    for words, changed in _changes(site.job):
        use = search(site._replace(job=changed), whole=False).strongest.use
        if use < now - LEAST_HELP:
            enough = use <= 1.0
            yield f"{words}: {used(use)} used" + ("" if enough else ", not enough"), enough


def _changes(job: Job) -> Iterator[tuple[str, Job]]:
    if job.rules.contact is Contact.ONE_END:
        rules = replace(job.rules, contact=Contact.BOTH_ENDS)
        yield "shim until paper just drags at both ends", replace(job, rules=rules)
    if job.screws.carried or job.screws.published:
        yield "with any stocked screw", replace(job, screws=Screws(washer=job.screws.washer))
    if not job.rules.even_contact:
        rules = replace(job.rules, even_contact=True)
        yield (
            "if the housing is shown to bear evenly front to back (rules.even_contact)",
            replace(job, rules=rules),
        )
