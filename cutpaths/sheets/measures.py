"""The dimensions that a person would check on each kind of piece; mm, in the piece's frame.

Each has several places it may stand, the best first: which one is free depends on the sheet.
Their texts come from the figures' own rounding, so a number reads the same everywhere.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from itertools import pairwise

from cutpaths.drawing import Dimension
from cutpaths.geometry.assembly import Piece, PieceKind
from cutpaths.geometry.marks import MarkKind, select
from cutpaths.geometry.polygons import (
    SQUARE_SINE,
    Ring,
    along,
    between,
    directions,
    distance,
    dot,
    edges,
    right_of,
    sub,
    unit,
)
from cutpaths.geometry.reach import reach_to_edge
from cutpaths.lengths import Ruler, as_fraction
from cutpaths.pieces import Kit
from cutpaths.shapes import Circle, Point

HEIGHT = 5.0
# Distances of dimension lines outside the raw edge.
NEAR, FAR = -14.0, -30.0
LONG_EDGE = 20.0
LEAST = 15.0
ROOMY = 60.0
# How much farther out a dimension may stand that has no room where it should.
STEPS = (0.0, 8.0, 16.0, 24.0, 32.0, 40.0, 48.0, 56.0)
# Where along a border's fold its dimension may stand.
FOLD_PARTS = (0.3, 0.35, 0.25, 0.4, 0.2, 0.7, 0.6, 0.8)

Places = tuple[Dimension, ...]


def measures(kit: Kit, piece: Piece) -> tuple[Places, ...]:
    """The dimensions of one piece, each as the places it may have."""
    ruler = kit.project.ruler
    match piece.kind:
        case PieceKind.BACKING | PieceKind.TOP:
            ring = _raw_ring(kit, piece)
            found = [*_sides(ring, FAR, ruler), *_chains(piece, ring, ruler)]
            found += [*_folds(piece, ring, ruler), *_miters(kit, piece, ruler)]
            found += _opening(piece, ruler)
        case PieceKind.PANEL | PieceKind.FILLING:
            found = list(_sides(piece.outline, NEAR, ruler))
        case PieceKind.PATCH:
            found = [*_sides(piece.outline, NEAR, ruler), *_finished(piece, ruler)]
        case _:
            # Edges have more places that are as good as one another, so holes come first.
            found = [*_between_holes(piece, ruler), *_long_edges(piece, ruler)]
    return tuple(found)


def dimension(
    start: Point, end: Point, offset: float, ruler: Ruler, *, beyond: bool = False
) -> Dimension:
    """A dimension whose text is the distance as the ruler shows it."""
    text = _text(start, end, ruler)
    return Dimension(start=start, end=end, offset=offset, text=text, height=HEIGHT, beyond=beyond)


def _text(start: Point, end: Point, ruler: Ruler) -> str:
    return ruler.text(as_fraction(distance(start, end)))


def _places(start: Point, end: Point, offsets: Iterable[float], ruler: Ruler) -> Places:
    """At each offset with the text over the line, then beyond its end, then before its start."""
    text = _text(start, end, ruler)
    return tuple(
        Dimension(start=a, end=b, offset=off, text=text, height=HEIGHT, beyond=beyond)
        for offset in offsets
        for beyond in (False, True)
        for a, b, off in ((start, end, offset), (end, start, -offset))
    )


def _farther(offset: float) -> tuple[float, ...]:
    """An offset, and others beyond it."""
    return tuple(offset + math.copysign(step, offset) for step in STEPS)


def _raw_ring(kit: Kit, piece: Piece) -> Ring:
    """The raw outline, as if the backing's corners were left on; counter-clockwise."""
    backing = tuple(corner.backing_point for corner in kit.blanket.corners)
    ring = backing if piece.kind is PieceKind.BACKING else kit.blanket.top
    return piece.places[0].inverse().ring(ring)


def _sides(ring: Ring, offset: float, ruler: Ruler) -> Iterator[Places]:
    """Foot and right side of a rectangle, every side of anything else."""
    sides = edges(ring)
    for start, end in sides[:2] if _is_rectangle(ring) else sides:
        yield _places(start, end, _farther(offset), ruler)


def _is_rectangle(ring: Ring) -> bool:
    square = all(abs(dot(a, b)) < SQUARE_SINE for a, b in pairwise(directions(ring)))
    return square and len(ring) == 4


