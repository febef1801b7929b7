"""Which of several places on a sheet is free, so that no line runs through a text; mm.

Extension lines of dimensions are kept off texts where there is a choice; they may cross one where
there is none.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise

from cutpaths.drawing import Dimension, Item, Placed, dimension_parts, move, text_paths
from cutpaths.geometry.clip import span_inside
from cutpaths.geometry.polygons import Ring, box, edges
from cutpaths.shapes import Circle, Motion, Path, Point, Text
from cutpaths.values import Value, field

# This far round its ink a text is its own.
TEXT_GAP = 1.2
_EXTENSION_LINES = 2
_CIRCLE_SIDES = 16

Segment = tuple[Point, Point]


class _TextBox(Value):
    """The box of a text along its line, its sides, and the upright box round it."""

    ring: Ring
    sides: tuple[Segment, ...]
    reach: tuple[float, float, float, float]


class _Drawn(Value):
    """What is drawn: boxes of texts, lines, and extension lines of dimensions."""

    texts: list[_TextBox] = field(default_factory=list)
    lines: list[Segment] = field(default_factory=list)
    extensions: list[Segment] = field(default_factory=list)

    def add(self, other: _Drawn) -> None:
        """Draws more."""
        self.texts.extend(other.texts)
        self.lines.extend(other.lines)
        self.extensions.extend(other.extensions)


def placed_clear(choices: Iterable[Sequence[Item]], on: Iterable[Item]) -> tuple[Item, ...]:
    """Of each choice the first item that is clear of all that is drawn, else the clearest.

    Args:
        choices: for each thing to draw the places it may have, the best first.
        on: what is drawn already.
    """
    drawn = _Drawn()
    for item in on:
        drawn.add(_drawn(item))
    found = []
    for choice in choices:
        item, shape = _clearest(choice, drawn)
        found.append(item)
        drawn.add(shape)
    return tuple(found)


def text_box(text: Text, gap: float) -> Ring:
    """The box of a text's ink along its line, grown by a gap."""
    turn = math.radians(text.angle)
    frame = Motion(math.cos(turn), math.sin(turn), *text.at)
    home = frame.inverse()
    ink = home.points([p for path in text_paths(text) for p in path.points])
    left, bottom, right, top = box(ink)
    ring = (left, bottom), (right, bottom), (right, top), (left, top)
    grown = tuple((x + dx * gap, y + dy * gap) for (x, y), (dx, dy) in zip(ring, _OUT, strict=True))
    return frame.ring(grown)


_OUT = (-1, -1), (1, -1), (1, 1), (-1, 1)


def segments(shape: Path | Circle) -> tuple[Segment, ...]:
    """The straight parts of a line; a circle as a many-sided ring."""
    match shape:
        case Circle((x, y), radius):
            turns = (math.tau * i / _CIRCLE_SIDES for i in range(_CIRCLE_SIDES))
            return edges(tuple((x + radius * math.cos(t), y + radius * math.sin(t)) for t in turns))
        case Path(points, closed):
            return edges(points) if closed else tuple(pairwise(points))


def touches(ring: Ring, segment: Segment) -> bool:
    """Whether a segment has a point in a convex ring."""
    return span_inside(*segment, ring) is not None


def _clearest(choice: Sequence[Item], drawn: _Drawn) -> tuple[Item, _Drawn]:
    """The first that crosses nothing, else the first of those that cross least."""
    tried = []
    for item in choice:
        shape = _drawn(item)
        crossings = _crossings(shape, drawn)
        if not any(crossings):
            return item, shape
        tried.append((crossings, item, shape))
    _, item, shape = min(tried, key=lambda each: each[0])
    return item, shape


def _crossings(new: _Drawn, drawn: _Drawn) -> tuple[int, int]:
    """How often a text and something else meet: lines and texts, then extension lines."""
    boxes = [side for text in drawn.texts for side in text.sides]
    own = [side for text in new.texts for side in text.sides]
    lines = _meetings(new.texts, drawn.lines) + _meetings(drawn.texts, new.lines)
    texts = _meetings(new.texts, boxes) + _meetings(drawn.texts, own)
    extensions = _meetings(new.texts, drawn.extensions) + _meetings(drawn.texts, new.extensions)
    return lines + texts, extensions


def _meetings(texts: Sequence[_TextBox], lines: Sequence[Segment]) -> int:
    return sum(touches(text.ring, line) for text in texts for line in _near(text, lines))


def _near(text: _TextBox, lines: Sequence[Segment]) -> Iterator[Segment]:
    """The lines whose boxes meet that of a text."""
    left, bottom, right, top = text.reach
    for line in lines:
        (x0, y0), (x1, y1) = line
        apart = (
            (x0 < left and x1 < left)
            or (x0 > right and x1 > right)
            or (y0 < bottom and y1 < bottom)
            or (y0 > top and y1 > top)
        )
        if not apart:
            yield line


def _drawn(item: Item) -> _Drawn:
    drawn = _Drawn()
    match item.shape:
        case Dimension() as dimension:
            parts = dimension_parts(dimension)
            for part in parts[:_EXTENSION_LINES]:
                if isinstance(part, Path):
                    drawn.extensions.extend(segments(part))
            _sort(drawn, parts[_EXTENSION_LINES:])
        case Placed(drawing, motion):
            for inner in drawing.items:
                drawn.add(_drawn(move(motion, inner)))
        case Text() | Path() | Circle() as shape:
            _sort(drawn, (shape,))
    return drawn


def _sort(drawn: _Drawn, parts: Iterable[Path | Circle | Text]) -> None:
    for part in parts:
        if isinstance(part, Text):
            ring = text_box(part, TEXT_GAP)
            drawn.texts.append(_TextBox(ring, edges(ring), box(ring)))
        else:
            drawn.lines.extend(segments(part))
