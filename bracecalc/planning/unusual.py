"""Values of a job that can be, but seldom are: told, so that a slip is read again."""

from __future__ import annotations

from collections.abc import Sequence

from bracecalc.jobfile.limits import usual_in_words
from bracecalc.jobfile.numbers import Number
from bracecalc.records.job import Units
from bracecalc.records.plan import Finding
from bracecalc.text.findings import warns

MOST_NAMED = 6


def unusual_findings(numbers: Sequence[Number], units: Units) -> tuple[Finding, ...]:
    """Return one finding that names each unusual value beside what is usual; none without any.

    >>> from bracecalc.records.keys import keys_of
    >>> from bracecalc.records.job import Niche
    >>> wide = Number("niche.width.1", 100.0, keys_of(Niche)[0])
    >>> unusual_findings([wide], Units.INCH)[0].text
    'Unusual: niche.width.1 is 100 in; usually 18 in to 84 in.'
    """
    if not numbers:
        return ()
    named = [
        f"{each.path} is {usual_in_words(each.value, each.key, units)}"
        for each in numbers[:MOST_NAMED]
    ]
    if len(numbers) > MOST_NAMED:
        named.append(f"{len(numbers) - MOST_NAMED} more")
    remedy = "Read each again, its unit too. If it is so, nothing need be done."
    return (warns("unusual-value", f"Unusual: {'. '.join(named)}.", remedy),)
