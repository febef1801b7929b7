"""Lower bounds: never above what is known to be possible, better than the area where it fails."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from packings import INSTANCES, SMALL, Problem, problems

from cutpaths.cloth.packing.bounds import Bound, Reason, lower_bounds
from cutpaths.cloth.packing.items import Item
from cutpaths.cloth.packing.slices import slices_bound

TURNS = pytest.mark.parametrize("turn", [False, True], ids=["upright", "turned"])
# 81 squares of 5 in and a backing of 42 in from 42 in: the backing has its length to itself, the
# squares lie 8 to a strip in 11 strips; 42 + 55 = 97 in, derived by hand. The area is 7 % short.
SQUARES, BACKING = Item(width=5, height=5, count=81), Item(width=42, height=42)


def heights(bounds: tuple[Bound, ...]) -> dict[Reason, Fraction]:
    """Each bound by its reason."""
    return {bound.reason: Fraction(bound.height) for bound in bounds}


@TURNS
@pytest.mark.parametrize("name", INSTANCES)
def test_no_bound_is_above_a_published_optimum(name: str, *, turn: bool) -> None:
    """Instances with no waste have their area as the bound, the others no more than theirs."""
    instance = INSTANCES[name]
    bounds = lower_bounds(instance.items(turn=turn), instance.width)
    assert bounds[0].height == instance.optimum
    assert [bound.height for bound in bounds] == sorted((b.height for b in bounds), reverse=True)


@TURNS
@pytest.mark.parametrize("name", [name for name in SMALL if INSTANCES[name].pieces <= 20])
def test_slices_are_never_above_a_published_optimum(name: str, *, turn: bool) -> None:
    """The solver's bound reaches the optimum on instances without waste."""
    instance = INSTANCES[name]
    assert slices_bound(instance.items(turn=turn), instance.width).height == instance.optimum


def test_an_area_that_is_far_too_low_is_seen_through() -> None:
    """Squares and a backing: 97 in by both better bounds, where the area says 90.2."""
    found = heights(lower_bounds([SQUARES, BACKING], 42))
    assert found == {Reason.WIDTHS: 97, Reason.AREA: Fraction(1263, 14), Reason.APART: 47}
    assert slices_bound([SQUARES, BACKING], 42) == Bound(Fraction(97), Reason.SLICES)


def test_spacing_is_part_of_the_bound() -> None:
    """Three squares of 5 spaced by 1 fill 17; a fourth needs a second row and one spacing."""
    four = [Item(width=5, height=5, count=4)]
    assert lower_bounds(four, 17)[0].height == 10
    assert lower_bounds(four, 17, 1)[0].height == 11
    assert slices_bound(four, 17, 1).height == 11


def test_pieces_wider_than_half_the_strip_stand_alone() -> None:
    """Three of 6 x 4 from 10 need 12, whatever the area says."""
    assert lower_bounds([Item(width=6, height=4, count=3)], 10)[0].height == 12


def test_slices_mix_widths_where_functions_do_not() -> None:
    """Widths of 9, 8, 7, 6 and 5 to 20: slices are as good as any dual feasible function."""
    items = [Item(width=w, height=7, count=n) for w, n in ((9, 5), (8, 4), (7, 7), (6, 3), (5, 2))]
    assert slices_bound(items, 20).height >= lower_bounds(items, 20)[0].height


@settings(max_examples=10)
@given(problems())
def test_slices_are_as_good_as_functions_of_widths(problem: Problem) -> None:
    """On random problems; and turning never makes a bound higher."""
    best = heights(lower_bounds(problem.items, problem.width))[Reason.WIDTHS]
    assert slices_bound(problem.items, problem.width).height >= best
    turned = [
        Item(width=item.width, height=item.height, count=item.count, turn=True)
        for item in problem.items
    ]
    assert heights(lower_bounds(turned, problem.width))[Reason.WIDTHS] <= best
