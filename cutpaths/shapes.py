"""Plain shapes and rigid motions of the plane.

Millimetres, x right, y up, angles in degrees counter-clockwise from the x axis. Values only; what
a shape is for is said by a role beside it.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from enum import StrEnum
from typing import assert_never

from cutpaths.values import Value, replace

Point = tuple[float, float]


class Anchor(StrEnum):
    """Which end of a text's baseline stands at its place."""

    START = "start"
    MIDDLE = "middle"
    END = "end"


class Path(Value):
    """Straight segments from point to point.

    A closed path is closed by flag: its first point is not repeated at the end.
    """

    points: tuple[Point, ...]
    closed: bool = False


class Circle(Value):
    """A full circle."""

    center: Point
    radius: float


class Text(Value, kw_only=True):
    """One line of text; `height` is the height of a capital, in mm."""

    string: str
    at: Point
    height: float
    angle: float = 0.0
    anchor: Anchor = Anchor.START


Line = Path | Circle

_QUARTERS = ((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0))
_MIRRORED_ANCHOR = {
    Anchor.START: Anchor.END,
    Anchor.MIDDLE: Anchor.MIDDLE,
    Anchor.END: Anchor.START,
}


class Motion(Value):
    """A rigid motion: first a mirror (x to -x) where asked, then a turn, then a shift.

    The turn is kept as cosine and sine, so that quarter turns are exact.
    """

    cos: float = 1.0
    sin: float = 0.0
    dx: float = 0.0
    dy: float = 0.0
    mirrored: bool = False

    @classmethod
    def quarters(
        cls, count: int, dx: float = 0.0, dy: float = 0.0, *, mirrored: bool = False
    ) -> Motion:
        """`count` quarter turns counter-clockwise (exact), then a shift."""
        cos, sin = _QUARTERS[count % 4]
        return cls(cos, sin, dx, dy, mirrored)

    @property
    def degrees(self) -> float:
        """The turn in degrees, over -180 to 180."""
        return math.degrees(math.atan2(self.sin, self.cos))

    def point(self, p: Point) -> Point:
        """Where a point goes."""
        x, y = (-p[0], p[1]) if self.mirrored else p
        return self.cos * x - self.sin * y + self.dx, self.sin * x + self.cos * y + self.dy

    def points(self, points: Iterable[Point]) -> tuple[Point, ...]:
        """Where points go: `point` of each, to the last bit, for a third of the time."""
        cos, sin, dx, dy = self.cos, self.sin, self.dx, self.dy
        if self.mirrored:
            points = [(-x, y) for x, y in points]
        return tuple([(cos * x - sin * y + dx, sin * x + cos * y + dy) for x, y in points])

    def ring(self, points: tuple[Point, ...]) -> tuple[Point, ...]:
        """Where the points of a closed ring go; a mirrored ring stays counter-clockwise."""
        moved = self.points(points)
        return moved[::-1] if self.mirrored else moved

    def then(self, after: Motion) -> Motion:
        """This motion followed by another, as one."""
        # A mirror met after a turn reverses the turn: M R(a) = R(-a) M.
        sin = -self.sin if after.mirrored else self.sin
        dx, dy = after.point((self.dx, self.dy))
        return Motion(
            after.cos * self.cos - after.sin * sin,
            after.sin * self.cos + after.cos * sin,
            dx,
            dy,
            self.mirrored != after.mirrored,
        )

    def inverse(self) -> Motion:
        """The motion that undoes this one."""
        sin = self.sin if self.mirrored else -self.sin
        back = Motion(self.cos, sin, 0.0, 0.0, self.mirrored)
        dx, dy = back.point((self.dx, self.dy))
        return replace(back, dx=-dx, dy=-dy)

    def line(self, shape: Line) -> Line:
        """Where a path or a circle goes."""
        match shape:
            case Path(points, closed):
                return Path(self.points(points), closed)
            case Circle(center, radius):
                return Circle(self.point(center), radius)
            case _:
                assert_never(shape)

    def text(self, text: Text) -> Text:
        """Where a text goes.

        A mirrored text stays readable: the space that it takes moves, its letters do not turn over.
        """
        angle = (-text.angle if self.mirrored else text.angle) + self.degrees
        anchor = _MIRRORED_ANCHOR[text.anchor] if self.mirrored else text.anchor
        return replace(text, at=self.point(text.at), angle=angle, anchor=anchor)


IDENTITY = Motion()


def shift(dx: float, dy: float) -> Motion:
    """A plain shift."""
    return Motion(1.0, 0.0, dx, dy)
