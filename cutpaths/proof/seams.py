"""The seams that join top and backing: lengths, dots, matching marks, and the signs along them."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

import numpy as np
from shapely import LinearRing
from shapely import Point as Place

from cutpaths.geometry.marks import Mark, MarkKind
from cutpaths.geometry.polygons import between, distance
from cutpaths.project.measured import Remedy
from cutpaths.proof.check import Check
from cutpaths.proof.paper import Laid, Paper, side_of
from cutpaths.proof.patches import Patches
from cutpaths.proof.planes import Line, ahead, beside, off_segment
from cutpaths.proof.reading import Reading, count, judge
from cutpaths.proof.tolerances import PLACE_MM

_MATCHING = (MarkKind.CENTER, MarkKind.QUARTER, MarkKind.PATCH_SEAM)


def seams_equal(paper: Paper) -> tuple[Check, ...]:
    """Each seam of the backing against the top's, dot to dot."""
    return judge(
        "seams-equal",
        "Each seam of the backing is as long as that of the top, dot to dot.",
        [
            paper.measure.length(
                side, distance(*paper.top_seam(side)), distance(*paper.seam_line(side))
            )
            for side in paper.sides
        ],
    )


def dots_meet(paper: Paper) -> tuple[Check, ...]:
    """Both dots of the backing at each corner, folded over, against the top's dot."""
    readings = []
    for i, at in enumerate(paper.corners):
        for side in paper.around_corner(i):
            folded = paper.fold[side].point(paper.backing.point(MarkKind.DOT, f"{at}:{side}"))
            readings.append(paper.measure.apart(at, distance(folded, paper.seam[i])))
    return judge(
        "dots-meet",
        "With the border folded over, both dots of the backing at a corner lie on the top's dot.",
        readings,
    )


def matches_meet(paper: Paper) -> tuple[Check, ...]:
    """Centers, quarter marks and seam ticks of both pieces, the border folded over."""
    return judge(
        "matches-meet",
        "Centers, quarter marks and patch seam ticks of the backing meet those of the top.",
        list(_mated(paper)),
    )


def _mated(paper: Paper) -> Iterator[Reading]:
    for mark in paper.top.of_kind(*_MATCHING):
        for mate in mark.mates:
            there = paper.backing.point(mate.kind, mate.at)
            folded = paper.fold[side_of(mate.at)].point(there)
            yield paper.measure.apart(mark.at, distance(folded, mark.points[0]))


def stitching_whole(paper: Paper) -> tuple[Check, ...]:
    """The stitching lines and the opening between them, end to end from dot to dot."""
    readings = []
    for side in paper.sides:
        for piece, line in both(paper, side):
            gap = _chain_gap(piece, side, line)
            readings.append(paper.measure.apart(side, gap))
    return judge(
        "stitching-whole",
        "The stitching of each side runs from dot to dot and leaves out the opening alone.",
        readings,
    )


def both(paper: Paper, side: str) -> tuple[tuple[Laid, Line], tuple[Laid, Line]]:
    """Top and backing, each with its seam on a side from dot to dot."""
    return (paper.top, paper.top_seam(side)), (paper.backing, paper.seam_line(side))


def _chain_gap(piece: Laid, side: str, line: Line) -> float:
    """The worst gap between the parts of a seam laid end to end, or beside the seam."""
    kinds = MarkKind.STITCH, MarkKind.OPENING_FOLD
    parts = [mark.points for kind in kinds for mark in piece.all(kind, side)]
    parts.sort(key=lambda part: ahead(part[0], line))
    ends = [line[0], *(p for part in parts for p in part), line[1]]
    gaps = [distance(p, q) for p, q in list(pairwise(ends))[::2]]
    return max(*gaps, *(abs(beside(p, line)) for p in ends))


def centers_in_middle(paper: Paper) -> tuple[Check, ...]:
    """Centers and quarter marks against the middle and the quarters of their seams."""
    readings = []
    for side in paper.sides:
        for piece, line in both(paper, side):
            for kind, at, part in (
                (MarkKind.CENTER, side, 0.5),
                (MarkKind.QUARTER, f"{side}:1", 0.25),
                (MarkKind.QUARTER, f"{side}:3", 0.75),
            ):
                for mark in piece.all(kind, at):
                    gap = distance(mark.points[0], between(*line, part))
                    readings.append(paper.measure.apart(at, gap))
    return judge(
        "centers-in-middle",
        "Each center halves its seam from dot to dot, and quarter marks halve the halves.",
        readings,
    )


