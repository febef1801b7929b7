"""The layout chart of a pieced top: which patch goes where, seen from the front; mm.

The top as it is designed, finished, at true scale. Each patch has the pale colour of its fabric and
the number of its piece; rows and columns are named as in the project file.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from cutpaths.drawing import Document, Item
from cutpaths.geometry.assembly import Piece
from cutpaths.geometry.marks import MarkKind, select
from cutpaths.geometry.patch_shapes import PatchKind, PatchShape
from cutpaths.geometry.polygons import Ring, box
from cutpaths.lengths import Ruler, as_fraction
from cutpaths.pieces import Kit
from cutpaths.project.patchwork import Patchwork, Pressing
from cutpaths.roles import Role
from cutpaths.shapes import Anchor, Path, Text
from cutpaths.sheets.chart_arrows import REACH, SEAM_LEAST, arrows
from cutpaths.sheets.chart_labels import LEAST, patch_label
from cutpaths.sheets.chart_names import Places, names_of
from cutpaths.sheets.fabric_paint import Cloth
from cutpaths.sheets.plate import WIDTH, Entry, Plate, drawing_of, pixel_of
from cutpaths.sheets.sheet import Output, about, label
from cutpaths.sheets.side_letters import side_letters
from cutpaths.strokes import text_width

FORMATS = ("svg", "png")
NAME = "picture-chart"
# All in pixels of the plate.
ROOM = 56.0
LETTER = 10.0
LETTER_GAP = 38.0
NAMED = 7.5
NAME_GAP = 7.0
NAMES_APART = 4.0
ENTRIES_MOST = 90
_STEPS = (1, 2, 5, 10, 20, 50, 100, 200, 500)


def chart_sheets(kit: Kit, cloths: Mapping[str, Cloth]) -> tuple[Output, ...]:
    """The chart; none for a top of one cloth."""
    if not isinstance(kit.project.top, Patchwork):
        return ()
    plate = chart_plate(kit, kit.project.top, cloths)
    document = Document(NAME, (drawing_of(plate),))
    return (Output(name=NAME, document=document, formats=FORMATS),)


def chart_plate(
    kit: Kit,
    top: Patchwork,
    cloths: Mapping[str, Cloth],
    short: Mapping[str, str] | None = None,
    across: float = WIDTH,
) -> Plate:
    """The chart with its key of fabrics and of patches.

    Args:
        kit: the kit.
        top: its layout.
        cloths: paint of its fabrics.
        short: what stands in a patch for its fabric; their names where it is left out.
        across: pixels that it is laid out for.
    """
    outline = kit.patchwork.outline
    pixel = pixel_of(outline, ROOM, across)
    placed = [(piece, _rings(piece)) for piece in kit.patchwork.pieces()]
    pressed = _arrows(kit, placed, pixel)
    labels = list(_labels(placed, short or {}, pixel, REACH + 1 if pressed else 0.0))
    numbered = sum(1 for item in labels if _string(item).isdigit())
    patches = sum(len(rings) for _, rings in placed)
    return Plate(
        name=NAME,
        says=about(kit, "layout chart", "right side up"),
        outline=outline,
        room=ROOM,
        across=across,
        items=(
            *_painted(placed, cloths),
            *labels,
            *pressed,
            *_names(top, outline, pixel),
            *side_letters(outline, LETTER * pixel, LETTER_GAP * pixel),
        ),
        heading=(kit.project.title, "Layout chart, seen from the front"),
        key=_key(kit, placed, cloths),
        notes=tuple(_notes(kit, complete=numbered == patches, arrows=bool(pressed))),
    )


def _rings(piece: Piece) -> list[Ring]:
    finished = select(piece.marks, MarkKind.SEAM_RING)[0].points
    return [place.ring(finished) for place in piece.places]


_Placed = list[tuple[Piece, list[Ring]]]


def _painted(placed: _Placed, cloths: Mapping[str, Cloth]) -> Iterator[Item]:
    for piece, rings in placed:
        tint = cloths[piece.fabric].tint
        for ring in rings:
            yield Item(Role.STITCH, piece.key.lower(), Path(ring, closed=True), tint)


def _labels(placed: _Placed, short: Mapping[str, str], pixel: float, room: float) -> Iterator[Item]:
    for piece, rings in placed:
        fabric = short.get(piece.fabric, piece.fabric)
        for ring in rings:
            left, foot, right, head = box(ring)
            if min(right - left, head - foot) > LEAST * pixel:
                yield from patch_label(ring, _number(piece), fabric, pixel, room)


def _number(piece: Piece) -> str:
    return piece.key.removeprefix("PATCH-")


def _string(item: Item) -> str:
    return item.shape.string if isinstance(item.shape, Text) else ""


def _arrows(kit: Kit, placed: _Placed, pixel: float) -> list[Item]:
    """The arrows, where patches are large enough for them and their texts."""
    sizes = [box(rings[0]) for _, rings in placed]
    usual = sorted(min(right - left, head - foot) for left, foot, right, head in sizes)
    if kit.project.pressing is Pressing.OPEN or usual[len(usual) // 2] < SEAM_LEAST * pixel:
        return []
    corners = [p for _, rings in placed for ring in rings for p in ring]
    return list(arrows(kit.patchwork.all_seams(), corners, pixel))


def _names(top: Patchwork, outline: Ring, pixel: float) -> Iterator[Item]:
    """Names of rows at the left, of columns at the head and, where they differ, at the foot."""
    names = names_of(top)
    left, foot, _, head = box(outline)
    height, gap = NAMED * pixel, NAME_GAP * pixel
    for name, y in _shown("r", names.rows, pixel, upright=True):
        yield label("chart", name, (left - gap, foot + y - height / 2), height, Anchor.END)
    for name, x in _shown("c", names.head, pixel, upright=False):
        yield label("chart", name, (left + x, head + gap), height, Anchor.MIDDLE)
    for name, x in _shown("c", names.foot, pixel, upright=False):
        yield label("chart", name, (left + x, foot - gap - height), height, Anchor.MIDDLE)


def _shown(
    letter: str, places: Places, pixel: float, *, upright: bool
) -> Iterator[tuple[str, float]]:
    """The names for which there is room: all, or every second, fifth, tenth ... one."""
    named = [(f"{letter}{i}", i, at) for i, at in enumerate(places, 1)]
    for step in _STEPS:
        kept = [(name, at) for name, i, at in named if i % step == 0]
        if _clear(kept, pixel, upright=upright):
            yield from kept
            return


def _clear(names: Sequence[tuple[str, float]], pixel: float, *, upright: bool) -> bool:
    """Whether no two names come too near to one another."""
    half = [
        (NAMED if upright else text_width(name, NAMED)) / 2 + NAMES_APART / 2 for name, _ in names
    ]
    return all(
        abs(names[i + 1][1] - names[i][1]) >= (half[i] + half[i + 1]) * pixel
        for i in range(len(names) - 1)
    )


def _key(
    kit: Kit, placed: _Placed, cloths: Mapping[str, Cloth]
) -> tuple[tuple[str, tuple[Entry, ...]], ...]:
    fabrics = {fabric.name: fabric for fabric in kit.project.fabrics}
    used = {piece.fabric for piece, _ in placed}
    cloth = [
        Entry(
            cloths[name].tint,
            name if fabric.label.lower() == name else f"{name}: {fabric.label}",
        )
        for name, fabric in fabrics.items()
        if name in used
    ]
    patches = [
        Entry(
            cloths[piece.fabric].tint,
            f"{_number(piece)}: {piece.fabric}, {_shape(piece.shape, kit.project.ruler)},"
            f" {len(rings)} {'piece' if len(rings) == 1 else 'pieces'}",
        )
        for piece, rings in placed[:ENTRIES_MOST]
    ]
    return ("Fabrics", tuple(cloth)), ("Patches, finished size and count", tuple(patches))


def _shape(shape: PatchShape | None, ruler: Ruler) -> str:
    """A patch's shape and finished size: of a half-square triangle its short side."""
    if shape is None:
        return ""
    width, height = ruler.text(as_fraction(shape.width)), ruler.text(as_fraction(shape.height))
    alone = shape.square or shape.kind is PatchKind.QUARTER
    return f"{shape.name} {width if alone else f'{width} x {height}'}"


def _notes(kit: Kit, *, complete: bool, arrows: bool) -> Iterator[str]:
    if kit.project.pressing is Pressing.OPEN:
        yield "Press seams open."
    elif arrows:
        yield "Arrows show which way seam allowances are pressed."
    else:
        yield "Press seam allowances alternately; the patches are too small here for arrows."
    if not complete:
        yield "Patches that are too small here for their number have only their colour."
    more = len(kit.patchwork.pieces()) - ENTRIES_MOST
    if more > 0:
        yield f"The key leaves out {more} more patches."
