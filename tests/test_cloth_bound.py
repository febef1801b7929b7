"""What must be bought at least: never above a plan, and reached where that is known."""

from __future__ import annotations

from fractions import Fraction

from cloths import kit, planned, squares, stock
from hypothesis import given, settings
from hypothesis import strategies as st

from cutpaths.cloth.bound import bound_of, closer_bound
from cutpaths.cloth.lengths_to_buy import shopping
from cutpaths.cloth.needs import PATCHES, Need
from cutpaths.lengths import INCH
from cutpaths.project.stock import OnHand, Run, Sold

_SIDE = st.integers(8, 56).map(lambda quarters: Fraction(quarters, 4) * INCH)
_NEEDS = st.lists(st.tuples(_SIDE, _SIDE, st.integers(1, 12)), min_size=1, max_size=4)
_ON_HAND = st.lists(
    st.tuples(st.integers(4, 40), st.integers(4, 30)).map(
        lambda size: OnHand(size=(size[0] * INCH, size[1] * INCH), count=1)
    ),
    max_size=3,
)


def needs_of(drawn: list[tuple[Fraction, Fraction, int]]) -> list[Need]:
    """Patches that may lie either way."""
    return [
        Need(keys=(f"PATCH-{n}",), part=PATCHES, size=(w, h), count=count, run=Run.EITHER)
        for n, (w, h, count) in enumerate(drawn, 1)
    ]


@settings(max_examples=40, deadline=None)
@given(drawn=_NEEDS, on_hand=_ON_HAND, width=st.integers(20, 44))
def test_with_cloth_on_hand(
    drawn: list[tuple[Fraction, Fraction, int]], on_hand: list[OnHand], width: int
) -> None:
    """A length bought is never below its bound, and a longer look never lowers it."""
    known = stock(width, on_hand=tuple(on_hand))
    wanted = needs_of(drawn)
    line = shopping(planned(kit(), known, *wanted))
    items = [need.item for need in wanted]
    assert bound_of(known, items) <= closer_bound(known, items) <= line.used


@settings(max_examples=60, deadline=None)
@given(drawn=_NEEDS, on_hand=_ON_HAND)
def test_in_quarters(drawn: list[tuple[Fraction, Fraction, int]], on_hand: list[OnHand]) -> None:
    """A number of quarters is never below its bound."""
    piece = (21 * INCH, 18 * INCH)
    known = stock(40, sold=Sold.QUARTERS, piece=piece, on_hand=tuple(on_hand))
    wanted = needs_of(drawn)
    line = shopping(planned(kit(), known, *wanted))
    assert closer_bound(known, [need.item for need in wanted]) <= line.used


def test_quarters_hold_whole_squares() -> None:
    """21 x 18 less squaring up is 20 x 16: 12 squares of 5, so that 37 take four and 36 three."""
    known = stock(40, sold=Sold.QUARTERS, piece=(21 * INCH, 18 * INCH))
    for count, quarters in ((36, 3), (37, 4)):
        line = shopping(planned(kit(), known, squares(5, count)))
        assert line.bound == line.used == quarters


def test_a_remnant_larger_than_a_quarter() -> None:
    """A quarter holds one square of 10 1/4, a remnant of 22 x 13 two: of three one is bought."""
    there = (OnHand(size=(22 * INCH, 13 * INCH), count=1),)
    known = stock(40, sold=Sold.QUARTERS, piece=(21 * INCH, 18 * INCH), on_hand=there)
    line = shopping(planned(kit(), known, squares(Fraction(41, 4), 3)))
    assert line.bound == line.used == 1


def test_what_is_on_hand_is_counted_as_it_can_be_cut() -> None:
    """Half a yard of 42 in and a remnant give 30 of 45 squares; 15 take 10 in and squaring up."""
    there = (
        OnHand(size=(42 * INCH, 18 * INCH), count=1),
        OnHand(size=(15 * INCH, 20 * INCH), count=1),
    )
    line = shopping(planned(kit(), stock(42, on_hand=there), squares(5, 45)))
    assert line.bound == line.used == 12 * INCH


def test_two_panels_that_do_not_go_side_by_side() -> None:
    """A panel of the whole width and one that is narrow still take both their lengths."""
    panels = [
        Need(
            keys=(f"PANEL-{n}",),
            part=PATCHES,
            size=(w * INCH, 52 * INCH),
            count=1,
            run=Run.LENGTHWISE,
        )
        for n, w in ((1, 39), (2, 14))
    ]
    line = shopping(planned(kit(), stock(40), *panels, squares(3, 30)))
    assert line.bound == line.used == (52 + 52 + 2) * INCH
