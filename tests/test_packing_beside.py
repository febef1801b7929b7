"""The bound with cloth on hand: never above a plan, and reached where that is known."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from packings import INSTANCES, SMALL

from cutpaths.cloth.packing.beside import least_length, longest_sum
from cutpaths.cloth.packing.exact import pack_exact
from cutpaths.cloth.packing.items import Item
from cutpaths.cloth.packing.runs import runs_of
from cutpaths.cloth.packing.slices import slices_bound

_SIDE = st.integers(2, 9)


@settings(max_examples=60)
@given(
    side=_SIDE,
    count=st.integers(1, 80),
    width=st.integers(9, 42),
    there=st.lists(st.tuples(st.integers(1, 42), st.integers(1, 30)), max_size=4),
)
def test_squares_of_one_size_need_just_the_bound(
    side: int, count: int, width: int, there: list[tuple[int, int]]
) -> None:
    """Whole squares go into each cloth, the others in full rows into the strip; derived by hand."""
    held = sum((w // side) * (h // side) for w, h in there)
    rows = -(-max(0, count - held) // (width // side))
    found = least_length([Item(width=side, height=side, count=count)], width, there)
    assert found == rows * side


def test_half_a_yard_and_a_remnant() -> None:
    """45 squares of 5: 24 from 41 x 16, 6 from 14 x 18, and the other 15 take two rows of 8."""
    squares = [Item(width=5, height=5, count=45)]
    assert least_length(squares, 41, [(14, 18), (41, 16)]) == 10
    assert least_length(squares, 41) == 30


def test_what_fits_only_the_strip_is_counted_there() -> None:
    """A backing of 30 x 36 finds no room in 40 x 20, whatever else does."""
    items = [Item(width=30, height=36), Item(width=5, height=5, count=32)]
    assert least_length(items, 40, [(40, 20)]) == 36


def test_nothing_is_left_to_buy() -> None:
    """Cloth on hand that holds everything leaves a bound of nothing."""
    assert least_length([Item(width=5, height=5, count=6)], 40, [(15, 10)]) == 0


@pytest.mark.parametrize("name", [name for name in SMALL if INSTANCES[name].pieces <= 30])
def test_without_other_cloth_it_is_the_bound_of_slices(name: str) -> None:
    """As good as the solver's bound, and on published instances never above the optimum."""
    instance = INSTANCES[name]
    found = least_length(instance.items(turn=False), instance.width)
    assert found <= instance.optimum
    assert found >= slices_bound(instance.items(turn=False), instance.width).height - 1


@settings(max_examples=25)
@given(
    sizes=st.lists(
        st.tuples(st.integers(2, 7), st.integers(2, 7), st.integers(1, 3), st.booleans()),
        min_size=1,
        max_size=3,
    ),
    length=st.integers(4, 9),
)
def test_never_above_a_plan_that_was_proved_best(
    sizes: list[tuple[int, int, int, bool]], length: int
) -> None:
    """Split a proved plan of strips: what lies on the other cloth and the rest hold all pieces.

    The first strips of the plan, as far as they go into the other cloth's length, are cut from
    that; what the plan needs beyond them is enough to buy.
    """
    items = [Item(width=w, height=h, count=n, turn=t) for w, h, n, t in sizes]
    plan = pack_exact(items, 12)
    assert plan is not None
    strips = runs_of(plan.cuts)
    heights = [Fraction(run.strip.height) for run in strips for _ in range(run.times)]
    on_hand, bought = Fraction(0), Fraction(0)
    for height in sorted(heights, reverse=True):
        if on_hand + height <= length:
            on_hand += height
        else:
            bought += height
    assert least_length(items, 12, [(12, length)]) <= bought


@settings(max_examples=30)
@given(
    st.lists(
        st.tuples(st.integers(1, 4000), st.integers(1, 4000), st.integers(1, 9)),
        min_size=1,
        max_size=5,
    )
)
def test_sizes_off_every_grid_bound_from_below(sizes: list[tuple[int, int, int]]) -> None:
    """Sizes of thousandths are rounded so that the bound does not go above that of exact ones."""
    wide = Fraction(4001)
    fine = [Item(width=w + Fraction(1, 997), height=h, count=n) for w, h, n in sizes]
    whole = [Item(width=w + 1, height=h, count=n) for w, h, n in sizes]
    assert least_length(fine, wide) <= least_length(whole, wide)


def test_sums_of_lengths() -> None:
    """Of 5 at most twice and 3 once, 10 is the most up to 12 and 13 up to 13."""
    assert longest_sum([(5, 2), (3, 1)], 12) == 10
    assert longest_sum([(5, 2), (3, 1)], 13) == 13
