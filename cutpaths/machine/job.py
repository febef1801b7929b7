"""One line that a machine draws or cuts; mm on the bed, x right, y up."""

from __future__ import annotations

import math
from collections.abc import Iterable

from cutpaths.geometry.polygons import distance, edges
from cutpaths.roles import Role
from cutpaths.shapes import Circle, Path, Point
from cutpaths.values import Value


class Job(Value):
    """A line with its role and the key of the piece that it belongs to."""

    role: Role
    key: str
    shape: Path | Circle

    @property
    def start(self) -> Point:
        """Where the tool comes down; a circle is begun at its right."""
        match self.shape:
            case Path(points):
                return points[0]
            case Circle((x, y), radius):
                return x + radius, y

    @property
    def end(self) -> Point:
        """Where the tool is lifted."""
        match self.shape:
            case Path(points, closed=False):
                return points[-1]
            case _:
                return self.start

    @property
    def length(self) -> float:
        """How far the tool goes."""
        match self.shape:
            case Circle(radius=radius):
                return 2 * math.pi * radius
            case Path(points, closed):
                ways = edges(points) if closed else edges(points)[:-1]
                return sum(distance(p, q) for p, q in ways)


def travel(jobs: Iterable[Job], home: Point = (0.0, 0.0)) -> float:
    """How far the lifted tool goes from home through all jobs in their order."""
    way, here = 0.0, home
    for job in jobs:
        way += distance(here, job.start)
        here = job.end
    return way
