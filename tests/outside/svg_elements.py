"""SVG by svgelements, in mm, x right, y up."""

from __future__ import annotations

import io

from svgelements import SVG, Circle, Path

Point = tuple[float, float]

# svgelements takes a mm as 0.0393701 in, where it is 1/25.4 in (NIST SP 811, appendix B.8, from
# memory): undone here. One CSS inch is 96 px (W3C CSS Values and Units 3, absolute lengths).
_PX = 0.0393701 * 96


def size(data: bytes) -> Point:
    """Width and height."""
    svg = SVG.parse(io.BytesIO(data), ppi=96)
    return svg.width / _PX, svg.height / _PX


def lines(data: bytes) -> list[list[Point]]:
    """The points of each path in the order of the file; a closed one ends where it starts."""
    height = size(data)[1]
    found = []
    for element in SVG.parse(io.BytesIO(data), ppi=96).elements():
        if isinstance(element, Path):
            points = [segment.end for segment in element]
            found.append([(p.x / _PX, height - p.y / _PX) for p in points])
    return found


def circles(data: bytes) -> list[tuple[float, float, float]]:
    """Center and radius of each circle."""
    height = size(data)[1]
    return [
        (e.cx / _PX, height - e.cy / _PX, e.rx / _PX)
        for e in SVG.parse(io.BytesIO(data), ppi=96).elements()
        if isinstance(e, Circle)
    ]
