"""How each kind of mark is drawn; mm, in the frame of its piece.

Points differ by shape: a dot is a ring, a center mark a long line across the seam with a bar, a
patch seam a short line, a quarter mark two, a back-tack two bars across its seam, an opening's
end three.
"""

from __future__ import annotations

from collections.abc import Callable

from cutpaths.drawing import Item
from cutpaths.geometry.assembly import Piece
from cutpaths.geometry.marks import Mark, MarkKind
from cutpaths.geometry.polygons import along, distance, right_of, sub, unit
from cutpaths.roles import Role
from cutpaths.shapes import Circle, Path, Point

DOT_RADIUS = 1.5
BAR_REACH = 1.5
# Bars stand this far from the end of their seam.
TACK_BARS = (4.0, 6.0)
OPENING_BARS = (0.0, 4.0, 6.0)
GRAIN_HEAD = 4.0

Sign = tuple[Path | Circle, ...]


def piece_items(piece: Piece) -> tuple[Item, ...]:
    """A piece's outline, holes and marks as items in its own frame."""
    key = piece.key.lower()
    return (
        Item(Role.CUT, key, Path(piece.outline, closed=True)),
        *(Item(Role.CUTOUT, key, hole) for hole in piece.holes),
        *(
            Item(mark.role, key, line)
            for mark in piece.marks
            for line in sign(mark, headed=piece.grain is not None and piece.grain.headed)
        ),
    )


def sign(mark: Mark, *, headed: bool = False) -> Sign:
    """The lines and circles that draw one mark.

    Args:
        mark: the mark.
        headed: for a grain line, whether the cloth has an up: then it has one head, else two.
    """
    if mark.kind is MarkKind.GRAIN:
        return _grain(mark.points, headed=headed)
    return _SIGNS[mark.kind](mark.points)


def _line(points: tuple[Point, ...]) -> Sign:
    return (Path(points),)


def _ring(points: tuple[Point, ...]) -> Sign:
    return (Path(points, closed=True),)


def _dot(points: tuple[Point, ...]) -> Sign:
    return (Circle(points[0], DOT_RADIUS),)


def _center(points: tuple[Point, ...]) -> Sign:
    """From the raw edge across the seam, with a bar at the inner end; inward where no edge is."""
    place, edge = points
    if place == edge:
        return (Circle(place, DOT_RADIUS),)
    inward = unit(sub(place, edge))
    inner = along(place, inward, DOT_RADIUS * 2)
    return Path((edge, inner)), _bar(inner, inward)


def _tick(points: tuple[Point, ...]) -> Sign:
    """From the raw edge to the seam."""
    return (Path((points[1], points[0])),)


def _quarter(points: tuple[Point, ...]) -> Sign:
    """Two lines from the raw edge to the seam, the mark between them."""
    place, edge = points
    side = right_of(unit(sub(place, edge)))
    reach = (BAR_REACH, -BAR_REACH)
    return tuple(Path((along(edge, side, r), along(place, side, r))) for r in reach)


def _tack(points: tuple[Point, ...]) -> Sign:
    return _bars(points, TACK_BARS)


def _opening_end(points: tuple[Point, ...]) -> Sign:
    return _bars(points, OPENING_BARS)


def _bars(points: tuple[Point, ...], places: tuple[float, ...]) -> Sign:
    """Bars across a seam, from its end inward."""
    end, inner = points
    way = unit(sub(inner, end))
    # A very short seam has its bars nearer to its end.
    part = min(1.0, distance(end, inner) / max(places))
    return tuple(_bar(along(end, way, place * part), way) for place in places)


def _bar(place: Point, way: Point) -> Path:
    """A short line square to a way."""
    side = right_of(way)
    return Path((along(place, side, -BAR_REACH), along(place, side, BAR_REACH)))


def _grain(points: tuple[Point, ...], *, headed: bool) -> Sign:
    """The grain line: one head for cloth with an up, else a head at both ends."""
    tail, head = points
    heads = [_head(tail, head)] if headed else [_head(tail, head), _head(head, tail)]
    return Path(points), *heads


def _head(start: Point, end: Point) -> Path:
    way = unit(sub(end, start))
    back = along(end, way, -GRAIN_HEAD)
    side = right_of(way)
    return Path((along(back, side, GRAIN_HEAD / 3), end, along(back, side, -GRAIN_HEAD / 3)))


_SIGNS: dict[MarkKind, Callable[[tuple[Point, ...]], Sign]] = {
    MarkKind.DOT: _dot,
    MarkKind.BACK_TACK: _tack,
    MarkKind.STITCH: _line,
    MarkKind.SEAM_RING: _ring,
    MarkKind.BASTE: _ring,
    MarkKind.CENTER: _center,
    MarkKind.QUARTER: _quarter,
    MarkKind.PATCH_SEAM: _tick,
    MarkKind.OPENING_END: _opening_end,
    MarkKind.OPENING_FOLD: _line,
    MarkKind.BORDER_FOLD: _line,
    MarkKind.MITER_FOLD: _line,
    MarkKind.MITER_STITCH: _line,
    MarkKind.MITER_TRIM: _line,
    MarkKind.FIRST_FOLD: _line,
    MarkKind.SECOND_FOLD: _line,
    MarkKind.CORNER_FOLD: _line,
    MarkKind.TIP_TRIM: _line,
    MarkKind.CUT_APART: _line,
}
