"""Triangle pairs sewn before they are cut: whether their squares give the units that are needed.

What is needed is counted from the patchwork itself: two triangles that share a long edge are one
unit. Sizes are measured on the square: it is cut on its diagonal on paper, and what one half holds
inside its allowances is the triangle that it gives. Lengths in mm.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping

import shapely
from shapely import Polygon

from cutpaths.geometry.assembly import Piece
from cutpaths.geometry.layouts.pairs import SewnPair
from cutpaths.geometry.marks import MarkKind, select
from cutpaths.geometry.polygons import distance, edges, middle
from cutpaths.pieces import Kit
from cutpaths.proof.check import Check
from cutpaths.proof.patches import finished_ring
from cutpaths.proof.planes import SHARPEST_TIP, Line, beside, common, outside
from cutpaths.proof.reading import Measure, Reading, count, judge
from cutpaths.proof.tolerances import PLACE_MM
from cutpaths.values import replace

# Fabrics of a unit in the order of the alphabet, and its finished side in mm.
Unit = tuple[tuple[str, ...], float]
# Two squares, and two halves of a square, give two units.
_HALVES = 2
_CLAIM = (
    "Squares sewn in pairs are large enough, their seams run the allowance to either side of the "
    "diagonal that is cut, and they give every unit of two triangles in the patchwork, trimmed to "
    "its finished size and both allowances."
)


def pairs_serve(kit: Kit, measure: Measure) -> tuple[Check, ...]:
    """The squares of every pair against the triangles that they take the place of."""
    if not kit.pairs:
        return ()
    readings = [
        count(pair.marked.key, 1, len(select(pair.marked.marks, MarkKind.CUT_APART)), "cut line")
        for pair in kit.pairs
    ]
    if all(reading.off <= 1 for reading in readings):
        needed = units_needed(kit)
        sized = [r for pair in kit.pairs for r in _sizes(kit, measure, pair, needed)]
        marked = [r for pair in kit.pairs for r in _marks(kit, measure, pair)]
        readings = [*sized, *marked, *_enough(kit, needed)]
    return judge("pairs-serve", _CLAIM, readings)


def units_needed(kit: Kit) -> Counter[Unit]:
    """Units of two half-square triangles in a patchwork; one without a partner is one of its own.

    Two triangles are a unit where the middles of their long edges meet.
    """
    halves = [
        (piece.fabric, distance(*long) / math.sqrt(2), place.point(middle(*long)))
        for piece in kit.patchwork.pieces()
        if (long := _long_edge(piece)) is not None
        for place in piece.places
    ]
    middles = [shapely.Point(at) for _, _, at in halves]
    found = shapely.STRtree(middles).query(middles, predicate="dwithin", distance=PLACE_MM)
    partners: dict[int, list[int]] = {}
    for i, j in found.T.tolist():
        partners.setdefault(i, []).append(j)
    units: Counter[Unit] = Counter()
    for i, together in partners.items():
        if i == min(together):
            fabrics = tuple(sorted(halves[j][0] for j in together))
            units[fabrics, _known(units, halves[i][1])] += 1
    return units


def _known(units: Iterable[Unit], side: float) -> float:
    """A side as it is counted already, or itself."""
    return next((known for _, known in units if abs(known - side) <= PLACE_MM), side)


def _long_edge(piece: Piece) -> Line | None:
    """The long edge of a patch that is half a square standing straight on its grain."""
    ring = finished_ring(piece)
    if len(ring) != 3 or piece.grain is None:
        return None
    sides = sorted(edges(ring), key=lambda edge: distance(*edge))
    first, second, long = (distance(*edge) for edge in sides)
    is_half = abs(first - second) <= PLACE_MM and abs(long - first * math.sqrt(2)) <= PLACE_MM
    (x0, y0), (x1, y1) = sides[0]
    legs_stand = min(abs(x1 - x0), abs(y1 - y0)) <= PLACE_MM
    return sides[2] if is_half and legs_stand else None


def _sizes(
    kit: Kit, measure: Measure, pair: SewnPair, needed: Mapping[Unit, int]
) -> Iterator[Reading]:
    """The squares, and what they are trimmed to, against the finished triangles."""
    key, allowance = pair.marked.key, float(kit.project.allowance)
    sides = [side for fabrics, side in needed if fabrics == _fabrics(pair)]
    trimmed = float(pair.trim_to) - 2 * allowance
    finished = min(sides, key=lambda side: abs(side - trimmed), default=math.nan)
    exact = _cut_side(finished, allowance)
    yield measure.length(key, exact, float(pair.exact))
    for square in (pair.marked, pair.plain):
        for edge in edges(square.outline):
            yield measure.length(square.key, exact, distance(*edge), least=True)
            yield measure.length(square.key, float(pair.cut), distance(*edge))
        yield measure.length(
            square.key, finished, _triangle_in(pair, square, allowance), least=True
        )
    yield measure.length(key, finished + 2 * allowance, float(pair.trim_to))


def _fabrics(pair: SewnPair) -> tuple[str, ...]:
    return tuple(sorted((pair.marked.fabric, pair.plain.fabric)))


def _cut_side(finished: float, allowance: float) -> float:
    """The leg of a half-square triangle with its allowance all round, as it is cut."""
    if not math.isfinite(finished):
        return math.nan
    triangle = Polygon([(0.0, 0.0), (finished, 0.0), (0.0, finished)])
    cut = triangle.buffer(allowance, join_style="mitre", mitre_limit=SHARPEST_TIP)
    return math.sqrt(2 * cut.area)


def _triangle_in(pair: SewnPair, square: Piece, allowance: float) -> float:
    """The leg of the triangle that half a square holds, its allowances off; mm."""
    line = _cut_line(pair)
    half = common(Polygon(square.outline), outside(line, 0.0, 10 * float(pair.cut)))
    inside = half.buffer(-allowance, join_style="mitre", mitre_limit=SHARPEST_TIP)
    return math.sqrt(2 * inside.area)


def _cut_line(pair: SewnPair) -> Line:
    first, last = select(pair.marked.marks, MarkKind.CUT_APART)[0].points
    return first, last


def _marks(kit: Kit, measure: Measure, pair: SewnPair) -> Iterator[Reading]:
    """The cut against the diagonal, and both seams against the cut."""
    key, allowance = pair.marked.key, float(kit.project.allowance)
    line, outline = _cut_line(pair), pair.marked.outline
    for end in line:
        yield measure.apart(key, min(distance(end, corner) for corner in outline))
    diagonal = math.hypot(*(max(p[i] for p in outline) for i in (0, 1)))
    yield measure.length(key, diagonal, distance(*line))
    seams = select(pair.marked.marks, MarkKind.STITCH)
    yield count(key, _HALVES, len(seams), "seam")
    seams = tuple(sorted(seams, key=lambda seam: beside(seam.points[0], line)))
    for way, seam in zip((-1, 1), seams, strict=False):
        for point in seam.points:
            yield measure.length(key, allowance, way * beside(point, line))
            yield measure.apart(key, Polygon(outline).exterior.distance(shapely.Point(point)))


def _enough(kit: Kit, needed: Mapping[Unit, int]) -> Iterator[Reading]:
    """Units made against units needed, for each two fabrics and size."""
    allowance = kit.project.allowance
    for (fabrics, side), wanted in needed.items():
        made = sum(
            _HALVES * min(pair.marked.count, pair.plain.count)
            for pair in kit.pairs
            if _fabrics(pair) == fabrics
            and abs(float(pair.trim_to - 2 * allowance) - side) <= PLACE_MM
        )
        yield replace(count(" and ".join(fabrics), wanted, made, "unit"), least=True)
