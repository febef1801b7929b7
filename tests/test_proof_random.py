"""Whatever can be made is proved to sew together."""

from __future__ import annotations

import pytest
from hypothesis import strategies as st
from proof_strategies import folded_rectangles, turned_outlines, turned_rectangles
from proof_tally import proved
from strategies import projects

from cutpaths.project.model import Project

# Projects to draw, how many of them must be makeable, and the keys that others are refused for.
CASES = {
    "turned rectangles": (turned_rectangles(), 100, 90, {"border.width"}),
    "turned outlines": (turned_outlines(), 100, 80, {"border.width"}),
    "folded rectangles": (folded_rectangles(), 60, 54, {"border.width"}),
    "project files": (projects(), 40, 40, set[str]()),
}


@pytest.mark.parametrize(("strategy", "count", "floor", "keys"), CASES.values(), ids=CASES)
def test_what_can_be_made_is_proved(
    strategy: st.SearchStrategy[Project], count: int, floor: int, keys: set[str]
) -> None:
    """Every project passes every check or is refused for its size; enough of them are made."""
    tally = proved(strategy, count)
    assert tally.built >= floor
    assert set(tally.keys) <= keys
