"""Every printed value against ours: half its last digit is the tolerance, and a row that does
not agree stays, with its reason, and must go on to differ."""

from __future__ import annotations

import math

import pytest

from published import handbooks, two_writings
from published.check import Check, Table
from published.make_page import PAGE, TABLES, page


@pytest.mark.parametrize(
    "check",
    [
        pytest.param(check, id=f"{table.name}, {check.where}")
        for table in TABLES
        for check in table.checks
    ],
)
def test_ours_rounds_to_the_printed_value(check: Check) -> None:
    assert math.isfinite(check.ours)
    if check.differs:
        assert not check.agrees, "it agrees now: take the reason away"
        assert abs(check.difference) < 2.0 * check.step, "it differs by more than was reported"
    else:
        assert check.agrees, f"printed {check.printed}, ours {check.ours}"


@pytest.mark.parametrize("table", TABLES, ids=lambda table: table.name)
def test_every_table_names_its_document(table: Table) -> None:
    assert table.reference
    assert table.put_in
    assert len({check.where for check in table.checks}) == len(table.checks)


@pytest.mark.parametrize("bound", handbooks.BOUNDS, ids=lambda bound: bound.where)
def test_design_withdrawal_is_a_fraction_of_the_ultimate(bound: handbooks.Bound) -> None:
    # 15,700 / 2,850 and 8,100 / 1,800
    expected = 4.50 if bound.where.startswith("lag") else 5.51
    assert bound.ours < bound.ultimate
    assert bound.ratio == pytest.approx(expected, abs=0.005)


@pytest.mark.parametrize("pair", two_writings.PAIRS, ids=lambda pair: pair.name)
def test_two_independent_writings_agree_at_gap_0(pair: two_writings.Pair) -> None:
    assert pair.joints > 100
    assert pair.worst_share < 1e-9


def test_the_page_is_current() -> None:
    assert PAGE.read_text(encoding="utf-8") == page(), (
        "docs/verification.md is stale: cd tests && python -m published.make_page"
    )
