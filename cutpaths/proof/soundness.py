"""Whether pieces and marks are whole: nothing degenerate, nothing missing, every mark mated.

Judged on each piece in its own frame, before anything is laid on paper.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise

import numpy as np
import shapely
from shapely import LinearRing, Polygon

from cutpaths.geometry.assembly import Piece, PieceKind
from cutpaths.geometry.marks import CLOSED_KINDS, Mark, MarkKind, Mate, select
from cutpaths.geometry.polygons import distance
from cutpaths.pieces import Kit
from cutpaths.proof.check import Check
from cutpaths.proof.reading import Fault, faultless
from cutpaths.proof.tolerances import PLACE_MM, RIGID
from cutpaths.proof.wanted import Wanted
from cutpaths.shapes import Circle, Path, Point

# Where no seam runs along the top's edge the center lies on the raw edge itself.
_MAY_BE_A_PLACE = (MarkKind.CENTER,)
_PLACES = (MarkKind.DOT, MarkKind.CENTER)
_MATED = (MarkKind.DOT, MarkKind.CENTER, MarkKind.QUARTER, MarkKind.PATCH_SEAM)


def every_piece(kit: Kit) -> tuple[Piece, ...]:
    """Each piece of a kit once."""
    patches = kit.patchwork.pieces() if kit.pieced else ()
    cards = tuple(template.piece for template in kit.templates)
    panels = () if kit.panels is None else kit.panels.pieces()
    filling = () if kit.filling is None else (kit.filling,)
    return (kit.top, kit.backing, *filling, *panels, *patches, *cards, *kit.waste)


def _paired(kit: Kit) -> tuple[Piece, ...]:
    """The squares that are sewn in pairs before they are cut."""
    return tuple(square for pair in kit.pairs for square in (pair.marked, pair.plain))


def shapes_sound(kit: Kit) -> tuple[Check, ...]:
    """Whether every shape can be measured at all."""
    return faultless(
        "shapes-sound",
        "Outlines run counter-clockwise without crossing themselves, "
        "every line has a length and every coordinate is a number.",
        [fault for piece in (*every_piece(kit), *_paired(kit)) for fault in _shape_faults(piece)],
    )


def marks_whole(kit: Kit, wanted: Sequence[Wanted]) -> tuple[Check, ...]:
    """Whether the marks are there that the construction needs."""
    return (
        *faultless(
            "marks-complete",
            "Top and backing carry the marks that their construction needs, and no others.",
            [*_mark_faults(kit, wanted), *_unsewn_patches(kit)],
        ),
        *faultless(
            "marks-mated",
            "Every mark that meets a mark of the other piece names it and is named by it.",
            [*_mate_faults(kit.top, kit.backing), *_mate_faults(kit.backing, kit.top)],
        ),
    )


def _shape_faults(piece: Piece) -> Iterator[Fault]:
    """What is degenerate about one piece."""
    numbers = [piece.outline, *(_points(hole) for hole in piece.holes)]
    numbers += [mark.points for mark in piece.marks]
    if not all(math.isfinite(x) for points in numbers for p in points for x in p):
        yield Fault(piece.key, "a coordinate is no number")
        return
    for problem in _ring_problems(piece.outline):
        yield Fault(piece.key, f"the outline {problem}")
    for hole in piece.holes:
        yield from (Fault(piece.key, f"a cut-out {problem}") for problem in _hole_problems(hole))
    for mark in piece.marks:
        yield from (Fault(_where(piece, mark), problem) for problem in _mark_problems(mark))
    yield from _place_faults(piece)


def _points(shape: Path | Circle) -> tuple[Point, ...]:
    if isinstance(shape, Circle):
        return shape.center, (shape.radius, 0.0)
    return shape.points


def _ring_problems(ring: Sequence[Point]) -> Iterator[str]:
    if len(ring) < 3:
        yield "has fewer than three points"
        return
    if _stands_still([*ring, ring[0]]):
        yield "has a point twice"
        return
    if not Polygon(ring).is_valid:
        yield "crosses or touches itself"
    elif not LinearRing(ring).is_ccw:
        yield "runs clockwise"


def _hole_problems(hole: Path | Circle) -> Iterator[str]:
    if isinstance(hole, Circle):
        if hole.radius <= PLACE_MM:
            yield "has no size"
        return
    if not hole.closed:
        yield "is not closed"
    yield from (problem for problem in _ring_problems(hole.points) if problem != "runs clockwise")


def _mark_problems(mark: Mark) -> Iterator[str]:
    if mark.kind in CLOSED_KINDS:
        yield from (f"the {mark.kind} {problem}" for problem in _ring_problems(mark.points))
    elif len(mark.points) < (1 if mark.kind is MarkKind.DOT else 2):
        yield f"the {mark.kind} lacks a point"
    elif mark.kind not in _MAY_BE_A_PLACE and _stands_still(mark.points):
        yield f"the {mark.kind} has no length"


def _stands_still(points: Sequence[Point]) -> bool:
    return any(distance(p, q) <= PLACE_MM for p, q in pairwise(points))


def _place_faults(piece: Piece) -> Iterator[Fault]:
    """Whether a piece is set down, by rigid motions, as often as its kind is."""
    motions = np.array([(m.cos, m.sin, m.dx, m.dy) for m in piece.places]).reshape(-1, 4)
    if len(motions) < 1 or (piece.kind is not PieceKind.PATCH and len(motions) > 1):
        yield Fault(piece.key, f"it has {len(motions)} places")
    elif not np.isfinite(motions).all():
        yield Fault(piece.key, "a place is no number")
    elif (np.abs(np.hypot(motions[:, 0], motions[:, 1]) - 1) > RIGID).any():
        yield Fault(piece.key, "a place changes its size")


def _mark_faults(kit: Kit, wanted: Sequence[Wanted]) -> Iterator[Fault]:
    """Marks that are missing, there too often, or out of place in the construction."""
    found = {
        piece.key: Counter((mark.kind, mark.at) for mark in piece.marks)
        for piece in (kit.top, kit.backing)
    }
    for want in wanted:
        got = found[want.piece][want.kind, want.at]
        if got not in want.counts:
            place = f"{want.piece} {want.at}".strip()
            yield Fault(place, f"{got} of {want.kind}, not {_or(want.counts)}")
    for piece in (kit.top, kit.backing):
        yield from _crowded(piece)
    known = {(want.piece, want.kind, want.at) for want in wanted}
    judged = {want.kind for want in wanted}
    for key, marks in found.items():
        for kind, at in marks:
            if kind in judged and (key, kind, at) not in known:
                yield Fault(f"{key} {at}".strip(), f"a {kind} that has no place here")


def _unsewn_patches(kit: Kit) -> Iterator[Fault]:
    """Patches without a seam line of their own."""
    for piece in kit.patchwork.pieces() if kit.pieced else ():
        if len(select(piece.marks, MarkKind.SEAM_RING)) != 1:
            yield Fault(piece.key, "not one seam line round it")


def _or(counts: Iterable[int]) -> str:
    return " or ".join(str(n) for n in sorted(counts))


def _crowded(piece: Piece) -> Iterator[Fault]:
    """Dots and centers of one piece that lie on one another."""
    for kind in _PLACES:
        marks = [mark for mark in piece.marks if mark.kind is kind and mark.points]
        if len(marks) < 2:
            continue
        tree = shapely.STRtree(shapely.points([mark.points[0] for mark in marks]))
        pairs = tree.query(tree.geometries, predicate="dwithin", distance=PLACE_MM)
        for i, j in pairs.T:
            if i < j:
                yield Fault(_where(piece, marks[i]), f"two of {kind} at one place")


def _where(piece: Piece, mark: Mark) -> str:
    return f"{piece.key} {mark.at}".strip()


def _mate_faults(piece: Piece, other: Piece) -> Iterator[Fault]:
    """Mates of a piece's marks that are not there, or do not name them back."""
    there: dict[tuple[str, MarkKind, str], list[Mark]] = {}
    for mark in other.marks:
        there.setdefault((other.key, mark.kind, mark.at), []).append(mark)
    for mark in piece.marks:
        if mark.kind in _MATED and not mark.mates:
            yield Fault(_where(piece, mark), f"the {mark.kind} has no mate")
        for mate in mark.mates:
            found = there.get((mate.piece, mate.kind, mate.at), [])
            named_back = sum(
                each.mates.count(Mate(piece.key, mark.kind, mark.at)) for each in found
            )
            if named_back != 1:
                yield Fault(_where(piece, mark), f"the {mark.kind} and its mate miss one another")
