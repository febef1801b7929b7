"""Free placement: published instances, random problems, and how the search is stopped."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest
import rectpack
from hypothesis import given, settings
from hypothesis import strategies as st
from packings import INSTANCES, QUICK, SMALL, Problem, problems

from cutpaths.cloth.packing import effort
from cutpaths.cloth.packing.bounds import lower_bounds
from cutpaths.cloth.packing.effort import Effort, Progress
from cutpaths.cloth.packing.free import pack_free
from cutpaths.cloth.packing.items import Item
from cutpaths.cloth.packing.judge import faults
from cutpaths.cloth.packing.plan import Method
from cutpaths.errors import InputError

TURNS = pytest.mark.parametrize("turn", [False, True], ids=["upright", "turned"])


@TURNS
@pytest.mark.parametrize("name", SMALL)
def test_published_instances_are_packed_soundly_and_never_under_the_optimum(
    name: str, *, turn: bool
) -> None:
    """Sound, no lower than the optimum of the paper in the fixture, at most a tenth above it."""
    instance = INSTANCES[name]
    items = instance.items(turn=turn)
    plan = pack_free(items, instance.width, effort=QUICK)
    assert faults(items, plan) == ()
    assert instance.optimum <= plan.height <= instance.optimum * Fraction(11, 10)


@pytest.mark.parametrize("name", ["C1_1", "C1_3", "C2_1", "C3_1", "BKW2", "BENG4", "BENG9"])
def test_a_short_search_finds_published_optima(name: str) -> None:
    """Instances that a thousand tries are enough for, without turning."""
    instance = INSTANCES[name]
    plan = pack_free(
        instance.items(turn=False), instance.width, effort=Effort(seconds=None, tries=1000)
    )
    assert plan.height == instance.optimum


@TURNS
@pytest.mark.parametrize("name", ["C1_1", "C2_3", "C3_2", "C4_1", "BKW3", "BENG1"])
def test_never_worse_than_a_packing_library(name: str, *, turn: bool) -> None:
    """No higher than the best of six packers of rectpack, an independent library."""
    instance = INSTANCES[name]
    plan = pack_free(
        instance.items(turn=turn), instance.width, effort=Effort(seconds=None, tries=300)
    )
    assert plan.height <= min(_rectpack_heights(name, turn=turn))


def _rectpack_heights(name: str, *, turn: bool) -> list[int]:
    instance, found = INSTANCES[name], []
    for packer in (rectpack.MaxRectsBl, rectpack.MaxRectsBssf, rectpack.SkylineBlWm):
        for sort in (rectpack.SORT_AREA, rectpack.SORT_LSIDE):
            made = rectpack.newPacker(pack_algo=packer, sort_algo=sort, rotation=turn)
            made.add_bin(instance.width, 10 * instance.optimum)
            for width, height, count in instance.sizes:
                for _ in range(count):
                    made.add_rect(width, height)
            made.pack()
            assert len(made[0]) == instance.pieces
            found.append(max(rect.y + rect.height for rect in made[0]))
    return found


@settings(max_examples=60)
@given(problems(), st.sampled_from([Fraction(0), Fraction(1, 8), Fraction(3, 7)]))
def test_random_problems_are_packed_soundly(problem: Problem, spacing: Fraction) -> None:
    """Whatever the grid of the sizes and the spacing, and never under a bound."""
    plan = pack_free(problem.items, problem.width, spacing=spacing, effort=QUICK)
    assert faults(problem.items, plan, spacing=spacing) == ()
    assert plan.height >= lower_bounds(problem.items, problem.width, spacing)[0].height


def test_the_same_tries_and_seed_give_the_same_plan() -> None:
    """And another seed may give another plan."""
    instance = INSTANCES["C4_2"]
    items = instance.items(turn=True)
    one, same, other = (
        pack_free(items, instance.width, effort=Effort(seconds=None, tries=200, seed=seed))
        for seed in (1, 1, 2)
    )
    assert one == same
    assert one.placements != other.placements


def test_sizes_come_back_unchanged() -> None:
    """Inches of 127/5 mm and odd thirds of them are not rounded."""
    third = Fraction(127, 15)
    items = [Item(width=third, height=2 * third, count=6)]
    plan = pack_free(items, 7 * third / 2, effort=QUICK)
    assert plan.height == 4 * third
    assert {placed.width for placed in plan.placements} == {third}


def test_spacing_is_between_pieces_only() -> None:
    """Two pieces side by side need their widths and one spacing; none to the edges."""
    item = Item(width=10, height=5, count=2)
    assert pack_free([item], 21, spacing=1, effort=QUICK).height == 5
    assert pack_free([item], 20, spacing=1, effort=QUICK).height == 11


def test_no_tries_leave_the_levels() -> None:
    """A search without work still gives a plan."""
    instance = INSTANCES["C1_1"]
    items = instance.items(turn=False)
    plan = pack_free(items, instance.width, effort=Effort(tries=0))
    assert plan.method is Method.LEVELS
    assert faults(items, plan) == ()


def test_the_watch_hears_and_stops_the_search(monkeypatch: pytest.MonkeyPatch) -> None:
    """It hears heights that never rise, above the bound, and the best plan is kept."""
    monkeypatch.setattr(effort, "BETWEEN", 0.0)
    heard: list[Progress] = []

    def watch(progress: Progress) -> bool:
        heard.append(progress)
        return progress.tries < 25

    instance = INSTANCES["C5_1"]
    items = instance.items(turn=False)
    plan = pack_free(items, instance.width, effort=Effort(seconds=None), watch=watch)
    assert [progress.tries for progress in heard] == list(range(26))
    assert faults(items, plan) == ()
    heights = [progress.height for progress in heard]
    assert heights == sorted(heights, reverse=True)
    assert heights[-1] >= plan.height >= heard[-1].bound == 90


def test_time_ends_the_search() -> None:
    """No seconds are no tries."""
    instance = INSTANCES["C7_1"]
    plan = pack_free(instance.items(turn=False), instance.width, effort=Effort(seconds=0.0))
    assert plan.method is Method.LEVELS


@pytest.mark.parametrize(
    ("items", "message"),
    [
        ([Item(width=5, height=50)], "piece 1 must fit a width of 4, got 5 x 50. It needs cloth"),
        ([], "there must be at least one piece to cut"),
    ],
)
def test_what_cannot_be_packed_is_refused(items: list[Item], message: str) -> None:
    """One clear line for each piece."""
    with pytest.raises(InputError, match=f"^{re.escape(message)}"):
        pack_free(items, 4)


@pytest.mark.parametrize(
    ("size", "message"),
    [
        ({"width": 0, "height": 3}, "a piece must be larger than 0, got 0 x 3"),
        ({"width": 1, "height": -3}, "a piece must be larger than 0, got 1 x -3"),
        ({"width": 1, "height": 3, "count": 0}, "count must be at least 1, got 0"),
    ],
)
def test_pieces_that_are_none_are_refused(size: dict[str, int], message: str) -> None:
    """Sizes and counts are checked as an item is made."""
    with pytest.raises(InputError, match=f"^{re.escape(message)}$"):
        Item(**size)  # type: ignore[arg-type] # turn is not among them
