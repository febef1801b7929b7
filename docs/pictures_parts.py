"""What pictures are made of: lines cut to a window, hatching, names with leaders, and the sheet.

Millimetres of the blanket, x right, y up. A picture is meant to be seen 700 px wide, so writing and
line widths are measured in `px`: the millimetres that one pixel then shows.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise

from cutpaths.drawing import Dimension, Document, Drawing, Item, ItemShape, Pen
from cutpaths.geometry.marks import Mark, MarkKind
from cutpaths.geometry.polygons import (
    Ring,
    along,
    between,
    cross,
    distance,
    dot,
    edges,
    middle,
    right_of,
    sub,
    unit,
)
from cutpaths.pieces import Kit
from cutpaths.roles import Role
from cutpaths.shapes import Anchor, Circle, Path, Point, Text
from cutpaths.sheets.sheet import about, fit
from cutpaths.sheets.signs import sign
from cutpaths.strokes import text_width
from cutpaths.values import Value

KEY = "picture"
LETTER_PX = 11.0
LINE_PX = 3.4
MARGIN_PX = 10.0
ARC_STEPS = 24
SHORT_MM = 1e-6


def line(role: Role, *points: Point) -> Item:
    """An open line through some points."""
    return Item(role, KEY, Path(points))


def ring(role: Role, points: Ring) -> Item:
    """A closed line."""
    return Item(role, KEY, Path(points, closed=True))


def circle(role: Role, center: Point, radius: float) -> Item:
    """A circle."""
    return Item(role, KEY, Circle(center, radius))


def signs(marks: Iterable[Mark], *kinds: MarkKind) -> Iterator[Item]:
    """The marks of some kinds, drawn as on every sheet."""
    for mark in marks:
        if mark.kind in kinds:
            yield from (Item(mark.role, KEY, shape) for shape in sign(mark))


def rectangle(left: float, bottom: float, right: float, top: float) -> Ring:
    """A rectangle, counter-clockwise."""
    return (left, bottom), (right, bottom), (right, top), (left, top)


def around(center: Point, left: float, bottom: float, right: float, top: float) -> Ring:
    """A rectangle that reaches so far to each side of a point."""
    x, y = center
    return rectangle(x - left, y - bottom, x + right, y + top)


def within(items: Iterable[Item], window: Ring) -> Iterator[Item]:
    """What of some lines and circles lies inside a convex window."""
    for item in items:
        match item.shape:
            case Circle(center):
                if all(cross(sub(q, p), sub(center, p)) >= 0 for p, q in edges(window)):
                    yield item
            case Path(points, closed):
                sides = edges(points) if closed else tuple(pairwise(points))
                found = (part_inside(start, end, window) for start, end in sides)
                yield from (line(item.role, *part) for part in found if part)
            case shape:
                raise TypeError(f"only lines and circles are cut to a window, got {shape!r}")


def part_inside(start: Point, end: Point, window: Ring) -> tuple[Point, Point] | None:
    """The part of a segment inside a convex ring; None where there is none.

    Cyrus and Beck's rule: each edge of the window moves one end of the segment inward.
    """
    low, high = 0.0, 1.0
    way = sub(end, start)
    for p, q in edges(window):
        side = sub(q, p)
        ahead, here = cross(side, way), cross(side, sub(start, p))
        if abs(ahead) < SHORT_MM:
            if here < 0:
                return None
        elif ahead > 0:
            low = max(low, -here / ahead)
        else:
            high = min(high, -here / ahead)
    found = between(start, end, low), between(start, end, high)
    return found if low < high and distance(*found) > SHORT_MM else None


def half_of(area: Ring, on: Point, way: Point) -> Ring:
    """The part of a convex ring to the left of a line."""
    found: list[Point] = []
    ahead = unit(way)
    for p, q in edges(area):
        here, there = cross(ahead, sub(p, on)), cross(ahead, sub(q, on))
        if here > -SHORT_MM:
            found.append(p)
        if min(here, there) < -SHORT_MM and max(here, there) > SHORT_MM:
            found.append(between(p, q, here / (here - there)))
    return tuple(found)


def hatch(area: Ring, spacing: float) -> Iterator[Item]:
    """Thin lines at 30 degrees all over a convex area; no edge of a blanket has that slope."""
    way = math.cos(math.radians(30.0)), math.sin(math.radians(30.0))
    across = -way[1], way[0]
    reaches = [dot(p, across) for p in area]
    far = max(math.hypot(*p) for p in area) * 2
    steps = range(math.ceil(min(reaches) / spacing), math.floor(max(reaches) / spacing) + 1)
    for step in steps:
        middle = along((0.0, 0.0), across, step * spacing)
        part = part_inside(along(middle, way, -far), along(middle, way, far), area)
        if part:
            yield line(Role.DIMENSION, *part)


class Writing(Value):
    """Writes on a picture; `px` is the millimetres that one pixel shows."""

    px: float

    @property
    def height(self) -> float:
        """Height of a capital in mm."""
        return LETTER_PX * self.px

    def text(self, string: str, at: Point, anchor: Anchor = Anchor.MIDDLE) -> Item:
        """A line of text; its capitals stand half above and half below the height of `at`."""
        low = at[0], at[1] - self.height / 2
        shape = Text(string=string, at=low, height=self.height, anchor=anchor)
        return Item(Role.LABEL, KEY, shape)

    def lines(
        self, strings: Iterable[str], at: Point, anchor: Anchor = Anchor.MIDDLE
    ) -> list[Item]:
        """Lines of text under one another, the first at `at`."""
        step = 1.9 * self.height
        return [
            self.text(string, (at[0], at[1] - n * step), anchor) for n, string in enumerate(strings)
        ]

    def outside(self, strings: Sequence[str], edge: Point, out: Point) -> list[Item]:
        """Lines of text that stand just outside an edge, whichever way it faces."""
        high = self.height * (1 + 1.9 * (len(strings) - 1))
        wide = max(text_width(string, self.height) for string in strings)
        reach = 8 * self.px + abs(out[0]) * wide / 2 + abs(out[1]) * high / 2
        x, y = along(edge, out, reach)
        return self.lines(strings, (x, y + (high - self.height) / 2))

    def name(self, string: str, at: Point, to: Point) -> tuple[Item, Item]:
        """A text with a leader to what it names, on the side of the text that is nearer to it."""
        left = to[0] < at[0]
        gap = 6 * self.px
        start = (at[0] - gap if left else at[0] + gap), at[1]
        anchor = Anchor.START if left else Anchor.END
        return self.text(string, at, anchor), line(Role.DIMENSION, start, to)

    def names(self, at: Point, step: float, *named: tuple[str, Point]) -> Iterator[Item]:
        """Names under one another, the first at `at`, each with its leader."""
        for n, (string, to) in enumerate(named):
            yield from self.name(string, (at[0], at[1] - n * step * self.px), to)

    def measure(self, string: str, start: Point, end: Point, offset: float) -> Item:
        """A dimension; `offset` in px, to the left of start to end when positive."""
        shape: ItemShape = Dimension(
            start=start, end=end, offset=offset * self.px, text=string, height=self.height
        )
        return Item(Role.DIMENSION, KEY, shape)

    def span(self, string: str, start: Point, end: Point) -> Iterator[Item]:
        """A short distance between two points: a line with its ends marked, the text beside it."""
        way = unit(sub(end, start))
        tick = 4 * self.px
        yield line(Role.DIMENSION, start, end)
        for x, y in (start, end):
            yield line(Role.DIMENSION, (x - tick, y - tick), (x + tick, y + tick))
        x, y = along(middle(start, end), right_of(way), 9 * self.px)
        anchor = Anchor.START if way[1] > 0 else Anchor.END
        yield self.text(string, (x, y), anchor)

    def dot(self, center: Point) -> Item:
        """A dot, drawn large enough to be seen."""
        return circle(Role.DOT, center, 4 * self.px)

    def angle(self, at: Point, first: Point, second: Point, radius: float) -> Item:
        """An arc from one unit vector to another, counter-clockwise, as short lines."""
        start = math.atan2(first[1], first[0])
        turn = math.atan2(cross(first, second), dot(first, second)) % math.tau
        ways = (start + turn * n / ARC_STEPS for n in range(ARC_STEPS + 1))
        points = (along(at, (math.cos(way), math.sin(way)), radius) for way in ways)
        return line(Role.DIMENSION, *points)

    def arrow(self, start: Point, end: Point) -> tuple[Item, Item]:
        """A thin line with a head at its end."""
        way = unit(sub(end, start))
        side, back = right_of(way), along(end, way, -8 * self.px)
        head = along(back, side, 3 * self.px), end, along(back, side, -3 * self.px)
        return line(Role.LABEL, start, end), line(Role.LABEL, *head)


def document(name: str, title: str, kit: Kit, items: Iterable[Item], writing: Writing) -> Document:
    """A picture that just holds its items."""
    px = writing.px
    drawing: Drawing = fit(
        name, items, about(kit, title, ""), Pen(scale=LINE_PX * px), MARGIN_PX * px
    )
    return Document(name, (drawing,))
