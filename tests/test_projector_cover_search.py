"""The search for the fewest windows: judged by SciPy's integer programs (HiGHS), set by set."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as some
from scipy.optimize import Bounds, LinearConstraint, milp

from cutpaths.geometry.polygons import box
from cutpaths.pieces import build
from cutpaths.project import load
from cutpaths.projector.cover import windows
from cutpaths.projector.cover_search import fewest
from cutpaths.projector.frames import Room, plan
from cutpaths.projector.needs import Wanted, needs_of
from cutpaths.projector.window import Window
from cutpaths.shapes import Motion

FIXTURES = Path(__file__).parent.parent / "fixtures"


def window(holds: int) -> Window:
    """A window that holds some boxes; where it stands does not matter here."""
    return Window(0.0, 0.0, 1.0, 1.0, False, holds)


def judged(candidates: list[Window], everything: int) -> int:
    """The fewest windows that hold everything, by an integer program."""
    bits = range(everything.bit_length())
    matrix = np.array([[each.holds >> bit & 1 for each in candidates] for bit in bits])
    found = milp(
        np.ones(len(candidates)),
        constraints=LinearConstraint(matrix, lb=np.ones(len(bits))),
        integrality=np.ones(len(candidates)),
        bounds=Bounds(0, 1),
    )
    assert found.success
    return int(found.fun + 0.5)


@given(some.lists(some.integers(1, 2**12 - 1), min_size=1, max_size=18))
def test_as_few_as_an_integer_program_finds(sets: list[int]) -> None:
    """Whatever the sets: the count, the proof that no fewer will do, and that nothing is left."""
    union = 0
    for each in sets:
        union |= each
    everything = (1 << union.bit_count()) - 1
    packed = [_packed(each, union) for each in sets]
    candidates = [window(each) for each in packed]
    found = fewest(candidates, everything, 1)
    assert len(found.windows) == found.least == judged(candidates, everything)
    held = 0
    for one in found.windows:
        held |= one.holds
    assert held == everything


def _packed(bits: int, union: int) -> int:
    """The bits of a set that stand in the union, side by side."""
    places = [n for n in range(union.bit_length()) if union >> n & 1]
    return sum((bits >> place & 1) << n for n, place in enumerate(places))


@pytest.mark.parametrize("size", [(560.0, 315.0), (480.0, 300.0), (1200.0, 300.0)], ids=str)
def test_hexagons_need_as_many_frames_as_are_planned(size: tuple[float, float]) -> None:
    """A plan for a hexagon is proved to be the shortest, and the integer program agrees."""
    piece = build(load(FIXTURES / "beehive.toml")).backing
    made = plan(piece, Room(*size, Motion()), Wanted.ALL, 0.5)
    boxes = [need.box for need in needs_of(piece, Wanted.ALL, min(size))]
    candidates = windows(size, boxes, box(piece.outline))
    least = judged(candidates, (1 << len(boxes)) - 1)
    assert len(made.placements) == made.least == least


def test_a_search_cut_short_proves_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    """Where the search may not go on, the windows still hold everything, and the bound is true."""
    monkeypatch.setattr("cutpaths.projector.cover_search.NODES_MOST", 0)
    sets = (0b000111, 0b111000, 0b011110, 0b100001)
    found = fewest([window(each) for each in sets], 0b111111, 1)
    assert len(found.windows) >= 2
    assert found.least == 1
