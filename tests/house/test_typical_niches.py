"""Typical niches get a plan that holds, or the true reason; the page says what they get."""

from __future__ import annotations

from house.make_typical_niches_page import PAGE, holds, page, plans


def test_the_page_is_current() -> None:
    assert PAGE.read_text(encoding="utf-8") == page(), (
        "stale: python tests/house/make_typical_niches_page.py"
    )


def test_nearly_every_niche_with_two_usable_studs_holds() -> None:
    met = [plan for plan in plans().values() if plan.studs is not None and plan.studs.sure >= 2]
    assert sum(map(holds, met)) >= 0.95 * len(met)


def test_every_other_says_that_it_has_too_few_studs() -> None:
    for plan in plans().values():
        if plan.studs is not None and plan.studs.sure < 2:
            assert "too-few-studs" in {finding.code for finding in plan.findings}
