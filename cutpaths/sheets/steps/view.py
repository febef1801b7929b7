"""Windows of a step picture: what is shown of the cloth, where on the sheet, and how large.

Cloth is given in the front view, mm of the cloth; the sheet is mm of paper, x right, y up.
"""

from __future__ import annotations

from collections.abc import Sequence

from cutpaths.geometry.polygons import Ring, box
from cutpaths.shapes import IDENTITY, Motion, Point
from cutpaths.values import Value

MIRRORED = Motion(mirrored=True)


class View(Value, kw_only=True):
    """One window.

    Attributes:
        turn: from the front view to the way the cloth lies.
        low: what of the cloth as it lies comes to the window's lower left corner.
        at: that corner on the sheet.
        scale: mm of paper for a mm of cloth.
        window: what is seen, on the sheet; convex.
    """

    turn: Motion
    low: Point
    at: Point
    scale: float
    window: Ring

    def point(self, p: Point) -> Point:
        """Where a point of the cloth comes on the sheet."""
        x, y = self.turn.point(p)
        return (
            self.at[0] + (x - self.low[0]) * self.scale,
            self.at[1] + (y - self.low[1]) * self.scale,
        )

    def points(self, points: Sequence[Point]) -> tuple[Point, ...]:
        """Where points of the cloth come on the sheet, in their order."""
        return tuple(self.point(p) for p in points)

    def ring(self, ring: Ring) -> Ring:
        """Where a ring of the cloth comes on the sheet, counter-clockwise again."""
        found = self.points(ring)
        return found[::-1] if self.turn.mirrored else found

    def way(self, way: Point) -> Point:
        """A direction of the cloth as it is on the sheet."""
        start, end = self.turn.point((0.0, 0.0)), self.turn.point(way)
        return end[0] - start[0], end[1] - start[1]


def frame(left: float, foot: float, right: float, head: float) -> Ring:
    """A rectangle, counter-clockwise."""
    return (left, foot), (right, foot), (right, head), (left, head)


EVERYWHERE = frame(-1000.0, -1000.0, 1000.0, 1000.0)  # a window that cuts nothing off


class Room(Value):
    """A rectangle of the sheet in which a view is fitted."""

    left: float
    foot: float
    width: float
    height: float


def whole(points: Sequence[Point], room: Room, turn: Motion = IDENTITY) -> View:
    """A view that shows all of some points of the front view as large as a room allows."""
    left, foot, right, head = box([turn.point(p) for p in points])
    scale = min(room.width / (right - left), room.height / (head - foot))
    wide = (right - left) * scale
    at = room.left + (room.width - wide) / 2, room.foot
    return View(turn=turn, low=(left, foot), at=at, scale=scale, window=EVERYWHERE)


def detail(
    points: Sequence[Point], room: Room, turn: Motion = IDENTITY, *, pad: float = 0.0
) -> View:
    """A view of the box round some points of the front view, cut off `pad` mm outside it."""
    found = whole(points, room, turn)
    left, foot, right, head = box(found.points(points))
    left, foot, right, head = left - pad, foot - pad, right + pad, head + pad
    return View(
        turn=turn,
        low=found.low,
        at=found.at,
        scale=found.scale,
        window=frame(left, foot, right, head),
    )
