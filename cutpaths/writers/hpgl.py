"""HP-GL/2: one sheet as one file for a plotter or cutter, true to scale.

A unit is 0.025 mm, 40 to a millimetre (HP, "PCL 5 Printer Language Technical Reference Manual",
HP-GL/2 part; `IN`, `SP`, `PA`, `PU`, `PD`, `PS` there). Each absolute point is rounded, never a
difference, so nothing drifts. Items go in the order of the file, each with the pen of its tool; a
sheet without tools has pen 1 for what is drawn and pen 2 for what is cut. Circles are chords, as
near to the circle inside as outside. The plot size `PS` stands before the first line.

Left out: colours, line types, labels (texts are strokes), curves, speed, several sheets.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from cutpaths.drawing import Document, Drawing, Item, expand, flatten, in_groups
from cutpaths.errors import DrawingError
from cutpaths.geometry.chords import chords
from cutpaths.roles import STYLES, MachineWork, Role
from cutpaths.shapes import Circle, Path, Point
from cutpaths.writers.writable import lines_alone

UNITS_PER_MM = 40
LEAST, MOST = -(2**30), 2**30 - 1  # of a coordinate in HP-GL/2, in units
SAG_MM = 0.0125  # between a circle and its chords: half a unit

Units = tuple[int, int]


def render(document: Document) -> bytes:
    """The bytes of an HP-GL/2 file with the document's one sheet.

    Raises:
        DrawingError: there is not one sheet, or it holds what cannot be written.
    """
    return plot(document, reach=(LEAST, MOST), sized=True)


def plot(document: Document, *, reach: Units, sized: bool) -> bytes:
    """The file for a plotter of a given range of coordinates, with a plot size where it has one.

    Raises:
        DrawingError: there is not one sheet, or it holds what cannot be written.
    """
    drawing = lines_alone(document, "HP-GL")
    lines = ["IN;"]
    if sized:
        width, height = (round(side * UNITS_PER_MM) for side in drawing.size)
        lines.append(f"PS{width},{height};")
    lines += _strokes(drawing, reach)
    return "".join(f"{line}\n" for line in (*lines, "PU;", "SP0;")).encode("ascii")


def _strokes(drawing: Drawing, reach: Units) -> Iterator[str]:
    pens = dict(drawing.pen.machine.tools) if drawing.pen.machine else {}
    held = 0
    flat = (part for item in drawing.items for part in flatten(item))
    for role, pieces in in_groups(flat, drawing.pen):
        pen = pens.get(role) or _usual_pen(role)
        if pen != held:
            yield f"PU;SP{pen};"
            held = pen
        for items in pieces.values():
            for item in items:
                for part in expand(item):
                    yield _stroke(part, reach)


def _usual_pen(role: Role) -> int:
    return 2 if STYLES[role].work is MachineWork.CUT else 1


def _stroke(item: Item, reach: Units) -> str:
    match item.shape:
        case Path(points, closed):
            route = _rounded(points + points[:1] if closed else points, reach)
        case Circle() as circle:
            ring = chords(circle, SAG_MM)
            route = _rounded(ring + ring[:1], reach)
        case shape:
            raise TypeError(f"an expanded item is a path or a circle, got {shape!r}")
    (x, y), *rest = route
    way = ",".join(f"{x},{y}" for x, y in rest)
    return f"PU;PA{x},{y};PD{way};PU;"


def _rounded(points: tuple[Point, ...], reach: Units) -> list[Units]:
    """Points in units; those that fall together on one unit are one.

    Raises:
        DrawingError: one lies out of the plotter's range.
    """
    route: list[Units] = []
    for x, y in points:
        place = math.floor(x * UNITS_PER_MM + 0.5), math.floor(y * UNITS_PER_MM + 0.5)
        if not all(reach[0] <= value <= reach[1] for value in place):
            raise DrawingError(
                f"a plotter's coordinates must be {reach[0]} to {reach[1]} units of 0.025 mm, "
                f"got {place[0]}, {place[1]}"
            )
        if not route or place != route[-1]:
            route.append(place)
    return route if len(route) > 1 else route * 2
