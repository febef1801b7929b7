"""The top as sewn: its size, its allowance, its basting line, and its patches under it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from shapely import Polygon

from cutpaths.geometry.marks import MarkKind
from cutpaths.geometry.polygons import Ring, corner_angle, distance, edges
from cutpaths.proof.asked import asked_sides
from cutpaths.proof.check import Check
from cutpaths.proof.paper import Paper, as_sewn
from cutpaths.proof.planes import apart, around, beside
from cutpaths.proof.reading import Reading, angle, judge


def top_size(paper: Paper) -> tuple[Check, ...]:
    """Side lengths and corners of the seam polygon against the project's."""
    readings = []
    for i, asked in enumerate(asked_sides(paper.kit.project)):
        length = distance(*edges(paper.seam)[i])
        readings.append(paper.measure.length(paper.sides[i], asked.length, length))
        corner = corner_angle(paper.seam, i)
        readings.append(angle(paper.corners[i], asked.corner, corner))
    return judge("top-size", "The top has the sides and corners asked for, seam to seam.", readings)


def top_over_patches(paper: Paper) -> tuple[Check, ...]:
    """Corner by corner, the top's seam polygon against its patchwork's outline."""
    patchwork = as_sewn(paper.kit)
    return judge(
        "top-over-patches",
        "Each corner of the top lies over that of its patches, stretched where it was measured.",
        [
            paper.measure.apart(at, distance(p, q))
            for at, p, q in zip(paper.corners, paper.seam, patchwork, strict=True)
        ],
    )


def top_allowance(paper: Paper) -> tuple[Check, ...]:
    """The raw edge against the seam."""
    amounts = [paper.allowance] * len(paper.sides)
    return judge(
        "top-allowance",
        "The top's raw edge lies the seam allowance outside its seam, all round.",
        all_round(paper, paper.seam, paper.top.outline, amounts),
    )


def basting_line(paper: Paper) -> tuple[Check, ...]:
    """The basting line against the seam; it is asked for from the raw edge."""
    basting = float(paper.kit.project.basting)
    amounts = [paper.allowance - basting] * len(paper.sides)
    ring = paper.top.all(MarkKind.BASTE)[0].points
    return judge(
        "basting-line",
        "The basting line runs inside the seam allowance, the asked distance from the raw edge.",
        all_round(paper, paper.seam, ring, amounts),
    )


def all_round(
    paper: Paper, inner: Ring, outer: Ring, amounts: Sequence[float]
) -> Iterator[Reading]:
    """How far a ring lies outside a convex one on each side, and whether it does all along."""
    for side, line, amount in zip(paper.sides, edges(inner), amounts, strict=True):
        found = max(beside(p, line) for p in outer)
        yield paper.measure.length(side, amount, found)
    expected = around(edges(inner), amounts)
    yield paper.measure.apart("", apart(Polygon(outer), expected))
