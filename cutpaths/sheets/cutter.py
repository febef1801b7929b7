"""Machine sheets: only what a cutting machine does, solid lines, final coordinates.

One sheet for each cut piece, one for each template, and for each fabric one with all its pieces
of a blanket in simple rows, for a machine cuts one cloth at a time. Marks are drawn only on a
wrong side: pen on a right side would show. Card is no cloth: its texts are always drawn.
"""

from __future__ import annotations

from collections.abc import Iterable

from cutpaths.drawing import Document, Item, Pen, move
from cutpaths.geometry.assembly import Face, Piece, PieceKind
from cutpaths.pieces import Kit
from cutpaths.project.model import Fabric
from cutpaths.roles import STYLES, MachineWork, Role
from cutpaths.sheets.card_texts import card_items
from cutpaths.sheets.cloth_label import cloth_label
from cutpaths.sheets.faces import face_said
from cutpaths.sheets.rows import in_rows
from cutpaths.sheets.sheet import Output, Wishes, about, fit
from cutpaths.sheets.signs import piece_items

PEN = Pen(patterned=False)
SPACING = 10.0
ROW_WIDTH = 1200.0
FORMATS = ("svg", "dxf")


def cutter_sheets(kit: Kit, wishes: Wishes) -> tuple[Output, ...]:
    """A sheet for each piece and one for all the pieces of each fabric."""
    pieces = (*kit.cloth, *(template.piece for template in kit.templates))
    cut = {piece.fabric for piece in kit.cloth}
    fabrics = [fabric for fabric in kit.project.fabrics if fabric.name in cut]
    return (
        *(_alone(kit, piece, wishes) for piece in pieces),
        *(_all(kit, fabric, number, wishes) for number, fabric in enumerate(fabrics, 1)),
    )


def machine_items(kit: Kit, piece: Piece, wishes: Wishes) -> tuple[Item, ...]:
    """The machine's work on one piece, in the piece's frame."""
    wanted = {MachineWork.CUT}
    if piece.face is Face.WRONG:
        wanted.add(MachineWork.DRAW)
        if wishes.text_on_cloth:
            wanted.add(MachineWork.ASKED)
    items = tuple(i for i in piece_items(piece) if STYLES[i.role].work in wanted)
    if piece.kind is PieceKind.TEMPLATE:
        return (*items, *card_items(kit, piece))
    text = cloth_label(kit, piece) if wishes.text_on_cloth else None
    return items if text is None else (*items, Item(Role.LABEL, piece.key.lower(), text))


def _alone(kit: Kit, piece: Piece, wishes: Wishes) -> Output:
    name = f"cutter-{piece.key.lower()}"
    items = machine_items(kit, piece, wishes)
    what = piece.key if piece.kind is PieceKind.TEMPLATE else f"{piece.key}, cut {piece.count}"
    return _output(kit, name, what, face_said(kit, piece), items)


def _all(kit: Kit, fabric: Fabric, number: int, wishes: Wishes) -> Output:
    """Every piece of a fabric as often as it is cut, the largest first."""
    pieces = [piece for piece in kit.cloth if piece.fabric == fabric.name]
    largest_first = sorted(pieces, key=lambda piece: -piece.size[1])
    copies = [piece for piece in largest_first for _ in range(piece.count)]
    items = {piece.key: machine_items(kit, piece, wishes) for piece in pieces}
    places = in_rows([piece.size for piece in copies], ROW_WIDTH, SPACING)
    laid = (
        move(place, item)
        for piece, place in zip(copies, places, strict=True)
        for item in items[piece.key]
    )
    what = f"all pieces of {fabric.label} for one blanket"
    return _output(kit, f"cutter-all-{number}", what, "", laid)


def _output(kit: Kit, name: str, what: str, face: str, items: Iterable[Item]) -> Output:
    drawing = fit(name, items, about(kit, what, face), PEN, SPACING)
    return Output(name=name, document=Document(name, (drawing,)), formats=FORMATS)
