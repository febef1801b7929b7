"""Whether two placements show the same, so that one frame serves both; mm, in the room's frame."""

from __future__ import annotations

from cutpaths.geometry.assembly import Piece
from cutpaths.geometry.marks import Mark
from cutpaths.geometry.polygons import distance, edges
from cutpaths.projector.lining_up import clipped
from cutpaths.projector.needs import Wanted, shown_marks
from cutpaths.projector.window import Window
from cutpaths.shapes import Motion, Point

SAME_MM = 0.01

Look = list[tuple[str, Point, Point]]


def into_room(window: Window, turn: int) -> Motion:
    """Lays a window on the room, the cloth turned by quarters."""
    turned = Motion.quarters(turn)
    left, bottom, right, top = window.box
    corners = [turned.point(p) for p in ((left, bottom), (right, top))]
    low = min(x for x, _ in corners), min(y for _, y in corners)
    return Motion.quarters(turn, -low[0], -low[1])


def look(piece: Piece, window: Window, turn: int, wanted: Wanted) -> Look:
    """What a frame shows: each mark's lines, cut at the window, in the room's frame."""
    home = into_room(window, turn)
    lines = [("", *edge) for edge in edges(piece.outline)]
    for mark in shown_marks(piece, wanted):
        lines += [(mark.kind.value, *part) for part in _parts(mark)]
    found = []
    for name, start, end in lines:
        part = (start, end) if start == end else clipped(start, end, window.box)
        if part is None or clipped(start, (end[0] + 1e-9, end[1]), window.box) is None:
            continue
        p, q = sorted((home.point(part[0]), home.point(part[1])))
        found.append((name, p, q))
    return found


def _parts(mark: Mark) -> list[tuple[Point, Point]]:
    """A mark's segments; a point is a segment of no length."""
    points = mark.points
    return [(points[0], points[0])] if len(points) == 1 else list(edges(points))[: len(points) - 1]


def same(a: Look, b: Look) -> bool:
    """Whether two frames show the same."""
    if len(a) != len(b):
        return False
    left = list(b)
    for name, p, q in a:
        near = next(
            (one for one in left if one[0] == name and _near(p, q, one[1], one[2])),
            None,
        )
        if near is None:
            return False
        left.remove(near)
    return True


def _near(p: Point, q: Point, r: Point, s: Point) -> bool:
    straight = distance(p, r) < SAME_MM and distance(q, s) < SAME_MM
    return straight or (distance(p, s) < SAME_MM and distance(q, r) < SAME_MM)
