"""Whether every mark lies on its own piece."""

from __future__ import annotations

from collections.abc import Iterator

import shapely
from shapely import Polygon

from cutpaths.geometry.assembly import Piece
from cutpaths.geometry.marks import CLOSED_KINDS, Mark
from cutpaths.pieces import Kit
from cutpaths.proof.check import Check
from cutpaths.proof.reading import Fault, faultless
from cutpaths.proof.soundness import every_piece
from cutpaths.proof.tolerances import PLACE_MM


def marks_inside(kit: Kit) -> tuple[Check, ...]:
    """Every mark against the outline of its piece."""
    return faultless(
        "marks-inside",
        "Every mark lies on the piece that it belongs to.",
        [fault for piece in every_piece(kit) for fault in _strays(piece)],
    )


def _strays(piece: Piece) -> Iterator[Fault]:
    """Marks that leave a piece."""
    if not piece.marks:
        return
    room = Polygon(piece.outline).buffer(PLACE_MM, join_style="mitre")
    shapely.prepare(room)
    lines = [_line(mark) for mark in piece.marks]
    for mark, held in zip(piece.marks, shapely.covers(room, lines), strict=True):
        if not held:
            yield Fault(f"{piece.key} {mark.at}".strip(), f"the {mark.kind} leaves the piece")


def _line(mark: Mark) -> shapely.LineString:
    """All that a mark covers: its points, and the way back to the first where it is closed."""
    closed = mark.kind in CLOSED_KINDS or len(mark.points) == 1
    return shapely.LineString(mark.points + mark.points[:1] if closed else mark.points)
