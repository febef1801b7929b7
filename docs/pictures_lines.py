"""A picture of the lines themselves: one sample of each role, at true scale."""

from __future__ import annotations

from pictures_kits import example
from pictures_parts import KEY, Writing, document

from cutpaths.drawing import Dimension, Document, Item, ItemShape
from cutpaths.geometry.marks import Mark, MarkKind
from cutpaths.roles import STYLES, Role
from cutpaths.shapes import Anchor, Circle, Path, Point, Text
from cutpaths.sheets.signs import sign

ROW_MM, SAMPLE_MM, ALLOWANCE_MM = 11.0, 40.0, 6.35


def lines() -> Document:
    """Every role: its name, a sample, and what it means."""
    writing = Writing(0.3)
    items: list[Item] = []
    for n, role in enumerate(reversed(Role)):
        y = -ROW_MM * n
        items += [
            writing.text(role, (0, y), Anchor.START),
            *(Item(role, KEY, shape) for shape in _sample(role, (45, y))),
            writing.text(STYLES[role].meaning, (45 + SAMPLE_MM + 12, y), Anchor.START),
        ]
    return document("lines", "lines and marks", example("tidepool"), items, writing)


def _sample(role: Role, at: Point) -> tuple[ItemShape, ...]:
    """What a role draws, from a place to the right."""
    (x, y), end = at, (at[0] + SAMPLE_MM, at[1])
    middle = x + SAMPLE_MM / 2
    to_edge = (middle, y - ALLOWANCE_MM / 2), (middle, y + ALLOWANCE_MM / 2)
    match role:
        case Role.SCALE:
            return (Path(_square((middle, y), 4.0), closed=True),)
        case Role.LABEL:
            return (Text(string="text", at=(middle, y - 1.5), height=3.0, anchor=Anchor.MIDDLE),)
        case Role.GRAIN:
            return sign(Mark(MarkKind.GRAIN, "", (at, end)))
        case Role.MATCH:
            return sign(Mark(MarkKind.PATCH_SEAM, "", to_edge))
        case Role.CENTER:
            return sign(Mark(MarkKind.CENTER, "", to_edge))
        case Role.OPENING:
            return sign(Mark(MarkKind.OPENING_END, "", ((middle, y), end)))
        case Role.DOT:
            dot = sign(Mark(MarkKind.DOT, "", ((middle, y),)))
            return *dot, *sign(Mark(MarkKind.BACK_TACK, "", ((middle, y), end)))
        case Role.DIMENSION:
            return (Dimension(start=at, end=end, offset=1.0, text="1 5/8 in", height=3.0),)
        case Role.CUTOUT:
            return Circle((x + 5, y), 1.5), Path(_square((middle, y), 1.0, 9.0), closed=True)
        case _:
            return (Path((at, end)),)


def _square(center: Point, high: float, wide: float | None = None) -> tuple[Point, ...]:
    """A rectangle about a place, by its half height and half width."""
    (x, y), w = center, high if wide is None else wide
    return (x - w, y - high), (x + w, y - high), (x + w, y + high), (x - w, y + high)
