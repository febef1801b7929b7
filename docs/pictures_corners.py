"""Pictures of corners: how the dots are found, what each kind of corner looks like, the template."""

from __future__ import annotations

from collections.abc import Iterator

from pictures_kits import FOLDED_KIT, UNEQUAL_KIT, example
from pictures_parts import (
    Writing,
    around,
    document,
    half_of,
    hatch,
    line,
    rectangle,
    ring,
    signs,
    within,
)

from cutpaths.drawing import Document, Item
from cutpaths.geometry.blanket import Corner
from cutpaths.geometry.marks import MarkKind
from cutpaths.geometry.polygons import Ring, along, between, distance, middle, sub, unit
from cutpaths.pieces import Kit
from cutpaths.roles import Role
from cutpaths.shapes import Circle, Path, Point, Text

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
HATCH_MM = 3.0


def corner_lines(kit: Kit, corner: Corner, window: Ring, writing: Writing) -> Iterator[Item]:
    """Everything that is marked on the backing at one corner, and its waste hatched."""
    blanket = kit.blanket
    yield from within([ring(Role.CUT, blanket.backing)], window)
    yield from within(signs(blanket.backing_marks, *LINES), window)
    yield from hatch(corner.waste, HATCH_MM)


def _moved(p: Point, x: float, y: float) -> Point:
    return p[0] + x, p[1] + y


def dots() -> Document:
    """The top's corner reflected in both finished edges: the two dots of the backing."""
    kit, writing = example("tidepool"), Writing(0.42)
    corner, blanket = kit.blanket.corners[0], kit.blanket
    home, v, c = corner.backing_point, blanket.seam[0], corner.fold_point
    first, second = corner.miter
    window = around(home, 1, 1, 195, 195)
    backing = [ring(Role.CUT, blanket.backing), ring(Role.FOLD, blanket.finished)]
    items = list(within([*backing, ring(Role.STITCH, blanket.seam)], window))
    items += [writing.dot(p) for p in (first, second, v, c)]
    items += [*writing.arrow(v, _moved(first, 2.5, 0)), *writing.arrow(v, _moved(second, 0, 2.5))]
    foot = _moved(v, 0, c[1] - v[1])
    items += [
        writing.measure("b", foot, v, 24),
        writing.measure("b", second, foot, 24),
        *writing.names(
            _moved(home, 212, 165),
            0,
            ("seam polygon S", _moved(v, 42, 0)),
        ),
        *writing.name("finished edge F", _moved(home, 212, c[1] - home[1]), _moved(c, 106, 0)),
        *writing.name("raw edge of the backing", _moved(home, 212, -8), _moved(home, 186, 0)),
        writing.text("V", _moved(v, 5, 8)),
        writing.text("V′", _moved(first, -1, 10)),
        writing.text("V″", _moved(second, 10, 4)),
        writing.text("C", _moved(c, 6, 7)),
    ]
    return document("dots", "how the dots are found", kit, items, writing)
