"""The sizes that the project asks for, as lengths and angles of the seam polygon's sides; mm."""

from __future__ import annotations

import math

from cutpaths.geometry.polygons import Ring, corner_angle, distance, edges
from cutpaths.project.model import Outline, Project, Regular
from cutpaths.proof.taped import raw_as_taped
from cutpaths.values import Value


class AskedSide(Value):
    """A side's length along the seam, and the corner in degrees where it starts."""

    length: float
    corner: float


def asked_sides(project: Project) -> tuple[AskedSide, ...]:
    """Sides of the sewn top between its seams: as measured where it was measured."""
    match project.top:
        case Regular(sides=sides, side=side):
            return (AskedSide(float(side), 180.0 - 360.0 / sides),) * sides
        case Outline(points=points, outset=outset):
            return _inset(tuple((float(x), float(y)) for x, y in points), float(outset))
        case _:
            taped = raw_as_taped(project)
            if taped is not None:
                return _inset(taped, float(project.allowance))
            size = project.sewn_top
            if size is None:
                raise TypeError("a top without a size has an outline")
            return tuple(AskedSide(float(length), 90.0) for length in size) * 2


def _inset(ring: Ring, outset: float) -> tuple[AskedSide, ...]:
    """Sides of a ring that lies `outset` inside: each end loses the outset / tan(corner / 2)."""
    corners = [corner_angle(ring, i) for i in range(len(ring))]
    lost = [outset / math.tan(math.radians(corner) / 2) for corner in corners]
    return tuple(
        AskedSide(distance(p, q) - lost[i] - lost[(i + 1) % len(ring)], corners[i])
        for i, (p, q) in enumerate(edges(ring))
    )
