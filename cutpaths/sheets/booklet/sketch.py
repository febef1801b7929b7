"""Small line pictures for the booklet: how a top is measured, how an outline is drawn; mm of cloth.

Texts and arrows have their size on paper, where the longer side is `LONGEST` at most.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from cutpaths.drawing import Drawing, Item, Pen
from cutpaths.geometry.assembly import Piece
from cutpaths.geometry.outlines import rectangle
from cutpaths.geometry.polygons import Ring, along, box, right_of, sub, unit
from cutpaths.pieces import Kit
from cutpaths.roles import Role
from cutpaths.shapes import Anchor, Path, Point, Text, shift
from cutpaths.sheets.sheet import about, fit

LONGEST = 46.0
# On paper.
_TEXT, _GAP, _HEAD, _MARGIN = 2.2, 1.6, 1.8, 1.0
_PARTS = (0.08, 0.5, 0.92)  # of a side: where it is measured across
_KEY = "sketch"


def measuring(kit: Kit, across: str, down: str) -> Drawing:
    """The sewn top with the six lines along which it is measured, and what they must be."""
    left, foot, right, head = box(kit.blanket.top)
    mm = _paper_mm(kit.blanket.top)
    items = [_ring(kit.blanket.top, Role.CUT)]
    for part in _PARTS:
        x, y = left + (right - left) * part, foot + (head - foot) * part
        items += _arrow((left, y), (right, y), mm)
        items += _arrow((x, foot), (x, head), mm)
    gap = _GAP * mm
    items.append(_text(across, ((left + right) / 2, foot - gap - _TEXT * mm), mm))
    items.append(_text(down, (left - gap, (foot + head) / 2), mm, angle=90.0))
    return _drawing(kit, "measure", "how the sewn top is measured", items, mm)


def to_draw(kit: Kit, piece: Piece, corners: Sequence[tuple[str, Point]]) -> Drawing:
    """An outline in the rectangle that it is cut from; its corners have names, and front places."""
    mm = _paper_mm(piece.outline)
    left, foot, right, head = box(piece.outline)
    around = shift(left, foot).ring(rectangle(right - left, head - foot))
    items = [_ring(around, Role.FOLD), _ring(piece.outline, Role.CUT)]
    center = (left + right) / 2, (foot + head) / 2
    home = piece.places[0].inverse()
    for name, place in corners:
        at = home.point(place)
        x, y = along(at, unit(sub(center, at)), 2.6 * _TEXT * mm)
        items.append(_text(name, (x, y - _TEXT * mm / 2), mm))
    return _drawing(kit, "to-draw", f"the outline of {piece.key}", items, mm)


def _paper_mm(ring: Ring) -> float:
    """Millimetres of cloth for one on paper."""
    left, foot, right, head = box(ring)
    return max(right - left, head - foot) / LONGEST


def _ring(ring: Ring, role: Role) -> Item:
    return Item(role, _KEY, Path(ring, closed=True))


def _arrow(start: Point, end: Point, mm: float) -> Iterator[Item]:
    """A line with a head at both ends."""
    yield Item(Role.DIMENSION, _KEY, Path((start, end)))
    for tip, other in ((start, end), (end, start)):
        way = unit(sub(other, tip))
        back, side = along(tip, way, _HEAD * mm), right_of(way)
        wings = along(back, side, _HEAD / 3 * mm), along(back, side, -_HEAD / 3 * mm)
        yield Item(Role.DIMENSION, _KEY, Path((wings[0], tip, wings[1])))


def _text(string: str, at: Point, mm: float, angle: float = 0.0) -> Item:
    text = Text(string=string, at=at, height=_TEXT * mm, angle=angle, anchor=Anchor.MIDDLE)
    return Item(Role.LABEL, _KEY, text)


def _drawing(kit: Kit, name: str, shows: str, items: Sequence[Item], mm: float) -> Drawing:
    pen = Pen(scale=0.7 * mm, stretch=0.5 * mm)
    return fit(name, items, about(kit, shows, ""), pen, _MARGIN * mm)
