"""Which face of a piece is up as it is drawn, in words."""

from __future__ import annotations

from cutpaths.geometry.assembly import Piece, PieceKind
from cutpaths.pieces import CornerTemplate, Kit

MIRRORED_TOP = "wrong side up, mirrored"


def template_of(kit: Kit, piece: Piece) -> CornerTemplate | None:
    """The template that a piece is the card of; None for cloth."""
    return next((t for t in kit.templates if t.piece is piece), None)


def face_lines(kit: Kit, piece: Piece) -> tuple[str, ...]:
    """Lines of a label: the face that is up, and the corners that a card serves."""
    template = template_of(kit, piece)
    if template is None:
        return (MIRRORED_TOP if piece.kind is PieceKind.TOP else piece.face.value,)
    if not template.raw_edges:
        return piece.face.value, _corners(template.corners)
    lines = [f"this face up for {_corners(template.face_up)}"]
    if template.turned_over:
        lines.append(f"turned over: {', '.join(template.turned_over)}")
    return tuple(lines)


def _corners(names: tuple[str, ...]) -> str:
    return f"{'corner' if len(names) == 1 else 'corners'} {', '.join(names)}"


def face_said(kit: Kit, piece: Piece) -> str:
    """What a file says of the face that is up."""
    template = template_of(kit, piece)
    if template is None or not template.raw_edges:
        return piece.face.value
    drawn = f"the one drawn for {', '.join(template.face_up)}"
    if not template.turned_over:
        return drawn
    return f"{drawn}; the other for {', '.join(template.turned_over)}"


def end_words(sides: tuple[str, ...]) -> str:
    """What stands at an edge of a card that lies on these sides' raw edges: `A end`."""
    return f"{', '.join(sides)} end"
