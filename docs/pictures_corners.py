"""Pictures of one corner of the backing each, the backing's corner at the origin; mm."""

from __future__ import annotations

from collections.abc import Iterator

from pictures_kits import FOLDED, UNEQUAL_CORNER, example, kit_of
from pictures_parts import (
    KEY,
    Writing,
    document,
    half_of,
    hatch,
    line,
    rectangle,
    ring,
    signs,
    within,
)

from cutpaths.drawing import Document, Item, move
from cutpaths.geometry.blanket import Corner
from cutpaths.geometry.marks import MarkKind, select
from cutpaths.geometry.polygons import Ring, along, middle, sub, unit
from cutpaths.pieces import Kit
from cutpaths.roles import Role
from cutpaths.shapes import Circle, Path, Point, shift
from cutpaths.sheets.signs import piece_items
from cutpaths.values import Value, replace

LINES = (
    MarkKind.STITCH,
    MarkKind.MITER_STITCH,
    MarkKind.MITER_FOLD,
    MarkKind.BORDER_FOLD,
    MarkKind.MITER_TRIM,
    MarkKind.FIRST_FOLD,
    MarkKind.SECOND_FOLD,
    MarkKind.CORNER_FOLD,
    MarkKind.TIP_TRIM,
)
HATCH_MM = 6.0


class _View(Value):
    """One corner of a kit in the front view, moved so that the backing's corner is the origin."""

    kit: Kit
    number: int

    @property
    def _found(self) -> Corner:
        return self.kit.blanket.corners[self.number]

    def at(self, *points: Point) -> Ring:
        """Where points of the front view lie here."""
        x, y = self._found.backing_point
        return tuple((px - x, py - y) for px, py in points)

    @property
    def corner(self) -> Corner:
        """The corner itself."""
        found = self._found
        return replace(
            found,
            miter=(self.at(found.miter[0])[0], self.at(found.miter[1])[0]),
            fold_point=self.at(found.fold_point)[0],
            fold_end=self.at(found.fold_end)[0],
            trim=self.at(*found.trim),
            waste=self.at(*found.waste),
        )

    @property
    def top_corner(self) -> Point:
        """V, the corner of the seam polygon."""
        return self.at(self.kit.blanket.seam[self.number])[0]

    def ring(self, role: Role, points: Ring) -> Item:
        """A closed line of the front view."""
        return ring(role, self.at(*points))

    def marks(self, *kinds: MarkKind) -> Iterator[Item]:
        """Marks of the backing."""
        x, y = self._found.backing_point
        return signs((m.moved(shift(-x, -y)) for m in self.kit.blanket.backing_marks), *kinds)

    def backing(self, window: Ring, writing: Writing) -> list[Item]:
        """The backing with its lines and dots, and its waste hatched."""
        lines = within([self.ring(Role.CUT, self.kit.blanket.backing)], window)
        marked = within(self.marks(*LINES), window)
        found = select(self.kit.blanket.backing_marks, MarkKind.DOT)
        dots = [writing.dot(p) for p in self.at(*(mark.points[0] for mark in found))]
        return [*lines, *marked, *within(dots, window), *hatch(self.corner.waste, HATCH_MM)]


def dots() -> Document:
    """The top's corner reflected in both finished edges: the two dots of the backing."""
    kit, writing = example("tidepool"), Writing(0.4)
    view = _View(kit, 0)
    (vx, vy), (cx, cy) = view.top_corner, view.corner.fold_point
    first, second = view.corner.miter
    window = rectangle(-1, -1, 190, 190)
    blanket = kit.blanket
    rings = (
        view.ring(Role.CUT, blanket.backing),
        view.ring(Role.FOLD, blanket.finished),
        view.ring(Role.STITCH, blanket.seam),
    )
    items = [
        *within(rings, window),
        *(writing.dot(p) for p in (first, second, (vx, vy), (cx, cy))),
        *writing.arrow((vx - 3, vy), (first[0] + 3, first[1])),
        *writing.arrow((vx, vy - 3), (second[0], second[1] + 3)),
        writing.measure("b", (vx + 14, cy), (vx + 14, vy), 0),
        writing.measure("b", (vx + 14, second[1]), (vx + 14, cy), 0),
        writing.text("V", (vx + 7, vy + 7)),
        writing.text("V′", (first[0] + 7, first[1] + 7)),
        writing.text("V″", (second[0] + 9, second[1] + 5)),
        writing.text("C", (cx + 6, cy + 7)),
        *writing.name("seam polygon S", (210, vy), (190, vy)),
        *writing.name("finished outline F", (210, cy), (190, cy)),
        *writing.name("raw edge of the backing", (210, 0), (190, 0)),
    ]
    return document("dots", "how the dots are found", kit, items, writing)


