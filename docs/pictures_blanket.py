"""Pictures of whole blankets and their layers; mm, seen as each picture's name says."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from pictures_kits import DOLL, FOUR_BORDERS, HEXAGON, example, kit_of
from pictures_parts import KEY, Writing, document, line, ring

from cutpaths.drawing import Document, Item, move
from cutpaths.geometry.assembly import Piece
from cutpaths.geometry.marks import MarkKind, letter, select
from cutpaths.geometry.polygons import Ring, box, distance, edges, middle, right_of, sub, unit
from cutpaths.pieces import Kit
from cutpaths.roles import Role
from cutpaths.shapes import Point, shift
from cutpaths.sheets.fabric_paint import cloths_of
from cutpaths.sheets.picture import picture_sheets
from cutpaths.sheets.sheet import extent
from cutpaths.sheets.signs import piece_items
from cutpaths.sheets.steps import steps_of
from cutpaths.values import Value, replace

NAMES = ("foot", "right", "head", "left")
ORDER = ("1st", "2nd", "3rd", "4th", "5th", "6th")


def layers() -> Document:
    """The top laid on the backing: the four outlines inside one another."""
    kit, writing = kit_of(DOLL), Writing(0.7)
    blanket = kit.blanket
    outlines = (blanket.backing, blanket.finished, blanket.top, blanket.seam)
    foot = [box(outline)[1] for outline in outlines]
    right = [box(outline)[2] for outline in outlines]
    x, left = right[0] + 16, box(blanket.seam)[0]
    items = [
        ring(Role.CUT, blanket.backing),
        ring(Role.FOLD, blanket.finished),
        ring(Role.CUT, blanket.top),
        ring(Role.STITCH, blanket.seam),
        *writing.name("backing, raw edge", (x, 150), (right[0], 150)),
        *writing.name("finished outline F", (x, 125), (right[1], 125)),
        *writing.name("top, raw edge", (x, 100), (right[2], 100)),
        *writing.name("seam polygon S", (x, 75), (right[3], 75)),
        *writing.span("b + s", (left + 20, foot[0]), (left + 20, foot[1])),
        *writing.span("b", (left + 80, foot[1]), (left + 80, foot[3])),
        *writing.span("s", (left + 130, foot[2]), (left + 130, foot[3])),
    ]
    return document("layers", "the layers in the front view", kit, items, writing)


def finished() -> Document:
    """The blanket when it is done, seen from the front."""
    kit, writing = kit_of(DOLL), Writing(0.6)
    blanket = kit.blanket
    x = box(blanket.finished)[2] + 16
    miters = zip(blanket.seam, blanket.finished, strict=True)
    corner = middle(blanket.seam[1], blanket.finished[1])
    seam_right = box(blanket.seam)[2]
    items = [
        ring(Role.CUT, blanket.finished),
        ring(Role.LABEL, blanket.seam),
        *(line(Role.LABEL, inner, outer) for inner, outer in miters),
        *(line(Role.LABEL, seam.start, seam.end) for seam in kit.patchwork.all_seams()),
        *writing.name("edge: the backing's fold", (x, 130), (box(blanket.finished)[2], 130)),
        *writing.name("border seam", (x, 100), (seam_right, 100)),
        *writing.name("patch seam", (x, 70), (seam_right - 25.4, 50.8)),
        *writing.name("miter", (x, corner[1]), corner),
    ]
    return document("finished", "the blanket from the front", kit, items, writing)


def letters() -> Document:
    """Sides of a rectangle and a hexagon: their letters, and when each is sewn."""
    writing = Writing(1.45)
    doll, mat = kit_of(DOLL), kit_of(HEXAGON)
    gap = box(doll.blanket.finished)[2] + 290
    items = [*_lettered(doll, writing), *(move(shift(gap, 0), i) for i in _lettered(mat, writing))]
    return document("letters", "letters and sewing order", doll, items, writing)


def _lettered(kit: Kit, writing: Writing) -> Iterator[Item]:
    """The finished outline and the seam polygon, each side with its letter and its turn."""
    blanket = kit.blanket
    yield ring(Role.CUT, blanket.finished)
    yield ring(Role.STITCH, blanket.seam)
    sides = edges(blanket.finished)
    for i, (start, end) in enumerate(sides):
        out = right_of(unit(sub(end, start)))
        word = f"{letter(i)} {NAMES[i]}" if len(sides) == 4 else letter(i)
        turn = f"sewn {ORDER[kit.order.index(i)]}"
        yield from writing.outside([word, turn], middle(start, end), out)


def faces() -> Document:
    """The finished front, and backing and top as they lie to be marked."""
    kit, writing = kit_of(FOUR_BORDERS), Writing(1.25)
    parts = (
        _front(kit, writing),
        _marked(kit.backing, ("backing, wrong side up:", "as seen from the front"), writing),
        _marked(kit.top, ("top, wrong side up:", "the mirror image"), writing),
    )
    items: list[Item] = []
    edge = 0.0
    for part in parts:
        left, _, right, _ = extent(part)
        items += [move(shift(edge - left, 0), item) for item in part]
        edge += right - left + 40
    return document("faces", "which face is up", kit, items, writing)


def _front(kit: Kit, writing: Writing) -> list[Item]:
    """The finished blanket on the line y = 0, its letters outside and what it is below."""
    outline, seam = kit.blanket.finished, kit.blanket.seam
    words = ("the finished front:", "four different borders")
    items = [
        ring(Role.CUT, outline),
        ring(Role.LABEL, seam),
        *(line(Role.LABEL, p, q) for p, q in zip(seam, outline, strict=True)),
        *_letters(edges(outline), [letter(i) for i in range(len(outline))], writing),
        *_below(outline, words, writing),
    ]
    return [move(shift(0, -box(outline)[1]), item) for item in items]


def _marked(piece: Piece, words: tuple[str, ...], writing: Writing) -> list[Item]:
    """A piece as it lies, its letters outside and what it is below."""
    centers = {mark.at: mark.points[1] for mark in select(piece.marks, MarkKind.CENTER)}
    sides = edges(piece.outline)
    names = [min(centers, key=lambda at: _off(centers[at], side)) for side in sides]
    return [
        *(Item(item.role, KEY, item.shape) for item in piece_items(piece)),
        *_letters(sides, names, writing),
        *_below(piece.outline, words, writing),
    ]


def _off(place: Point, side: tuple[Point, Point]) -> float:
    """How far a place lies off a side."""
    start, end = side
    return distance(start, place) + distance(place, end) - distance(start, end)


def _letters(
    sides: Sequence[tuple[Point, Point]], names: Sequence[str], writing: Writing
) -> Iterator[Item]:
    for (start, end), name in zip(sides, names, strict=True):
        out = right_of(unit(sub(end, start)))
        yield from writing.outside([name], middle(start, end), out)


def _below(outline: Ring, words: tuple[str, ...], writing: Writing) -> list[Item]:
    left, bottom, right, _ = box(outline)
    return writing.lines(words, ((left + right) / 2, bottom - 42 * writing.px))


def tidepool_front() -> Document:
    """The finished example from its front, as `cutpaths picture` draws it."""
    kit = example("tidepool")
    front = picture_sheets(kit, cloths_of(kit.project.fabrics))[0].document
    return replace(front, name="tidepool-front")


def tidepool_fold() -> Document:
    """A step of the example's booklet: a corner is folded to be mitered."""
    (fold,) = (step for step in steps_of(example("tidepool")) if step.key == "fold-corner")
    return Document("tidepool-fold", (fold.drawing,))


