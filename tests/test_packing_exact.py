"""The shortest plan of strips: proved on small problems, and what the search makes of the same."""

from __future__ import annotations

from fractions import Fraction
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from packings import INSTANCES

from cutpaths.cloth.packing.cuts import stages
from cutpaths.cloth.packing.effort import Effort
from cutpaths.cloth.packing.exact import pack_exact
from cutpaths.cloth.packing.guillotine import pack_guillotine
from cutpaths.cloth.packing.items import Item
from cutpaths.cloth.packing.judge import faults
from cutpaths.cloth.packing.plan import Method


def test_the_shortest_plan_is_found_and_proved() -> None:
    """A strip as high as three low pieces of one width, which no single piece beside them is."""
    items = (
        Item(width=Fraction(43, 4), height=Fraction(57, 4), count=2),
        Item(width=9, height=10, count=3),
        Item(width=5, height=Fraction(19, 4), count=3),
        Item(width=Fraction(19, 2), height=12, count=3),
    )
    plan = pack_exact(items, 42)
    assert plan is not None
    assert plan.height == Fraction(57, 2)
    assert plan.method is Method.EXACT
    assert faults(items, plan) == ()
    assert stages(plan.cuts) == 3


def test_a_published_instance_is_cut_in_strips_without_waste() -> None:
    """BKW1 of Burke, Kendall and Whitwell (2004), whose optimum of 40 needs no other cuts."""
    instance = INSTANCES["BKW1"]
    plan = pack_exact(instance.items(turn=False), instance.width)
    assert plan is not None
    assert plan.height == instance.optimum


SIDES = st.integers(2, 9)


@settings(max_examples=20)
@given(st.lists(st.tuples(SIDES, SIDES), min_size=1, max_size=4))
def test_agrees_with_every_way_to_deal_pieces_to_rows(sizes: list[tuple[int, int]]) -> None:
    """No longer than the best of all deals to rows; no shorter unless stacks save cloth."""
    items = [Item(width=w, height=h) for w, h in sizes]
    plan = pack_exact(items, 12)
    assert plan is not None
    assert faults(items, plan) == ()
    best = _best_rows(sizes, 12)
    assert plan.height <= best
    if len({width for width, _ in sizes}) == len(sizes):
        assert plan.height == best


def _best_rows(sizes: list[tuple[int, int]], width: int) -> int:
    """The least height of rows without stacks, by trying every deal."""
    heights = []
    for deal in product(range(len(sizes)), repeat=len(sizes)):
        rows = [
            [size for size, at in zip(sizes, deal, strict=True) if at == row] for row in set(deal)
        ]
        if all(sum(w for w, _ in row) <= width for row in rows):
            heights.append(sum(max(h for _, h in row) for row in rows))
    return min(heights)


@settings(max_examples=10)
@given(st.lists(st.tuples(SIDES, SIDES, st.integers(1, 2)), min_size=1, max_size=4))
def test_the_search_reaches_what_is_proved(sizes: list[tuple[int, int, int]]) -> None:
    """On small problems, with some hundred tries."""
    items = [Item(width=w, height=h, count=n) for w, h, n in sizes]
    exact = pack_exact(items, 15)
    assert exact is not None
    searched = pack_guillotine(items, 15, effort=Effort(seconds=None, tries=400))
    assert searched.height == exact.height


@pytest.mark.parametrize("name", ["C4_1"])
def test_too_many_strips_are_refused(name: str) -> None:
    """Nothing is said of problems that are too large."""
    instance = INSTANCES[name]
    assert pack_exact(instance.items(turn=False), instance.width) is None
