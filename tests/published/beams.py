"""T. G. Hicks, Civil Engineering Formulas, chapter 2: beams, figure 2.2.

Formulas of cases 2, 3 and 12, read page by page in a public copy, worked out here for one beam
each and held against the package's beam, which knows none of these cases.
"""

from __future__ import annotations

from bracecalc.mechanics.statics.beam import Diagram, beam_diagram
from bracecalc.mechanics.statics.sharing import stud_shares
from published.check import Check, Mark, Table
from published.sources import FORMULAS


def _reactions(supports: tuple[float, ...], at: float, load: float) -> tuple[float, ...]:
    return stud_shares(spots=supports, load=load, load_at=at)


def _drawn(supports: tuple[float, ...], at: float, load: float) -> Diagram:
    reactions = _reactions(supports, at, load)
    return beam_diagram(supports=supports, reactions=reactions, loads=((at, load),))


def _table(
    *, case: str, page: int, put_in: str, lines: tuple[tuple[str, float, float], ...]
) -> Table:
    return Table(
        name=f"Beam, {case}",
        source=FORMULAS,
        place=f"figure 2.2, page {page}",
        read="a copy of the book, page by page",
        put_in=put_in,
        unit="lbf, in-lbf",
        formula=True,
        checks=tuple(
            Check(where=where, printed=printed, ours=ours, step=1e-6, mark=Mark.SEEN)
            for where, printed, ours in lines
        ),
    )


def _case_2() -> Table:
    W, a, b = 90.0, 20.0, 40.0
    L = a + b
    ours = _reactions((0.0, L), a, W)
    return _table(
        case="case 2: one load anywhere between two supports",
        page=21,
        put_in="W 90 lbf, a 20 in, b 40 in",
        lines=(
            ("R = W b / L", W * b / L, ours[0]),
            ("R_1 = W a / L", W * a / L, ours[1]),
            ("M = W a b / L", W * a * b / L, _drawn((0.0, L), a, W).moment),
        ),
    )


def _case_3() -> Table:
    W, W_1, a, b, L = 90.0, 60.0, 15.0, 10.0, 60.0
    first = _reactions((0.0, L), a, W)
    second = _reactions((0.0, L), L - b, W_1)
    return _table(
        case="case 3: two unequal loads",
        page=22,
        put_in="W 90 lbf at a 15 in, W_1 60 lbf at b 10 in from the other end, L 60 in",
        lines=(
            ("R = (W (L - a) + W_1 b) / L", (W * (L - a) + W_1 * b) / L, first[0] + second[0]),
            ("R_1 = (W a + W_1 (L - b)) / L", (W * a + W_1 * (L - b)) / L, first[1] + second[1]),
        ),
    )


def _case_12() -> Table:
    W, a, L = 100.0, 12.0, 40.0
    supports = (a, a + L)
    ends = (0.0, a + L + a)
    both = [_reactions(supports, end, W / 2.0) for end in ends]
    return _table(
        case="case 12: two equal loads at the ends of overhangs",
        page=31,
        put_in="W 100 lbf in all, a 12 in, L 40 in",
        lines=(
            ("R = W / 2", W / 2.0, both[0][0] + both[1][0]),
            ("M = W a / 2", W * a / 2.0, _drawn(supports, 0.0, W / 2.0).moment),
        ),
    )


TABLES = (_case_2(), _case_3(), _case_12())
