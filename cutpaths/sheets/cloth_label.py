"""Text that a machine may draw on cloth: in the waste or the seam allowance, or not at all.

Ink shows through pale cloth, so a label keeps to what is cut away or sewn under; mm.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import product

from cutpaths.geometry.assembly import Piece, PieceKind
from cutpaths.geometry.polygons import (
    SQUARE_SINE,
    along,
    between,
    distance,
    edges,
    encloses,
    right_of,
    sub,
    unit,
)
from cutpaths.pieces import Kit
from cutpaths.pieces.corners import CardEdge
from cutpaths.shapes import Anchor, Text
from cutpaths.sheets.clear_places import segments, text_box, touches
from cutpaths.sheets.faces import end_words, template_of
from cutpaths.strokes import text_width

SMALLEST = 2.5
LARGEST = 5.0
INSET = 1.5
END_HEIGHTS = (5.0, 4.0, 3.0, SMALLEST)
# Where along a card's edge its text may stand.
END_PARTS = (0.5, 0.4, 0.6, 0.3, 0.7)


def cloth_label(kit: Kit, piece: Piece) -> Text | None:
    """A label of a piece where it does no harm; None where there is no such place."""
    string = f"{piece.key} {piece.fabric}".strip()
    match piece.kind:
        case PieceKind.BACKING:
            return _in_waste(kit, string)
        case PieceKind.FILLING:
            return None  # it has no allowance that would hide one
        case PieceKind.TEMPLATE:
            return _along_foot(piece, string, LARGEST, INSET)
        case _:
            return _in_allowance(kit, piece, string)


def card_ends(kit: Kit, piece: Piece, taken: Text | None) -> tuple[Text, ...]:
    """On a card that may lie the wrong way, which side's end each raw edge is, where it has room.

    Args:
        kit: whose card it may be.
        piece: the card; other pieces have no such texts.
        taken: a text that is on it already.
    """
    template = template_of(kit, piece)
    if template is None:
        return ()
    lines = [*edges(piece.outline), *(line for hole in piece.holes for line in segments(hole))]
    if taken is not None:
        lines += edges(text_box(taken, 0.0))
    ends = []
    for edge in template.raw_edges:
        for text in _along_edge(edge):
            around = text_box(text, INSET / 2)
            if encloses(piece.outline, text.at) and not any(touches(around, s) for s in lines):
                lines += edges(text_box(text, 0.0))
                ends.append(text)
                break
    return tuple(ends)


def _along_edge(edge: CardEdge) -> Iterator[Text]:
    """Places of an edge's text inside it, the largest first, along it and never upside down."""
    way = unit(sub(edge.end, edge.start))
    degrees = math.degrees(math.atan2(way[1], way[0]))
    upright = -90.0 < degrees <= 90.0
    for height, inset, part in product(END_HEIGHTS, (INSET, 3 * INSET, 6 * INSET), END_PARTS):
        # The foot of an upright text is its side toward the edge; else its head is.
        depth = inset if upright else inset + height
        at = along(between(edge.start, edge.end, part), right_of(way), -depth)
        yield Text(
            string=end_words(edge.sides),
            at=at,
            height=height,
            angle=degrees if upright else degrees + 180.0,
            anchor=Anchor.MIDDLE,
        )


def _in_waste(kit: Kit, string: str) -> Text | None:
    """In the corner that is trimmed away where side A starts, along the foot."""
    if not kit.waste or kit.waste[0].key != f"WASTE-{kit.blanket.corners[0].at}":
        return None
    corner = kit.blanket.corners[0]
    home = kit.backing.places[0].inverse()
    start, end = home.point(corner.backing_point), home.point(corner.trim[-1])
    # The waste narrows away from its raw edge: half its width is sure to hold the text.
    return _fitted(string, (start[0] + 2 * INSET, start[1] + INSET), distance(start, end) / 2)


def _in_allowance(kit: Kit, piece: Piece, string: str) -> Text | None:
    """Between the raw edge of the foot and the first line inside it."""
    room = float(kit.project.allowance)
    if piece.kind is PieceKind.TOP:
        room = float(kit.project.basting)
    return _along_foot(piece, string, room - INSET, INSET / 2)


def _along_foot(piece: Piece, string: str, tallest: float, inset: float) -> Text | None:
    start, end = edges(piece.outline)[0]
    way = unit(sub(end, start))
    place = along(along(start, way, LARGEST * 2), right_of(way), -inset)
    if abs(way[1]) > SQUARE_SINE or way[0] < 0:
        return None
    return _fitted(string, place, distance(start, end) - 4 * LARGEST, tallest)


def _fitted(
    string: str, at: tuple[float, float], room: float, tallest: float = LARGEST
) -> Text | None:
    """The text as large as its room allows; None where it would be too small to read."""
    height = min(tallest, room / text_width(string, 1.0))
    return None if height < SMALLEST else Text(string=string, at=at, height=height)
