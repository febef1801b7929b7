"""One mitered corner of the turned construction; front view, mm.

The backing's dots V' and V'' at a corner are the top's corner reflected in the two edges of the
finished outline F that meet in its corner C. The miter is stitched from V' to C and sewn to the
line from C to V''; its crease is the perpendicular bisector of the two dots, which passes through
C; the cloth more than the trim outside the stitching line is waste. (Own derivation; a line at 45
degrees and a triangle of waste, at right angles with equal borders, are common practice.)
"""

from __future__ import annotations

from cutpaths.geometry.blanket import Corner, Layers, corner_type
from cutpaths.geometry.marks import corner_name
from cutpaths.geometry.polygons import (
    SAME_PLACE_MM,
    Ring,
    along,
    corner_angle,
    cross,
    directions,
    distance,
    dot,
    meet,
    reflect,
    right_of,
    sub,
    unit,
)
from cutpaths.shapes import Point
from cutpaths.values import Value

# Two ways count as one line below this sine of the angle between them.
STRAIGHT_SINE = 1e-9


def miter_corner(layers: Layers, finished: Ring, backing: Ring, i: int) -> Corner:
    """The miter of the corner where side i starts, between side i - 1 and side i."""
    ways = directions(layers.seam)
    before, after = ways[i - 1], ways[i]
    corner, fold_point = layers.seam[i], finished[i]
    first = reflect(corner, fold_point, before)
    second = reflect(corner, fold_point, after)
    crease = right_of(unit(sub(second, first)))
    # The crease leaves the cloth by whichever raw edge it meets first.
    ends = [
        meet(fold_point, crease, backing[i], way)
        for way in (before, after)
        if abs(cross(crease, way)) > SAME_PLACE_MM
    ]
    fold_end = min(
        (end for end in ends if dot(sub(end, fold_point), crease) > 0),
        key=lambda end: distance(end, fold_point),
    )
    trim = _trim_line((first, second), fold_point, fold_end, layers.trim)
    line, outline, waste = _cut_off(trim, backing[i], (before, after))
    angle = corner_angle(layers.seam, i)
    return Corner(
        at=corner_name(i, len(layers.seam)),
        kind=corner_type(angle, equal=layers.equal_corners[i], within=layers.right_within),
        angle=angle,
        miter=(first, second),
        fold_point=fold_point,
        fold_end=fold_end,
        backing_point=backing[i],
        trim=line,
        outline=outline,
        waste=waste,
    )


class _TrimLine(Value):
    """The bend of a trim line on the crease, and the way from there along each of its halves."""

    bend: Point
    ways: tuple[Point, Point]


def _trim_line(
    dots: tuple[Point, Point], fold_point: Point, fold_end: Point, trim: float
) -> _TrimLine | None:
    """The line t outside the miter stitching; None where its halves meet beyond the cloth."""
    into, out = unit(sub(fold_point, dots[0])), unit(sub(dots[1], fold_point))
    start = along(dots[0], right_of(into), trim)
    bend = meet(start, into, fold_point, unit(sub(fold_end, fold_point)))
    if distance(bend, fold_point) > distance(fold_end, fold_point) - SAME_PLACE_MM:
        return None
    return _TrimLine(bend, ((-into[0], -into[1]), out))


def _cut_off(
    trim: _TrimLine | None, corner: Point, ways: tuple[Point, Point]
) -> tuple[Ring, Ring, Ring]:
    """The trim line drawn from raw edge to raw edge, the outline left by it, and the waste.

    Beside a much narrower border a half may leave the cloth past the backing's corner, by the
    raw edge of the other side: then the corner itself is kept.
    """
    if trim is None:
        return (), (corner,), ()
    (first, on_before), (last, on_after) = (
        _exit(trim.bend, trim.ways[0], corner, (-ways[0][0], -ways[0][1]), ways[1]),
        _exit(trim.bend, trim.ways[1], corner, ways[1], (-ways[0][0], -ways[0][1])),
    )
    straight = abs(cross(*trim.ways)) < STRAIGHT_SINE
    line = (first, last) if straight else (first, trim.bend, last)
    outline = (() if on_before else (corner,)) + line + (() if on_after else (corner,))
    waste = (line[0], *((corner,) if on_before and on_after else ()), *line[:0:-1])
    return line, outline, waste


def _exit(start: Point, way: Point, corner: Point, own: Point, other: Point) -> tuple[Point, bool]:
    """Where a half of the trim line leaves the cloth, and whether by its own side's raw edge.

    `own` and `other` are the ways of the two raw edges away from the corner.
    """
    end = meet(start, way, corner, own)
    if dot(sub(end, corner), own) > 0:
        return end, True
    return meet(start, way, corner, other), False
