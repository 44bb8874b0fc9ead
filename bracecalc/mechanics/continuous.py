"""A straight beam of one section on any number of supports: reactions, moments and shears."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple


class Diagram(NamedTuple):
    """Greatest moment and shear of one load, where they are, and both at each support."""

    moment: float
    moment_at: float
    shear: float
    shear_at: float
    support_moments: tuple[float, ...]
    support_shears: tuple[float, ...]


def beam_reactions(
    *, supports: Sequence[float], left: float, right: float, load: float
) -> tuple[float, ...]:
    """Return the reactions of a straight beam of one section on supports that don't give.

    Args:
        supports: from any one origin, in; rising, at least two.
        left: where the load begins, in.
        right: where it ends, in; the same as left for a load at one point.
        load: in all, spread evenly, F, lbf.

    Returns:
        Reaction of each support, lbf. Below 0 where it holds the beam against the load's way.

    Raises:
        ValueError: if a value is not finite or out of its range.

    Equation: M_(k-1) L_k + 2 M_k (L_k + L_(k+1)) + M_(k+1) L_(k+1) = -(load terms of both spans)
    Source: Clapeyron's theorem of three moments.

    >>> beam_reactions(supports=(0.0, 10.0, 20.0), left=0.0, right=20.0, load=160.0)
    (30.0, 100.0, 30.0)
    """
    _check_beam(supports, left, right, load)
    spans = [after - here for here, after in pairwise(supports)]
    parts = [_on_span(left, right, load, start, after) for start, after in pairwise(supports)]
    before = _on_span(left, right, load, -math.inf, supports[0])
    beyond = _on_span(left, right, load, supports[-1], math.inf)
    moments = [0.0] * len(supports)
    moments[0] = -before.load * (supports[0] - before.middle)
    moments[-1] = -beyond.load * (beyond.middle - supports[-1])
    _solve_three_moments(spans, parts, moments)
    reactions = [0.0] * len(supports)
    reactions[0] += before.load
    reactions[-1] += beyond.load
    for k, (span, part) in enumerate(zip(spans, parts, strict=True)):
        turned = (moments[k + 1] - moments[k]) / span
        to_right = part.load * (part.middle - supports[k]) / span if part.load else 0.0
        reactions[k] += part.load - to_right + turned
        reactions[k + 1] += to_right - turned
    return tuple(reactions)


class _Part(NamedTuple):
    """The part of the load on one span: its amount, its middle and the two load terms."""

    load: float
    middle: float
    to_left: float
    to_right: float


_NOTHING = _Part(0.0, 0.0, 0.0, 0.0)


def _on_span(left: float, right: float, load: float, start: float, end: float) -> _Part:
    """Cut the load to one span. A load at a support acts on the span to its right, or beyond."""
    if left == right:
        if not start <= left < end:
            return _NOTHING
        if math.isinf(start) or math.isinf(end):
            return _Part(load, left, 0.0, 0.0)
        span = end - start
        near, far = left - start, end - left
        return _Part(
            load,
            left,
            load * far * (span * span - far * far) / span,
            load * near * (span * span - near * near) / span,
        )
    cut_left, cut_right = max(left, start), min(right, end)
    if cut_left >= cut_right:
        return _NOTHING
    line = load / (right - left)
    part, middle = line * (cut_right - cut_left), (cut_left + cut_right) / 2.0
    if math.isinf(start) or math.isinf(end):
        return _Part(part, middle, 0.0, 0.0)
    span = end - start
    return _Part(
        part,
        middle,
        line * (_term(end - cut_left, span) - _term(end - cut_right, span)),
        line * (_term(cut_right - start, span) - _term(cut_left - start, span)),
    )


def _term(distance: float, span: float) -> float:
    """Integral of a (L^2 - a^2) / L from 0 to the distance."""
    square = distance * distance
    return square * (span * span / 2.0 - square / 4.0) / span


def _solve_three_moments(
    spans: Sequence[float], parts: Sequence[_Part], moments: list[float]
) -> None:
    """Fill in the moments over the inner supports; the outer two are given."""
    inner = len(moments) - 2
    diagonal, right_side = [0.0] * inner, [0.0] * inner
    for k in range(inner):
        diagonal[k] = 2.0 * (spans[k] + spans[k + 1])
        right_side[k] = -parts[k].to_right - parts[k + 1].to_left
    if inner:
        right_side[0] -= spans[0] * moments[0]
        right_side[-1] -= spans[-1] * moments[-1]
    for k in range(1, inner):
        factor = spans[k] / diagonal[k - 1]
        diagonal[k] -= factor * spans[k]
        right_side[k] -= factor * right_side[k - 1]
    for k in reversed(range(inner)):
        known = spans[k + 1] * moments[k + 2] if k + 1 < inner else 0.0
        moments[k + 1] = (right_side[k] - known) / diagonal[k]


def beam_diagram(
    *,
    supports: Sequence[float],
    reactions: Sequence[float],
    left: float,
    right: float,
    load: float,
) -> Diagram:
    """Return the greatest moment and shear of a beam whose reactions balance its load.

    Args:
        supports: from any one origin, in; rising, at least two.
        reactions: of the supports, lbf; in the same order, in balance with the load.
        left: where the load begins, in.
        right: where it ends, in; the same as left for a load at one point.
        load: in all, spread evenly, F, lbf.

    Returns:
        Greatest bending moment, in-lbf. With it the shear and the values at each support.

    Raises:
        ValueError: if a value is not finite or out of its range.

    Equation: V(x) = load - reactions to the left of x, M(x) = integral of V
    Source: statics.

    >>> beam_diagram(supports=(0, 10), reactions=(40, 40), left=0, right=10, load=80).moment
    100.0
    """
    _check_beam(supports, left, right, load)
    line = load / (right - left) if right > left else 0.0
    pulls = dict(zip(supports, reactions, strict=True))
    moment = moment_at = shear_at = greatest_moment = shear = greatest_shear = 0.0
    support_moments, support_shears = [], []
    last = min(left, supports[0])
    for place in sorted({*supports, left, right}):
        pressed = line if left <= last < right else 0.0
        step = place - last
        if pressed and shear < 0.0 < shear + pressed * step:  # moment peaks where shear is 0
            peak = abs(moment - shear * shear / (2.0 * pressed))
            if peak > greatest_moment:
                greatest_moment, moment_at = peak, last - shear / pressed
        moment += shear * step + pressed * step * step / 2.0
        shear += pressed * step
        before = shear
        if place == left == right:
            shear += load
        shear -= pulls.get(place, 0.0)
        if abs(moment) > greatest_moment:
            greatest_moment, moment_at = abs(moment), place
        sheared = max(abs(before), abs(shear))
        if sheared > greatest_shear:
            greatest_shear, shear_at = sheared, place
        if place in pulls:
            support_moments.append(abs(moment))
            support_shears.append(sheared)
        last = place
    return Diagram(
        greatest_moment,
        moment_at,
        greatest_shear,
        shear_at,
        tuple(support_moments),
        tuple(support_shears),
    )


def _check_beam(supports: Sequence[float], left: float, right: float, load: float) -> None:
    if len(supports) < 2:
        raise ValueError(f"supports must be at least two, got {supports!r}")
    if not all(map(math.isfinite, (*supports, left, right, load))):
        raise ValueError(f"must be finite, got {supports!r}, {left!r}, {right!r}, load {load!r}")
    if any(here >= after for here, after in pairwise(supports)):
        raise ValueError(f"supports must rise, got {supports!r}")
    if left > right:
        raise ValueError(f"left must not be past right, got {left!r}, {right!r}")