def equal() -> Document:
    """A right-angled corner with equal borders, with its numbers."""
    kit, writing = example("tidepool"), Writing(0.5)
    view = _View(kit, 0)
    (cx, cy), (first, second) = view.corner.fold_point, view.corner.miter
    cut, far = view.corner.trim[0][1], 180.0
    items = [
        *view.backing(rectangle(-1, -1, far, far), writing),
        writing.measure("b + s", (0, 0), (cx, 0), -28),
        writing.measure("2b + s", (0, 0), (second[0], 0), -56),
        writing.measure("s", (far - 8, 0), (far - 8, second[1]), 0),
        writing.measure("b√2", (cx, cy), second, 18),
        *writing.name("dot of side D", (-14, first[1]), first),
        *writing.name("miter stitching", (-14, 102), (cx + cy - 102, 102)),
        *writing.name("miter trim", (-14, 82), (cut - 82, 82)),
        *writing.name("waste", (-14, 55), (30, 55)),
        *writing.name("miter fold", (-14, 22), (22, 22)),
        *writing.name("border fold", (far + 14, cy), (far, cy)),
        *writing.name("fold point C", (far + 14, cy + 24), (cx + 1, cy + 1)),
        *writing.name("dot of side A", (far + 14, 34), second),
        *writing.name("stitching line of A", (far + 14, second[1]), (far, second[1])),
    ]
    return document("corner-equal", "a right-angled corner, equal borders", kit, items, writing)


def unequal() -> Document:
    """A right-angled corner between a wide border and a narrow one."""
    kit, writing = kit_of(UNEQUAL_CORNER), Writing(0.62)
    view = _View(kit, 0)
    (cx, cy), (first, second) = view.corner.fold_point, view.corner.miter
    low, high = view.corner.trim
    far = 250.0
    items = [
        *view.backing(rectangle(-1, -1, far, 155), writing),
        writing.measure("b₁ + s", (0, 0), (cx, 0), -28),
        writing.measure("2b₁ + s", (0, 0), (second[0], 0), -56),
        writing.measure("b₂ + s", (far - 10, 0), (far - 10, cy), 0),
        *writing.name("dot of side D", (-14, first[1]), first),
        *writing.name("miter trim", (-14, 76), (high[0] * (1 - 76 / low[1]), 76)),
        *writing.name("waste", (-14, 48), (16, 48)),
        *writing.name("miter fold", (-14, 18), middle((cx, cy), view.corner.fold_end)),
        *writing.name("fold point C", (far + 14, cy + 24), (cx + 1, cy + 1)),
        *writing.name("border fold", (far + 14, cy), (far, cy)),
        *writing.name("stitching line of A", (far + 14, second[1]), (far, second[1])),
    ]
    return document("corner-unequal", "a right-angled corner, unequal borders", kit, items, writing)


def hexagon() -> Document:
    """A corner of 120 degrees."""
    kit, writing = example("beehive"), Writing(0.38)
    view = _View(kit, 0)
    (cx, cy), (first, second) = view.corner.fold_point, view.corner.miter
    bend = view.corner.trim[1]
    far = 95.0
    items = [
        *view.backing(rectangle(-70, -1, far, 112), writing),
        *writing.name("dot of side F", (-64, first[1] + 14), first),
        *writing.name("miter trim", (-64, 24), middle(view.corner.trim[0], bend)),
        *writing.name("waste", (-64, 10), middle(view.corner.trim[0], (2, 10))),
        *writing.name("border fold", (far + 10, cy), (far, cy)),
        *writing.name("fold point C", (far + 10, cy + 16), (cx + 1, cy + 1)),
        *writing.name("miter stitching", (far + 10, 24), middle((cx, cy), second)),
        *writing.name("stitching line of A", (far + 10, second[1]), (far, second[1])),
        *writing.name("miter fold", (26, -12), (cx / 3, cy / 3)),
    ]
    return document("corner-hexagon", "a corner of a hexagon", kit, items, writing)


