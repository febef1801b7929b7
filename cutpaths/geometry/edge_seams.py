"""Where the seams of a top meet its outline; mm, front view."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from cutpaths.geometry.assembly import Seam
from cutpaths.geometry.polygons import ON_EDGE_MM, Ring, dot, edges, right_of, sub, unit
from cutpaths.shapes import Point


def edge_seams(outline: Ring, seams: Sequence[Seam]) -> tuple[tuple[float, ...], ...]:
    """For each side, the parts (0 to 1) of its length at which seams meet it, in order."""
    ends = {seam.start for seam in seams} | {seam.end for seam in seams}
    return tuple(_on_side(start, end, ends) for start, end in edges(outline))


def _on_side(start: Point, end: Point, places: Collection[Point]) -> tuple[float, ...]:
    length = dot(sub(end, start), way := unit(sub(end, start)))
    out_x, out_y = right_of(way)
    level = dot(start, (out_x, out_y))
    # Nearly all ends lie inside: plain arithmetic, since a top has some 100,000 of them.
    near = [p for p in places if -ON_EDGE_MM < p[0] * out_x + p[1] * out_y - level < ON_EDGE_MM]
    met = (dot(sub(p, start), way) for p in near)
    inside = {round(d, 6) for d in met if ON_EDGE_MM < d < length - ON_EDGE_MM}
    return tuple(d / length for d in sorted(inside))
