"""The CAD sheet: every piece once, as a block, with dimensions and labels."""

from __future__ import annotations

from collections.abc import Iterator

from cutpaths.drawing import Document, Drawing, Item, Pen, Placed, move
from cutpaths.geometry.assembly import Piece, PieceKind
from cutpaths.geometry.layouts.pairs import SewnPair
from cutpaths.geometry.marks import MarkKind, select
from cutpaths.geometry.polygons import box, middle, right_of, sub, unit
from cutpaths.lengths import Unit
from cutpaths.pieces import Kit
from cutpaths.project.model import Construction
from cutpaths.roles import Role
from cutpaths.shapes import Anchor, Motion, shift
from cutpaths.sheets.clear_places import placed_clear
from cutpaths.sheets.faces import end_words, face_lines, face_said, template_of
from cutpaths.sheets.measures import measures
from cutpaths.sheets.rows import in_rows
from cutpaths.sheets.sewing_letters import sewing_letters
from cutpaths.sheets.sheet import Output, Wishes, about, extent, fit, label
from cutpaths.sheets.signs import piece_items
from cutpaths.strokes import text_width

PEN = Pen(text_as_strokes=False)
SPACING = 60.0
ROW_WIDTH = 2600.0
LABEL_MOST, LABEL_SMALL = 10.0, 7.0
LABEL_GAP = 35.0
TITLE_HEIGHT = 18.0
# Letters of sides stand outside the dimensions along them.
LETTER_HEIGHT, LETTER_GAP = 12.0, 48.0
# How far from a card's raw edge the name of its side may stand.
END_GAPS = tuple(range(3, 60, 3))


def cad_sheets(kit: Kit, wishes: Wishes) -> tuple[Output, ...]:
    """One sheet with every piece to cut or mark."""
    del wishes  # a drawing to look at always has its texts
    panels = () if kit.panels is None else kit.panels.pieces()
    cards = (template.piece for template in kit.templates)
    filling = () if kit.filling is None else (kit.filling,)
    pieces = (kit.backing, kit.top, *filling, *panels, *_patches(kit), *cards)
    shown = [_shown(kit, piece) for piece in pieces]
    boxes = [extent(items) for items in shown]
    sizes = [(right - left, top - bottom) for left, bottom, right, top in boxes]
    places = in_rows(sizes, ROW_WIDTH, SPACING)
    laid: list[Item] = []
    for items, (left, bottom, _, _), place in zip(shown, boxes, places, strict=True):
        laid += (move(shift(-left, -bottom).then(place), item) for item in items)
    left, _, _, top = extent(laid)
    unit = "inches" if kit.project.ruler.unit is Unit.INCH else kit.project.ruler.unit.value
    title = f"{kit.project.title}: all pieces, dimensions in {unit}"
    laid.append(label("sheet", title, (left, top + SPACING), TITLE_HEIGHT))
    drawing = fit("cad-pieces", laid, about(kit, "all pieces", ""), PEN)
    output = Output(
        name="cad-pieces", document=Document("cad-pieces", (drawing,)), formats=("dxf", "svg")
    )
    return (output,)


def _patches(kit: Kit) -> tuple[Piece, ...]:
    return tuple(p for p in kit.cloth if p.kind is PieceKind.PATCH) if kit.pieced else ()


def _shown(kit: Kit, piece: Piece) -> tuple[Item, ...]:
    """A piece as a block at the origin, with its label and dimensions beside it."""
    key = piece.key.lower()
    block = Drawing(
        name=piece.key,
        size=piece.size,
        about=about(kit, piece.key, face_said(kit, piece)),
        items=piece_items(piece),
        pen=PEN,
    )
    items = [Item(Role.CUT, key, Placed(block, Motion())), *_label(kit, piece)]
    if piece.kind in (PieceKind.BACKING, PieceKind.TOP):
        items += sewing_letters(kit, piece, LETTER_HEIGHT, LETTER_GAP)
    dimensions = [
        [Item(Role.DIMENSION, key, place) for place in places] for places in measures(kit, piece)
    ]
    return (*items, *placed_clear([*dimensions, *_ends(kit, piece)], items))


