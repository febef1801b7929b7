"""What counting rules out, against the independence numbers of grid and king's graphs."""

from __future__ import annotations

from itertools import combinations, product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from test_arrange_checker import alike_meetings, rules_of

from cutpaths.arrange.bounds import fewest_touches, impossible, most_cells, whole_grid_most
from cutpaths.arrange.rules import ArrangeRules, Pin
from cutpaths.arrange.supply import planned_counts


def largest_by_trying(rules: ArrangeRules, fabric: int) -> int:
    """The most cells one print can take, by trying every set of cells."""
    own = [cell for cell, each in rules.fixed.items() if each == fabric]
    others = [cell for cell, each in rules.fixed.items() if each != fabric]
    for size in range(rules.cells, 0, -1):
        for cells in combinations(range(rules.cells), size):
            layout = tuple(0 if cell in cells else cell + 1 for cell in range(rules.cells))
            fits = set(own) <= set(cells) and not set(others) & set(cells)
            if fits and not alike_meetings(rules, layout):
                return size
    return 0


@pytest.mark.parametrize("corners", [True, False])
@pytest.mark.parametrize(("rows", "columns"), [(1, 1), (1, 4), (2, 3), (3, 3), (3, 4), (4, 3)])
def test_most_cells_of_a_bare_grid_is_exact(rows: int, columns: int, corners: bool) -> None:
    """The closed forms are what trying every set of cells finds."""
    rules = rules_of(rows, columns, (rows * columns,), corners=corners)
    assert most_cells(rules, 0) == largest_by_trying(rules, 0)


def test_kings_and_halves_of_a_chessboard() -> None:
    """16 kings that do not attack one another stand on a chessboard (known puzzle, from memory).

    With the side rule one print takes 32 of its 64 cells, all of one colour.
    """
    assert whole_grid_most(rules_of(8, 8, (64,))) == 16
    assert whole_grid_most(rules_of(8, 8, (64,), corners=False)) == 32
    assert whole_grid_most(rules_of(7, 9, (63,))) == 20
    assert whole_grid_most(rules_of(7, 9, (63,), corners=False)) == 32


@st.composite
def pinned_rules(draw: st.DrawFn) -> ArrangeRules:
    """Small grids with a few pins, none of which meet alike."""
    rows, columns = draw(st.integers(1, 4)), draw(st.integers(1, 3))
    corners = draw(st.booleans())
    cells = list(product(range(rows), range(columns)))
    spots = draw(st.lists(st.sampled_from(cells), max_size=3, unique=True))
    pins = tuple(Pin(*spot, draw(st.sampled_from("ab"))) for spot in spots)
    rules = rules_of(rows, columns, (len(cells),) * 2, corners=corners, pinned=pins)
    layout = tuple(rules.fixed.get(cell, cell + 2) for cell in range(rules.cells))
    return rules if not alike_meetings(rules, layout) else rules_of(rows, columns, (12, 12))


@settings(max_examples=60, deadline=None)
@given(pinned_rules())
def test_pins_only_lower_what_a_print_can_take(rules: ArrangeRules) -> None:
    """With pins the bound is never under the truth and never over that of the bare grid."""
    for fabric in (0, 1):
        assert largest_by_trying(rules, fabric) <= most_cells(rules, fabric)
        assert most_cells(rules, fabric) <= whole_grid_most(rules)


def test_pins_lower_the_bound() -> None:
    """On 3 x 3 only the corners hold four alike: one taken leaves three, the middle leaves one."""
    assert most_cells(rules_of(3, 3, (4, 5), pinned=(Pin(1, 1, "a"),)), 0) == 1
    assert most_cells(rules_of(3, 3, (4, 5), pinned=(Pin(0, 0, "b"),)), 0) == 3
    rules = rules_of(1, 3, (2, 1), corners=False, pinned=(Pin(0, 0, "b"), Pin(0, 2, "b")))
    assert most_cells(rules, 0) == 1


def test_more_than_a_quarter_is_ruled_out() -> None:
    """One print over a quarter of an even grid, or three prints of any count, cannot do.

    A king's graph of m, n >= 2 needs four colours (Wolfram MathWorld, "King Graph").
    """
    assert impossible(rules_of(12, 12, (36, 36, 36, 36))) == ""
    assert impossible(rules_of(12, 12, (37, 35, 36, 36))) == (
        "with none alike side by side or corner to corner, a at most 36 of the 12 x 12 cells; "
        "so the prints fill 143 of 144"
    )
    assert impossible(rules_of(12, 12, (144, 144, 144))) == (
        "with none alike side by side or corner to corner, a at most 36, b at most 36, c at most "
        "36 of the 12 x 12 cells; so the prints fill 108 of 144"
    )
    assert impossible(rules_of(3, 5, (9, 6), corners=False)) == (
        "with none alike side by side, a at most 8 of the 3 x 5 cells; so the prints fill 14 of 15"
    )
    assert impossible(rules_of(12, 12, (37, 36, 36, 36))) == ""


@settings(max_examples=60, deadline=None)
@given(
    st.integers(1, 3),
    st.integers(1, 3),
    st.booleans(),
    st.lists(st.integers(0, 9), min_size=2, max_size=3),
)
def test_fewest_touches_is_never_over_the_truth(
    rows: int, columns: int, corners: bool, shares: list[int]
) -> None:
    """No layout with the same counts has fewer meetings of cells alike."""
    cells = rows * columns
    rules = rules_of(rows, columns, (cells,) * len(shares), corners=corners)
    wanted = tuple(sorted(share % len(shares) for share in (shares * cells)[:cells]))
    counts = tuple(wanted.count(each) for each in range(len(shares)))
    least = min(
        alike_meetings(rules, layout)
        for layout in product(range(len(shares)), repeat=cells)
        if tuple(sorted(layout)) == wanted
    )
    assert fewest_touches(rules, counts) <= least


def test_fewest_touches_of_one_print_too_many() -> None:
    """Four squares more than a quarter make four meetings at least; a full grid makes them all."""
    assert fewest_touches(rules_of(12, 12, (40, 104)), (40, 0)) == 4
    assert fewest_touches(rules_of(2, 2, (4,)), (4,)) == 6
    assert fewest_touches(rules_of(1, 4, (4,), corners=False), (4,)) == 2


def test_left_over_squares_are_shared_out() -> None:
    """What is left over is even as a share, pins are used, and no print gets more than it may."""
    assert planned_counts(rules_of(12, 12, (8,) * 21)) == (6,) * 3 + (7,) * 18
    assert planned_counts(rules_of(2, 2, (4, 4, 4, 4))) == (1, 1, 1, 1)
    assert planned_counts(rules_of(4, 4, (12, 6, 6), corners=False)) == (8, 4, 4)
    pinned = tuple(Pin(0, column, "a") for column in (0, 2, 4))
    assert planned_counts(rules_of(1, 5, (3, 9), corners=False, pinned=pinned)) == (3, 2)
    assert planned_counts(rules_of(2, 2, (3, 1))) == (3, 1)