def tidepool_backing() -> Document:
    """The backing of an example with all its marks, each named once."""
    kit, writing = example("tidepool"), Writing(1.43)
    piece = kit.backing
    width, height = piece.size
    place = _Places(piece)
    letters = [select(piece.marks, MarkKind.CENTER, at)[0] for at in "ABCD"]
    items = [
        *(Item(item.role, KEY, item.shape) for item in piece_items(piece)),
        *(
            item
            for mark, (start, end) in zip(letters, edges(piece.outline), strict=True)
            for item in writing.outside([mark.at], mark.points[1], right_of(unit(sub(end, start))))
        ),
        *writing.name("turning opening", (380, height - 190), place(MarkKind.OPENING_FOLD, "C")),
        *writing.name("center mark", (560, height - 120), place(MarkKind.CENTER, "C")),
        *writing.name("start and stop dot", (680, 820), place(MarkKind.DOT, "BC:B")),
        *writing.name("quarter mark", (680, 720), place(MarkKind.QUARTER, "B:3")),
        *writing.name("tick at a patch seam", (680, 660), place(MarkKind.PATCH_SEAM, "B:5")),
        *writing.name("stitching line", (680, 400), (place(MarkKind.CENTER, "B")[0], 400)),
        *writing.name("border fold", (230, 400), (place(MarkKind.BORDER_FOLD, "D")[0], 400)),
        *writing.name("miter stitching line", (230, 180), place(MarkKind.MITER_STITCH, "DA:D")),
        *writing.name("miter trim", (230, 110), (100, 31)),
        *writing.name("miter fold", (680, 110), place(MarkKind.MITER_FOLD, "AB")),
        *writing.name("grain, this way up", (width / 2 + 50, 533), place(MarkKind.GRAIN, "")),
    ]
    return document("tidepool-backing", "the backing, wrong side up", kit, items, writing)


class _Places(Value):
    """Answers where a mark of a piece is: half way between its ends."""

    piece: Piece

    def __call__(self, kind: MarkKind, at: str) -> Point:
        mark = select(self.piece.marks, kind, at)[0]
        return middle(mark.points[0], mark.points[-1])
