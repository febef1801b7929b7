"""How far a mark may run toward the raw edge where the corners are cut off beforehand; mm."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise

from cutpaths.geometry.polygons import SAME_PLACE_MM, Ring, cross, sub
from cutpaths.shapes import Point


def reach_to_edge(place: Point, way: Point, reach: float, trims: Iterable[Ring]) -> float:
    """The distance from a place along a way to the raw edge, or to a trim line before it.

    Args:
        place: where the mark starts.
        way: unit vector toward the raw edge.
        reach: distance of the raw edge.
        trims: lines along which corners are cut off.
    """
    return min([reach, *(hit for trim in trims for hit in _hits(place, way, trim))])


def _hits(place: Point, way: Point, trim: Ring) -> Iterable[float]:
    """Where a ray meets the parts of a line, as distances from its start."""
    for start, end in pairwise(trim):
        part = sub(end, start)
        turned = cross(way, part)
        if abs(turned) <= SAME_PLACE_MM:
            continue
        ahead = cross(sub(start, place), part) / turned
        along_part = cross(sub(start, place), way) / turned
        if ahead > 0 and 0 <= along_part <= 1:
            yield ahead
