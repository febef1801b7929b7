"""A pieced top as it is sewn together bit by bit: which patches hang together at a stage; mm.

Two patches hang together where a seam that is sewn runs along an edge of each. Front view.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from itertools import combinations

from cutpaths.geometry.assembly import Seam
from cutpaths.geometry.marks import MarkKind, select
from cutpaths.geometry.polygons import Ring, box, cross, dot, edges, right_of, sub, unit
from cutpaths.pieces import Kit
from cutpaths.shapes import Point
from cutpaths.sheets.steps.cutting import side_of
from cutpaths.values import Value

LEAST_SHARED_MM = 0.5  # a seam that runs along less of an edge only touches its end
LEAST_SHARE, MOST_SHARE = 0.15, 0.65  # of a part's way from the middle of the top
CLEAR = 1.7  # gap between seam lines, as a multiple of both allowances
_LINE_STEP_MM = 0.05  # two lines that are nearer to each other are one
_WAY_STEP = 1e-4  # two ways that differ by less are one


class Patch(Value):
    """One patch in its place.

    Attributes:
        fabric: name of its fabric.
        finished: its finished outline.
        raw: its cut outline.
    """

    fabric: str
    finished: Ring
    raw: Ring


def patches_of(kit: Kit) -> tuple[Patch, ...]:
    """Every patch of a pieced top, as designed."""
    return tuple(
        Patch(piece.fabric, place.ring(ring), place.ring(piece.outline))
        for piece in kit.patchwork.pieces()
        for ring in [select(piece.marks, MarkKind.SEAM_RING)[0].points]
        for place in piece.places
    )


def to_raw_edge(patch: Patch, outline: Ring) -> Ring:
    """A patch as far as its seams, and as its raw edge where it lies at the edge of the top.

    Args:
        patch: the patch.
        outline: the finished outline of the top.
    """
    ring = patch.raw
    center = _center([patch.finished])
    for start, end in edges(patch.finished):
        if not any(_on_line(start, side) and _on_line(end, side) for side in edges(outline)):
            ring = side_of(ring, (start, end), center)
    return ring


def _on_line(p: Point, side: tuple[Point, Point]) -> bool:
    way = unit(sub(side[1], side[0]))
    return abs(cross(way, sub(p, side[0]))) < _LINE_STEP_MM


def parts(patches: Sequence[Patch], seams: Iterable[Seam]) -> tuple[tuple[int, ...], ...]:
    """Numbers of the patches that hang together once some seams are sewn, part by part."""
    root = list(range(len(patches)))

    def find(i: int) -> int:
        while root[i] != i:
            root[i] = root[root[i]]
            i = root[i]
        return i

    lines = Lines(patches)
    for seam in seams:
        along = list(lines.beside(seam.start, seam.end))
        for other in along[1:]:
            root[find(other)] = find(along[0])
    groups: dict[int, list[int]] = defaultdict(list)
    for i in range(len(patches)):
        groups[find(i)].append(i)
    return tuple(tuple(group) for group in groups.values())


def corner_of(patches: Sequence[Patch], most: int) -> tuple[Patch, ...]:
    """The patches of about so many places at the lower left of a top of more; all of fewer."""
    if len(patches) <= most:
        return tuple(patches)
    left, foot, right, head = box([p for patch in patches for p in patch.finished])
    reach = math.sqrt(most * (right - left) * (head - foot) / len(patches))
    centers = ((patch, _center([patch.finished])) for patch in patches)
    return tuple(patch for patch, (x, y) in centers if x < left + reach and y < foot + reach)


def sewn_edges(patches: Sequence[Patch], group: Sequence[int]) -> dict[int, tuple[bool, ...]]:
    """For each patch of a part whether each edge of its finished outline is sewn to another."""
    lines = Lines([patches[i] for i in group])
    return {
        i: tuple(
            any(other != n for other in lines.beside(start, end))
            for start, end in edges(patches[i].finished)
        )
        for n, i in enumerate(group)
    }


def to_sewn_edges(patch: Patch, sewn: Sequence[bool]) -> Ring:
    """A patch as far as its sewn edges, and as its raw edge elsewhere."""
    ring, center = patch.raw, _center([patch.finished])
    for line, is_sewn in zip(edges(patch.finished), sewn, strict=True):
        if is_sewn:
            ring = side_of(ring, line, center)
    return ring


class Lines:
    """Finds the patches that have an edge along a line."""

    def __init__(self, patches: Sequence[Patch]) -> None:
        self._edges: dict[tuple[int, int, int], list[tuple[float, float, int]]] = defaultdict(list)
        for i, patch in enumerate(patches):
            for start, end in edges(patch.finished):
                keys, low, high = _keys(start, end)
                self._edges[keys[0]].append((low, high, i))

    def beside(self, start: Point, end: Point) -> Iterator[int]:
        """Patches with an edge along some of a segment."""
        keys, low, high = _keys(start, end)
        for key in keys:
            for from_, to, i in self._edges.get(key, ()):
                if min(to, high) - max(from_, low) > LEAST_SHARED_MM:
                    yield i


def _keys(start: Point, end: Point) -> tuple[tuple[tuple[int, int, int], ...], float, float]:
    """Names of a segment's line, its own first, then its neighbours'; and where it lies on it."""
    way = unit(sub(end, start))
    if way[0] < -_WAY_STEP or (abs(way[0]) <= _WAY_STEP and way[1] < 0):
        way = -way[0], -way[1]
    first, last = sorted((dot(start, way), dot(end, way)))
    x, y = round(way[0] / _WAY_STEP), round(way[1] / _WAY_STEP)
    off = round(cross(way, start) / _LINE_STEP_MM)
    names = tuple(
        (x + dx, y + dy, off + d) for dx in (0, -1, 1) for dy in (0, -1, 1) for d in (0, -1, 1)
    )
    return names, first, last


def moved_apart(
    patches: Sequence[Patch],
    groups: Sequence[Sequence[int]],
    open_seams: Iterable[Seam],
    allowance: float,
) -> dict[int, Point]:
    """How far each patch is moved so that the parts stand apart; mm.

    All parts move away from the middle of the top, by one share of how far theirs is from it. It is
    so large that raw edges clear one another at each seam that is not sewn yet, within reason.

    Args:
        patches: all patches.
        groups: numbers of those that hang together.
        open_seams: seams that are not sewn yet.
        allowance: how far raw edges lie outside a seam.
    """
    middles = [_center([patches[i].finished for i in group]) for group in groups]
    group_of = {i: g for g, group in enumerate(groups) for i in group}
    least = LEAST_SHARE
    lines = Lines(patches)
    for seam in open_seams:
        across = right_of(unit(sub(seam.end, seam.start)))
        beside = sorted({group_of[i] for i in lines.beside(seam.start, seam.end)})
        on = [dot(middles[g], across) for g in beside]
        apart = [abs(p - q) for p, q in combinations(on, 2)]
        needed = [CLEAR * 2 * allowance / each for each in apart if each > allowance / 2]
        least = max([least, *needed])
    share = min(least, MOST_SHARE)
    center = _center([patch.finished for patch in patches])
    return {
        i: ((middles[g][0] - center[0]) * share, (middles[g][1] - center[1]) * share)
        for i, g in group_of.items()
    }


def _center(rings: Sequence[Ring]) -> Point:
    """The center of gravity of some rings that do not overlap."""
    whole = x = y = 0.0
    for ring in rings:
        for (ax, ay), (bx, by) in edges(ring):
            part = ax * by - bx * ay
            whole += part
            x += (ax + bx) * part / 3
            y += (ay + by) * part / 3
    return x / whole, y / whole
