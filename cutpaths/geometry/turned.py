"""The turned construction: top and backing sewn right sides together, turned, and mitered.

Front view, mm. S is the seam polygon, F the finished outline (S offset outward by each border).
Reflecting edge i of S in edge i of F gives the line where the backing is stitched to the top; its
ends are the backing's dots. The backing's raw edge lies the allowance s outside that line.
"""

from __future__ import annotations

from cutpaths.errors import Finding, InputError
from cutpaths.geometry.blanket import Blanket, Corner, Layers
from cutpaths.geometry.marks import Mark, MarkKind, Mate, corner_name, letter
from cutpaths.geometry.miter import miter_corner
from cutpaths.geometry.opening import PlacedOpening
from cutpaths.geometry.polygons import (
    SAME_PLACE_MM,
    Ring,
    along,
    between,
    directions,
    distance,
    dot,
    edges,
    inside_by,
    keeps_directions,
    meet,
    middle,
    offset,
    right_of,
    sub,
    unit,
)
from cutpaths.geometry.reach import reach_to_edge
from cutpaths.lengths import INCH_MM
from cutpaths.shapes import Point
from cutpaths.values import Value

BACKING, TOP = "BACKING", "TOP"
# A long side is eased more evenly with quarter marks; common practice, no source.
QUARTERS_FROM_MM = 24 * INCH_MM
# A back-tack sign points this far into its seam.
TACK_MM = 6.0


def lay_out(layers: Layers) -> Blanket:
    """Lays the backing under the top and finds every mark of both.

    Raises:
        InputError: a border or corner cannot be made; names the side or corner.
    """
    seam, sides = layers.seam, len(layers.seam)
    finished = offset(seam, layers.borders)
    untrimmed = offset(seam, [2 * b + layers.allowance for b in layers.borders])
    _check_directions(layers, finished, untrimmed)
    corners = tuple(miter_corner(layers, finished, untrimmed, i) for i in range(sides))
    _check_fit(layers, untrimmed, corners)
    return Blanket(
        seam=seam,
        top=offset(seam, [layers.allowance] * sides),
        finished=finished,
        backing=_trimmed(corners) if layers.corners_trimmed else untrimmed,
        corners=corners,
        top_marks=_top_marks(layers),
        backing_marks=_backing_marks(layers, finished, corners),
    )


def _trimmed(corners: tuple[Corner, ...]) -> Ring:
    """The backing's outline with its corners cut off along the trim lines."""
    return tuple(point for corner in corners for point in corner.outline)


def _check_directions(layers: Layers, finished: Ring, backing: Ring) -> None:
    """Refuses borders so wide that an edge of the finished outline or the backing vanishes."""
    wrong = [
        letter(i)
        for ring in (finished, backing)
        for i, kept in enumerate(keeps_directions(ring, layers.seam))
        if not kept
    ]
    if wrong:
        raise InputError(
            *(_border_finding(f"side {side}", "vanishes") for side in sorted(set(wrong)))
        )


def _check_fit(layers: Layers, backing: Ring, corners: tuple[Corner, ...]) -> None:
    """Refuses corners whose dots, or the allowances beside them, fall off the backing."""
    findings = []
    ways = directions(layers.seam)
    for i, corner in enumerate(corners):
        needed = _needed(layers, corner, (ways[i - 1], ways[i]))
        if min(inside_by(p, backing) for p in needed) < -SAME_PLACE_MM:
            trouble = "has a dot, or the allowance beside it, off the backing"
            findings.append(_border_finding(f"corner {corner.at}", trouble))
    for i, way in enumerate(directions(backing)):
        low, high = corners[i].outline[-1], corners[(i + 1) % len(corners)].outline[0]
        if dot(sub(high, low), way) < SAME_PLACE_MM:
            findings.append(_border_finding(f"side {letter(i)}", "is shorter than its two miters"))
    if findings:
        raise InputError(*findings)


def _needed(layers: Layers, corner: Corner, ways: tuple[Point, Point]) -> tuple[Point, ...]:
    """Places that must lie on the backing: both dots, and the allowances beside them.

    Those are square to the miter and to the seams of both sides, which run along `ways`.

    A trim wider than the seam allowance ends at the dot's own raw edge, which takes nothing away.
    """
    room = min(layers.trim, layers.allowance)
    first, second = corner.miter
    into = right_of(unit(sub(corner.fold_point, first)))
    out = right_of(unit(sub(second, corner.fold_point)))
    miter = along(first, into, room), along(second, out, room)
    before, after = (right_of(way) for way in ways)
    seam = along(first, before, layers.allowance), along(second, after, layers.allowance)
    return first, second, *miter, *seam


def _border_finding(subject: str, trouble: str) -> Finding:
    return Finding(
        key="border.width",
        problem=f"must leave room for every miter, but {subject} {trouble}",
        hint="Make the wider border next to it narrower, or the borders more alike",
    )


def _top_marks(layers: Layers) -> tuple[Mark, ...]:
    """Everything that is marked on the top: its seam is S itself."""
    seam, sides = layers.seam, len(layers.seam)
    ring = offset(seam, [layers.allowance - layers.basting] * sides)
    marks = [Mark(MarkKind.BASTE, "", ring)]
    for i, (start, end) in enumerate(edges(seam)):
        name, far = corner_name(i, sides), corner_name(i + 1, sides)
        mates = (
            Mate(BACKING, MarkKind.DOT, f"{name}:{letter(i)}"),
            Mate(BACKING, MarkKind.DOT, f"{name}:{letter((i - 1) % sides)}"),
        )
        marks.append(Mark(MarkKind.DOT, name, (start,), mates))
        marks += _side_marks(layers, i, _SideSeam(start, end, (name, far), BACKING))
    return tuple(marks)


