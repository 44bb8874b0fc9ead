"""The cut list on pages: every bar whole, every piece where it is cut, nothing too small."""

from __future__ import annotations

import re
from functools import lru_cache

import pytest
from ordering import niche, outcome, small_order
from pdfreading import letters, page_words
from sheetmaking import DAY

from bracecalc.drawing.cut_pages import cut_pages
from bracecalc.drawing.lettering import bare
from bracecalc.drawing.model import Drawing, Rect
from bracecalc.drawing.pdf import Leaf, make_pdf
from bracecalc.drawing.showing import Paper
from bracecalc.order.order import Order, make_order
from bracecalc.order.rules import OrderRules
from bracecalc.order.tally import Tally
from bracecalc.render.cut_list import saw_words, scaled_bars


@lru_cache(maxsize=1)
def many() -> Order:
    tally = Tally()
    for number in range(120):
        tally.add(niche(number), outcome(length=28 + number / 16))
    return make_order(tally, OrderRules(time_limit=1.0))


def pages_of(order: Order, paper: Paper) -> list[Drawing]:
    return cut_pages(scaled_bars(order), saw_words(order), date=DAY, paper=paper)


@pytest.mark.parametrize("paper", Paper)
def test_every_bar_is_on_a_page_whole_with_every_piece(paper: Paper) -> None:
    order = many()
    bars, pages = scaled_bars(order), pages_of(order, paper)
    assert len(pages) > 1
    found = [group for page in pages for group in page.groups if group.name == "bar"]
    assert [group.label for group in found] == [bar.heading for bar in bars]
    longest = max(bar.length for bar in bars)
    for bar, group in zip(bars, found, strict=True):
        rects = [item for item in group.items if isinstance(item, Rect)]
        (stick,) = [one for one in rects if one.name == "stick"]
        pieces = [one for one in rects if one.name == "piece"]
        long = stick.opposite[0] - stick.corner[0]
        whole = paper.size[0] - 2 * 30.0 - 14.0
        assert long == pytest.approx(whole * bar.length / longest)
        for piece, (start, length, _) in zip(pieces, bar.pieces, strict=True):
            at = (piece.corner[0] - stick.corner[0]) / long * bar.length
            end = (piece.opposite[0] - stick.corner[0]) / long * bar.length
            assert (at, end) == pytest.approx((start, start + length))
    for page in pages:
        lowest = max(text.box()[3] for text in page.texts())
        assert lowest <= page.height - 25.0


def test_the_pages_say_which_they_are_and_are_big_enough_to_read() -> None:
    pages = pages_of(many(), Paper.LETTER)
    data = make_pdf([Leaf(page) for page in pages], title="Cut list", date=DAY).data
    for number, words in enumerate(page_words(data), start=1):
        assert f"page {number} of {len(pages)}" in words
    assert min(letter.size for page in letters(data) for letter in page) >= 7.0


def test_the_words_under_a_bar_are_those_of_the_text() -> None:
    order = small_order()
    told = " ".join(bare(text.words) for page in pages_of(order, Paper.A4) for text in page.texts())
    for bar in scaled_bars(order):
        assert bar.heading in told
        for cut in re.findall(r"\d+ x [^,;]+", bar.below):
            assert cut in told
