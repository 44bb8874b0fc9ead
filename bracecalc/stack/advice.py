"""What is said of the schemes: which was chosen and why, what would help where none holds."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from bracecalc.records.job import Contact, Job, Screws
from bracecalc.records.plan import Demand, Finding
from bracecalc.records.scheme import Backing, Design, Lack, Reason, Scheme
from bracecalc.stack.check import governing
from bracecalc.stack.search import Found, Site, Tried, search
from bracecalc.text.findings import Lengths, fails, used
from bracecalc.text.schemes import board_words, scheme_words, shortfall_words

LEAST_HELP = 0.01  # of the strength: less is not worth the saying


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
    """Return the schemes that are worth a comparison, in order of effort.

    Of each backing, with the finish and without: the best way with each board that holds, and of
    those that don't the nearest.
    """
    tried = {one.scheme: one for one in (*found.tried, *own.tried)}
    tried.pop(chosen.scheme, None)
    kept: dict[tuple[Backing, bool, str], Tried] = {}
    for one in tried.values():
        scheme = one.scheme
        kind = scheme.backing, scheme.finish_cut, scheme.board if scheme.holds else ""
        if kind not in kept or (not scheme.holds and one.use < kept[kind].use):
            kept[kind] = one
    worth = set(map(id, kept.values()))
    return tuple(one for one in tried.values() if id(one) in worth)


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
    name = (
        board_words(missed)
        if board_words(missed) != board_words(chosen)
        else scheme_words(lengths, missed)
    )
    short = missed.shortfall
    if missed.use is not None and short is not None and short.lack is Lack.STRENGTH:
        return f"{name} would be {used(missed.use)} used"
    return f"{name}: {shortfall_words(lengths, missed)}"


def no_screws(site: Site, tried: Tried, told: Design) -> tuple[Finding, ...]:
    """Return why a stack has no screws at all, and the scheme that would hold, if there is one."""
    scheme, lengths = tried.scheme, Lengths(site.job)
    if scheme.shortfall is None:
        return ()
    said = shortfall_words(lengths, scheme)
    text = f"{board_words(scheme)}: {said}."
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
        "Fur the wall out with solid blocking between the studs, or set the "
        "appliance farther back.",
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
            "if the appliance is shown to bear evenly front to back (rules.even_contact)",
            replace(job, rules=rules),
        )