def ticks_at_seams(paper: Paper, patches: Patches | None) -> tuple[Check, ...]:
    """The top's ticks against the places where patches meet on its edge."""
    readings = []
    for i, side in enumerate(paper.sides):
        line = paper.top_seam(side)
        marks = paper.top.of_kind(MarkKind.PATCH_SEAM)
        found = sorted(ahead(m.points[0], line) for m in marks if side_of(m.at) == side)
        expected = [] if patches is None or _trimmed(paper) else _seams_on(paper, patches, i)
        readings.append(count(side, len(expected), len(found), "tick"))
        readings += [
            paper.measure.length(side, e, f) for e, f in zip(expected, found, strict=False)
        ]
    return judge(
        "ticks-at-seams",
        "The top has a tick wherever two patches meet at its edge, and nowhere else.",
        readings,
    )


def _trimmed(paper: Paper) -> bool:
    """Whether the top is cut down once it is sewn, so that no tick can tell where its seams are."""
    measured = paper.kit.project.measured
    return measured is not None and measured.remedy is Remedy.TRIM_TOP


def _seams_on(paper: Paper, patches: Patches, i: int) -> list[float]:
    """Where corners of patches lie on side i, from its start; on a measured top their shares."""
    ring = paper.kit.patchwork.outline
    start, end = np.array(ring[i]), np.array(ring[(i + 1) % len(ring)])
    length = float(np.hypot(*(end - start)))
    way = (end - start) / length
    from_start = patches.corners - start
    t = from_start @ way
    beside_it = np.abs(from_start @ np.array([way[1], -way[0]])) <= PLACE_MM
    on_side = np.sort(t[beside_it & (t > PLACE_MM) & (t < length - PLACE_MM)])
    first_of_each = np.diff(on_side, prepend=-np.inf) > 2 * PLACE_MM
    share = distance(*paper.top_seam(paper.sides[i])) / length
    return [float(d) * share for d in on_side[first_of_each]]


def signs_on_seams(paper: Paper) -> tuple[Check, ...]:
    """Marks that reach the raw edge, and back-tack signs, against the seams that they are on."""
    readings = [
        *(r for side in paper.sides for r in _reaching(paper, side)),
        *(r for side in paper.sides for r in _tacks(paper, side)),
    ]
    return judge(
        "signs-on-seams",
        "Match marks run square from the seam to the raw edge; "
        "back-tack signs stand at the ends of the seams and point into the sewn part.",
        readings,
    )


def _reaching(paper: Paper, side: str) -> Iterator[Reading]:
    """Match marks: on the seam, at the raw edge, and square to it."""
    for piece, line in both(paper, side):
        edge = LinearRing(piece.outline)
        for mark in piece.of_kind(*_MATCHING):
            if side_of(mark.at) == side:
                seam_end, raw_end = mark.points[:2]
                slant = abs(ahead(raw_end, line) - ahead(seam_end, line))
                off = max(abs(beside(seam_end, line)), slant, edge.distance(Place(raw_end)))
                yield paper.measure.apart(mark.at, off)


def _tacks(paper: Paper, side: str) -> Iterator[Reading]:
    """Back-tack signs at the ends of a seam, of its opening, and of both miter halves there."""
    i = paper.sides.index(side)
    for n, corner in enumerate((i, (i + 1) % len(paper.corners))):
        at = f"{paper.corners[corner]}:{side}"
        lines = [_from_end(line, n) for _, line in both(paper, side)]
        yield _tack(paper, at, paper.top.all(MarkKind.BACK_TACK, at), lines[:1])
        half = _half(paper, at)
        wanted = [lines[1], half, (half[1], half[0])]
        yield _tack(paper, at, paper.backing.all(MarkKind.BACK_TACK, at), wanted)
    for piece, line in both(paper, side):
        for opening in piece.all(MarkKind.OPENING_FOLD, side):
            for n, (end, dot) in enumerate(zip(opening.points, line, strict=True), 1):
                at = f"{side}:{n}"
                yield _tack(paper, at, piece.all(MarkKind.OPENING_END, at), [(end, dot)])


def _half(paper: Paper, at: str) -> Line:
    """Half of a miter, from its dot to the fold point."""
    return paper.backing.line(MarkKind.MITER_STITCH, at)


def _from_end(line: Line, n: int) -> Line:
    """A line from its first end, or from its second."""
    return (line[1], line[0]) if n else line


def _tack(paper: Paper, at: str, signs: tuple[Mark, ...], wanted: list[Line]) -> Reading:
    """How far the signs at one place are off the starts and the lines that they must be on."""
    off = 0.0
    for line in wanted:
        fits = (
            max(distance(sign.points[0], line[0]), off_segment(sign.points[1], line))
            for sign in signs
        )
        off = max(off, min(fits))
    return paper.measure.apart(at, off)
