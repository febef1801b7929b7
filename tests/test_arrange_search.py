"""The search: against trying everything on small grids, and against known colourings."""

from __future__ import annotations

from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from test_arrange_checker import (
    alike_meetings,
    has_squares_and_pins,
    is_kept,
    rules_of,
    uneven_rows,
)

from cutpaths.arrange.effort import UNWATCHED
from cutpaths.arrange.rules import ArrangeRules, Group, Pin
from cutpaths.arrange.search import Outcome, arranged
from cutpaths.arrange.solver import Verdict, decided
from cutpaths.arrange.violations import nearest_alike, used_counts

BRIEF = 0.3  # seconds of work, enough for every small grid
PACK = (7,) * 18 + (6,) * 3  # 144 squares of 21 prints


class Impatient:
    """A watch that stops the search after so many words."""

    def __init__(self, words: int) -> None:
        self.words = words

    @property
    def stopped(self) -> str:
        """Why it stopped the search."""
        return "" if self.words > 0 else "enough"

    def __call__(self, doing: str, done: float) -> bool:
        """Counts the words."""
        assert doing
        assert 0 <= done < 1
        self.words -= 1
        return not self.stopped


@st.composite
def small_rules(draw: st.DrawFn) -> ArrangeRules:
    """Grids small enough to try every layout, with supply to spare or not, pins and balance."""
    rows, columns = draw(st.sampled_from([(1, 4), (2, 2), (2, 3), (3, 2), (3, 3), (2, 4)]))
    cells = rows * columns
    prints = draw(st.integers(2, 3 if cells > 6 else 4))
    counts = draw(st.lists(st.integers(1, cells), min_size=prints, max_size=prints))
    counts[0] += max(0, cells - sum(counts))
    spots = st.sampled_from(list(product(range(rows), range(columns))))
    pins = tuple(
        Pin(*spot, draw(st.sampled_from("abcd"[:prints])))
        for spot in draw(st.lists(spots, max_size=2, unique=True))
    )
    balance = draw(st.sampled_from([(), (Group("light", ("a",)),)]))
    rules = rules_of(
        rows, columns, tuple(counts), corners=draw(st.booleans()), pinned=pins, balance=balance
    )
    short = any(sum(pin.fabric == each.name for pin in pins) > each.count for each in rules.prints)
    return rules_of(2, 2, (1, 1, 1, 1)) if short else rules


@settings(max_examples=80, deadline=None, derandomize=True)
@given(small_rules())
def test_small_grids_are_decided_as_by_trying_everything(rules: ArrangeRules) -> None:
    """A layout is found where one is, and proved not to be where none is."""
    layouts = product(range(len(rules.prints)), repeat=rules.cells)
    possible = any(is_kept(rules, layout) for layout in layouts)
    found = arranged(rules, seconds=BRIEF)
    assert found.outcome is (Outcome.KEPT if possible else Outcome.IMPOSSIBLE)
    assert is_kept(rules, found.layout) is possible
    assert has_squares_and_pins(rules, found.layout)
    assert bool(found.violations) is not possible
    assert bool(found.reason) is not possible


@settings(max_examples=40, deadline=None, derandomize=True)
@given(small_rules())
def test_solver_agrees_with_trying_everything(rules: ArrangeRules) -> None:
    """The solver alone finds a layout exactly where there is one."""
    layouts = product(range(len(rules.prints)), repeat=rules.cells)
    answer = decided(rules, 1, 5, UNWATCHED)
    if any(is_kept(rules, layout) for layout in layouts):
        assert answer.layout is not None
        assert is_kept(rules, answer.layout)
    else:
        assert answer.verdict is Verdict.RULED_OUT
        assert answer.layout is None


@pytest.mark.parametrize(("rows", "columns"), [(2, 2), (2, 5), (3, 3), (5, 4), (7, 7)])
def test_corner_rule_needs_four_prints(rows: int, columns: int) -> None:
    """A king's graph of m, n >= 2 has chromatic number 4 (Wolfram MathWorld, "King Graph")."""
    cells = rows * columns
    three, four = (
        arranged(rules_of(rows, columns, (cells,) * prints), seconds=2) for prints in (3, 4)
    )
    assert three.outcome is Outcome.IMPOSSIBLE
    assert alike_meetings(rules_of(rows, columns, ()), three.layout) >= 1
    assert four.outcome is Outcome.KEPT
    assert alike_meetings(rules_of(rows, columns, ()), four.layout) == 0


def test_side_rule_needs_two_prints() -> None:
    """A grid is bipartite: two prints do, as a checkerboard, and one does not."""
    board = arranged(rules_of(5, 5, (13, 12), corners=False), seconds=1)
    assert board.layout == tuple(cell % 2 for cell in range(25))
    swapped = arranged(rules_of(5, 5, (12, 13), corners=False), seconds=1)
    assert swapped.layout == tuple(1 - cell % 2 for cell in range(25))
    assert arranged(rules_of(1, 2, (2,), corners=False)).outcome is Outcome.IMPOSSIBLE


def test_a_wall_of_144_squares_in_21_prints_is_kept_and_spread() -> None:
    """Every rule is kept, every square is used, and no two alike are nearer than three squares."""
    rules = rules_of(12, 12, PACK)
    found = arranged(rules)
    assert found.outcome is Outcome.KEPT
    assert (found.reason, found.violations, found.fewest) == ("", (), False)
    assert is_kept(rules, found.layout)
    assert used_counts(rules, found.layout) == PACK
    assert min(each or 99 for each in nearest_alike(rules, found.layout)) >= 9


