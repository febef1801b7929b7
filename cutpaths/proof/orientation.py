"""Which face is up, which way round the letters run, and where the marks themselves put the top."""

from __future__ import annotations

from collections.abc import Iterator

from shapely import LinearRing, Polygon

from cutpaths.geometry.assembly import Face, Piece, PieceKind
from cutpaths.geometry.marks import MarkKind, select
from cutpaths.geometry.polygons import distance
from cutpaths.pieces import Kit
from cutpaths.proof.check import Check
from cutpaths.proof.paper import Paper, side_names, turns_over
from cutpaths.proof.reading import Fault, faultless, judge
from cutpaths.proof.soundness import every_piece

# How each kind lies as it is marked or cut, and which of its faces the front view shows.
_FACES = {
    PieceKind.PATCH: (Face.RIGHT, Face.RIGHT),
    PieceKind.TOP: (Face.WRONG, Face.RIGHT),
    PieceKind.BACKING: (Face.WRONG, Face.WRONG),
    PieceKind.PANEL: (Face.WRONG, Face.WRONG),
    PieceKind.FILLING: (Face.EITHER, Face.EITHER),
    PieceKind.WASTE: (Face.WRONG, Face.WRONG),
    PieceKind.TEMPLATE: (Face.EITHER, Face.EITHER),
}


def orientation(kit: Kit) -> tuple[Check, ...]:
    """Faces and letters; while one is wrong, nothing can be said of what meets what."""
    return (
        *faultless(
            "faces-up",
            "Top and backing lie wrong side up and patches right side up, "
            "and they turn over just where the front shows their other face.",
            [fault for piece in every_piece(kit) for fault in _face_faults(piece)],
        ),
        *faultless(
            "letters-turn",
            "Seen from the front the letters of the sides run counter-clockwise: "
            "on the top as it is marked, wrong side up, they run clockwise.",
            [fault for piece in (kit.top, kit.backing) for fault in _letter_faults(kit, piece)],
        ),
    )


def top_placed(paper: Paper) -> tuple[Check, ...]:
    """Whether the motion found from the marks is the one that the top says it has."""
    top = paper.kit.top
    gap = max(distance(paper.found.point(p), top.places[0].point(p)) for p in top.outline)
    return judge(
        "top-placed",
        "The top lies where two of its marks meet those of the backing, "
        "and that is where its place puts it.",
        [paper.measure.apart(top.key, gap)],
    )


def _face_faults(piece: Piece) -> Iterator[Fault]:
    up, shown = _FACES[piece.kind]
    if piece.face is not up:
        yield Fault(piece.key, f"it lies {piece.face}, not {up}")
    elif up is not Face.EITHER:
        wrong = sum(place.mirrored is not turns_over(up, shown) for place in piece.places)
        if wrong:
            yield Fault(piece.key, f"{wrong} of {piece.count} show the wrong face in front")


def _letter_faults(kit: Kit, piece: Piece) -> Iterator[Fault]:
    """Letters run around by the centers of their sides, one way, once."""
    centers = [select(piece.marks, MarkKind.CENTER, side)[0].points[0] for side in side_names(kit)]
    clockwise = turns_over(*_FACES[piece.kind])
    if not Polygon(centers).is_valid:
        yield Fault(piece.key, "the letters do not run around it in order")
    elif LinearRing(centers).is_ccw is clockwise:
        yield Fault(piece.key, "the letters run round it the wrong way")
