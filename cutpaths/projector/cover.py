"""The fewest windows that hold all boxes; sets of boxes are the bits of whole numbers.

Windows are upright rectangles of one size, either way round. An optimum exists in which each
window's lower left or upper right edges touch a box, so those places are all that is looked at.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import product

from cutpaths.geometry.polygons import box
from cutpaths.projector.needs import Box
from cutpaths.shapes import Motion

SLACK_MM = 1e-6
NODES_MOST = 20_000


@dataclass(frozen=True, slots=True)
class Window:
    """A window: lower left corner, size, whether it is turned by a quarter, and what it holds."""

    left: float
    bottom: float
    width: float
    height: float
    turned: bool
    holds: int

    @property
    def box(self) -> Box:
        """Left, bottom, right and top."""
        return self.left, self.bottom, self.left + self.width, self.bottom + self.height


def holds(window: Box, inner: Box) -> bool:
    """Whether a box lies in a window."""
    return (
        inner[0] >= window[0] - SLACK_MM
        and inner[1] >= window[1] - SLACK_MM
        and inner[2] <= window[2] + SLACK_MM
        and inner[3] <= window[3] + SLACK_MM
    )


def fits(size: tuple[float, float], inner: Box) -> bool:
    """Whether a box fits into a window of a size, either way round."""
    w, h = inner[2] - inner[0], inner[3] - inner[1]
    return any(w <= a + SLACK_MM and h <= b + SLACK_MM for a, b in (size, size[::-1]))


def windows(size: tuple[float, float], boxes: Sequence[Box], cloth: Box) -> list[Window]:
    """Every window worth a look; those that touch the cloth's edges come first."""
    found: dict[tuple[int, bool], Window] = {}
    for turned, (w, h) in enumerate((size, size[::-1])):
        xs = _places(w, [(b[0], b[2]) for b in boxes], (cloth[0], cloth[2]))
        ys = _places(h, [(b[1], b[3]) for b in boxes], (cloth[1], cloth[3]))
        columns = [_within(x, x + w, [(b[0], b[2]) for b in boxes]) for x in xs]
        rows = [_within(y, y + h, [(b[1], b[3]) for b in boxes]) for y in ys]
        for (x, column), (y, row) in product(
            zip(xs, columns, strict=True), zip(ys, rows, strict=True)
        ):
            held = column & row
            if held and (held, bool(turned)) not in found:
                found[held, bool(turned)] = Window(x, y, w, h, bool(turned), held)
    return list(found.values())


def fewest(candidates: Sequence[Window], everything: int, least: int) -> tuple[Window, ...]:
    """Windows that hold everything: as few as a search of limited length finds."""
    best = _greedy(candidates, everything)
    able = _largest(candidates)
    for count in range(max(1, least), len(best)):
        budget = [NODES_MOST]
        if found := _search(able, everything, count, budget):
            return found
    return best