def _backing_marks(layers: Layers, finished: Ring, corners: tuple[Corner, ...]) -> tuple[Mark, ...]:
    """Everything that is marked on the backing."""
    sides = len(layers.seam)
    marks: list[Mark] = []
    for i in range(sides):
        here, far = corners[i], corners[(i + 1) % sides]
        trims = (here.trim, far.trim) if layers.corners_trimmed else ()
        seam = _SideSeam(here.miter[1], far.miter[0], (here.at, far.at), TOP, trims)
        marks += _side_marks(layers, i, seam)
        fold = finished[i], finished[(i + 1) % sides]
        marks.append(Mark(MarkKind.BORDER_FOLD, letter(i), fold))
        marks += _miter_marks(layers, here, i)
    return tuple(marks)


def _miter_marks(layers: Layers, corner: Corner, i: int) -> list[Mark]:
    """Dots, miter lines, crease and trim of the corner where side i starts."""
    before = letter((i - 1) % len(layers.seam))
    fold_point = corner.fold_point
    marks = []
    for side, place in zip((before, letter(i)), corner.miter, strict=True):
        at = f"{corner.at}:{side}"
        marks.append(Mark(MarkKind.DOT, at, (place,), (Mate(TOP, MarkKind.DOT, corner.at),)))
        marks.append(Mark(MarkKind.MITER_STITCH, at, (place, fold_point)))
        # The miter is back-tacked at its dot and at the fold point.
        for end, other in ((place, fold_point), (fold_point, place)):
            marks.append(Mark(MarkKind.BACK_TACK, at, _tack(end, other)))
    crease = fold_point, _crease_end(layers, corner)
    marks.append(Mark(MarkKind.MITER_FOLD, corner.at, crease))
    if corner.trim and not layers.corners_trimmed:
        marks.append(Mark(MarkKind.MITER_TRIM, corner.at, corner.trim))
    return marks


def _crease_end(layers: Layers, corner: Corner) -> Point:
    """Where the miter's crease leaves the cloth as it is cut: at the trim line once that is cut."""
    if not (layers.corners_trimmed and corner.trim):
        return corner.fold_end
    first, *bend, last = corner.trim
    if bend:
        return bend[0]
    crease = sub(corner.fold_end, corner.fold_point)
    return meet(corner.fold_point, crease, first, sub(last, first))


class _SideSeam(Value):
    """The seam of a side on one piece.

    Attributes:
        start, end: its dots.
        corners: names of the corners there.
        other: key of the piece that it is sewn to.
        trims: lines along which this piece's corners are cut off beforehand.
    """

    start: Point
    end: Point
    corners: tuple[str, str]
    other: str
    trims: tuple[Ring, ...] = ()


def _side_marks(layers: Layers, i: int, seam: _SideSeam) -> list[Mark]:
    """What both pieces carry along the seam of side i, from its first dot to its second."""
    at, start, end = letter(i), seam.start, seam.end
    marks = _stitching(layers.opening, i, start, end)
    way = unit(sub(end, start))
    for corner, ends in zip(seam.corners, ((start, end), (end, start)), strict=True):
        marks.append(Mark(MarkKind.BACK_TACK, f"{corner}:{at}", _tack(*ends)))
    length = distance(start, end)
    places = [(MarkKind.CENTER, at, middle(start, end))]
    if length > QUARTERS_FROM_MM + SAME_PLACE_MM:
        places += [(MarkKind.QUARTER, f"{at}:{n}", between(start, end, n / 4)) for n in (1, 3)]
    places += [
        (MarkKind.PATCH_SEAM, f"{at}:{n}", along(start, way, d))
        for n, d in enumerate(layers.edge_seams[i], 1)
    ]
    for kind, place_name, place in places:
        reach = reach_to_edge(place, right_of(way), layers.allowance, seam.trims)
        edge = along(place, right_of(way), reach)
        marks.append(Mark(kind, place_name, (place, edge), (Mate(seam.other, kind, place_name),)))
    return marks


def _tack(end: Point, other: Point) -> tuple[Point, Point]:
    """A back-tack sign from the end of a seam toward its other end, half way at most."""
    return end, along(end, unit(sub(other, end)), min(TACK_MM, distance(end, other) / 2))


def _stitching(opening: PlacedOpening | None, i: int, start: Point, end: Point) -> list[Mark]:
    """The stitching line of a side, with the opening left out of it."""
    at = letter(i)
    if opening is None or opening.side != i:
        return [Mark(MarkKind.STITCH, at, (start, end))]
    way = unit(sub(end, start))
    near, far = along(start, way, opening.start), along(start, way, opening.end)
    return [
        Mark(MarkKind.STITCH, at, (start, near)),
        Mark(MarkKind.STITCH, at, (far, end)),
        Mark(MarkKind.OPENING_FOLD, at, (near, far)),
        Mark(MarkKind.OPENING_END, f"{at}:1", _tack(near, start)),
        Mark(MarkKind.OPENING_END, f"{at}:2", _tack(far, end)),
    ]
