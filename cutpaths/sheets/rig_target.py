"""Drawings in the picture's own pixels: the target of numbered crosses, and warped frames.

A pixel is 1/96 in (CSS Values and Units 3, absolute lengths), so that a picture shown at its own
size on a screen without scaling has one pixel of the file on each pixel of the projector. Light
lines on black: what is black throws no light.
"""

from __future__ import annotations

from collections.abc import Iterable

from cutpaths.drawing import About, Document, Drawing, Item, Pen
from cutpaths.lengths import INCH
from cutpaths.paint import Colour, Paint
from cutpaths.projector.report import CAUTIONS
from cutpaths.projector.rig import Rig
from cutpaths.roles import Role
from cutpaths.shapes import Anchor, Path, Point, Text

PIXEL_MM = float(INCH / 96)
BLACK: Colour = (0, 0, 0)
WHITE: Colour = (255, 255, 255)
# The roles' own colours are for white paper; Okabe and Ito's light ones stand out on black.
LIGHT: tuple[tuple[Role, Colour], ...] = (
    *((role, WHITE) for role in (Role.SCALE, Role.LABEL, Role.CUT, Role.CUTOUT, Role.DIMENSION)),
    *((role, (0x56, 0xB4, 0xE9)) for role in (Role.STITCH, Role.DOT, Role.TOPSTITCH)),
    *((role, (0xE6, 0x9F, 0x00)) for role in (Role.TRIM, Role.CENTER, Role.OPENING)),
    *((role, (0x00, 0xC8, 0x92)) for role in (Role.FOLD, Role.BASTE, Role.GRAIN, Role.MATCH)),
)
CROSS_ARM = 18.0  # pixels for each 1000 of the picture's width
FIGURE_HEIGHT = 16.0
CAUTION_HEIGHT = 8.0
LINE = 1.2  # pixels, times the role's width in thirds of a mm


def target(rig: Rig) -> Document:
    """The numbered crosses of a rig."""
    size = f"{rig.width} x {rig.height} pixels"
    about = About(
        project=rig.name,
        digest=rig.digest,
        piece="target",
        face=f"a picture of {size}, to show full screen. {' '.join(CAUTIONS)}".removesuffix("."),
        unit=rig.unit,
    )
    part = rig.width / 1000
    arm, height = CROSS_ARM * part, FIGURE_HEIGHT * part
    items: list[Item] = []
    for number, (x, y) in enumerate(rig.crosses, 1):
        for dx, dy in ((arm, 0.0), (0.0, arm)):
            line = Path((pixel(rig, (x - dx, y - dy)), pixel(rig, (x + dx, y + dy))))
            items.append(Item(Role.SCALE, "cross", line))
        items.append(Item(Role.LABEL, "cross", _figure(rig, number, (x, y), arm, height)))
    rows = sorted({y for _, y in rig.crosses})
    items.append(caution(rig, (rows[0] + rows[1]) / 2))
    return picture("target", rig, items, about)


def caution(rig: Rig, down: float) -> Item:
    """What whoever stands in the light must know, in the picture's middle; pixels from its top."""
    height = CAUTION_HEIGHT * rig.width / 1000 * PIXEL_MM
    at = pixel(rig, (rig.width / 2, down))
    text = Text(string=CAUTIONS[-1], at=at, height=height, anchor=Anchor.MIDDLE)
    return Item(Role.LABEL, "caution", text)


def picture(name: str, rig: Rig, items: Iterable[Item], about: About) -> Document:
    """Items in mm of 1/96 in, light on a black picture of the rig's pixels."""
    size = rig.width * PIXEL_MM, rig.height * PIXEL_MM
    edge = (0.0, 0.0), (size[0], 0.0), size, (0.0, size[1])
    ground = Item(Role.SCALE, "ground", Path(edge, closed=True), Paint(colour=BLACK))
    pen = Pen(scale=LINE * rig.width / 1920, stretch=rig.width / 1920 * 2, inks=LIGHT)
    drawing = Drawing(name=name, size=size, about=about, items=(ground, *items), pen=pen)
    return Document(name, (drawing,))


def pixel(rig: Rig, p: Point) -> Point:
    """A place of the picture, pixels right and down, in a drawing's mm, right and up."""
    return p[0] * PIXEL_MM, (rig.height - p[1]) * PIXEL_MM


def _figure(rig: Rig, number: int, at: Point, arm: float, height: float) -> Text:
    """A cross's number in the quarter of it that is nearest to the picture's middle."""
    gap = arm * 0.35
    left, above = at[0] > rig.width / 2, at[1] > rig.height / 2
    x = at[0] - gap if left else at[0] + gap
    y = at[1] - gap if above else at[1] + gap + height
    anchor = Anchor.END if left else Anchor.START
    return Text(string=str(number), at=pixel(rig, (x, y)), height=height * PIXEL_MM, anchor=anchor)
