"""A corner template laid on a corner of the backing, and the outline that it must follow there.

Where it goes is found anew at each corner: two of its cut-outs are laid on the two places of the
backing that they mark, the template turned over if its cut-outs come the other way round.
"""

from __future__ import annotations

from collections.abc import Iterator

import shapely
from shapely import LineString, Polygon
from shapely.geometry.base import BaseGeometry
from shapely.geometry.polygon import orient
from shapely.ops import substring

from cutpaths.geometry.assembly import Piece
from cutpaths.geometry.polygons import (
    Ring,
    along,
    carry,
    distance,
    edges,
    middle,
    right_of,
    sub,
    unit,
)
from cutpaths.proof.paper import Paper
from cutpaths.proof.planes import Line, ahead, common, less, outside
from cutpaths.proof.waste import beyond_trim
from cutpaths.shapes import Circle, Motion, Path, Point
from cutpaths.values import Value

# How far a template reaches along the raw edges past the dots; our own choice.
PAST_DOTS_MM = 25.4


class Card(Value, kw_only=True):
    """A template laid on one corner.

    Attributes:
        corner: index of the corner.
        at: its name.
        outline: outline of the template.
        edge: the backing's outline there once its waste is off, an inch past its dots.
        holes: middles of its round holes.
        slots: corners of its slots.
    """

    corner: int
    at: str
    outline: Ring
    edge: LineString
    holes: tuple[Point, ...]
    slots: tuple[tuple[Point, ...], ...]


def every_way(paper: Paper, piece: Piece, at: str) -> tuple[Card, ...]:
    """A template laid on a corner as it is and turned over, its cut-outs on what they mark."""
    circles = [hole.center for hole in piece.holes if isinstance(hole, Circle)]
    slots = [hole.points for hole in piece.holes if isinstance(hole, Path)]
    corner = paper.corners.index(at)
    edge = _working_edge(paper, corner)
    return tuple(
        Card(
            corner=corner,
            at=at,
            outline=motion.ring(piece.outline),
            edge=edge,
            holes=tuple(motion.point(place) for place in circles),
            slots=tuple(tuple(motion.point(p) for p in slot) for slot in slots),
        )
        for motion in _motions(paper, piece.outline, circles, slots, corner)
    )


def _motions(
    paper: Paper, outline: Ring, circles: list[Point], slots: list[tuple[Point, ...]], corner: int
) -> Iterator[Motion]:
    """The ways to lay the first cut-outs on the places that they mark."""
    into, out = paper.trimmed_along[corner]
    if len(circles) > 1:
        pair = circles[0], circles[1]
        yield carry(pair, (into[0], out[1]), mirrored=False)
        yield carry(pair, (out[1], into[0]), mirrored=True)
    elif circles and slots:
        # Folded over: one hole on the fold, and a slot to either side of it that has room for one.
        pair = circles[0], middle(slots[0][0], slots[0][2])
        for end in (into[0], out[1]):
            yield carry(pair, (into[1], end), mirrored=False)
            yield carry(pair, (into[1], end), mirrored=True)
    elif circles:
        # The borders leave room for no slot: one of the card's edges lies along the tip's trim.
        beyond = along(into[1], right_of(unit(sub(out[1], into[0]))), 1.0)
        for edge in edges(outline):
            foot = along(edge[0], _way(edge), ahead(circles[0], edge))
            yield carry((circles[0], foot), (into[1], beyond), mirrored=False)
            yield carry((circles[0], foot), (into[1], beyond), mirrored=True)


def _working_edge(paper: Paper, corner: int) -> LineString:
    """The backing's outline at a corner once its waste is off, an inch past its dots."""
    into, out = paper.trimmed_along[corner]
    before, after = (_raw_edge(paper, side) for side in (corner - 1, corner))
    far = paper.far
    wedge = common(outside(_turned(before), 0.0, far), outside(_turned(after), 0.0, far))
    kept = less(wedge, beyond_trim(paper, corner))
    start = along(before[0], _way(before), ahead(into[0], before) - PAST_DOTS_MM)
    end = along(after[0], _way(after), ahead(out[1], after) + PAST_DOTS_MM)
    return _part(kept, start, end)


def _part(area: BaseGeometry, start: Point, end: Point) -> LineString:
    """The outline of an area counter-clockwise from one place to another."""
    outer = max((Polygon(part) for part in shapely.get_parts(area)), key=shapely.area)
    ring = LineString(orient(outer).exterior.coords)
    first, last = (ring.project(shapely.Point(p)) for p in (start, end))
    if first <= last:
        return _stretch(ring, first, last)
    head, tail = _stretch(ring, first, ring.length), _stretch(ring, 0.0, last)
    return LineString([*head.coords, *tail.coords[1:]])


def _stretch(line: LineString, start: float, end: float) -> LineString:
    return LineString(substring(line, start, end).coords)


def _raw_edge(paper: Paper, side: int) -> Line:
    """The backing's raw edge on a side, two borders outside the top's."""
    start, end = paper.raw_edges[side]
    right = right_of(_way((start, end)))
    amount = 2 * paper.borders[side]
    return along(start, right, amount), along(end, right, amount)


def _way(line: Line) -> Point:
    return unit(sub(line[1], line[0]))


def _turned(line: Line) -> Line:
    return line[1], line[0]


def notch(paper: Paper, card: Card) -> Line:
    """Where the crease leaves the cloth, and how far along it the template reaches."""
    into, out = paper.trimmed_along[card.corner]
    crease = right_of(unit(sub(out[1], into[0])))
    fold_point = shapely.Point(into[1])
    ray = LineString([into[1], along(into[1], crease, paper.far)])
    leaves = along(into[1], crease, fold_point.distance(shapely.intersection(ray, card.edge)))
    inside = shapely.intersection(LineString([into[1], leaves]), Polygon(card.outline))
    return leaves, along(into[1], crease, min(inside.length, distance(into[1], leaves)))