def _ends(kit: Kit, piece: Piece) -> Iterator[list[Item]]:
    """Beside each raw edge of a card that may lie the wrong way, which side's end it is."""
    template = template_of(kit, piece)
    for edge in () if template is None else template.raw_edges:
        text, out = end_words(edge.sides), right_of(unit(sub(edge.end, edge.start)))
        x, y = middle(edge.start, edge.end)
        room = abs(out[0]) * text_width(text, LABEL_SMALL) / 2 + abs(out[1]) * LABEL_SMALL / 2
        yield [
            label(
                piece.key.lower(),
                text,
                (x + out[0] * (gap + room), y + out[1] * (gap + room) - LABEL_SMALL / 2),
                LABEL_SMALL,
                Anchor.MIDDLE,
            )
            for gap in END_GAPS
        ]


def _label(kit: Kit, piece: Piece) -> tuple[Item, ...]:
    """What a piece is: in the middle of a large one, beside its grain line; above a small one."""
    lines = label_lines(kit, piece)
    left, bottom, right, top = box(piece.outline)
    x, y = middle((left, bottom), (right, top))
    large = piece.kind not in (PieceKind.PATCH, PieceKind.TEMPLATE)
    width = max(text_width(line, 1.0) for line in lines)
    height = min(LABEL_MOST, (right - left) * 0.4 / width) if large else LABEL_SMALL
    step = height * 1.8
    at = x + height / 2, y + step * (len(lines) - 1) / 2
    anchor = Anchor.START
    if not large:
        at = left, top + LABEL_GAP + step * (len(lines) - 1)
    elif not select(piece.marks, MarkKind.GRAIN):
        at, anchor = (x, at[1]), Anchor.MIDDLE
    key = piece.key.lower()
    return tuple(
        label(key, line, (at[0], at[1] - n * step), height, anchor) for n, line in enumerate(lines)
    )


def label_lines(kit: Kit, piece: Piece) -> tuple[str, ...]:
    """What is said of a piece beside it: key, fabric, how many, which face, which allowances."""
    labels = {fabric.name: fabric.label for fabric in kit.project.fabrics}
    lines = (
        piece.key,
        labels.get(piece.fabric, piece.fabric),
        _made(kit, piece),
        *face_lines(kit, piece),
        _allowances(kit, piece),
        *(_sewn_first(kit, pair) for pair in kit.pairs if piece in (pair.marked, pair.plain)),
    )
    return tuple(line for line in lines if line)


def _made(kit: Kit, piece: Piece) -> str:
    """How a piece comes to be."""
    if piece.kind is PieceKind.TOP and kit.pieced:
        return "as sewn"
    whole = piece is not kit.backing or kit.panels is None
    return f"cut {piece.count}" if whole else "joined of panels"


def _allowances(kit: Kit, piece: Piece) -> str:
    """The seam allowances round a piece; a folded-over backing and its top have none.

    A filling has none either: it ends inside the finished edge.
    """
    ruler, join = kit.project.ruler, kit.project.join
    if piece.kind is PieceKind.TEMPLATE:
        return ""
    if piece.kind is PieceKind.FILLING and (asked := kit.project.filling) is not None:
        return f"{ruler.text(asked.less)} inside the finished edge"
    said = []
    if piece.kind is PieceKind.PATCH or kit.project.construction is Construction.TURNED:
        said.append(f"seam allowance {ruler.text(kit.project.allowance)}")
    if piece.kind is PieceKind.PANEL and join is not None:
        said.append(f"joining seam {ruler.text(join.allowance)}")
    return ", ".join(said)


def _sewn_first(kit: Kit, pair: SewnPair) -> str:
    """What is done with squares whose triangles are sewn before they are cut."""
    return f"sew, cut apart, trim to {kit.project.ruler.text(pair.trim_to)}"
