"""Cuts from edge to edge: published instances, random problems, and the trees of cuts."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from packings import INSTANCES, QUICK, SMALL, Problem, problems

from cutpaths.cloth.packing.bounds import lower_bounds
from cutpaths.cloth.packing.cuts import Cut, Way, stages
from cutpaths.cloth.packing.effort import Effort
from cutpaths.cloth.packing.guillotine import pack_guillotine
from cutpaths.cloth.packing.items import Item
from cutpaths.cloth.packing.judge import faults
from cutpaths.cloth.packing.levels import pack_levels
from cutpaths.cloth.packing.plan import Method
from cutpaths.cloth.packing.slicing import Cutting

CUTTINGS = pytest.mark.parametrize("cutting", list(Cutting), ids=lambda each: each.name)


@CUTTINGS
@pytest.mark.parametrize("name", SMALL)
def test_published_instances_are_cut_soundly_and_never_under_the_optimum(
    name: str, cutting: Cutting
) -> None:
    """Sound, no lower than the optimum of the paper in the fixture and no higher than levels."""
    instance = INSTANCES[name]
    items = instance.items(turn=False)
    plan = pack_guillotine(items, instance.width, cutting=cutting, effort=QUICK)
    assert faults(items, plan) == ()
    assert instance.optimum <= plan.height <= pack_levels(items, instance.width).height


@CUTTINGS
@settings(max_examples=40)
@given(problem=problems())
def test_random_problems_are_cut_soundly(problem: Problem, cutting: Cutting) -> None:
    """In three stages where strips are asked for, and never under a bound."""
    plan = pack_guillotine(problem.items, problem.width, cutting=cutting, effort=QUICK)
    assert faults(problem.items, plan) == ()
    assert plan.height >= lower_bounds(problem.items, problem.width)[0].height
    if cutting is Cutting.STRIPS and isinstance(plan.cuts, Cut):
        assert stages(plan.cuts) <= 3
        assert plan.cuts.way is Way.ACROSS or stages(plan.cuts) <= 2


@pytest.mark.parametrize("name", ["C1_1", "C3_3", "BKW2"])
def test_a_short_search_comes_within_a_tenth_of_published_optima(name: str) -> None:
    """With any number of cuts from edge to edge, turning allowed."""
    instance = INSTANCES[name]
    items = instance.items(turn=True)
    plan = pack_guillotine(
        items,
        instance.width,
        cutting=Cutting.EDGE_TO_EDGE,
        effort=Effort(seconds=None, tries=500),
    )
    assert plan.method is Method.EDGE_TO_EDGE
    assert plan.height <= instance.optimum * Fraction(11, 10)


def test_strips_are_mixed_where_that_saves_cloth() -> None:
    """Three squares of 5 beside three of 7, eight in a strip of their own: 7 + 5, not 7 + 5 + 5."""
    items = [Item(width=7, height=7, count=3), Item(width=5, height=5, count=11)]
    plan = pack_guillotine(items, 40, effort=Effort(seconds=None, tries=200))
    assert plan.height == 12
    assert faults(items, plan) == ()


def test_low_pieces_of_one_width_are_stacked_in_a_strip() -> None:
    """Two of 6 x 4 lie above one another beside 8 x 8, cut free in the third stage."""
    items = [Item(width=8, height=8), Item(width=6, height=4, count=2)]
    plan = pack_guillotine(items, 14, effort=QUICK)
    assert plan.height == 8
    assert stages(plan.cuts) == 2  # no strip need be cut off first
    assert isinstance(plan.cuts, Cut)
    assert plan.cuts.way is Way.ALONG


def test_the_same_tries_and_seed_give_the_same_plan() -> None:
    """Flips are drawn from the same seed as exchanges."""
    instance = INSTANCES["BENG3"]
    one, same, other = (
        pack_guillotine(
            instance.items(turn=False),
            instance.width,
            cutting=Cutting.EDGE_TO_EDGE,
            effort=Effort(seconds=None, tries=300, seed=seed),
        )
        for seed in (1, 1, 2)
    )
    assert one == same
    assert one.placements != other.placements


def test_no_tries_leave_the_levels() -> None:
    """A search without work still gives a plan with its cuts."""
    items = INSTANCES["BENG2"].items(turn=False)
    plan = pack_guillotine(items, 25, effort=Effort(tries=0))
    assert plan == pack_levels(items, 25)
