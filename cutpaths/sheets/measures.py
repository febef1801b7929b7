"""The dimensions that a person would check on each kind of piece; mm, in the piece's frame.

Their texts come from the figures' own rounding, so a number reads the same everywhere.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from cutpaths.drawing import Dimension
from cutpaths.figures.model import exact
from cutpaths.geometry.assembly import Piece, PieceKind
from cutpaths.geometry.marks import MarkKind, select
from cutpaths.geometry.polygons import (
    Ring,
    along,
    between,
    directions,
    distance,
    dot,
    edges,
    sub,
    unit,
)
from cutpaths.lengths import Ruler
from cutpaths.pieces import Kit
from cutpaths.shapes import Circle, Point

HEIGHT = 5.0
# Distances of dimension lines outside the raw edge.
NEAR, FAR = -14.0, -30.0
LONG_EDGE = 20.0
LEAST = 15.0
ROOMY = 60.0


def measures(kit: Kit, piece: Piece) -> tuple[Dimension, ...]:
    """The dimensions of one piece."""
    ruler = kit.project.ruler
    match piece.kind:
        case PieceKind.BACKING | PieceKind.TOP:
            ring = _raw_ring(kit, piece)
            found = [*_sides(ring, FAR, ruler), *_chains(piece, ring, ruler)]
            found += [*_folds(piece, ring, ruler), *_miters(kit, piece, ruler)]
            found += _opening(piece, ruler)
        case PieceKind.PANEL:
            found = list(_sides(piece.outline, NEAR, ruler))
        case PieceKind.PATCH:
            found = [*_sides(piece.outline, NEAR, ruler), *_finished(piece, ruler)]
        case _:
            found = [*_long_edges(piece, ruler), *_between_holes(piece, ruler)]
    return tuple(found)


def dimension(start: Point, end: Point, offset: float, ruler: Ruler) -> Dimension:
    """A dimension whose text is the distance as the ruler shows it."""
    text = ruler.text(exact(distance(start, end)))
    return Dimension(start=start, end=end, offset=offset, text=text, height=HEIGHT)


def _raw_ring(kit: Kit, piece: Piece) -> Ring:
    """The raw outline, as if the backing's corners were left on; counter-clockwise."""
    backing = tuple(corner.backing_point for corner in kit.blanket.corners)
    ring = backing if piece.kind is PieceKind.BACKING else kit.blanket.top
    return piece.places[0].inverse().ring(ring)


def _sides(ring: Ring, offset: float, ruler: Ruler) -> Iterator[Dimension]:
    """Foot and right side of a rectangle, every side of anything else."""
    sides = edges(ring)
    for start, end in sides[:2] if _is_rectangle(ring) else sides:
        yield dimension(start, end, offset, ruler)


def _is_rectangle(ring: Ring) -> bool:
    square = all(abs(dot(a, b)) < 1e-9 for a, b in pairwise(directions(ring)))
    return square and len(ring) == 4


def _chains(piece: Piece, ring: Ring, ruler: Ruler) -> Iterator[Dimension]:
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
                yield dimension(first, second, NEAR, ruler)


def _folds(piece: Piece, ring: Ring, ruler: Ruler) -> Iterator[Dimension]:
    """From the raw edge to the fold that becomes the blanket's edge; the opening's side is full."""
    for fold in select(piece.marks, MarkKind.BORDER_FOLD):
        if select(piece.marks, MarkKind.OPENING_FOLD, fold.at):
            continue
        start, end = _side_of(ring, select(piece.marks, MarkKind.CENTER, fold.at)[0].points[1])
        way = unit(sub(end, start))
        place = between(fold.points[0], fold.points[1], 0.3)
        foot = along(start, way, dot(sub(place, start), way))
        yield dimension(foot, place, 0.0, ruler)


def _side_of(ring: Ring, place: Point) -> tuple[Point, Point]:
    """The side of a ring that a place on its outline lies on."""
    return min(
        edges(ring),
        key=lambda side: distance(side[0], place) + distance(place, side[1]) - distance(*side),
    )


def _miters(kit: Kit, piece: Piece, ruler: Ruler) -> Iterator[Dimension]:
    """Dot to fold point, once for each distinct corner; both halves of a miter are equal."""
    for template in kit.templates:
        at = template.corners[0]
        for mark in select(piece.marks, MarkKind.MITER_STITCH, f"{at}:{at[1]}"):
            yield dimension(mark.points[1], mark.points[0], -NEAR, ruler)


def _opening(piece: Piece, ruler: Ruler) -> Iterator[Dimension]:
    """Where the opening starts and how long it is, inside the piece."""
    offset = -NEAR if piece.kind is PieceKind.BACKING else NEAR
    for fold in select(piece.marks, MarkKind.OPENING_FOLD):
        first = select(piece.marks, MarkKind.STITCH, fold.at)[0]
        for start, end in (first.points, fold.points):
            yield dimension(start, end, offset, ruler)


def _finished(piece: Piece, ruler: Ruler) -> Iterator[Dimension]:
    """Finished sides of a rectangular patch, inside it, where they can be read."""
    for mark in select(piece.marks, MarkKind.SEAM_RING):
        ring = mark.points
        if _is_rectangle(ring) and min(distance(*side) for side in edges(ring)) > ROOMY:
            yield from _sides(ring, -NEAR, ruler)


def _long_edges(piece: Piece, ruler: Ruler) -> Iterator[Dimension]:
    """Edges of a template that a ruler can be laid along, but for those that the notch parts."""
    sides = edges(piece.outline)
    long = [distance(*side) > LONG_EDGE for side in sides]
    for i, (start, end) in enumerate(sides):
        if long[i] and long[i - 1] and long[(i + 1) % len(sides)]:
            yield dimension(start, end, NEAR, ruler)


def _between_holes(piece: Piece, ruler: Ruler) -> Iterator[Dimension]:
    """From dot hole to dot hole."""
    centers = [hole.center for hole in piece.holes if isinstance(hole, Circle)]
    for start, end in pairwise(centers):
        yield dimension(start, end, NEAR, ruler)
