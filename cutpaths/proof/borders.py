"""The border as it is seen in front, and the backing it is folded from."""

from __future__ import annotations

from collections.abc import Iterator

import shapely
from shapely import Polygon

from cutpaths.geometry.marks import MarkKind
from cutpaths.geometry.polygons import Ring
from cutpaths.proof.check import Check
from cutpaths.proof.paper import Paper
from cutpaths.proof.patches import least_beside, tiling_readings
from cutpaths.proof.planes import apart, beside, joined, less, tiling
from cutpaths.proof.reading import Reading, judge
from cutpaths.proof.waste import beyond_trim, kept_and_waste, untrimmed


def border_width(paper: Paper) -> tuple[Check, ...]:
    """Crease to seam along every side, on the backing flat and on the top."""
    return judge(
        "border-width",
        "The border shows the asked width all along every side; on paper, "
        "which has no thickness, half the turn of cloth comes on top of it.",
        [reading for i in range(len(paper.sides)) for reading in _widths(paper, i)],
    )


def _widths(paper: Paper, i: int) -> Iterator[Reading]:
    """The border of one side where it starts and ends, before folding and after."""
    side, turn = paper.sides[i], float(paper.kit.project.turn_of_cloth / 2)
    crease = paper.backing.line(MarkKind.BORDER_FOLD, side)
    seam = paper.top_seam(side)
    widths = [beside(p, crease) for p in paper.seam_line(side)]
    widths += [-beside(p, crease) for p in seam]
    widths += [beside(p, seam) for p in crease]
    for found in widths:
        yield Reading(
            at=side,
            expected=paper.borders[i],
            found=found,
            slack=paper.measure.length(side, 0, 0).slack,
            text=lambda mm: with_turn(paper, mm, turn),
        )


def with_turn(paper: Paper, mm: float, turn: float) -> str:
    """A border on paper, as the border that shows and what the turn eats."""
    if not turn:
        return paper.measure.length_text(mm)
    shows, eaten = paper.measure.length_text(mm - turn), paper.measure.length_text(turn)
    return f"{shows} plus {eaten} for the turn of cloth"


def finished_ring(paper: Paper) -> Ring:
    """The finished outline: the corners where the borders are folded."""
    return tuple(paper.backing.line(MarkKind.BORDER_FOLD, side)[0] for side in paper.sides)


def front_covered(paper: Paper) -> tuple[Check, ...]:
    """The sewn top and the border parts folded over, laid on the finished outline."""
    outline = Polygon(finished_ring(paper))
    parts = [Polygon(paper.seam), *(_folded_border(paper, i) for i in range(len(paper.sides)))]
    laid = tiling(parts, outline)
    return judge(
        "front-covered",
        "The top and the borders folded round it cover the finished front exactly once.",
        tiling_readings(paper.measure, laid, outline, ""),
    )


def _folded_border(paper: Paper, i: int) -> Polygon:
    """The border of one side between its miters, folded over."""
    side, after = paper.sides[i], (i + 1) % len(paper.sides)
    start, end = paper.trimmed_along[i][1], paper.trimmed_along[after][0]
    return Polygon(paper.fold[side].point(p) for p in (*start, *end))


def backing_outline(paper: Paper) -> tuple[Check, ...]:
    """The backing's raw edges against the top's: two borders out, whatever is trimmed."""
    top = paper.raw_edges
    whole = kept_and_waste(paper)
    readings = []
    for i, side in enumerate(paper.sides):
        found = max(beside(p, top[i]) for p in shapely.get_coordinates(whole).tolist())
        readings.append(paper.measure.length(side, 2 * paper.borders[i], found))
    expected = untrimmed(paper)
    readings.append(paper.measure.apart("", apart(whole, expected)))
    if paper.trimmed:
        kept = less(expected, joined(beyond_trim(paper, i) for i in range(len(paper.corners))))
        readings.append(paper.measure.apart("", apart(Polygon(paper.backing.outline), kept)))
    return judge(
        "backing-outline",
        "The backing reaches two borders past the top's raw edge on every side, "
        "the turn of cloth once on top of them.",
        readings,
    )


def backing_allowance(paper: Paper) -> tuple[Check, ...]:
    """The raw edge against the stitching lines, and cloth all along beside them."""
    whole = kept_and_waste(paper)
    readings = []
    for side in paper.sides:
        line = paper.seam_line(side)
        reach = max(beside(p, line) for p in shapely.get_coordinates(whole).tolist())
        least = least_beside(line, paper.allowance, whole)
        readings.append(paper.measure.length(side, paper.allowance, reach))
        readings.append(paper.measure.length(side, paper.allowance, least))
    return judge(
        "backing-allowance",
        "The backing's raw edge lies the seam allowance outside its stitching, dot to dot.",
        readings,
    )
