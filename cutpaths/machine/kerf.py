"""Lines moved aside by half of what the tool takes away, so that the part has its drawn size; mm.

Outlines grow, cut-outs shrink, corners stay sharp: each edge is shifted and neighbours are
extended until they meet.
"""

from __future__ import annotations

from cutpaths.geometry.polygons import distance, edges, keeps_directions, offset, signed_area
from cutpaths.shapes import Circle, Path


def grown(shape: Path | Circle, by: float) -> Path | Circle:
    """A closed line moved outward by a distance, inward where it is negative.

    Raises:
        ValueError: it is too small for that.
    """
    if by == 0.0:
        return shape
    match shape:
        case Circle(center, radius):
            if radius + by <= 0.0:
                raise ValueError(f"a circle of {2 * radius} mm is smaller than the kerf")
            return Circle(center, radius + by)
        case Path(points, closed=True):
            around = 1.0 if signed_area(points) > 0 else -1.0
            ring = offset(points, [around * by] * len(points))
            if not all(keeps_directions(ring, points)):
                raise ValueError("an outline has an edge that is shorter than the kerf allows")
            return Path(ring, closed=True)
        case line:
            return line


def smallest(shape: Path | Circle) -> float:
    """The smallest feature of a closed line: diameter of a circle, else its shortest edge."""
    match shape:
        case Circle(radius=radius):
            return 2 * radius
        case Path(points):
            return min(distance(p, q) for p, q in edges(points))
