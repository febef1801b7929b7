"""Cut outlines of patches: the finished shape with its allowance all round; exact, mm.

Lengths along diagonals hold square roots; they are carried to far more places than a float has
and each coordinate becomes a float once, so that equal coordinates come out equal.

The outline of a triangle with its allowance runs far beyond the finished tip. A blunted tip is cut
square to the edge that is sewn to a neighbour, one allowance beyond the finished tip: there the
neighbour's raw edge ends too, and nothing nearer than the allowance is lost.
"""

from __future__ import annotations

from fractions import Fraction

from cutpaths.geometry.patch_shapes import PatchKind, PatchShape
from cutpaths.geometry.polygons import Ring
from cutpaths.project.roots import root

ExactPoint = tuple[Fraction, Fraction]
ExactRing = tuple[ExactPoint, ...]
_Line = tuple[ExactPoint, ExactPoint]  # a point and the line's unit vector

_DECIMALS = 25  # of a millimetre: what is left of the roots' own error is far below
_LONG_EDGE = {PatchKind.HALF: 1, PatchKind.QUARTER: 0}


def outlines(
    shape: PatchShape, allowance: Fraction, quarters: int, *, blunt: bool, along_long: bool
) -> tuple[Ring, Ring]:
    """Cut and finished outline, the lower left corner of the cut one's box at the origin.

    Args:
        shape: the patch's shape.
        allowance: seam allowance.
        quarters: quarter turns, counter-clockwise, from the shape's own frame.
        blunt: whether the tips of triangles are cut off.
        along_long: whether they are cut square to the long edge, or to the edge beside it.
    """
    finished = shape.corners()
    cut = _offset(finished, allowance)
    if blunt and shape.kind in _LONG_EDGE:
        cut = _blunted(cut, finished, allowance, _LONG_EDGE[shape.kind], along_long=along_long)
    for _ in range(quarters % 4):
        cut, finished = _quarter_turned(cut), _quarter_turned(finished)
    home = min(x for x, _ in cut), min(y for _, y in cut)
    return _at(cut, home), _at(finished, home)


def _offset(ring: ExactRing, allowance: Fraction) -> ExactRing:
    lines = [_shifted(line, allowance) for line in _lines(ring)]
    return tuple(_meet(lines[i - 1], lines[i]) for i in range(len(ring)))


def _blunted(
    cut: ExactRing, finished: ExactRing, allowance: Fraction, long: int, *, along_long: bool
) -> ExactRing:
    ways = [way for _, way in _lines(finished)]
    ring: list[ExactPoint] = []
    for i, corner in enumerate(finished):
        into, out = ways[i - 1], ways[i]
        before = (i - 1) % len(finished)
        if long not in (before, i) or into[0] * out[0] + into[1] * out[1] >= 0:
            ring.append(cut[i])
            continue
        beyond = into if (long == before) == along_long else (-out[0], -out[1])
        end = corner[0] + allowance * beyond[0], corner[1] + allowance * beyond[1]
        line = end, (beyond[1], -beyond[0])
        ring += [_meet(line, (cut[i], into)), _meet(line, (cut[i], out))]
    return tuple(ring)


def _lines(ring: ExactRing) -> list[_Line]:
    """Each edge as its start and its unit vector."""
    found = []
    for p, q in zip(ring, ring[1:] + ring[:1], strict=True):
        x, y = q[0] - p[0], q[1] - p[1]
        length = root(x * x + y * y)
        found.append((p, (x / length, y / length)))
    return found


def _shifted(line: _Line, outward: Fraction) -> _Line:
    (x, y), way = line
    return (x + outward * way[1], y - outward * way[0]), way


def _meet(first: _Line, second: _Line) -> ExactPoint:
    (p, u), (q, v) = first, second
    cross = u[0] * v[1] - u[1] * v[0]
    amount = ((q[0] - p[0]) * v[1] - (q[1] - p[1]) * v[0]) / cross
    return p[0] + amount * u[0], p[1] + amount * u[1]


def _quarter_turned(ring: ExactRing) -> ExactRing:
    return tuple((-y, x) for x, y in ring)


def _at(ring: ExactRing, home: ExactPoint) -> Ring:
    """A ring in mm with a point of it at the origin."""
    return tuple(
        (float(round(x - home[0], _DECIMALS)), float(round(y - home[1], _DECIMALS)))
        for x, y in ring
    )