def folded_over() -> Document:
    """A corner of the folded-over construction."""
    kit, writing = kit_of(FOLDED), Writing(0.5)
    view = _View(kit, 0)
    (cx, cy), far = view.corner.fold_point, 180.0
    tip = view.corner.trim[0][1]
    items = [
        *view.backing(rectangle(-1, -1, far, far), writing),
        writing.measure("b", (far - 12, 0), (far - 12, cy / 2), 0),
        writing.measure("b", (far - 12, cy / 2), (far - 12, cy), 0),
        *writing.name("corner fold", (-14, 130), (cx + cy - 130, 130)),
        *writing.name("tip trim", (-14, 105), (tip - 105, 105)),
        *writing.name("waste", (-14, 60), (30, 60)),
        *writing.name("corner of the top", (far + 14, cy + 26), (cx, cy)),
        *writing.name("second fold: edge of the top", (far + 14, cy), (far, cy)),
        *writing.name("first fold", (far + 14, cy / 2), (far, cy / 2)),
        *writing.name("raw edge of the backing", (far + 14, 0), (far, 0)),
    ]
    return document("corner-folded-over", "a folded-over corner", kit, items, writing)


def template() -> Document:
    """The corner template as it lies on a corner of the backing."""
    kit, writing = example("tidepool"), Writing(0.6)
    view = _View(kit, 0)
    card = kit.templates[0].piece
    x, y = kit.blanket.corners[0].backing_point
    laid = card.places[0].then(shift(-x, -y))
    dots = [laid.point(h.center) for h in card.holes if isinstance(h, Circle)]
    slots = [
        laid.point(middle(h.points[0], h.points[2])) for h in card.holes if isinstance(h, Path)
    ]
    (cx, cy), cut, far = view.corner.fold_point, view.corner.trim[0][1], 180.0
    backing = view.ring(Role.CUT, kit.blanket.backing), *view.marks(MarkKind.BORDER_FOLD)
    items = [
        *(move(laid, Item(i.role, KEY, i.shape)) for i in piece_items(card)),
        *within(backing, rectangle(-1, -1, far, far)),
        *writing.name("hole over a dot", (-14, dots[0][1]), dots[0]),
        *writing.name("working edge", (-14, 80), (cut - 80, 80)),
        *writing.name("notch", (-14, 45), (cx - 3, cy - 5)),
        *writing.name("raw edge", (-14, 18), (0, 18)),
        *writing.name("slot over the stitching", (far + 10, slots[1][1] + 55), slots[1]),
        *writing.name("border fold", (far + 10, cy), (far, cy)),
    ]
    return document("corner-template", "the corner template", kit, items, writing)


def miter_folded() -> Document:
    """Two corners folded along the crease, as they lie to be stitched."""
    writing = Writing(0.5)
    right, other = _View(example("tidepool"), 0), _View(example("beehive"), 0)
    left = [
        *_half(right, rectangle(-1, -1, 172, 172), writing),
        *writing.name("fold", (88, 128), (126, 128)),
        *writing.name("miter stitching", (150, 60), (90, 50)),
    ]
    second = [
        *_half(other, rectangle(-1, -1, 120, 120), writing),
        *writing.name("fold", (28, 90), (52, 90)),
        *writing.name("dot on dot", (75, 34), other.corner.miter[1]),
    ]
    items = [*left, *(move(shift(215, 0), item) for item in second)]
    return document("miter-folded", "corners folded to be stitched", right.kit, items, writing)


def _half(view: _View, window: Ring, writing: Writing) -> Iterator[Item]:
    """The half of a folded corner that holds its second dot, and the angle at the fold."""
    corner = view.corner
    crease = sub(corner.fold_end, corner.fold_point)
    area = half_of(window, corner.fold_point, crease)
    yield from within([view.ring(Role.CUT, view.kit.blanket.backing)], area)
    yield from within(view.marks(MarkKind.STITCH, MarkKind.MITER_STITCH, MarkKind.MITER_TRIM), area)
    inner = along(corner.fold_point, unit(crease), -500.0)
    yield from within([line(Role.FOLD, corner.fold_end, inner)], window)
    yield writing.dot(corner.miter[1])
    yield from hatch(half_of(corner.waste, corner.fold_point, crease), HATCH_MM)
    out = unit(crease)
    on = unit(sub(corner.miter[1], corner.fold_point))
    yield writing.angle(corner.fold_point, out, on, 14.0)
    middle = along(corner.fold_point, unit((out[0] + on[0], out[1] + on[1])), 14.0)
    yield from writing.name(
        f"{round(180.0 - corner.angle)}°", (middle[0] - 40.0, middle[1]), middle
    )
