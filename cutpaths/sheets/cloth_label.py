"""Text that a machine may draw on cloth: in the waste or the seam allowance, or not at all.

Ink shows through pale cloth, so a label keeps to what is cut away or sewn under; mm.
"""

from __future__ import annotations

from cutpaths.geometry.assembly import Piece, PieceKind
from cutpaths.geometry.polygons import (
    SQUARE_SINE,
    along,
    distance,
    edges,
    right_of,
    sub,
    unit,
)
from cutpaths.pieces import Kit
from cutpaths.shapes import Text
from cutpaths.strokes import text_width

SMALLEST = 2.5
LARGEST = 5.0
INSET = 1.5


def cloth_label(kit: Kit, piece: Piece) -> Text | None:
    """A label of a piece where it does no harm; None where there is no such place."""
    string = f"{piece.key} {piece.fabric}".strip()
    match piece.kind:
        case PieceKind.BACKING:
            return _in_waste(kit, string)
        case PieceKind.FILLING | PieceKind.TEMPLATE:
            return None  # it has no allowance that would hide one; a card has texts of its own
        case _:
            return _in_allowance(kit, piece, string)


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
