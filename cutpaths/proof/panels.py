"""A joined backing: whether its panels make it up, and where their seams lie; mm.

Panels are set down by their own mated seams, one after the other, not by the places they say.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from shapely import LineString, MultiPoint, Polygon
from shapely.geometry.base import BaseGeometry

from cutpaths.geometry.assembly import Piece
from cutpaths.geometry.marks import Mark, MarkKind, Mate, select
from cutpaths.geometry.polygons import distance, edges, sub
from cutpaths.pieces import Kit
from cutpaths.pieces.panels import FROM_EDGE
from cutpaths.project.stock import usual
from cutpaths.proof.check import Check
from cutpaths.proof.planes import Line, apart, beside, common, joined, outside
from cutpaths.proof.reading import Fault, Measure, Reading, faultless, judge
from cutpaths.proof.tolerances import PLACE_MM
from cutpaths.shapes import Motion, shift

_KEPT_OFF = (
    MarkKind.CENTER,
    MarkKind.DOT,
    MarkKind.MITER_FOLD,
    MarkKind.MITER_STITCH,
    MarkKind.MITER_TRIM,
    MarkKind.CORNER_FOLD,
    MarkKind.OPENING_FOLD,
    MarkKind.OPENING_END,
)


def panels(kit: Kit) -> tuple[Check, ...]:
    """Every fact of a joined backing; none where it is one cloth."""
    if kit.panels is None:
        return ()
    parts = kit.panels.pieces()
    measure = Measure(kit.project.ruler)
    mated = faultless(
        "panels-mated",
        "Each joining seam is marked on two neighbouring panels, as long on one as on the other.",
        [*_mate_faults(parts)],
    )
    if not mated[0].passed:
        return mated
    laid = _laid(parts)
    return (
        *mated,
        *_placed(parts, laid, measure),
        *_tile(kit, parts, laid, measure),
        *_allowances(kit, parts, measure),
        *_one_way(kit, parts),
        *_clear(kit, parts, laid, measure),
    )


def _seam(panel: Piece, number: int) -> Mark | None:
    found = select(panel.marks, MarkKind.STITCH, str(number))
    return found[0] if len(found) == 1 else None


def _mate_faults(parts: Sequence[Piece]) -> Iterator[Fault]:
    for number, (one, other) in enumerate(pairwise(parts), 1):
        first, second = _seam(one, number), _seam(other, number)
        if first is None or second is None:
            yield Fault(one.key, f"seam {number} to {other.key} is not marked on both")
            continue
        named = (
            Mate(other.key, MarkKind.STITCH, str(number)),
            Mate(one.key, MarkKind.STITCH, str(number)),
        )
        if named[0] not in first.mates or named[1] not in second.mates:
            yield Fault(one.key, f"seam {number} does not name {other.key}, or is not named by it")
        gap = abs(distance(*first.points) - distance(*second.points))
        if gap > PLACE_MM:
            yield Fault(one.key, f"seam {number} is {gap:.3g} mm longer or shorter on {other.key}")


def _laid(parts: Sequence[Piece]) -> list[Motion]:
    """Each panel set down where its seam meets that of the one before; the first by its place."""
    motions = [parts[0].places[0]]
    for number, (one, other) in enumerate(pairwise(parts), 1):
        first, second = _seam(one, number), _seam(other, number)
        if first is None or second is None:
            raise TypeError("seams are mated before panels are laid")
        target = motions[-1].point(first.points[0])
        motions.append(shift(*sub(target, second.points[0])))
    return motions


def _placed(parts: Sequence[Piece], laid: Sequence[Motion], measure: Measure) -> tuple[Check, ...]:
    return judge(
        "panels-placed",
        "Each panel lies where its seam meets that of its neighbour, end to end, "
        "and that is where its place puts it.",
        [
            measure.apart(panel.key, distance(found.point(p), place.point(p)))
            for panel, found in zip(parts, laid, strict=True)
            for place in panel.places
            for mark in select(panel.marks, MarkKind.STITCH)
            for p in mark.points
        ],
    )


def _tile(
    kit: Kit, parts: Sequence[Piece], laid: Sequence[Motion], measure: Measure
) -> tuple[Check, ...]:
    """The panels inside their seams against the backing."""
    finished = [_inside(panel, motion) for panel, motion in zip(parts, laid, strict=True)]
    backing = Polygon(kit.backing.outline)
    slack = PLACE_MM * backing.length * len(parts)
    twice = sum(part.area for part in finished) - joined(finished).area
    return judge(
        "panels-tile",
        "Inside their seams the panels make up the backing, with no gap and nothing twice.",
        [
            measure.apart("", apart(joined(finished), backing)),
            measure.area("", 0.0, twice, slack),
        ],
    )


def _inside(panel: Piece, motion: Motion) -> BaseGeometry:
    """A panel without what lies beyond its joining seams."""
    area: BaseGeometry = Polygon(motion.ring(panel.outline))
    middle = area.centroid
    for mark in select(panel.marks, MarkKind.STITCH):
        start, end = (motion.point(p) for p in mark.points)
        line = (start, end) if beside((middle.x, middle.y), (start, end)) < 0 else (end, start)
        far = 10 * area.length
        area = common(area, outside((line[1], line[0]), 0.0, far))
    return area


def _allowances(kit: Kit, parts: Sequence[Piece], measure: Measure) -> tuple[Check, ...]:
    """How far each panel reaches beyond its joining seams."""
    join = kit.project.join
    asked = float(usual(kit.project.ruler.unit).join if join is None else join.allowance)
    readings = []
    for panel in parts:
        for mark in select(panel.marks, MarkKind.STITCH):
            line = mark.points[0], mark.points[1]
            off = [beside(p, line) for p in panel.outline]
            readings.append(measure.length(panel.key, asked, min(max(off), -min(off))))
    return judge(
        "panels-allowance",
        "Each panel reaches one joining allowance beyond each of its joining seams.",
        readings,
    )


def _one_way(kit: Kit, parts: Sequence[Piece]) -> tuple[Check, ...]:
    """Nap and print: threads, up and face as on the backing as one cloth."""
    backing = kit.backing
    faults = [
        Fault(panel.key, "its cloth does not lie as that of the backing")
        for panel in parts
        if (panel.fabric, panel.face, panel.grain) != (backing.fabric, backing.face, backing.grain)
        or any(place.mirrored or place.cos != 1.0 for place in panel.places)
    ]
    return faultless(
        "panels-one-way",
        "Nap and print run the same way in all panels, and none is turned over or round.",
        faults,
    )


def _clear(
    kit: Kit, parts: Sequence[Piece], laid: Sequence[Motion], measure: Measure
) -> tuple[Check, ...]:
    """Distances of the joining seams from what they must keep off."""
    join = kit.project.join
    clearance = float(usual(kit.project.ruler.unit).join if join is None else join.allowance)
    home = kit.backing.places[0].inverse()
    finished = home.ring(kit.blanket.finished)
    readings: list[Reading] = []
    for number, (panel, motion) in enumerate(zip(parts[:-1], laid, strict=False), 1):
        mark = _seam(panel, number)
        if mark is None:
            continue
        line = motion.point(mark.points[0]), motion.point(mark.points[1])
        seam, name = LineString(line), f"seam {number}"
        for other in kit.backing.marks:
            if other.kind in _KEPT_OFF:
                gap = seam.distance(MultiPoint(other.points).convex_hull)
                readings.append(measure.length(name, clearance, gap, least=True))
        for edge in edges(finished):
            if _along(edge, line):
                gap = abs(beside(edge[0], line))
                readings.append(measure.length(name, float(FROM_EDGE), gap, least=True))
    return judge(
        "panels-clear",
        "Joining seams keep an allowance off centers, dots, miters and the opening, and 2 in off "
        "finished edges that run along them.",
        readings,
    )


def _along(edge: Line, line: Line) -> bool:
    return abs(beside(edge[0], line) - beside(edge[1], line)) <= PLACE_MM
