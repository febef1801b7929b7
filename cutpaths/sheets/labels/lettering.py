"""Lines of text on a paper sheet, and rules beside them; mm, from the top down."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence

from cutpaths.drawing import Item
from cutpaths.roles import Role
from cutpaths.shapes import Anchor, Path, Point, Text
from cutpaths.sheets.wrap import wrapped
from cutpaths.strokes import text_width

Lines = Callable[[str, float, float], tuple[str, ...]]  # of a text, in a height and a width

LEADING = 1.6
KEY = "sheet"
_MORE = "..."
_BETWEEN = re.compile(r"(?<= x) | (?=hole to hole)")


def text(string: str, at: Point, height: float, anchor: Anchor = Anchor.START) -> Item:
    """A line of text by its baseline."""
    return Item(Role.LABEL, KEY, Text(string=string, at=at, height=height, anchor=anchor))


def rule(start: Point, end: Point, role: Role = Role.DIMENSION) -> Item:
    """A line."""
    return Item(role, KEY, Path((start, end)))


def box(corner: Point, width: float, height: float) -> Item:
    """A rectangle by its lower left corner."""
    x, y = corner
    ring = ((x, y), (x + width, y), (x + width, y + height), (x, y + height))
    return Item(Role.DIMENSION, KEY, Path(ring, closed=True))


def block(lines: Sequence[str], x: float, top: float, height: float) -> Iterator[Item]:
    """Lines from a top edge down."""
    for number, line in enumerate(lines):
        if line:
            yield text(line, (x, top - height - number * height * LEADING), height)


def tall(lines: Sequence[str], height: float) -> float:
    """How high lines stand, the room under the last one with them."""
    return len(lines) * height * LEADING


def fitted(
    string: str, heights: Sequence[float], width: float, most: int, part: Lines = wrapped
) -> tuple[float, tuple[str, ...]]:
    """A text in the largest of some heights in which it has no more lines; else cut short."""
    for height in heights:
        lines = part(string, height, width)
        if len(lines) <= most:
            return height, lines
    return height, (*lines[: most - 1], _cut_short(lines[most - 1], height, width))


def size_lines(string: str, height: float, width: float) -> tuple[str, ...]:
    """A size in one line, else parted between its two lengths, else where it must be.

    A card has the way between its holes for the second.

    >>> size_lines("9 1/2 in x 1 3/4 in", 10, 90)
    ('9 1/2 in x', '1 3/4 in')
    """
    parts: tuple[str, ...] = (string,)
    if text_width(string, height) > width:
        parts = tuple(_BETWEEN.split(string, maxsplit=1))
    return tuple(line for part in parts for line in wrapped(part, height, width))


def _cut_short(line: str, height: float, width: float) -> str:
    while line and text_width(line + _MORE, height) > width:
        line = line[:-1]
    return line.rstrip() + _MORE


def field(name: str, filled: str, corner: Point, width: float, height: float) -> Iterator[Item]:
    """A name with a line to write on, or with what is known already."""
    x, y = corner
    yield text(name, (x, y), height)
    start = x + text_width(name, height) + height
    if filled:
        _, lines = fitted(filled, (height,), x + width - start, 1)
        yield text(lines[0], (start, y), height)
    else:
        yield rule((start, y - height * 0.25), (x + width, y - height * 0.25))
