"""The windows that may hold boxes; sets of boxes are the bits of whole numbers.

Windows are upright rectangles of one size, either way round. Any of them can be pushed right and up
until its lower left edges touch boxes that it holds, and none of those is lost: so windows that
touch boxes are all that is looked at, and what is proved of them holds for every window. Cloth laid
askew is not looked at.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import product

from cutpaths.geometry.polygons import box
from cutpaths.projector.cover_search import fewest
from cutpaths.projector.needs import Box
from cutpaths.projector.window import Window
from cutpaths.shapes import Motion
from cutpaths.values import replace

SLACK_MM = 1e-6


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
        found = fewest(whole, everything, len(chosen) // turns).windows
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
