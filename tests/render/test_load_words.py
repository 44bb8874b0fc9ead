"""Load cases in words: each figure as the job gives it, each rule by its name."""

from __future__ import annotations

import pytest
from jobs import job, unit

from bracecalc.planning.plan import make_plan
from bracecalc.records.job import Earthquake, Job, Loads, Method, Units
from bracecalc.render.load_words import case_notes, moment_rows


def notes(given: Job) -> str:
    return " ".join(case_notes(make_plan(given)))


def test_the_child_at_the_door_is_said_to_be_an_analogy_with_its_factors() -> None:
    said = notes(job(loads=Loads(dynamic_factor=1.5, pull=10.0, pull_height=56.0)))
    assert "60 lbf at the outer edge of an open door, dynamic factor 1.5" in said
    assert "pull: 10 lbf outward at 56 in" in said
    assert "16 CFR 1261" in said
    assert "by analogy" in said
    assert "pull" not in notes(job(loads=Loads(pull=0.0)))


def test_the_minimum_is_said_to_be_no_published_figure() -> None:
    said = notes(job(unit=unit(weight=None), loads=Loads(minimum=120.0)))
    assert said.startswith("minimum: 120 lbf, whatever the appliance is.")
    assert "F3096-23" in said
    assert "child alone: a child of 60 lbf" in said
    assert "climb:" not in said  # it could not be worked out


@pytest.mark.parametrize("edition", ["7-16", "7-22"])
def test_the_edition_of_the_earthquake_is_named(edition: str) -> None:
    shaken = Earthquake(s_ds=0.5, edition=edition, h_f=2.0, r_mu=1.3, c_ar=1.0, r_po=1.5)
    said = notes(job(loads=Loads(earthquake=shaken)))
    assert (
        f"ASCE {edition} 13.3, S_DS 0.5; the horizontal force includes contents of 22 lbf" in said
    )


def test_what_tips_is_factored_by_eurocode_5_and_not_by_the_nds() -> None:
    assert (
        "0.6 of the empty appliance's weight resists tipping; overturning loads are taken in full"
        in notes(job())
    )
    metric = notes(job(units=Units.MM, loads=Loads(method=Method.EC5)))
    assert (
        "0.9 of the empty appliance's weight resists tipping; overturning loads are taken 1.5 times"
        in metric
    )
    assert "267 N times 1.5" in metric  # 60 lbf


def test_moments_are_shown_with_their_sign_and_unit() -> None:
    rows = list(moment_rows(make_plan(job())))
    inch = {what: moment for case, what, moment in rows if case == "climb"}
    # 22 x 14 + 36 x 13; 60 x 31; 0.6 x 540 x 9.5
    assert inch == {
        "doors and contents": "776 in-lbf",
        "child at the door's edge": "1860 in-lbf",
        "weight of the appliance": "-3078 in-lbf",
    }
    metric = list(moment_rows(make_plan(job(units=Units.MM))))
    assert ("climb", "child at the door's edge", "210 N m") in metric  # 1860 x 0.112985
