"""The free space of one bed, as the largest rectangles that fit into it; mm.

After J. Jylänki, "A Thousand Ways to Pack the Bin", 2010, maximal rectangles. A box takes its
spacing with it on the right and above, and the bed is larger by as much.
"""

from __future__ import annotations

from enum import Enum

Free = tuple[float, float, float, float]  # left, bottom, right, top
Score = tuple[float, float, float]

SLACK = 1e-7  # mm; sums of floats that are equal on paper may differ in the last digits


class Rule(Enum):
    """Which place is the best for a box."""

    LOW = "lowest, then leftmost"
    SHORT = "shortest side left over"
    LONG = "shortest longer side left over"
    AREA = "least area left over"


class FreeSpace:
    """The free rectangles of one bed; changed in place, because a search fills beds all day."""

    __slots__ = ("free",)

    def __init__(self, width: float, height: float) -> None:
        self.free: list[Free] = [(0.0, 0.0, width, height)]

    def best(self, width: float, height: float, rule: Rule) -> tuple[Score, float, float] | None:
        """The best place for a box: its score (less is better), left and bottom."""
        best: tuple[Score, float, float] | None = None
        wide, high = width - SLACK, height - SLACK
        for left, bottom, right, top in self.free:
            over, up = right - left - width, top - bottom - height
            if right - left < wide or top - bottom < high:
                continue
            if rule is Rule.LOW:
                score = (bottom + height, left, bottom)
            elif rule is Rule.SHORT:
                score = (min(over, up), max(over, up), bottom)
            elif rule is Rule.LONG:
                score = (max(over, up), min(over, up), bottom)
            else:
                area = (right - left) * (top - bottom) - width * height
                score = (area, min(over, up), bottom)
            if best is None or score < best[0]:
                best = score, left, bottom
        return best

    def take(self, left: float, bottom: float, width: float, height: float) -> None:
        """Fills a place."""
        right, top = left + width, bottom + height
        kept: list[Free] = []
        cut: list[Free] = []
        for each in self.free:
            l, b, r, t = each  # noqa: E741 - the four sides of a rectangle
            if left >= r - SLACK or right <= l + SLACK or bottom >= t - SLACK or top <= b + SLACK:
                kept.append(each)
                continue
            if left > l + SLACK:
                cut.append((l, b, left, t))
            if right < r - SLACK:
                cut.append((right, b, r, t))
            if bottom > b + SLACK:
                cut.append((l, b, r, bottom))
            if top < t - SLACK:
                cut.append((l, top, r, t))
        self.free = kept + _largest(cut, kept)


def _largest(cut: list[Free], kept: list[Free]) -> list[Free]:
    """The rectangles that lie in no other, alike ones once; those kept lie in none of them."""
    found: list[Free] = []
    # The larger come first, so that none lies in one that comes after it.
    for each in sorted(cut, key=lambda f: (f[0] - f[2]) * (f[3] - f[1])):
        if not any(_holds(o, each) for o in found) and not any(_holds(o, each) for o in kept):
            found.append(each)
    return found


def _holds(outer: Free, inner: Free) -> bool:
    return (
        outer[0] <= inner[0] + SLACK
        and outer[1] <= inner[1] + SLACK
        and outer[2] >= inner[2] - SLACK
        and outer[3] >= inner[3] - SLACK
    )
