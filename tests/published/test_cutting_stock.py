"""The cut plan finds and proves the known optimum of the literature's examples."""

from __future__ import annotations

import pytest

from bracecalc.cutting import CutTask, Piece, Saw, StickKind, plan_cuts
from published.cutting_instances import INSTANCES, PAPER_MACHINE, PAPER_MACHINE_WASTE, Instance


@pytest.mark.parametrize("instance", INSTANCES, ids=lambda instance: instance.name)
def test_the_known_optimum_is_found_and_proven(instance: Instance) -> None:
    task = CutTask(
        pieces=tuple(
            Piece(length=length, count=count) for length, count in instance.demand.items()
        ),
        sticks=(StickKind(length=instance.stick, price=1),),
        saw=Saw(kerf=0),
    )
    plan = plan_cuts(task, time_limit=10.0)
    assert (plan.cost, plan.bound) == (instance.optimum, instance.optimum)


def test_waste_of_the_paper_machine_example() -> None:
    wanted = sum(length * count for length, count in PAPER_MACHINE.demand.items())
    waste = 100 * (1 - wanted / (PAPER_MACHINE.stick * PAPER_MACHINE.optimum))
    assert waste == pytest.approx(PAPER_MACHINE_WASTE, abs=0.0005)
