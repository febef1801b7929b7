"""The judge finds each kind of damage, and agrees with a geometry library on what overlaps."""

from __future__ import annotations

from fractions import Fraction
from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import box

from cutpaths.cloth.packing.cuts import Cut, Taken, Waste
from cutpaths.cloth.packing.items import Item, Placement
from cutpaths.cloth.packing.judge import faults, pattern_faults
from cutpaths.cloth.packing.levels import pack_levels
from cutpaths.cloth.packing.plan import CutPlan, Method, Plan
from cutpaths.cloth.packing.runs import PatternPlan, Rounding, Run
from cutpaths.values import replace

ITEMS = (Item(width=4, height=3, count=2), Item(width=2, height=3, turn=True))
PLAN = pack_levels(ITEMS, 10)


def damaged(index: int, **changes: int | bool) -> Plan:
    """The plan, without its cuts, with one piece changed."""
    places = list(PLAN.placements)
    places[index] = replace(places[index], **changes)  # type: ignore[arg-type] # ints and a bool
    return Plan(width=10, height=PLAN.height, placements=tuple(places), method=Method.FREE)


def test_a_sound_plan_has_no_faults() -> None:
    """Two of 4 x 3 and the small piece laid flat beside them."""
    assert [(p.item, p.x, p.y) for p in PLAN.placements] == [(0, 0, 0), (0, 4, 0), (1, 0, 3)]
    assert PLAN.height == 5
    assert faults(ITEMS, PLAN) == ()


@pytest.mark.parametrize(
    ("plan", "found"),
    [
        (damaged(0, x=1), ("item 0 at 4, 0 is too close to item 0 at 1, 0",)),
        (damaged(1, x=7), ("item 0 at 7, 0 is outside the strip",)),
        (damaged(0, y=-1), ("item 0 at 0, -1 is outside the strip",)),
        (damaged(1, width=3), ("item 0 at 4, 0 is 3 x 3",)),
        (
            damaged(1, item=1, width=2),
            ("item 0 is there 1 times, not 2", "item 1 is there 2 times, not 1"),
        ),
        (
            damaged(0, turned=True, width=3, height=4, x=7),
            (
                "item 0 at 7, 0 must not be turned",
                "item 0 at 4, 0 is too close to item 0 at 7, 0",
            ),
        ),
        (
            damaged(1, item=2),
            (
                "item 0 is there 1 times, not 2",
                "item 2 is there 1 times, not 0",
                "item 2 at 4, 0 was not asked for",
            ),
        ),
        (replace(damaged(0), height=4), ("the plan takes 5 of cloth, not 4",)),
        (
            replace(damaged(0), placements=PLAN.placements[:2], height=3),
            ("item 1 is there 0 times, not 1",),
        ),
    ],
    ids=["overlap", "right", "foot", "size", "count", "turn", "unknown", "height", "missing"],
)
def test_each_damage_is_found(plan: Plan, found: tuple[str, ...]) -> None:
    """And nothing else is."""
    assert set(faults(ITEMS, plan)) == set(found)


def test_spacing_is_judged_across_and_along() -> None:
    """Pieces that touch are too close as soon as there is to be a spacing."""
    assert faults(ITEMS, damaged(0), spacing=Fraction(1, 64)) == (
        "item 0 at 4, 0 is too close to item 0 at 0, 0",
        "item 1 at 0, 3 is too close to item 0 at 0, 0",
    )
    apart = replace(damaged(2, x=0, y=4), height=6)
    apart = replace(apart, placements=(apart.placements[0], *apart.placements[2:]))
    assert faults((replace(ITEMS[0], count=1), ITEMS[1]), apart, spacing=1) == ()


def cut_plan(cuts: Cut) -> CutPlan:
    """The plan with other cuts."""
    return replace(PLAN, cuts=cuts)


def test_cuts_that_do_not_belong_to_the_places_are_found() -> None:
    """A piece left as waste, parts that do not add up, and cuts of other cloth."""
    cuts = PLAN.cuts
    assert isinstance(cuts, Cut)
    first, last = cuts.parts
    bare = replace(cuts, parts=(first, Waste(width=10, height=2)))
    assert faults(ITEMS, cut_plan(bare)) == ("cuts and places differ on item 1 at 0, 3",)
    short = replace(cuts, parts=(first, Waste(width=10, height=1)))
    assert "parts do not make up 10 x 5 cut across the cloth" in faults(ITEMS, cut_plan(short))
    other = replace(cuts, height=6, parts=(first, last, Waste(width=10, height=1)))
    assert faults(ITEMS, cut_plan(other)) == ("the cuts are of 10 x 6 of cloth",)


def pattern_plan(run: Run, **changes: int) -> PatternPlan:
    """A plan of one run, 10 wide, for pieces of 5 x 2."""
    plan = PatternPlan(
        width=10, height=6, runs=(run,), rounding=Rounding.SOLVED, bound=6, late=False
    )
    return replace(plan, **changes)  # type: ignore[arg-type] # lengths


@pytest.mark.parametrize(
    ("changes", "times", "size", "found"),
    [
        ({}, 3, (5, 2), ()),
        ({}, 2, (5, 2), ("item 0 is there 4 times, not 6", "the strips take 4 of cloth, not 6")),
        ({"height": 5, "bound": 5}, 3, (5, 2), ("the strips take 6 of cloth, not 5",)),
        ({"bound": 7}, 3, (5, 2), ("the plan takes 6 of cloth, less than its bound 7",)),
        ({"width": 11}, 3, (5, 2), ("a strip is 10 wide, the cloth 11",)),
        (
            {},
            3,
            (4, 2),
            (
                "parts do not make up 10 x 2 cut along the cloth",
                "item 0 is cut 4 x 2",
                "item 0 is cut 4 x 2",
            ),
        ),
    ],
    ids=["sound", "few", "height", "bound", "width", "size"],
)
def test_each_damage_to_a_plan_of_strips_is_found(
    changes: dict[str, int], times: int, size: tuple[int, int], found: tuple[str, ...]
) -> None:
    """And nothing else is."""
    strip = pack_levels([Item(width=5, height=2, count=2)], 10).cuts
    assert isinstance(strip, Cut)
    width, height = size
    part = Taken(item=0, width=width, height=height, turned=False)
    run = Run(times, replace(strip, parts=(part, part)))
    assert pattern_faults([Item(width=5, height=2, count=6)], pattern_plan(run, **changes)) == found


SIDES = st.integers(1, 6)


@given(st.lists(st.tuples(st.integers(0, 14), st.integers(0, 14), SIDES, SIDES), max_size=7))
def test_overlaps_agree_with_a_geometry_library(sizes: list[tuple[int, int, int, int]]) -> None:
    """A plan is found to overlap exactly when shapely finds two boxes that share area."""
    items = tuple(Item(width=w, height=h) for _, _, w, h in sizes)
    places = tuple(
        Placement(item=k, x=x, y=y, width=w, height=h, turned=False)
        for k, (x, y, w, h) in enumerate(sizes)
    )
    height = max((y + h for _, y, _, h in sizes), default=0)
    plan = Plan(width=20, height=height, placements=places, method=Method.FREE)
    boxes = [box(x, y, x + w, y + h) for x, y, w, h in sizes]
    shared = any(one.intersection(other).area > 0 for one, other in combinations(boxes, 2))
    assert (faults(items, plan) != ()) == shared
