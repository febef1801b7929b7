"""Where a page has room for its scale square, so that no line and no text runs through it; mm."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import Protocol

from cutpaths.drawing import Item, flatten
from cutpaths.geometry.outlines import rectangle
from cutpaths.geometry.polygons import Ring, encloses
from cutpaths.lengths import INCH_MM
from cutpaths.roles import Role
from cutpaths.shapes import Path, Point, Text, shift
from cutpaths.sheets.pages.text_places import ink, is_clear, met
from cutpaths.sheets.sheet import SCALE_INCHES, SCALE_MM

GAP = 1.5
_STEP = 4.0
_COARSE = 8.0
_INNER = SCALE_INCHES * INCH_MM
_INSET = (SCALE_MM - _INNER) / 2
_TEXT_HIGH = 11.0  # from the foot of a square to the head of its text
_TEXT_WIDE = (40.0, 24.0)  # of the outer square and of the inner one
# The lines of both squares, and their texts, as bars: left, bottom, width and height.
_BARS = (
    (0.0, 0.0, SCALE_MM, 0.0),
    (0.0, SCALE_MM, SCALE_MM, 0.0),
    (0.0, 0.0, 0.0, SCALE_MM),
    (SCALE_MM, 0.0, 0.0, SCALE_MM),
    (_INSET, _INSET, _INNER, 0.0),
    (_INSET, _INSET + _INNER, _INNER, 0.0),
    (_INSET, _INSET, 0.0, _INNER),
    (_INSET + _INNER, _INSET, 0.0, _INNER),
    ((SCALE_MM - _TEXT_WIDE[0]) / 2, 0.0, _TEXT_WIDE[0], _TEXT_HIGH),
    ((SCALE_MM - _TEXT_WIDE[1]) / 2, _INSET, _TEXT_WIDE[1], _TEXT_HIGH),
)
_TEXT_BARS = 2  # of them, the last


class Bounds(Protocol):
    """A part of a page."""

    @property
    def left(self) -> float:
        """Of it."""

    @property
    def bottom(self) -> float:
        """Of it."""

    @property
    def right(self) -> float:
        """Of it."""

    @property
    def top(self) -> float:
        """Of it."""


def square_place(items: Iterable[Item], room: Bounds) -> Point:
    """The lower left corner of the square: clear of all ink, else where it meets the least.

    Outside of what is cut where there is a place, else inside.
    """
    drawn = tuple(items)
    found = clear_place(drawn, room)
    if found is not None:
        return found
    lines = ink(drawn)
    texts = ink(item for item in drawn if isinstance(item.shape, Text))

    def meetings(at: Point) -> tuple[int, int]:
        """How often it meets what would not be read: texts, or its own; then with lines."""
        bars = list(_bars(at))
        unread = sum(len(list(met(bar, texts))) for bar in bars)
        unread += sum(len(list(met(bar, lines))) for bar in bars[-_TEXT_BARS:])
        return unread, sum(len(list(met(bar, lines))) for bar in bars)

    return min(_places(room, _COARSE), key=lambda at: (meetings(at), at))


def clear_place(items: Iterable[Item], room: Bounds) -> Point | None:
    """A place where nothing lies in the square or on its lines; None without any."""
    flat = [part for item in items for part in flatten(item)]
    lines = ink(flat)
    inner = None
    for at in _places(room, _STEP):
        if is_clear(_whole(at), lines):
            if not _in_piece(at, flat):
                return at
            inner = inner or at
    return inner


def _in_piece(at: Point, flat: Sequence[Item]) -> bool:
    """Whether the square lies inside something that is cut out."""
    middle = at[0] + SCALE_MM / 2, at[1] + SCALE_MM / 2
    return any(
        part.role is Role.CUT
        and isinstance(part.shape, Path)
        and part.shape.closed
        and encloses(part.shape.points, middle)
        for part in flat
    )


def _places(room: Bounds, step: float) -> Iterator[Point]:
    """From the right to the left, and from the head to the foot."""
    rights = _steps(room.left, room.right - SCALE_MM, step)
    tops = _steps(room.bottom, room.top - SCALE_MM, step)
    return ((x, y) for y in reversed(tops) for x in reversed(rights))


def _steps(low: float, high: float, step: float) -> list[float]:
    """Even steps from end to end, both among them."""
    count = max(1, round((high - low) / step))
    return [low + (high - low) * n / count for n in range(count + 1)]


def _whole(at: Point) -> Ring:
    grown = SCALE_MM + 2 * GAP
    return shift(at[0] - GAP, at[1] - GAP).ring(rectangle(grown, grown))


def _bars(at: Point) -> Iterator[Ring]:
    for left, bottom, width, height in _BARS:
        home = shift(at[0] + left - GAP, at[1] + bottom - GAP)
        yield home.ring(rectangle(width + 2 * GAP, height + 2 * GAP))
