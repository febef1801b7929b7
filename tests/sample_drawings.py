"""Drawings that several tests share; invented, each small enough to follow by hand."""

from __future__ import annotations

import math

from cutpaths.drawing import About, Dimension, Document, Drawing, Item, ItemShape, Pen, Placed
from cutpaths.lengths import Unit
from cutpaths.roles import Role
from cutpaths.shapes import Anchor, Circle, Motion, Path, Text, shift

DIGEST = "0123456789abcdef" * 4
TITLE = "Tidepool & <Größe> ½"
_PEN = Pen()
RING = ((10.0, 20.0), (110.0, 20.0), (110.0, 70.0), (60.0, 95.0), (10.0, 70.0))


def about(unit: Unit = Unit.INCH, piece: str = "backing") -> About:
    """What the sheets say of themselves."""
    return About(project=TITLE, digest=DIGEST, piece=piece, face="wrong side", unit=unit)


def sheet(
    *shapes: ItemShape,
    role: Role = Role.CUT,
    unit: Unit = Unit.MILLIMETRE,
    pen: Pen = _PEN,
    name: str = "sheet",
) -> Document:
    """A document with one sheet of 150 x 120 mm that holds some shapes of one role."""
    items = tuple(Item(role, "backing", shape) for shape in shapes)
    drawing = Drawing(name=name, size=(150.0, 120.0), about=about(unit), items=items, pen=pen)
    return Document(name, (drawing,))


def marked(unit: Unit = Unit.INCH, pen: Pen = _PEN) -> Document:
    """A sheet with an outline and, for each role, a line, a circle and a text."""
    items = [Item(Role.CUT, "backing", Path(RING, closed=True))]
    for number, role in enumerate(Role):
        y = 120.0 + 10.0 * number
        text = Text(string=f"{role.lower()} 4 1/4 ½ Größe", at=(80.0, y), height=4.0)
        items += [
            Item(role, "backing", Path(((10.0, y), (60.0, y)))),
            Item(role, "top", Circle((70.0, y), 2.5)),
            Item(role, "backing", text),
        ]
    size = (160.0, 280.0)
    drawing = Drawing(name="marked", size=size, about=about(unit), items=tuple(items), pen=pen)
    return Document("marked", (drawing,))


def patch(name: str = "patch-1", side: float = 114.3) -> Drawing:
    """A square with one corner off, that is not its own mirror image; marks, text, dimension."""
    cut = ((0.0, 0.0), (side, 0.0), (side, side - 20.0), (side - 20.0, side), (0.0, side))
    items = (
        Item(Role.CUT, name, Path(cut, closed=True)),
        Item(Role.DOT, name, Circle((6.35, 6.35), 1.5)),
        Item(Role.LABEL, name, Text(string="patch 1", at=(20.0, 50.0), height=8.0, angle=10.0)),
        Item(
            Role.DIMENSION,
            name,
            Dimension(start=(0.0, 0.0), end=(side, 0.0), offset=12.0, text="4 1/2 in"),
        ),
    )
    return Drawing(name=name, size=(side, side), about=about(piece=name), items=items)


PLACES = (
    shift(30.0, 20.0),
    Motion.quarters(1, 320.0, 20.0),
    Motion.quarters(0, 470.0, 20.0, mirrored=True),
    Motion.quarters(1, 150.0, 180.0, mirrored=True),
    Motion(math.cos(0.5), math.sin(0.5), 300.0, 180.0),
)


def cad(unit: Unit = Unit.INCH) -> Document:
    """A sheet for CAD: one patch in five places, texts and dimensions as such."""
    placed = [Item(Role.CUT, "patch-1", Placed(patch(), motion)) for motion in PLACES]
    text = Text(string="all pieces, 5%", at=(480.0, 10.0), height=8.0, anchor=Anchor.END)
    short = Dimension(start=(20.0, 320.0), end=(26.35, 320.0), offset=10.0, text="1/4 in")
    drawing = Drawing(
        name="cad",
        size=(500.0, 360.0),
        about=about(unit, "all pieces"),
        items=(*placed, Item(Role.LABEL, "sheet", text), Item(Role.DIMENSION, "sheet", short)),
        pen=Pen(text_as_strokes=False),
    )
    return Document("cad", (drawing,))
