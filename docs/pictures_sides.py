"""Pictures of one side of the backing each: center, turn of cloth, turning opening; mm."""

from __future__ import annotations

from collections.abc import Iterator

from pictures_kits import LONG_SIDES, TURNS, TWO_BORDERS, kit_of
from pictures_parts import Writing, document, line, rectangle, ring, signs, within

from cutpaths.drawing import Document, Item, move
from cutpaths.geometry.marks import MarkKind, select
from cutpaths.geometry.opening import DOT_CLEARANCE
from cutpaths.geometry.polygons import box
from cutpaths.pieces import Kit
from cutpaths.roles import Role
from cutpaths.shapes import shift


def centers() -> Document:
    """The foot of a backing with a wide border at one end: its center is off the raw middle."""
    kit, writing = kit_of(TWO_BORDERS), Writing(0.62)
    piece = kit.backing
    width, _ = piece.size
    center, edge = select(piece.marks, MarkKind.CENTER, "A")[0].points
    start, end = select(piece.marks, MarkKind.STITCH, "A")[0].points
    lines = [ring(Role.CUT, piece.outline), *signs(piece.marks, *CENTER_KINDS)]
    window = rectangle(-1, -1, width + 1, 95)
    items = [
        *within(lines, window),
        *(writing.dot(p) for p in (start, end)),
        writing.measure("half the seam", start, center, 40),
        writing.measure("half the seam", center, end, 40),
        writing.measure("half the raw side", (0, 0), (width / 2, 0), -30),
        writing.measure("half the raw side", (width / 2, 0), (width, 0), -30),
        *writing.name("center mark", (edge[0] + 26, 75), (center[0], 12)),
        writing.text("middle of the raw side", (width / 2, -52 * writing.px)),
    ]
    return document("centers", "a center mark between unequal borders", kit, items, writing)


CENTER_KINDS = (MarkKind.STITCH, MarkKind.CENTER, MarkKind.MITER_STITCH, MarkKind.MITER_TRIM)


def turn_of_cloth() -> Document:
    """The foot of two backings, without and with an allowance for the turn of cloth."""
    writing = Writing(0.72)
    plain, thick = (kit_of(text) for text in TURNS)
    top, fold, stitch, raw = _heights(thick)
    items = [
        *_strip(plain, "no turn of cloth", ("b", "b", "s"), writing),
        *(
            move(shift(170, 0), item)
            for item in _strip(thick, "turn of cloth c", ("b + c/2", "b + c/2", "s"), writing)
        ),
        *writing.name("seam of the top", (330, top), (310, top)),
        *writing.name("border fold", (330, fold), (310, fold)),
        *writing.name("seam of the backing", (330, stitch), (310, stitch)),
        *writing.name("raw edge of the backing", (330, raw - 8), (310, raw)),
    ]
    return document("turn-of-cloth", "what the turn of cloth adds", plain, items, writing)


def _heights(kit: Kit) -> tuple[float, ...]:
    """Heights of the foot's lines, those of the top's seam as 0."""
    blanket = kit.blanket
    stitch = select(blanket.backing_marks, MarkKind.STITCH, "A")[0].points[0][1]
    zero = box(blanket.seam)[1]
    found = (zero, box(blanket.finished)[1], stitch, box(blanket.backing)[1])
    return tuple(y - zero for y in found)


def _strip(kit: Kit, title: str, texts: tuple[str, str, str], writing: Writing) -> Iterator[Item]:
    """A strip of the backing's foot with the distances between its lines."""
    heights = _heights(kit)
    roles = Role.STITCH, Role.FOLD, Role.STITCH, Role.CUT
    for role, y in zip(roles, heights, strict=True):
        yield line(role, (0, y), (140, y))
    for n, (text, high, low) in enumerate(zip(texts, heights, heights[1:], strict=False)):
        yield from writing.span(text, (20 + 44 * n, low), (20 + 44 * n, high))
    yield writing.text(title, (70, 18))


def opening() -> Document:
    """Where the turning opening goes: clear of dots and patch seams, beside the center."""
    kit, writing = kit_of(LONG_SIDES), Writing(1.0)
    piece = kit.backing
    width, height = piece.size
    first, second = select(piece.marks, MarkKind.STITCH, "C")
    gap = select(piece.marks, MarkKind.OPENING_FOLD, "C")[0].points
    center = select(piece.marks, MarkKind.CENTER, "C")[0].points[0]
    seam = select(piece.marks, MarkKind.PATCH_SEAM, "C:2")[0].points[0]
    (x, y), low = second.points[1], height - 90
    lines = [ring(Role.CUT, piece.outline), *signs(piece.marks, *OPENING_KINDS)]
    items = [
        *within(lines, rectangle(-1, low, width + 1, height + 1)),
        *(writing.dot(p) for p in (first.points[0], second.points[1])),
        writing.measure("turning opening", gap[1], gap[0], 36),
        writing.measure("2 in", (x, y), (x + DOT_CLEARANCE, y), -24),
        *writing.name("at least 2 in sewn at each dot", (x + 80, low + 12), (x + 30, y - 24)),
        *writing.name("center mark", (center[0] + 40, y + 44), center),
        *writing.name("tick at a patch seam", (seam[0] + 50, y - 34), seam),
    ]
    return document("opening", "where the opening goes", kit, items, writing)


OPENING_KINDS = (
    MarkKind.STITCH,
    MarkKind.CENTER,
    MarkKind.MITER_STITCH,
    MarkKind.OPENING_END,
    MarkKind.OPENING_FOLD,
    MarkKind.PATCH_SEAM,
)
