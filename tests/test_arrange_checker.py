"""A checker of layouts that shares no code with the package, and the package's own held against it.

It looks at every two cells there are, and at every row, by the rules' own words.
"""

from __future__ import annotations

from collections import Counter
from itertools import combinations, product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cutpaths.arrange.rules import ArrangeRules, Group, Layout, Pin, Print
from cutpaths.arrange.settle import broken
from cutpaths.arrange.violations import Touch, Uneven, nearest_alike, used_counts, violations


def rules_of(
    rows: int,
    columns: int,
    counts: tuple[int, ...],
    *,
    corners: bool = True,
    pinned: tuple[Pin, ...] = (),
    balance: tuple[Group, ...] = (),
) -> ArrangeRules:
    """Rules for prints named a, b, c and so on."""
    return ArrangeRules(
        columns=columns,
        rows=rows,
        prints=tuple(Print(chr(97 + place), count) for place, count in enumerate(counts)),
        corners=corners,
        pinned=pinned,
        balance=balance,
    )


def alike_meetings(rules: ArrangeRules, layout: Layout) -> int:
    """How many two cells alike lie one king's move apart, or side by side only."""
    found = 0
    for one, two in combinations(range(len(layout)), 2):
        down = abs(one // rules.columns - two // rules.columns)
        across = abs(one % rules.columns - two % rules.columns)
        near = max(down, across) == 1 if rules.corners else down + across == 1
        found += near and layout[one] == layout[two]
    return found


def uneven_rows(rules: ArrangeRules, layout: Layout) -> int:
    """How many rows, group by group, are not as even as a deal of squares in turn would be."""
    found = 0
    for group in rules.balance:
        inside = [rules.prints[each].name in group.prints for each in layout]
        counts = [
            sum(inside[row * rules.columns : (row + 1) * rules.columns])
            for row in range(rules.rows)
        ]
        average = sum(counts) / rules.rows
        found += sum(abs(count - average) >= 1 for count in counts)
    return found


def is_kept(rules: ArrangeRules, layout: Layout) -> bool:
    """Whether a layout keeps every rule, its pins and its supply too."""
    counts = Counter(layout)
    return (
        alike_meetings(rules, layout) == 0
        and uneven_rows(rules, layout) == 0
        and has_squares_and_pins(rules, layout)
        and sum(counts.values()) == rules.rows * rules.columns
    )


def has_squares_and_pins(rules: ArrangeRules, layout: Layout) -> bool:
    """Whether there are squares enough for a layout, and its pinned cells are as pinned."""
    counts = Counter(rules.prints[each].name for each in layout)
    enough = all(counts[each.name] <= each.count for each in rules.prints)
    return enough and all(
        rules.prints[layout[pin.row * rules.columns + pin.column]].name == pin.fabric
        for pin in rules.pinned
    )


@st.composite
def rules_and_layouts(draw: st.DrawFn) -> tuple[ArrangeRules, Layout]:
    """Small rules with balance, and any layout of their cells."""
    rows, columns, prints = draw(st.tuples(*[st.integers(1, 5)] * 2, st.integers(1, 4)))
    cells = rows * columns
    names = "abcd"[:prints]
    groups = (Group("light", tuple(names[:2])), Group("dark", tuple(names[2:])))
    rules = rules_of(rows, columns, (cells,) * prints, corners=draw(st.booleans()), balance=groups)
    cell = st.integers(0, prints - 1)
    return rules, tuple(draw(st.lists(cell, min_size=cells, max_size=cells)))


@given(rules_and_layouts())
def test_violations_are_those_of_the_checker(case: tuple[ArrangeRules, Layout]) -> None:
    """As many cells alike meet, and as many rows are uneven, as the checker finds."""
    rules, layout = case
    found = violations(rules, layout)
    touches = [each for each in found if isinstance(each, Touch)]
    uneven = [each for each in found if isinstance(each, Uneven)]
    assert len(touches) == alike_meetings(rules, layout)
    assert len(uneven) == uneven_rows(rules, layout)
    assert broken(rules, layout) == len(touches) + sum(each.squares for each in uneven)


@given(rules_and_layouts())
def test_nearest_alike_is_the_least_of_all_distances(case: tuple[ArrangeRules, Layout]) -> None:
    """For each print the least squared distance of any two of its cells."""
    rules, layout = case
    for fabric, nearest in enumerate(nearest_alike(rules, layout)):
        spots = [
            complex(cell % rules.columns, cell // rules.columns)
            for cell, each in enumerate(layout)
            if each == fabric
        ]
        distances = [round(abs(one - two) ** 2) for one, two in combinations(spots, 2)]
        assert nearest == (min(distances) if distances else None)


@pytest.mark.parametrize(("side", "third"), [(1, 1), (2, 6), (3, 82)])
def test_as_many_layouts_of_three_prints_keep_the_side_rule_as_published(
    side: int, third: int
) -> None:
    """A third of the 3-colourings of an n x n square array is 1, 6, 82 (OEIS A068253)."""
    rules = rules_of(side, side, (side * side,) * 3, corners=False)
    layouts = product(range(3), repeat=side * side)
    assert sum(not violations(rules, layout) for layout in layouts) == 3 * third


@pytest.mark.parametrize(("rows", "columns"), [(2, 2), (2, 3), (3, 2), (2, 4)])
def test_as_many_layouts_of_four_prints_keep_the_corner_rule_as_derived(
    rows: int, columns: int
) -> None:
    """Four colours on a king's graph: 6 2^m + 6 2^n - 24 ways.

    Derived: every row takes turns of two colours, in one of two phases, or every column does;
    24 layouts do both.
    """
    rules = rules_of(rows, columns, (rows * columns,) * 4)
    layouts = product(range(4), repeat=rows * columns)
    kept = sum(not violations(rules, layout) for layout in layouts)
    assert kept == 6 * 2**rows + 6 * 2**columns - 24


def test_violations_name_their_cells() -> None:
    """Each says its cells by row and column, its print, and how they meet."""
    rules = rules_of(2, 3, (4, 3), balance=(Group("light", ("a",)),), pinned=(Pin(0, 0, "a"),))
    layout = (0, 1, 0, 0, 0, 1)
    assert [str(each) for each in violations(rules, layout)] == [
        "r1c1 and r2c1 are both a, side by side",
        "r1c1 and r2c2 are both a, corner to corner",
        "r1c2 and r2c3 are both b, corner to corner",
        "r1c3 and r2c2 are both a, corner to corner",
        "r2c1 and r2c2 are both a, side by side",
    ]
    assert used_counts(rules, layout) == (4, 2)


def test_uneven_rows_say_their_share() -> None:
    """A row with more or fewer squares of a group than its share says so."""
    rules = rules_of(3, 2, (3, 3), corners=False, balance=(Group("light", ("a",)),))
    found = violations(rules, (0, 0, 1, 0, 1, 1))
    assert [str(each) for each in found if isinstance(each, Uneven)] == [
        "row 1 has 2 light squares, its even share is 1",
        "row 3 has 0 light squares, its even share is 1",
    ]
