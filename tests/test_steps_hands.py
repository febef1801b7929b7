"""Step pictures for either hand: what is worked by hand is drawn from that hand's side."""

from __future__ import annotations

import pytest
from test_steps import kit_of
from texts_apart import off_sheet, touching

from cutpaths.shapes import Text
from cutpaths.sheets.steps import Hand, steps_of


@pytest.mark.parametrize("name", ["tidepool", "beehive", "lighthouse", "folded"])
def test_scissors_and_needle_come_from_the_other_side(name: str) -> None:
    """A left hand changes the pictures of cuts and hand stitches, and nothing else is told."""
    kit = kit_of(name)
    right, left = steps_of(kit), steps_of(kit, hand=Hand.LEFT)
    assert [(s.title, s.check) for s in left] == [(s.title, s.check) for s in right]
    changed = {a.key for a, b in zip(right, left, strict=True) if a.drawing != b.drawing}
    cut = {"trim-tip"} if name == "folded" else {"trim-corner", "close-opening"}
    assert changed == cut | ({"sew-pairs"} if kit.pairs else set())
    for step in left:
        assert touching(step.drawing) == []
        assert off_sheet(step.drawing) == []


@pytest.mark.parametrize(("hand", "way"), [(Hand.RIGHT, -1.0), (Hand.LEFT, 1.0)])
def test_a_hand_sews_toward_the_other(hand: Hand, way: float) -> None:
    """The opening is closed from right to left, or from left to right, as its words say."""
    (step,) = (s for s in steps_of(kit_of("tidepool"), hand=hand) if s.key == "close-opening")
    texts = [item.shape for item in step.drawing.items if isinstance(item.shape, Text)]
    at = {text.string: text.at[0] for text in texts}
    assert (at["stop"] - at["start"]) * way > 10.0
    assert f"from the {hand.value} to the {hand.other.value}." in " ".join(step.words)
