"""The lattice that a layout's corners lie on: whole numbers of one unit, turned to mm once.

Sums stay whole, so that neighbours meet in the same node; each coordinate is divided to a float
once and correctly rounded. x right, y up, the origin at the lower left corner of the assembly.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction
from itertools import accumulate
from math import lcm

from cutpaths.shapes import Point
from cutpaths.values import Value, field

Node = tuple[int, int]
Box = tuple[int, int, int, int]  # left, foot, right, head


class Lattice(Value):
    """A lattice by its unit, exact mm; a node is one point, the same object every time."""

    unit: Fraction
    _lengths: dict[int, float] = field(default_factory=dict)
    _points: dict[Node, Point] = field(default_factory=dict)

    def mm(self, steps: int) -> float:
        """A whole number of units in mm."""
        found = self._lengths.get(steps)
        if found is None:
            # Python divides whole numbers of any size to the nearest float.
            found = steps * self.unit.numerator / self.unit.denominator
            self._lengths[steps] = found
        return found

    def point(self, node: Node) -> Point:
        """A node in mm."""
        found = self._points.get(node)
        if found is None:
            found = self._points[node] = self.mm(node[0]), self.mm(node[1])
        return found


def unit_of(sizes: Iterable[Fraction]) -> Fraction:
    """A unit of which all sizes, and their halves, are whole multiples."""
    return Fraction(1, 2 * lcm(*{size.denominator for size in sizes}))


def edges_of(sizes: Sequence[Fraction], unit: Fraction) -> tuple[int, ...]:
    """Where columns or rows begin and end, in units, from 0."""
    return tuple(accumulate((int(size / unit) for size in sizes), initial=0))
