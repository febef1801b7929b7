"""Polygons and half-planes as the proof cuts and joins them; mm, front view unless said.

Built on shapely, so that what is judged was made by another engine than what judges it.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from typing import Any

import shapely
from numpy.typing import NDArray
from shapely import MultiPolygon, Polygon
from shapely.geometry.base import BaseGeometry

from cutpaths.geometry.polygons import (
    along,
    box,
    cross,
    dot,
    right_of,
    sub,
    unit,
)
from cutpaths.proof.tolerances import JOIN_MM, PLACE_MM, STRIP_MM, area_slack
from cutpaths.shapes import Motion, Point
from cutpaths.values import Value

Line = tuple[Point, Point]

# Mitred corners reach at most this many times the distance that the sides are moved.
SHARPEST_TIP = 1000.0


def outside(line: Line, amount: float, far: float) -> Polygon:
    """All that lies more than `amount` to the right of a line, as far as `far` from its ends."""
    start, end = line
    way = unit(sub(end, start))
    right = right_of(way)
    near = along(start, way, -far), along(end, way, far)
    return Polygon(
        [
            along(near[1], right, amount),
            along(near[0], right, amount),
            along(near[0], right, far),
            along(near[1], right, far),
        ]
    )


def around(sides: Sequence[Line], amounts: Sequence[float]) -> BaseGeometry:
    """The area to the left of some lines, each moved to its right by its own amount.

    The lines are sides of a convex outline, counter-clockwise; the area is cut out by half-planes.
    """
    left, bottom, right, top = box([point for side in sides for point in side])
    far = 10 * (right - left + top - bottom + max(map(abs, amounts)))
    area: BaseGeometry = shapely.box(left - far, bottom - far, right + far, top + far)
    for side, amount in zip(sides, amounts, strict=True):
        area = less(area, outside(side, amount, 3 * far))
    return area


def common(area: BaseGeometry, other: BaseGeometry) -> BaseGeometry:
    """What two areas have in common, without points and lines where they only touch."""
    return areal(shapely.intersection(area, other, grid_size=JOIN_MM))


def less(area: BaseGeometry, other: BaseGeometry) -> BaseGeometry:
    """What is left of an area without another one."""
    return areal(shapely.difference(area, other, grid_size=JOIN_MM))


def joined(areas: Iterable[BaseGeometry]) -> BaseGeometry:
    """All areas as one."""
    return shapely.union_all(list(areas), grid_size=JOIN_MM)


def areal(shape: BaseGeometry) -> BaseGeometry:
    """The areas of a shape, without slivers thinner than the slack."""
    parts = [part for part in shapely.get_parts(shape) if isinstance(part, Polygon)]
    kept = [part for part in parts if not is_nothing(part)]
    return kept[0] if len(kept) == 1 else MultiPolygon(kept)


def strip(line: Line, width: float) -> Polygon:
    """The strip of a width to the right of a line, square to it at both ends."""
    start, end = line
    right = right_of(unit(sub(end, start)))
    return Polygon([end, start, along(start, right, width), along(end, right, width)])


def fold(line: Line) -> Motion:
    """The motion that folds the plane over a line: its mirror image."""
    way = unit(sub(line[1], line[0]))
    cos, sin = way[1] ** 2 - way[0] ** 2, -2 * way[0] * way[1]
    there = Motion(cos, sin, 0.0, 0.0, mirrored=True).point(line[0])
    return Motion(cos, sin, line[0][0] - there[0], line[0][1] - there[1], mirrored=True)


def beside(point: Point, line: Line) -> float:
    """How far a point lies to the right of a line; negative to the left of it."""
    return dot(sub(point, line[0]), right_of(unit(sub(line[1], line[0]))))


def ahead(point: Point, line: Line) -> float:
    """How far along a line, from its start, a point lies."""
    return dot(sub(point, line[0]), unit(sub(line[1], line[0])))


def off_segment(point: Point, line: Line) -> float:
    """Distance of a point from a line between its ends."""
    return float(shapely.distance(shapely.linestrings(line), shapely.points(point)))


def angle_between(u: Point, v: Point) -> float:
    """The angle between two ways in degrees, 0 to 180."""
    return abs(math.degrees(math.atan2(cross(u, v), dot(u, v))))


def apart(found: BaseGeometry, expected: BaseGeometry) -> float:
    """How far the outlines of two areas are apart at the worst place; infinite where one is none.

    What is thinner than the slack is no area.
    """
    if is_nothing(found) or is_nothing(expected):
        return 0.0 if is_nothing(found) and is_nothing(expected) else math.inf
    return shapely.hausdorff_distance(_tidy(found).boundary, _tidy(expected).boundary)


def _tidy(area: BaseGeometry) -> BaseGeometry:
    """An area without slits and hairs thinner than the slack; its corners stay where they are."""
    for amount in (PLACE_MM, -2 * PLACE_MM, PLACE_MM):
        area = area.buffer(amount, join_style="mitre", mitre_limit=SHARPEST_TIP)
    return area


def is_nothing(area: BaseGeometry) -> bool:
    """Whether an area is no more than rounding errors."""
    return area.area <= area.length * STRIP_MM


class Tiling(Value, kw_only=True):
    """How parts fill an outline; areas in mm², all 0 where they tile it exactly.

    Attributes:
        laid: area of all parts together.
        bare: what no part covers.
        double: what is covered more than once.
        over: what lies outside the outline.
        slack: how far these areas may be off.
    """

    laid: float
    bare: BaseGeometry
    double: float
    over: BaseGeometry
    slack: float


def tiling(parts: Sequence[BaseGeometry] | NDArray[Any], outline: BaseGeometry) -> Tiling:
    """Lays parts on an outline."""
    union = shapely.union_all(parts, grid_size=PLACE_MM)
    laid = float(shapely.area(parts).sum())
    return Tiling(
        laid=laid,
        bare=less(outline, union),
        double=laid - union.area,
        over=less(union, outline),
        slack=area_slack(float(shapely.length(parts).sum()) + outline.length),
    )