def _chains(piece: Piece, ring: Ring, ruler: Ruler) -> Iterator[Places]:
    """Along each raw side: from corner to dot, dot to center, center to dot, dot to corner."""
    for center in select(piece.marks, MarkKind.CENTER):
        place, edge = center.points
        out = sub(edge, place)
        stitches = select(piece.marks, MarkKind.STITCH, center.at)
        dots = (stitches[0].points[0], stitches[-1].points[1]) if stitches else ()
        feet = [along(p, out, 1.0) for p in (*dots, place)]
        start, end = _side_of(ring, edge)
        way = unit(sub(end, start))
        chain = sorted((start, end, *feet), key=lambda p: dot(sub(p, start), way))
        for first, second in pairwise(chain):
            # The allowance itself is too narrow to measure on a sheet; the label says it.
            if distance(first, second) > LEAST:
                yield _places(first, second, (NEAR,), ruler)


def _folds(piece: Piece, ring: Ring, ruler: Ruler) -> Iterator[Places]:
    """From the raw edge to the fold that becomes the blanket's edge; the opening's side is full.

    The text stands beyond the fold, for seams run between it and the raw edge.
    """
    for fold in select(piece.marks, MarkKind.BORDER_FOLD):
        if select(piece.marks, MarkKind.OPENING_FOLD, fold.at):
            continue
        start, end = _side_of(ring, select(piece.marks, MarkKind.CENTER, fold.at)[0].points[1])
        way = unit(sub(end, start))
        places = (between(fold.points[0], fold.points[1], part) for part in FOLD_PARTS)
        yield tuple(
            dimension(
                along(start, way, dot(sub(place, start), way)), place, 0.0, ruler, beyond=True
            )
            for place in places
        )


def _side_of(ring: Ring, place: Point) -> tuple[Point, Point]:
    """The side of a ring that a place on its outline lies on."""
    return min(
        edges(ring),
        key=lambda side: distance(side[0], place) + distance(place, side[1]) - distance(*side),
    )


def _miters(kit: Kit, piece: Piece, ruler: Ruler) -> Iterator[Places]:
    """Dot to fold point, once for each distinct corner; both halves of a miter are equal."""
    for template in kit.templates:
        halves = [
            mark.points
            for at in template.corners
            for side in reversed(at)
            for mark in select(piece.marks, MarkKind.MITER_STITCH, f"{at}:{side}")
        ]
        offsets = *_farther(-NEAR), *_farther(NEAR)
        if halves:
            yield tuple(
                place
                for dot_place, fold_point in halves
                for place in _places(fold_point, dot_place, offsets, ruler)
            )


def _opening(piece: Piece, ruler: Ruler) -> Iterator[Places]:
    """Where the opening starts and how long it is, inside the piece."""
    offset = -NEAR if piece.kind is PieceKind.BACKING else NEAR
    for fold in select(piece.marks, MarkKind.OPENING_FOLD):
        first = select(piece.marks, MarkKind.STITCH, fold.at)[0]
        for start, end in (first.points, fold.points):
            yield _places(start, end, _farther(offset), ruler)


def _finished(piece: Piece, ruler: Ruler) -> Iterator[Places]:
    """Finished sides of a rectangular patch, inside it, where they can be read."""
    for mark in select(piece.marks, MarkKind.SEAM_RING):
        ring = mark.points
        if _is_rectangle(ring) and min(distance(*side) for side in edges(ring)) > ROOMY:
            yield from _sides(ring, -NEAR, ruler)


def _long_edges(piece: Piece, ruler: Ruler) -> Iterator[Places]:
    """Edges of a template that a ruler can be laid along, but for those that the notch parts."""
    sides = edges(piece.outline)
    long = [distance(*side) > LONG_EDGE for side in sides]
    for i, (start, end) in enumerate(sides):
        if long[i] and long[i - 1] and long[(i + 1) % len(sides)]:
            yield _places(start, end, _farther(NEAR), ruler)


def _between_holes(piece: Piece, ruler: Ruler) -> Iterator[Places]:
    """From dot hole to dot hole, first on the side where lines to it cross less of the card."""
    centers = [hole.center for hole in piece.holes if isinstance(hole, Circle)]
    ring = (*piece.outline, piece.outline[0])
    for start, end in pairwise(centers):
        right = right_of(unit(sub(end, start)))
        crossed = {
            side: sum(reach_to_edge(place, way, math.inf, [ring]) for place in (start, end))
            for side, way in ((NEAR, right), (-NEAR, (-right[0], -right[1])))
        }
        sides = sorted(crossed, key=lambda side: (round(crossed[side], 6), side))
        found = (_places(start, end, _farther(side), ruler) for side in sides)
        # Farther out with the text over its line rather than nearer with the text beyond it.
        yield tuple(p for places in found for p in sorted(places, key=lambda p: p.beyond))
