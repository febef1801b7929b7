"""Which of several places on a sheet is free, so that no line runs through a text; mm.

Extension lines of dimensions are kept off texts where there is a choice; they may cross one where
there is none.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from typing import assert_never

import shapely
from shapely.geometry import LineString, Point, Polygon
from shapely.geometry.base import BaseGeometry

from cutpaths.drawing import Dimension, Item, Placed, dimension_parts, flatten, move, text_paths
from cutpaths.shapes import Circle, Path, Text

# This far round its ink a text is its own.
TEXT_GAP = 0.8
_EXTENSION_LINES = 2


@dataclass(frozen=True, slots=True)
class _Drawn:
    """What is drawn: boxes of texts, lines, and extension lines of dimensions."""

    texts: list[BaseGeometry] = field(default_factory=list)
    lines: list[BaseGeometry] = field(default_factory=list)
    extensions: list[BaseGeometry] = field(default_factory=list)

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
    lines = _meetings(new.texts, drawn.texts + drawn.lines) + _meetings(new.lines, drawn.texts)
    extensions = _meetings(new.texts, drawn.extensions) + _meetings(new.extensions, drawn.texts)
    return lines, extensions


def _meetings(shapes: Sequence[BaseGeometry], others: Sequence[BaseGeometry]) -> int:
    return sum(int(shapely.intersects(shape, others).sum()) for shape in shapes if others)


def _drawn(item: Item) -> _Drawn:
    drawn = _Drawn()
    match item.shape:
        case Dimension() as dimension:
            parts = dimension_parts(dimension)
            drawn.extensions.extend(map(_shape, parts[:_EXTENSION_LINES]))
            _sort(drawn, parts[_EXTENSION_LINES:])
        case Placed(drawing, motion):
            for inner in drawing.items:
                drawn.add(_drawn(move(motion, inner)))
        case _:
            _sort(drawn, [flat.shape for flat in flatten(item)])
    return drawn


def _sort(drawn: _Drawn, parts: Iterable[object]) -> None:
    for part in parts:
        (drawn.texts if isinstance(part, Text) else drawn.lines).append(_shape(part))


def _shape(part: object) -> BaseGeometry:
    match part:
        case Text():
            return ink_area(part).buffer(TEXT_GAP)
        case Circle():
            return ink_area(part).boundary
        case Path(points, closed):
            return LineString(points + points[:1] if closed else points)
        case _:
            raise TypeError(f"a flat item is a path, a circle or a text, got {part!r}")


def ink_area(shape: Path | Circle | Text) -> BaseGeometry:
    """The area of a text's ink as a box along its line, of a circle, or of a closed path."""
    match shape:
        case Text():
            ink = [p for path in text_paths(shape) for p in path.points]
            return LineString(ink).minimum_rotated_rectangle
        case Circle((x, y), radius):
            return Point(x, y).buffer(radius)
        case Path(points):
            return Polygon(points)
        case _:
            assert_never(shape)
