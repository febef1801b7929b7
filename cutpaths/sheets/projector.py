"""Projector sheets: what is marked on cloth, at true scale, with a mirrored twin of each sheet.

The sheet shows the piece wrong side up, as it lies on the table. The twin is for a picture thrown
by a mirror, or for marking the right side. Letters stand outside the cloth's edge.
"""

from __future__ import annotations

from cutpaths.drawing import Document, Pen, move
from cutpaths.geometry.assembly import Piece
from cutpaths.geometry.polygons import box
from cutpaths.pieces import Kit
from cutpaths.projector.needs import Wanted
from cutpaths.shapes import Motion
from cutpaths.sheets.page import Laid, PageContent, PageDocument, sewing_order
from cutpaths.sheets.projector_frames import Thrown, frame_pictures, thrown
from cutpaths.sheets.sewing_letters import sewing_letters
from cutpaths.sheets.sheet import Output, Wishes, about, fit, label, scale_square
from cutpaths.sheets.signs import piece_items
from cutpaths.sheets.stations import planned, unplanned

LETTER_HEIGHT = 12.0
LETTER_GAP = 6.0
TITLE_HEIGHT = 10.0
ROOM = 40.0
# Light from above washes thin lines out.
PEN = Pen(scale=3.0)

WRONG_SIDE_UP = "wrong side up, as it lies to be marked"
MIRRORED = "mirrored: as seen from the right side"


def projector_sheets(kit: Kit, wishes: Wishes) -> tuple[Output, ...]:
    """Backing and top, each as it lies and mirrored; the page; frames where there is a rig."""
    sheets = tuple(
        _sheet(kit, piece, mirrored=mirrored)
        for piece in (kit.backing, kit.top)
        for mirrored in (False, True)
    )
    wanted, found = wishes.frame_marks, None
    if wishes.rig is not None:
        found = thrown(kit, wishes.rig, wanted)
    frames: tuple[Output, ...] = ()
    if found is not None:
        frames = frame_pictures(kit, found, wanted, pixels=wishes.frame_pixels)
    return (*sheets, _page(kit, wanted, found), *frames)


def _page(kit: Kit, wanted: Wanted, found: Thrown | None) -> Output:
    """The page, its stations planned where the rig is known."""
    if found is None:
        laid = [Laid(piece, unplanned(piece, wanted)) for piece in (kit.backing, kit.top)]
    else:
        ruler = kit.project.ruler
        laid = [Laid(each.piece, planned(each, wanted, ruler)) for each in found.plans]
    content = PageContent(
        title=kit.project.title,
        digest=kit.project.digest,
        unit=kit.project.ruler.unit.value,
        order=sewing_order(kit),
        laid=tuple(laid),
        wanted=wanted,
        rig=None if found is None else found.calibration.rig,
        summary=() if found is None else found.summary,
    )
    document = PageDocument("projector-page", (), content)
    return Output(name="projector-page", document=document, formats=("html",))


def _sheet(kit: Kit, piece: Piece, *, mirrored: bool) -> Output:
    key = piece.key.lower()
    turn = Motion(mirrored=mirrored)
    items = [*piece_items(piece), *sewing_letters(kit, piece, LETTER_HEIGHT, LETTER_GAP)]
    laid = [move(turn, item) for item in items]
    left, bottom, right, top = box(tuple(turn.point(p) for p in piece.outline))
    face = MIRRORED if mirrored else WRONG_SIDE_UP
    title = f"{kit.project.title}: {piece.key}, {face}"
    laid.append(label(key, title, (left, top + ROOM), TITLE_HEIGHT))
    laid += scale_square((right + ROOM, bottom))
    name = f"projector-{key}-mirrored" if mirrored else f"projector-{key}"
    drawing = fit(name, laid, about(kit, piece.key, face), PEN)
    return Output(name=name, document=Document(name, (drawing,)), formats=("svg",))
