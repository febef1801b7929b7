"""Sets of shapes as bits stay true while shapes are exchanged."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from cutpaths.cloth.packing.items import Item
from cutpaths.cloth.packing.order import Order
from cutpaths.cloth.packing.sheet import common_step, sheet_of

ITEMS = (
    Item(width=4, height=2, count=2, turn=True),
    Item(width=3, height=3, turn=True),
    Item(width=2, height=9, turn=True),
    Item(width=4, height=1),
)
SHAPES = sheet_of(ITEMS, 8).shapes()
RANKS = st.integers(0, len(SHAPES) - 1)


def test_shapes_are_the_ways_that_fit() -> None:
    """A square has one way, and 2 x 9 cannot be turned on a strip of 8."""
    sizes = [(shape.width, shape.height) for shape in SHAPES]
    assert sizes == [(4, 2), (2, 4), (4, 2), (2, 4), (3, 3), (2, 9), (4, 1)]


@given(st.lists(st.tuples(RANKS, RANKS), max_size=12))
def test_an_order_stays_as_if_it_were_made_anew(changes: list[tuple[int, int]]) -> None:
    """Its sets and the two ways of each piece follow every exchange."""
    order = Order(SHAPES)
    for a, b in changes:
        order.change(a, b)
    fresh = Order(order.shapes)
    for length in range(11):
        assert order.widths.at_most(length) == fresh.widths.at_most(length)
        assert order.heights.at_most(length) == fresh.heights.at_most(length)
        widths = order.widths.exactly.get(length, 0), order.heights.exactly.get(length, 0)
        assert widths == (fresh.widths.exactly.get(length, 0), fresh.heights.exactly.get(length, 0))
    for rank in range(len(SHAPES)):
        assert order.same_piece(rank) == fresh.same_piece(rank)


@given(RANKS, RANKS)
def test_a_change_made_twice_is_none(a: int, b: int) -> None:
    """Shapes and flips are as before."""
    order = Order(SHAPES)
    order.change(a, b)
    changed = order.shapes != list(SHAPES) or order.flips != 0
    order.change(a, b)
    assert (order.shapes, order.flips) == (list(SHAPES), 0)
    assert changed == (SHAPES[a] != SHAPES[b] or a == b)


def test_the_area_counts_each_piece_once() -> None:
    """However many ways it may lie."""
    assert Order(SHAPES).area == 2 * 8 + 9 + 18 + 4


def test_a_step_divides_every_length() -> None:
    """Quarters and thirds need twelfths; what has a common part needs no less than that."""
    assert common_step([Fraction(1, 4), Fraction(2, 3)]) == Fraction(1, 12)
    assert common_step([6, 10, 0]) == 2