def test_all_rules_together_are_kept() -> None:
    """Corners, balance, pins and leftovers at once."""
    light = Group("light", tuple("abcdefgh"))
    dark = Group("dark", tuple("ijklmnop"))
    pins = (Pin(0, 0, "a"), Pin(11, 11, "a"), Pin(5, 6, "t"))
    rules = rules_of(12, 12, (8,) * 21, balance=(light, dark), pinned=pins)
    found = arranged(rules, seconds=5)
    assert found.outcome is Outcome.KEPT
    assert is_kept(rules, found.layout)
    assert set(used_counts(rules, found.layout)) == {6, 7}


def test_wish_for_distance_can_be_left_out() -> None:
    """Without the wish the rules are kept as well, and prints alike lie nearer."""
    rules = rules_of(12, 12, PACK)
    near = ArrangeRules(columns=12, rows=12, prints=rules.prints, corners=True, apart=False)
    layout = arranged(near).layout
    assert is_kept(near, layout)
    assert sum(each or 0 for each in nearest_alike(near, layout)) < sum(
        each or 0 for each in nearest_alike(rules, arranged(rules).layout)
    )


def test_one_print_over_a_quarter_has_the_fewest_meetings() -> None:
    """40 of 144 alike: proved impossible, and the best found proved to be the best."""
    rules = rules_of(12, 12, (40,) + (5,) * 19 + (9,))
    found = arranged(rules, seconds=5)
    assert found.outcome is Outcome.IMPOSSIBLE
    assert "a at most 36 of the 12 x 12 cells" in found.reason
    assert len(found.violations) == alike_meetings(rules, found.layout) == 4
    assert found.fewest is True


def test_solver_proves_what_counting_does_not() -> None:
    """On 9 x 9 the corner rule lets four prints be 25, 20, 20, 16 but not 22, 20, 20, 19.

    Derived: in a king's graph of four colours all rows take turns of two colours (or all columns):
    five rows hold 45 squares of two prints, which 22 + 20 and the like never make.
    """
    assert arranged(rules_of(9, 9, (25, 20, 20, 16)), seconds=5).outcome is Outcome.KEPT
    refused = arranged(rules_of(9, 9, (22, 20, 20, 19)), seconds=10)
    assert refused.outcome is Outcome.IMPOSSIBLE
    assert refused.reason == "the solver has ruled out every layout"
    assert len(refused.violations) >= 1


def test_work_limit_is_named() -> None:
    """What is not decided in the work allowed says so, with the best found and its violations."""
    rules = rules_of(13, 13, (43, 42, 42, 42))
    found = arranged(rules, seconds=0.2)
    assert found.outcome is Outcome.OPEN
    assert found.reason == "the solver did not decide it in the 0.2 seconds of work allowed"
    assert len(found.violations) == alike_meetings(rules, found.layout) >= 1
    assert found.fewest is False


@pytest.mark.parametrize("words", [0, 1, 3])
def test_watch_stops_the_search_and_keeps_the_best(words: int) -> None:
    """A stopped search still gives a layout of all squares."""
    rules = rules_of(24, 24, (144,) * 4)
    found = arranged(rules, seconds=100, watch=Impatient(words))
    assert found.outcome is Outcome.OPEN
    assert found.reason == "enough"
    assert used_counts(rules, found.layout) == (144,) * 4
    assert len(found.violations) == alike_meetings(rules, found.layout) >= 1


def test_watch_stops_the_solver() -> None:
    """The solver, which would take long here, ends soon after it is told to."""
    answer = decided(rules_of(40, 40, (400,) * 4), 1, 1000, Impatient(2))
    assert answer.verdict is Verdict.OPEN


def test_missing_solver_says_what_to_install(monkeypatch: pytest.MonkeyPatch) -> None:
    """Without the extra the easy layouts are found, and the hard ones say what is lacking."""
    monkeypatch.setattr("cutpaths.arrange.solver.find_spec", lambda _name: None)
    assert arranged(rules_of(6, 6, (4,) * 9), seconds=BRIEF).outcome is Outcome.KEPT
    found = arranged(rules_of(9, 9, (22, 20, 20, 19)), seconds=BRIEF)
    assert found.outcome is Outcome.OPEN
    assert found.reason == (
        "the solver that can tell is not installed: run .venv/bin/pip install '.[arrange]' in the "
        "folder of cutpaths"
    )


def test_solver_is_spared_what_is_too_large() -> None:
    """Cells times prints beyond what memory is for say so, with the best found."""
    pins = (Pin(0, 0, "a"), Pin(0, 2, "b"), Pin(0, 1, "c"))
    counts = (625, 625, 625, 417, *(2,) * 104)
    found = arranged(rules_of(50, 50, counts, pinned=pins), seconds=0.1)
    assert found.outcome is Outcome.OPEN
    assert found.reason == "the solver that can tell is not asked about 2,500 cells in 108 prints"
    assert len(found.violations) >= 1


def test_same_seed_same_layout_other_seed_another() -> None:
    """A layout is repeated by its seed alone, from the swaps or from the solver."""
    wall, tight = rules_of(12, 12, PACK), rules_of(14, 14, (49,) * 4)
    for rules in (wall, tight):
        first, again, other = (arranged(rules, seed=seed, seconds=4) for seed in (1, 1, 2))
        assert first == again
        assert first.layout != other.layout
        assert uneven_rows(rules, first.layout) == 0


def test_pinned_everything_is_left_alone() -> None:
    """Where all cells are pinned there is one layout."""
    pins = tuple(Pin(row, column, "ab"[(row + column) % 2]) for row in (0, 1) for column in (0, 1))
    rules = rules_of(2, 2, (2, 2), corners=False, pinned=pins)
    assert arranged(rules, seconds=BRIEF).layout == (0, 1, 1, 0)
