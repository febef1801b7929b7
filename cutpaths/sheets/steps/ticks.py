"""Centers, quarter marks, ticks at patch seams, and the turning opening as they are marked; mm."""

from __future__ import annotations

from collections.abc import Sequence

from cutpaths.geometry.marks import Mark, MarkKind
from cutpaths.geometry.polygons import along, distance, middle, sub, unit
from cutpaths.shapes import Point
from cutpaths.sheets.steps.ink import GAP, stroke
from cutpaths.sheets.steps.lines import CENTER, PATCH, QUARTER, entry_of_tick, tick_lines
from cutpaths.sheets.steps.making import Making
from cutpaths.sheets.steps.picture import Picture
from cutpaths.sheets.steps.scenes import opening_ends
from cutpaths.sheets.steps.view import View

KINDS = {MarkKind.CENTER: CENTER, MarkKind.QUARTER: QUARTER, MarkKind.PATCH_SEAM: PATCH}
# How far a mark is drawn inward of its seam, on the sheet.
REACH_MM = {CENTER: 2.4, QUARTER: 1.8, PATCH: 0.9}


def tick(picture: Picture, view: View, points: Sequence[Point], kind: str) -> None:
    """A mark from the raw edge across its seam, by the kind of mark."""
    place, edge = view.points(points)
    if distance(place, edge) < 1e-6:
        return
    inner = along(place, unit(sub(place, edge)), REACH_MM[kind])
    for role, line in tick_lines(edge, inner, kind):
        picture.sheet_line(line, role)
    picture.entry(entry_of_tick(kind))


def side_ticks(picture: Picture, view: View, marks: Sequence[Mark]) -> None:
    """Centers, quarter marks and ticks at patch seams."""
    for mark in marks:
        if mark.kind in KINDS:
            tick(picture, view, mark.points, KINDS[mark.kind])


def opening_mark(picture: Picture, view: View, making: Making, side: int | None) -> None:
    """The opening as a heavy line, on the top, or on the flat backing for a side."""
    ends = opening_ends(making)
    if ends is None:
        return
    place = making.front_view if side is None else making.onto_backing(side)
    first, last = (view.point(place.point(p)) for p in ends)
    picture.signs(((stroke(first, last, 1.1), GAP),))
    picture.name("opening", middle(first, last), (0.0, -1.0 if last[1] > 20.0 else 1.0))
