"""What is trimmed from the backing's corners, against what must be; either construction."""

from __future__ import annotations

from shapely import Polygon
from shapely.geometry.base import BaseGeometry

from cutpaths.geometry.marks import MarkKind
from cutpaths.geometry.polygons import along, corner_angle, right_of, sub, unit
from cutpaths.proof.check import Check
from cutpaths.proof.paper import Paper
from cutpaths.proof.planes import apart, around, beside, common, joined, less, off_segment, outside
from cutpaths.proof.reading import Reading, judge
from cutpaths.proof.tolerances import ANGLE_DEGREES, COUNT, area_slack

_WASTE = "WASTE-"
# Half a side off either number passes.
_THREE_OR_FOUR = 3.5


def untrimmed(paper: Paper) -> BaseGeometry:
    """The backing with its corners on: two borders outside the top's raw edge, by half-planes."""
    return around(paper.raw_edges, [2 * border for border in paper.borders])


def found_waste(paper: Paper) -> dict[str, Polygon]:
    """The waste pieces where they are cut, by corner."""
    return {
        piece.key.removeprefix(_WASTE): Polygon(piece.places[0].ring(piece.outline))
        for piece in paper.kit.waste
    }


def kept_and_waste(paper: Paper) -> BaseGeometry:
    """The backing with what is cut off put back on; the backing itself while it is still on."""
    outline = Polygon(paper.backing.outline)
    if not paper.trimmed:
        return outline
    return joined([outline, *found_waste(paper).values()])


def expected_waste(paper: Paper) -> tuple[BaseGeometry, ...]:
    """For each corner, the cloth more than the trim outside the line on its own side of the crease.

    The crease is square to the line from one dot to the other. It may leave nothing to trim.
    """
    whole = untrimmed(paper)
    return tuple(common(whole, beyond_trim(paper, i)) for i in range(len(paper.corners)))


def beyond_trim(paper: Paper, i: int) -> BaseGeometry:
    """All of the plane that is cut off at a corner, cloth or not."""
    into, out = paper.trimmed_along[i]
    far = paper.far
    crease = into[1], along(into[1], right_of(unit(sub(out[1], into[0]))), 1.0)
    halves = [
        common(outside(into, paper.trim, far), outside(crease, 0.0, far)),
        common(outside(out, paper.trim, far), outside((crease[1], crease[0]), 0.0, far)),
    ]
    return joined(halves)


def waste_sides(paper: Paper) -> tuple[Check, ...]:
    """How many sides the waste of each corner has."""
    readings = []
    found = found_waste(paper)
    for i, at in enumerate(paper.corners):
        if at not in found:
            continue
        sides = len(found[at].exterior.coords) - 1
        right = abs(corner_angle(paper.seam, i) - 90.0) <= ANGLE_DEGREES
        expected = 3.0 if right else _THREE_OR_FOUR
        readings.append(
            Reading(at=at, expected=expected, found=sides, slack=COUNT, text=_sides_text)
        )
    return judge(
        "waste-sides",
        "The waste of a right-angled corner is a triangle: a square would be cut off a wrong fold; "
        "other corners lose three or four sides.",
        readings,
    )


def _sides_text(sides: float) -> str:
    return "3 or 4 sides" if sides == _THREE_OR_FOUR else f"{sides:.0f} sides"


def waste_region(paper: Paper) -> tuple[Check, ...]:
    """The waste pieces against the cloth beyond the trim."""
    found = found_waste(paper)
    return judge(
        "waste-region",
        "Each corner loses just the cloth that lies more than the trim outside its line; "
        "where that is none, nothing is cut off.",
        [
            paper.measure.apart(at, apart(found.get(at, Polygon()), expected))
            for at, expected in zip(paper.corners, expected_waste(paper), strict=True)
        ],
    )


def waste_and_kept(paper: Paper) -> tuple[Check, ...]:
    """Areas of the waste and of what is kept, against the untrimmed backing."""
    whole, outline = untrimmed(paper), Polygon(paper.backing.outline)
    found = list(found_waste(paper).values())
    kept = outline if paper.trimmed else less(outline, joined(found))
    area = kept.area + sum(waste.area for waste in found)
    slack = area_slack(whole.length + sum(waste.length for waste in found))
    return judge(
        "waste-and-kept",
        "The waste and what is kept make up the untrimmed backing.",
        [paper.measure.area("", whole.area, area, slack)],
    )


def trim_line(paper: Paper) -> tuple[Check, ...]:
    """The trim lines against the lines that they run outside of, and their ends."""
    readings = []
    outline = paper.backing.outline
    edges = list(zip(outline, outline[1:] + outline[:1], strict=True))
    for mark in paper.backing.of_kind(MarkKind.MITER_TRIM, MarkKind.TIP_TRIM):
        into, out = paper.trimmed_along[paper.corners.index(mark.at)]
        for line, part in ((into, mark.points[:2]), (out, mark.points[-2:])):
            readings += [paper.measure.length(mark.at, paper.trim, beside(p, line)) for p in part]
        for end in (mark.points[0], mark.points[-1]):
            gap = min(off_segment(end, edge) for edge in edges)
            readings.append(paper.measure.apart(mark.at, gap))
    return judge(
        "trim-line",
        "The trim runs the asked distance outside its corner's line, from raw edge to raw edge.",
        readings,
    )
