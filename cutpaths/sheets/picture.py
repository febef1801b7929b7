"""Pictures of the finished blanket, front and back, at true scale; mm.

The front shows the patches as they are sewn, the border folded over from behind with its miters,
and the top stitching: in the ditch of the border's seam and near the blanket's edge, where it
closes the turning opening; on a folded-over blanket just inside the border's fold alone.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from cutpaths.drawing import Document, Item, move
from cutpaths.figures import figures_of
from cutpaths.geometry.marks import letter
from cutpaths.geometry.polygons import Ring, offset
from cutpaths.lengths import INCH
from cutpaths.paint import Colour
from cutpaths.pieces import Kit
from cutpaths.project.model import Construction
from cutpaths.roles import Role
from cutpaths.shapes import Motion, Path
from cutpaths.sheets.fabric_paint import Cloth, luminance
from cutpaths.sheets.plate import WIDTH, Entry, Plate, drawing_of, pixel_of
from cutpaths.sheets.seen import Part, back, edge, front, inner_edge
from cutpaths.sheets.sheet import Output, about
from cutpaths.sheets.side_letters import side_letters
from cutpaths.values import replace

FORMATS = ("svg", "png")
ROOM = 32.0
LETTER = 10.0
LETTER_GAP = 7.0
# Common practice, no source: near the edge, and as near to a fold as the foot can be led.
EDGE_STITCH = float(INCH / 8)
FOLD_STITCH = float(INCH / 16)
# How far the inner stitching lies on the border, and the outer from the edge where there is any.
_STITCHING: dict[Construction, tuple[float, float | None]] = {
    Construction.TURNED: (0.0, EDGE_STITCH),
    Construction.FOLDED_OVER: (FOLD_STITCH, None),
}
_PALE_THREAD, _DARK_THREAD = (0xF7, 0xF3, 0xE8), (0x2B, 0x2B, 0x2B)
_DARK_CLOTH = 0.3  # luminance; between those on which the two threads are seen as well


def picture_sheets(kit: Kit, cloths: Mapping[str, Cloth]) -> tuple[Output, ...]:
    """Front and back of the finished blanket."""
    plates = front_plate(kit, cloths), back_plate(kit, cloths)
    return tuple(
        Output(name=p.name, document=Document(p.name, (drawing_of(p),)), formats=FORMATS)
        for p in plates
    )


def front_plate(kit: Kit, cloths: Mapping[str, Cloth], across: float = WIDTH) -> Plate:
    """The front, with the letters of its sides and the key of its fabrics; so many pixels wide."""
    parts = front(kit)
    items = (*_painted(parts, cloths), *_stitching(kit), *_letters(kit, across))
    used = {part.fabric for part in parts}
    plate = _plate(kit, cloths, "picture-front", "front of the finished blanket", items, used)
    return replace(plate, across=across)


def back_plate(kit: Kit, cloths: Mapping[str, Cloth]) -> Plate:
    """The back: what lies at the left on the front is at the right."""
    part = back(kit)
    over = Motion(mirrored=True)
    seen = (*_painted((part,), cloths), *_stitching(kit), *_letters(kit, WIDTH))
    items = tuple(move(over, item) for item in seen)
    plate = _plate(
        kit, cloths, "picture-back", "back of the finished blanket", items, {part.fabric}
    )
    return replace(plate, outline=over.ring(plate.outline))


def _plate(
    kit: Kit,
    cloths: Mapping[str, Cloth],
    name: str,
    what: str,
    items: tuple[Item, ...],
    used: set[str],
) -> Plate:
    backing = cloths[kit.project.backing_fabric].colour
    fabrics = (fabric for fabric in kit.project.fabrics if fabric.name in used)
    entries = tuple(Entry(cloths[fabric.name].paint(), fabric.label) for fabric in fabrics)
    return Plate(
        name=name,
        says=about(kit, what, "right side up"),
        outline=edge(kit),
        room=ROOM,
        items=items,
        heading=(kit.project.title, *_sizes(kit, what.capitalize())),
        key=(("", entries),),
        thread=_thread(backing),
    )


def _painted(parts: tuple[Part, ...], cloths: Mapping[str, Cloth]) -> Iterator[Item]:
    """Each part with its cloth; patches are cut from here and there."""
    counts: dict[str, int] = {}
    for part in parts:
        number = 0
        lie = part.lie
        if part.key.startswith("patch"):
            number = counts.get(part.fabric, 0)
            counts[part.fabric] = number + 1
            lie = replace(lie, dx=0.0, dy=0.0)
        paint = cloths[part.fabric].paint(lie, number)
        yield Item(Role.STITCH, part.key, Path(part.outline, closed=True), paint)


def top_stitching(kit: Kit) -> tuple[Ring, ...]:
    """The lines of the top stitching, the one on or beside the border's inner edge first."""
    on_border, from_edge = _STITCHING[kit.project.construction]
    lines = [(inner_edge(kit), on_border)]
    if from_edge is not None:
        lines.append((edge(kit), -min(from_edge, float(min(kit.project.borders)) / 3)))
    return tuple(offset(ring, [outward] * len(ring)) for ring, outward in lines)


def _stitching(kit: Kit) -> Iterator[Item]:
    """The top stitching, which shows on both sides."""
    for ring in top_stitching(kit):
        yield Item(Role.TOPSTITCH, "blanket", Path(ring, closed=True))


def _thread(cloth: Colour) -> Colour:
    """A thread that is seen on a cloth."""
    return _PALE_THREAD if luminance(cloth) < _DARK_CLOTH else _DARK_THREAD


def _letters(kit: Kit, across: float) -> Iterator[Item]:
    outline = edge(kit)
    pixel = pixel_of(outline, ROOM, across)
    return side_letters(outline, LETTER * pixel, LETTER_GAP * pixel)


def _sizes(kit: Kit, what: str) -> tuple[str, str]:
    """The finished size and the border, as the figures have them."""
    texts = {f.key: f.text for group in figures_of(kit).groups for f in group.figures}
    size = f"{what}: {texts['finished.width']} across, {texts['finished.height']} down"
    if "border" in texts:
        return size, f"Border: {texts['border']}"
    keys = [letter(i) for i in range(len(kit.project.borders))]
    borders = ", ".join(f"{key} {texts[f'border.{key.lower()}']}" for key in keys)
    return size, f"Borders: {borders}"
