"""Each side's letter and its number in sewing order, about a piece that is to be sewn; mm."""

from __future__ import annotations

from cutpaths.drawing import Item
from cutpaths.geometry.assembly import Piece
from cutpaths.geometry.marks import MarkKind, letter, select
from cutpaths.geometry.polygons import box, middle, sub, unit
from cutpaths.pieces import Kit
from cutpaths.shapes import Anchor, Point
from cutpaths.sheets.sheet import label
from cutpaths.strokes import text_width


def sewing_letters(kit: Kit, piece: Piece, height: float, gap: float) -> tuple[Item, ...]:
    """The letters, such as `A 1`, outside the middles of their sides, their boxes `gap` away."""
    turns = {letter(side): n for n, side in enumerate(kit.order, 1)}
    items = []
    for mark in select(piece.marks, MarkKind.CENTER):
        text = f"{mark.at} {turns[mark.at]}"
        (x, y), (ux, uy) = mark.points[1], _outward(piece, mark.points)
        # The nearest edge of the text's box stands the gap away, whichever way the side faces.
        room = text_width(text, height) / 2, height / 2
        reach = gap + abs(ux) * room[0] + abs(uy) * room[1]
        place = x + ux * reach, y + uy * reach - room[1]
        items.append(label(piece.key.lower(), text, place, height, Anchor.MIDDLE))
    return tuple(items)


def _outward(piece: Piece, points: tuple[Point, ...]) -> Point:
    """The way out of the cloth at a center mark."""
    place, edge = points
    if place != edge:
        return unit(sub(edge, place))
    # Folded over, the top's centers lie on its raw edge.
    left, bottom, right, top = box(piece.outline)
    return unit(sub(edge, middle((left, bottom), (right, top))))