def balanced(
    chosen: Sequence[Window], candidates: Sequence[Window], boxes: Sequence[Box], cloth: Box
) -> tuple[Window, ...]:
    """As many windows as were chosen, but turned copies of one another if that holds all too.

    Quarter turns about the middle of a square cloth, else half turns: then alike corners look
    alike.
    """
    everything = (1 << len(boxes)) - 1
    square = abs(cloth[2] - cloth[0] - cloth[3] + cloth[1]) < SLACK_MM
    for turns in (4, 2) if square else (2,):
        if len(chosen) % turns:
            continue
        rings = {each: _copies(each, turns, boxes, cloth) for each in candidates}
        whole = [replace(each, holds=_union(ring)) for each, ring in rings.items()]
        if _union(whole) != everything:
            continue
        found = fewest(whole, everything, len(chosen) // turns)
        if len(found) * turns == len(chosen):
            return tuple(copy for one in found for copy in _copies(one, turns, boxes, cloth))
    return tuple(chosen)


def _copies(window: Window, turns: int, boxes: Sequence[Box], cloth: Box) -> tuple[Window, ...]:
    """A window turned about the cloth's middle, as often as it takes to come back."""
    about = (cloth[0] + cloth[2]) / 2, (cloth[1] + cloth[3]) / 2
    found = []
    for n in range(0, 4, 4 // turns):
        motion = Motion.quarters(n)
        corners = [
            motion.point((x - about[0], y - about[1])) for x, y in (window.box[:2], window.box[2:])
        ]
        left, bottom, right, top = box(corners)
        spot = left + about[0], bottom + about[1], right + about[0], top + about[1]
        held = sum(1 << k for k, each in enumerate(boxes) if holds(spot, each))
        width, height = right - left, top - bottom
        turned = window.turned != bool(n % 2)
        found.append(Window(spot[0], spot[1], width, height, turned, held))
    return tuple(found)


def _union(found: Iterable[Window]) -> int:
    bits = 0
    for each in found:
        bits |= each.holds
    return bits


def bound(size: tuple[float, float], boxes: Sequence[Box], most: int) -> int:
    """A count of windows below which it cannot go.

    Boxes of which no two fit into one window need one each. `most` is how many boxes the fullest
    window holds.
    """
    apart = max((_apart(size, boxes, first) for first in range(len(boxes))), default=0)
    return max(apart, -(-len(boxes) // most) if most else 0)


def _apart(size: tuple[float, float], boxes: Sequence[Box], first: int) -> int:
    """How many boxes are found that are apart from one another, one given."""
    chosen = [boxes[first]]
    for each in sorted(boxes, key=lambda b: -_reach(b, boxes[first])):
        if all(not fits(size, _both(each, other)) for other in chosen):
            chosen.append(each)
    return len(chosen)


def _reach(a: Box, b: Box) -> float:
    return abs(a[0] + a[2] - b[0] - b[2]) + abs(a[1] + a[3] - b[1] - b[3])


def _both(a: Box, b: Box) -> Box:
    return min(a[0], b[0]), min(a[1], b[1]), max(a[2], b[2]), max(a[3], b[3])


def _places(
    size: float, spans: Iterable[tuple[float, float]], cloth: tuple[float, float]
) -> list[float]:
    """Where windows may start along one axis: at the cloth's edges first, then at each box."""
    inner = sorted({low for low, _ in spans} | {high - size for _, high in spans})
    return list(dict.fromkeys([cloth[0], cloth[1] - size, *inner]))


def _within(low: float, high: float, spans: Sequence[tuple[float, float]]) -> int:
    bits = 0
    for n, (start, end) in enumerate(spans):
        if start >= low - SLACK_MM and end <= high + SLACK_MM:
            bits |= 1 << n
    return bits


def _greedy(candidates: Sequence[Window], everything: int) -> tuple[Window, ...]:
    """Always the window that holds most of what is left."""
    left, chosen = everything, []
    gain: Callable[[Window], int] = lambda window: (window.holds & left).bit_count()  # noqa: E731
    while left:
        best = max(candidates, key=gain)
        chosen.append(best)
        left &= ~best.holds
    return tuple(chosen)


def _largest(candidates: Sequence[Window]) -> list[Window]:
    """Windows that hold something that no other one holds besides all the rest of it."""
    kept: list[Window] = []
    for each in sorted(candidates, key=lambda window: -window.holds.bit_count()):
        if not any(each.holds | other.holds == other.holds for other in kept):
            kept.append(each)
    return kept


def _search(
    candidates: Sequence[Window], left: int, count: int, budget: list[int]
) -> tuple[Window, ...] | None:
    """`count` windows that hold all that is left: the hardest box decides which to try."""
    if not left:
        return ()
    budget[0] -= 1
    most = max((window.holds & left).bit_count() for window in candidates)
    if budget[0] < 0 or count * most < left.bit_count():
        return None
    hardest = _hardest(candidates, left)
    able = [window for window in candidates if window.holds & hardest]
    for window in sorted(able, key=lambda each: -(each.holds & left).bit_count()):
        found = _search(candidates, left & ~window.holds, count - 1, budget) if count else None
        if found is not None:
            return (window, *found)
    return None


def _hardest(candidates: Sequence[Window], left: int) -> int:
    """The bit that the fewest windows hold."""
    bits = [1 << n for n in range(left.bit_length()) if left >> n & 1]
    return min(bits, key=lambda bit: sum(1 for window in candidates if window.holds & bit))
