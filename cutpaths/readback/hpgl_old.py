"""Reads HP-GL files for old plotters: as `hpgl`, but within 16 bits and without a plot size."""

from __future__ import annotations

from cutpaths.drawing import Document
from cutpaths.readback import hpgl
from cutpaths.readback.found import ReadError


def check(document: Document, data: bytes) -> tuple[str, ...]:
    """How a file differs from its document, or is beyond an old plotter; empty where neither.

    Raises:
        DrawingError: the document has not one sheet.
    """
    found = hpgl.check(document, data)
    try:
        plot = hpgl.read(data)
    except ReadError:
        return found
    sized = ("an old plotter does not know PS",) if plot.size is not None else ()
    units = {
        round(value / hpgl.MM) for _, points in plot.strokes for point in points for value in point
    }
    beyond = sorted(units - set(hpgl.OLD))[:1]
    return (*found, *sized, *(f"{value} is beyond an old plotter" for value in beyond))
