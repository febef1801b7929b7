"""The exact simplex method against a solver from outside."""

from __future__ import annotations

from fractions import Fraction
from random import Random

import numpy as np
import pytest
from scipy.optimize import linprog

from cutpaths.cloth.packing.columns import Column
from cutpaths.cloth.packing.relaxation import Relaxation

SLACK = 1e-7


def columns(draw: Random, rows: int) -> list[Column]:
    """One for each row alone, and many that make several at once."""
    alone = [Column(draw.randint(1, 30), {row: draw.randint(1, 5)}) for row in range(rows)]
    mixed = [
        Column(
            draw.randint(5, 60),
            {row: draw.randint(1, 6) for row in draw.sample(range(rows), min(rows, 4))},
        )
        for _ in range(60)
    ]
    return [*alone, *mixed]


@pytest.mark.parametrize("seed", range(12))
def test_costs_are_those_of_scipy(seed: int) -> None:
    """The cheapest cover costs what scipy 1.11's linprog says, demand by demand met."""
    draw = Random(seed)  # noqa: S311 (a test)
    rows = draw.randint(1, 10)
    demands = [draw.randint(0, 60) for _ in range(rows)]
    cover, made = Relaxation(demands), columns(draw, rows)
    for column in made:
        cover.add(column)
    found = cover.relaxed()
    amounts = np.array([[float(c.makes.get(row, 0)) for c in made] for row in range(rows)])
    wanted = linprog([float(c.cost) for c in made], A_ub=-amounts, b_ub=[-d for d in demands])
    assert abs(float(found.cost) - wanted.fun) <= SLACK * max(1.0, wanted.fun)
    for row, demand in enumerate(demands):
        assert (
            sum(t * c.makes.get(row, 0) for t, c in zip(found.times, made, strict=True)) >= demand
        )


@pytest.mark.parametrize("seed", range(6))
def test_worth_proves_the_cost(seed: int) -> None:
    """No column is worth more than it costs, and demands are worth what the cover costs."""
    draw = Random(100 + seed)  # noqa: S311 (a test)
    demands = [draw.randint(1, 40) for _ in range(6)]
    cover, made = Relaxation(demands), columns(draw, 6)
    for column in made:
        cover.add(column)
    found = cover.relaxed()
    assert sum(d * w for d, w in zip(demands, found.worth, strict=True)) == found.cost
    for column in made:
        assert sum(found.worth[row] * n for row, n in column.makes.items()) <= column.cost


def test_columns_that_may_be_used_only_so_often() -> None:
    """Ten wanted, four of them free: six are paid for."""
    cover = Relaxation([10, -4])
    cover.add(Column(3, {0: 1}))
    cover.add(Column(0, {0: 1, 1: -1}))
    found = cover.relaxed()
    assert found.cost == 18
    assert found.times == (6, 4)


def test_columns_may_come_later() -> None:
    """A cheaper column that is added after a solution is put to use."""
    cover = Relaxation([9])
    cover.add(Column(2, {0: 1}))
    assert cover.relaxed().cost == 18
    cover.add(Column(5, {0: 4}))
    assert cover.relaxed().cost == Fraction(45, 4)
