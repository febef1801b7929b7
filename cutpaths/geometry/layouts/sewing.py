"""Which seams join the units of a layout, and in which order; whole units of a lattice.

Units are joined to rows and rows to the top. Where joined cells reach over several rows, the rows
between two seams that run right across are sewn as a unit of their own, in the same way inside.
Units that no straight seam divides lie round each other like the arms of a windmill: one of their
seams is first sewn in part. Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import pairwise
from typing import NamedTuple

from cutpaths.geometry.assembly import Seam, Stage
from cutpaths.geometry.layouts.lattice import Box, Lattice, Node
from cutpaths.geometry.polygons import right_of, sub, unit
from cutpaths.project.patchwork import Pressing
from cutpaths.values import Value

ACROSS, DOWN = 0, 1  # the axis along which units follow each other
DEPTHS = {0: Stage.TOP, 1: Stage.ROW}  # all that is deeper is a unit


class Line(NamedTuple):
    """A seam on the lattice.

    Attributes:
        rightward: whether it is pressed to the right of its direction, else to the left.
    """

    start: Node
    end: Node
    stage: Stage
    rightward: bool = True
    partial: bool = False


class _Group(Value):
    """Units to be joined: how deep in the top, its number among its like, how they may follow."""

    boxes: Sequence[Box]
    depth: int
    number: int
    axis: int


def joins(boxes: Sequence[Box]) -> list[Line]:
    """The seams that join boxes which fill a rectangle, in the order of sewing."""
    found: list[tuple[int, Line]] = []
    waiting = [_Group(boxes, 0, 0, DOWN)]
    while waiting:
        group = waiting.pop()
        axis, parts = _divided(group)
        if len(parts) > 1:
            found.extend((group.depth, line) for line in _between(group, axis, parts))
        elif len(group.boxes) > 1:
            found.extend((group.depth, line) for line in _windmill(group))
            continue
        inner = [
            _Group(part, group.depth + 1, number, 1 - axis)
            for number, part in enumerate(parts)
            if len(part) > 1
        ]
        waiting.extend(reversed(inner))
    found.sort(key=lambda each: -each[0])
    return [line for _, line in found]


def _divided(group: _Group) -> tuple[int, list[list[Box]]]:
    """The group's parts between seams that run right across, from the head or from the left."""
    parts = _bands(group.boxes, group.axis)
    if len(parts) > 1 or len(group.boxes) == 1:
        return group.axis, parts
    return 1 - group.axis, _bands(group.boxes, 1 - group.axis)


def _bands(boxes: Sequence[Box], axis: int) -> list[list[Box]]:
    bands: list[list[Box]] = []
    reach = 0
    for box in sorted(boxes, key=lambda box: box[axis]):
        if not bands or box[axis] >= reach:
            bands.append([])
            reach = box[axis + 2]
        bands[-1].append(box)
        reach = max(reach, box[axis + 2])
    return bands[::-1] if axis == DOWN else bands


def _between(group: _Group, axis: int, parts: Sequence[Sequence[Box]]) -> Iterable[Line]:
    """The seams between neighbouring parts, in their order."""
    low, high = _extent(group.boxes, 1 - axis)
    # Rows are pressed toward the foot; what follows from left to right alternates by row.
    rightward = axis == DOWN or group.number % 2 == 0
    for part, after in pairwise(parts):
        at = _extent(part, axis)[0] if axis == DOWN else _extent(after, axis)[0]
        yield _line(1 - axis, at, (low, high), group.depth, rightward=rightward)


def _line(
    axis: int, at: int, ends: tuple[int, int], depth: int, *, rightward: bool, partial: bool = False
) -> Line:
    """A seam along an axis."""
    low, high = ends
    start, end = ((low, at), (high, at)) if axis == ACROSS else ((at, low), (at, high))
    return Line(start, end, DEPTHS.get(depth, Stage.UNIT), rightward, partial)


def _extent(boxes: Sequence[Box], axis: int) -> tuple[int, int]:
    return min(box[axis] for box in boxes), max(box[axis + 2] for box in boxes)


def _windmill(group: _Group) -> list[Line]:
    """The seams of units that no straight seam divides, short ones first."""
    lines = []
    for axis in (ACROSS, DOWN):
        first, last = _extent(group.boxes, 1 - axis)
        for at, ends in _straight(group.boxes, axis):
            if first < at < last:
                line = _line(axis, at, ends, group.depth, rightward=True, partial=True)
                lines.append((ends[1] - ends[0], line))
    return [line for _, line in sorted(lines)]


def _straight(boxes: Sequence[Box], axis: int) -> Iterable[tuple[int, tuple[int, int]]]:
    """All straight stretches of edges along an axis: where they are, and from where to where."""
    edges: dict[int, list[tuple[int, int]]] = {}
    for box in boxes:
        for at in (box[1 - axis], box[3 - axis]):
            edges.setdefault(at, []).append((box[axis], box[axis + 2]))
    for at, stretches in edges.items():
        low, high = min(stretches)
        for start, end in sorted(stretches):
            if start > high:
                yield at, (low, high)
                low, high = start, end
            high = max(high, end)
        yield at, (low, high)


def seams_of(lines: Iterable[Line], lattice: Lattice, pressing: Pressing) -> tuple[Seam, ...]:
    """Seams in mm, with the way their allowances are pressed."""
    return tuple(_seam(line, lattice, pressing) for line in lines)


def _seam(line: Line, lattice: Lattice, pressing: Pressing) -> Seam:
    start, end = lattice.point(line.start), lattice.point(line.end)
    if pressing is Pressing.OPEN:
        return Seam(start, end, line.stage, None, line.partial)
    x, y = right_of(unit(sub(end, start)))
    press = (x, y) if line.rightward else (-x, -y)
    return Seam(start, end, line.stage, press, line.partial)
