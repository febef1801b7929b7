"""Levels: the proven bound of first fit decreasing height, and counts read off charts."""

from __future__ import annotations

from fractions import Fraction

import pytest
from packings import INSTANCES

from cutpaths.cloth.packing.cuts import stages
from cutpaths.cloth.packing.items import Item
from cutpaths.cloth.packing.judge import faults
from cutpaths.cloth.packing.levels import pack_levels


@pytest.mark.parametrize("name", [name for name in INSTANCES if INSTANCES[name].pieces <= 300])
def test_levels_keep_their_proven_bound(name: str) -> None:
    """1.7 times the optimum plus the tallest piece (Coffman, Garey, Johnson, Tarjan 1980)."""
    instance = INSTANCES[name]
    items = instance.items(turn=False)
    plan = pack_levels(items, instance.width)
    tallest = max(item.height for item in items)
    assert faults(items, plan) == ()
    assert instance.optimum <= plan.height <= Fraction(17, 10) * instance.optimum + tallest
    assert stages(plan.cuts) <= 3


# Squares from a yard of 44 x 36, and from 18 x 22: quilter's math charts (2002), seen; without
# squaring-up losses. The printed 35 for squares of 7 is an erratum, 30 is right.
YARD = {"2": 396, "2.5": 238, "3.5": 120, "4": 99, "5": 56, "6.5": 30, "7": 30, "10": 12}
QUARTER = {"2.5": 56, "3.5": 30, "4.5": 16, "5": 12, "6": 9}


@pytest.mark.parametrize(
    ("width", "height", "side", "count"),
    [(44, 36, side, count) for side, count in YARD.items()]
    + [(22, 18, side, count) for side, count in QUARTER.items()],
)
def test_squares_from_a_piece_of_cloth_agree_with_printed_charts(
    width: int, height: int, side: str, count: int
) -> None:
    """So many squares come from it, and one more does not."""
    square = Fraction(side)
    fits, over = (
        pack_levels([Item(width=square, height=square, count=n)], width).height
        for n in (count, count + 1)
    )
    assert fits <= height < over


def test_sixty_three_squares_take_sixteen_strips() -> None:
    """63 of 9 1/2 in from 42: 4 a strip, 16 strips, 152 in (worked example of a quilting forum)."""
    side = Fraction(19, 2)
    plan = pack_levels([Item(width=side, height=side, count=63)], 42)
    assert plan.height == 152
    assert len({placed.y for placed in plan.placements}) == 16


def test_pieces_that_may_be_turned_lie_flat() -> None:
    """Three strips of 2 x 9 beside each other would stand 9 high; they lie 2 high each."""
    plan = pack_levels([Item(width=2, height=9, count=3, turn=True)], 10)
    assert plan.height == 6
    assert {placed.turned for placed in plan.placements} == {True}
