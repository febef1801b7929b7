"""What a convex window shows of some items; mm.

A line that leaves the window ends at its edge, a closed one comes apart into open ones. A circle or
a text is shown where it lies wholly inside.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import pairwise

from cutpaths.drawing import Item, flatten
from cutpaths.geometry.clip import span_inside
from cutpaths.geometry.polygons import SAME_PLACE_MM, Ring, distance, inside_by
from cutpaths.shapes import Circle, Path, Point, Text
from cutpaths.sheets.pages.text_places import text_room
from cutpaths.values import replace

Segment = tuple[Point, Point]


def in_window(items: Iterable[Item], window: Ring) -> tuple[Item, ...]:
    """The items, or parts of them, that lie in a window."""
    flat = (part for item in items for part in flatten(item))
    return tuple(replace(part, shape=shape) for part in flat for shape in _seen(part, window))


def _seen(item: Item, window: Ring) -> Iterator[Path | Circle | Text]:
    match item.shape:
        case Text() as text:
            if all(inside_by(p, window) >= 0.0 for p in text_room(text, 0.0)):
                yield text
        case Circle(center, radius) as circle:
            if inside_by(center, window) >= radius:
                yield circle
        case Path(points, closed) as path:
            if all(inside_by(p, window) >= 0.0 for p in points):
                yield path
                return
            ring = (*points, points[0]) if closed else points
            yield from (Path(run) for run in _joined(shown(s, window) for s in pairwise(ring)))


def shown(segment: Segment, window: Ring) -> Segment | None:
    """The part of a segment in a window; None where that has no length.

    >>> square = ((0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0))
    >>> shown(((-2.0, 1.0), (2.0, 1.0)), square)
    ((0.0, 1.0), (2.0, 1.0))
    """
    span = span_inside(*segment, window)
    if span is None or (span[1] - span[0]) * distance(*segment) <= SAME_PLACE_MM:
        return None
    return _at(segment, span[0]), _at(segment, span[1])


def _at(segment: Segment, part: float) -> Point:
    """A place on a segment; its ends exactly."""
    (x0, y0), (x1, y1) = segment
    if part in (0.0, 1.0):
        return segment[int(part)]
    return x0 + (x1 - x0) * part, y0 + (y1 - y0) * part


def _joined(parts: Iterable[Segment | None]) -> Iterator[tuple[Point, ...]]:
    """Segments that follow one another, as lines."""
    run: list[Point] = []
    for part in parts:
        if part is not None and run and run[-1] == part[0]:
            run.append(part[1])
            continue
        if run:
            yield tuple(run)
        run = list(part or ())
    if run:
        yield tuple(run)
