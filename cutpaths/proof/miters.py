"""The mitered corners of the turned construction, folded on paper."""

from __future__ import annotations

from shapely import Polygon

from cutpaths.geometry.marks import MarkKind
from cutpaths.geometry.polygons import corner_angle, distance, sub
from cutpaths.proof.check import Check
from cutpaths.proof.paper import Paper
from cutpaths.proof.patches import least_beside
from cutpaths.proof.planes import Line, angle_between, beside, fold, joined, less, off_segment
from cutpaths.proof.reading import angle, judge
from cutpaths.proof.waste import found_waste
from cutpaths.shapes import Point


def miter_halves(paper: Paper) -> tuple[Check, ...]:
    """The two halves of each miter: their lengths, and where they end."""
    readings = []
    for i, at in enumerate(paper.corners):
        into, out = paper.trimmed_along[i]
        readings.append(paper.measure.length(at, distance(*into), distance(*out)))
        before, after = paper.around_corner(i)
        ends = [
            out[0],
            paper.backing.line(MarkKind.BORDER_FOLD, before)[1],
            paper.backing.line(MarkKind.BORDER_FOLD, after)[0],
            _fold_mark(paper, i)[0],
        ]
        readings += [paper.measure.apart(at, distance(end, into[1])) for end in ends]
        for side, start in ((before, into[0]), (after, out[1])):
            dot = paper.backing.point(MarkKind.DOT, f"{at}:{side}")
            readings.append(paper.measure.apart(at, distance(dot, start)))
    return judge(
        "miter-halves",
        "The two halves of each miter are equally long: they start at the dots and meet in "
        "the fold point, where the creases of both borders meet too.",
        readings,
    )


def _fold_mark(paper: Paper, i: int) -> Line:
    """The crease of a miter, from the fold point outward."""
    return paper.backing.line(MarkKind.MITER_FOLD, paper.corners[i])


def miter_crease(paper: Paper) -> tuple[Check, ...]:
    """Folds each corner along its fold mark."""
    readings = []
    for i, at in enumerate(paper.corners):
        into, out = paper.trimmed_along[i]
        crease = _fold_mark(paper, i)
        folded = fold(crease).point(into[0])
        readings.append(paper.measure.apart(at, distance(folded, out[1])))
        readings.append(paper.measure.apart(at, abs(beside(into[1], crease))))
        readings.append(paper.measure.apart(at, _off_edge(paper, crease[1])))
    return judge(
        "miter-crease",
        "Each fold mark runs through its fold point to the raw edge, and folding along it "
        "carries one dot of the corner onto the other.",
        readings,
    )


def _off_edge(paper: Paper, point: Point) -> float:
    """Distance of a point from the backing's raw edge."""
    ring = paper.backing.outline
    return min(off_segment(point, edge) for edge in zip(ring, ring[1:] + ring[:1], strict=True))


def miter_angle(paper: Paper) -> tuple[Check, ...]:
    """The angle between the miter's stitching and its fold."""
    readings = []
    for i, at in enumerate(paper.corners):
        start, end = _fold_mark(paper, i)
        expected = 180.0 - corner_angle(paper.seam, i)
        for dot in (paper.trimmed_along[i][0][0], paper.trimmed_along[i][1][1]):
            found = angle_between(sub(dot, start), sub(end, start))
            readings.append(angle(at, expected, found))
    return judge(
        "miter-angle",
        "The miter's stitching meets its fold at 180 degrees less the corner.",
        readings,
    )


def miter_allowance(paper: Paper) -> tuple[Check, ...]:
    """The cloth kept outside both halves of each miter, once the waste is off."""
    waste = list(found_waste(paper).values())
    kept = less(Polygon(paper.backing.outline), joined(waste))
    # A trim wider than the seam allowance ends at the dot's own raw edge.
    room = min(paper.trim, paper.allowance)
    readings = [
        paper.measure.length(at, room, least_beside(half, room, kept))
        for at, halves in zip(paper.corners, paper.trimmed_along, strict=True)
        for half in halves
    ]
    return judge(
        "miter-allowance",
        "Cloth for the miter's seam is kept all along it, once its waste is trimmed.",
        readings,
    )
