"""Strips for many kits: close to a proven bound, every piece made, none too many."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from random import Random

import pytest
from hypothesis import given, settings
from packings import Problem, problems

from cutpaths.cloth.packing.cuts import pieces, stages
from cutpaths.cloth.packing.effort import Effort
from cutpaths.cloth.packing.items import Item
from cutpaths.cloth.packing.judge import pattern_faults
from cutpaths.cloth.packing.levels import pack_levels
from cutpaths.cloth.packing.patterns import pack_patterns
from cutpaths.cloth.packing.runs import Run, runs_of, trimmed
from cutpaths.values import replace

TWENTY = 20
CLOSE = 0.001  # share of the bound that a plan for many kits may be above it


def kit(seed: int, *, turn: bool) -> tuple[Item, ...]:
    """A kit of twenty pieces in six sizes on eighths of an inch, and a backing."""
    draw = Random(seed)  # noqa: S311 (a test)
    sizes = [
        (Fraction(draw.randint(12, 96), 8), Fraction(draw.randint(12, 96), 8)) for _ in range(6)
    ]
    counts = Counter(draw.randrange(6) for _ in range(TWENTY))
    squares = [
        Item(width=w, height=h, count=counts[k], turn=turn)
        for k, (w, h) in enumerate(sizes)
        if counts[k]
    ]
    return (*squares, Item(width=36, height=40))


@pytest.mark.parametrize("turn", [False, True], ids=["upright", "turned"])
@pytest.mark.parametrize("kits", [1000, 10_000])
def test_many_kits_come_within_a_thousandth_of_the_bound(kits: int, *, turn: bool) -> None:
    """Of plans of strips in three stages; each kit's pieces are there, and no more."""
    items = [replace(item, count=item.count * kits) for item in kit(3, turn=turn)]
    plan = pack_patterns(items, 42, effort=Effort(seconds=20.0, tries=30))
    assert pattern_faults(items, plan) == ()
    assert plan.bound <= plan.height
    assert plan.gap <= CLOSE
    assert max(stages(run.strip) for run in plan.runs) <= 2


def test_alike_squares_need_whole_strips_only() -> None:
    """801 squares of 5 from 42: 8 to a strip, 100 strips and one more for the last square."""
    plan = pack_patterns([Item(width=5, height=5, count=801)], 42)
    assert plan.height == plan.bound == 505
    assert sum(run.times for run in plan.runs) == 101


def test_low_pieces_are_stacked_where_that_saves_cloth() -> None:
    """Beside 8 x 8, two of 6 x 4 above one another fill a strip of 14: no waste at all."""
    items = [Item(width=8, height=8, count=500), Item(width=6, height=4, count=1000)]
    plan = pack_patterns(items, 14)
    assert plan.height == plan.bound == 4000


@settings(max_examples=8)
@given(problems())
def test_random_problems_are_planned_soundly(problem: Problem) -> None:
    """Small counts too, and no worse than levels."""
    plan = pack_patterns(problem.items, problem.width, effort=Effort(seconds=0.4))
    assert pattern_faults(problem.items, plan) == ()
    assert plan.height <= pack_levels(problem.items, problem.width).height


def test_pieces_beyond_the_demands_become_waste() -> None:
    """Four strips of three: with ten wanted one strip loses two, with nine it is not cut at all."""
    strip = pack_levels([Item(width=3, height=2, count=3)], 10).cuts
    for wanted, lengths in ((12, [3] * 4), (10, [3, 3, 3, 1]), (9, [3, 3, 3]), (4, [3, 1])):
        runs = trimmed([Run(4, strip)], [wanted])
        made = [len(list(pieces(run.strip))) for run in runs for _ in range(run.times)]
        assert sorted(made, reverse=True) == lengths
        assert {run.strip.height for run in runs} == {2}


def test_alike_strips_of_a_plan_are_one_run() -> None:
    """63 squares of 9 1/2 from 42: fifteen strips of four and one of three."""
    side = Fraction(19, 2)
    runs = runs_of(pack_levels([Item(width=side, height=side, count=63)], 42).cuts)
    assert [(run.times, run.makes) for run in runs] == [(15, {0: 4}), (1, {0: 3})]
