"""Reads HP-GL files for old plotters: as `hpgl`, but within 16 bits and without a plot size."""

from __future__ import annotations

from cutpaths.drawing import Document
from cutpaths.readback import hpgl
from cutpaths.readback.found import ReadError

OLD = range(-(2**15), 2**15)


def check(document: Document, data: bytes) -> tuple[str, ...]:
    """How a file differs from its document, or is beyond an old plotter; empty where neither.

    Raises:
        DrawingError: the document has not one sheet.
    """
    found = hpgl.compared(document, data, sized=False)
    try:
        plot = hpgl.read(data)
    except ReadError:
        return found
    units = {
        round(value / hpgl.MM) for _, points in plot.strokes for point in points for value in point
    }
    beyond = sorted(units - set(OLD))[:1]
    return (*found, *(f"{value} is beyond an old plotter" for value in beyond))
