"""What a reader must find in the file of a drawing, as plain items in the order of the file."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Iterator
from typing import assert_never

from cutpaths.drawing import (
    Dimension,
    Drawing,
    Item,
    Pen,
    Placed,
    by_paint,
    dimension_parts,
    flatten,
    in_groups,
    move,
    text_paths,
)
from cutpaths.paint import Paint, Print, hex_of
from cutpaths.readback.found import Found, Kind, Tile
from cutpaths.shapes import Circle, Motion, Path, Text

PAINT = "PAINT"  # where a file keeps what is painted, beside the roles


def strokes_of(drawing: Drawing) -> tuple[Found, ...]:
    """For formats of lines and circles: placed items moved, dimensions drawn, texts as strokes."""
    flat = [part for item in drawing.items for part in flatten(item)]
    lines = (part for part in flat if part.paint is None)
    drawn = (found for item in _in_order(lines, drawing.pen) for found in _drawn(item))
    return (*_painted(flat), *drawn)


def entities_of(drawing: Drawing) -> tuple[Found, ...]:
    """For formats with texts and dimensions: placed items moved; a dimension, then its parts."""
    return tuple(_entities(drawing.items, drawing.pen))


def _drawn(item: Item) -> Iterator[Found]:
    match item.shape:
        case Text() as text:
            for path in text_paths(text):
                yield _line(item, path, text.string, item.key)
        case Path() as path:
            yield _line(item, path, "", item.key)
        case Circle() as circle:
            yield _circle(item, circle, item.key)
        case shape:
            raise TypeError(f"a flat item holds a path, a circle or a text, got {shape!r}")


def _entities(items: Iterable[Item], pen: Pen) -> Iterator[Found]:
    for item in _in_order(items, pen):
        match item.shape:
            case Path() as path:
                yield _line(item, path)
            case Circle() as circle:
                yield _circle(item, circle)
            case Text() as text if pen.text_as_strokes:
                yield from (_line(item, path) for path in text_paths(text))
            case Text() as text:
                yield _text(item, text)
            case Dimension() as dimension:
                yield _dimension(item, dimension)
                parts = [Item(item.role, item.key, part) for part in dimension_parts(dimension)]
                yield from _entities(parts, pen)
            case Placed(drawing, motion):
                moved = [move(motion, inner) for inner in drawing.items]
                yield from _entities(moved, pen)
            case _:
                assert_never(item.shape)


def _in_order(items: Iterable[Item], pen: Pen) -> Iterator[Item]:
    groups = (pieces for _, pieces in in_groups(items, pen))
    return (item for pieces in groups for piece in pieces.values() for item in piece)


def _painted(items: Iterable[Item]) -> Iterator[Found]:
    for key, groups in by_paint(items):
        for paint, painted in groups.items():
            for item in painted:
                if isinstance(item.shape, Path):
                    yield _filled(key, item.shape, paint)


def _filled(key: str, path: Path, paint: Paint) -> Found:
    return Found(
        role=PAINT,
        kind=Kind.LINE,
        points=path.points,
        closed=path.closed,
        key=key,
        fill=hex_of(paint.colour),
        edge="none" if paint.edge is None else hex_of(paint.edge),
        tile=None if paint.print is None else _tile(paint.print),
    )


def _tile(print_: Print) -> Tile:
    m = print_.motion
    turned = -1.0 if m.mirrored else 1.0
    place = (m.cos * turned, m.sin * turned, -m.sin, m.cos, m.dx, m.dy)
    digest = hashlib.sha256(print_.data).hexdigest()
    return Tile(digest, (print_.width, print_.height), place)


def _line(item: Item, path: Path, string: str = "", key: str = "") -> Found:
    return Found(
        role=item.role.value,
        kind=Kind.LINE,
        points=path.points,
        closed=path.closed,
        string=string,
        key=key,
    )


def _circle(item: Item, circle: Circle, key: str = "") -> Found:
    points = (circle.center,)
    return Found(role=item.role.value, kind=Kind.CIRCLE, points=points, size=circle.radius, key=key)


def _text(item: Item, text: Text) -> Found:
    return Found(
        role=item.role.value,
        kind=Kind.TEXT,
        points=(text.at,),
        size=text.height,
        angle=text.angle,
        string=text.string,
        anchor=text.anchor.value,
    )


def _dimension(item: Item, dimension: Dimension) -> Found:
    (x0, y0), (x1, y1) = dimension.start, dimension.end
    length = ((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5
    beside = Motion((x1 - x0) / length, (y1 - y0) / length, x1, y1)
    return Found(
        role=item.role.value,
        kind=Kind.DIMENSION,
        points=(dimension.start, dimension.end, beside.point((0.0, dimension.offset))),
        string=dimension.text,
    )
