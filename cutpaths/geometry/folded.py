"""The folded-over construction: layers wrong sides together, the backing's edge folded twice.

Front view, mm. The backing reaches two borders beyond the top's raw edge on every side. Each edge
is folded once to the top's raw edge and once more onto the top, so the border lies on the outer
patches and the finished size is the top's raw size. Each corner is first folded over the top's
corner along (b2, -b1), where b1 is the border on the edge along x and b2 on the edge along y, the
corner at the origin; the tip is trimmed parallel to that fold, t beyond it. (Own derivation; at 45
degrees with equal borders common practice, no source.)
"""

from __future__ import annotations

from cutpaths.errors import Finding, InputError
from cutpaths.geometry.blanket import Blanket, Corner, Layers, corner_type
from cutpaths.geometry.marks import Mark, MarkKind, Mate, corner_name, letter
from cutpaths.geometry.polygons import (
    Ring,
    along,
    corner_angle,
    directions,
    distance,
    edges,
    meet,
    middle,
    offset,
    right_of,
    sub,
    unit,
)
from cutpaths.geometry.reach import reach_to_edge
from cutpaths.geometry.turned import BACKING, TOP
from cutpaths.shapes import Point


def lay_out(layers: Layers) -> Blanket:
    """Lays the top on the backing and finds every mark of both; corners are right angles."""
    sides = len(layers.seam)
    top = offset(layers.seam, [layers.allowance] * sides)
    backing = offset(top, [2 * border for border in layers.borders])
    _check_fit(layers, top)
    corners = tuple(_corner(layers, top, backing, i) for i in range(sides))
    trimmed = tuple(point for corner in corners for point in corner.outline)
    return Blanket(
        seam=layers.seam,
        top=top,
        finished=top,
        backing=trimmed if layers.corners_trimmed else backing,
        corners=corners,
        top_marks=_top_marks(layers, top),
        backing_marks=_backing_marks(layers, top, corners),
    )


def _check_fit(layers: Layers, top: Ring) -> None:
    """Refuses sides so short that the corner folds at their two ends cross."""
    findings = []
    for i, (start, end) in enumerate(edges(top)):
        wide = layers.borders[i - 1] + layers.borders[(i + 1) % len(top)]
        if distance(start, end) < 2 * wide:
            problem = f"must leave side {letter(i)} longer than its two corner folds"
            hint = "Make the borders at its two ends narrower"
            findings.append(Finding(key="border.width", problem=problem, hint=hint))
    if findings:
        raise InputError(*findings)


def _away(layers: Layers, i: int) -> tuple[Point, Point, float, float]:
    """At corner i: the ways away from it along the sides before and after, and their borders."""
    ways = directions(layers.seam)
    back = -ways[i - 1][0], -ways[i - 1][1]
    return back, ways[i], layers.borders[i - 1], layers.borders[i]


def _corner(layers: Layers, top: Ring, backing: Ring, i: int) -> Corner:
    """One corner; its waste is the tip beyond the tip trim."""
    angle = corner_angle(layers.seam, i)
    fold = _corner_fold(layers, top, i)
    tip = _tip_trim(backing[i], fold, layers.trim)
    return Corner(
        at=corner_name(i, len(layers.seam)),
        kind=corner_type(angle, equal=layers.equal_corners[i]),
        angle=angle,
        miter=fold,
        fold_point=top[i],
        fold_end=backing[i],
        backing_point=backing[i],
        trim=tip,
        outline=tip,
        waste=(tip[0], backing[i], tip[1]),
    )


def _corner_fold(layers: Layers, top: Ring, i: int) -> tuple[Point, Point]:
    """The corner fold from raw edge to raw edge, through the top's corner."""
    back, on, before, after = _away(layers, i)
    # Twice the border to each raw edge: two steps of (b2, -b1) to one side and to the other.
    first = along(along(top[i], back, 2 * after), on, -2 * before)
    last = along(along(top[i], back, -2 * after), on, 2 * before)
    return first, last


def _tip_trim(corner: Point, fold: tuple[Point, Point], trim: float) -> tuple[Point, Point]:
    """The line parallel to the corner fold, `trim` nearer to the backing's corner."""
    legs = [((end[0] - corner[0]), (end[1] - corner[1])) for end in fold]
    first, last = (unit(leg) for leg in legs)
    lengths = [(leg[0] ** 2 + leg[1] ** 2) ** 0.5 for leg in legs]
    height = lengths[0] * lengths[1] / (lengths[0] ** 2 + lengths[1] ** 2) ** 0.5
    part = 1 - trim / height
    return along(corner, first, lengths[0] * part), along(corner, last, lengths[1] * part)


def _top_marks(layers: Layers, top: Ring) -> tuple[Mark, ...]:
    """The top carries only its centers, at the raw edge: no seam runs along it."""
    return tuple(
        _center(layers, i, middle(*edge), 0.0, BACKING) for i, edge in enumerate(edges(top))
    )


def _center(layers: Layers, i: int, place: Point, reach: float, other: str) -> Mark:
    """A center mark; `reach` is how far the raw edge lies outside it."""
    outward = right_of(directions(layers.seam)[i])
    at = letter(i)
    mate = Mate(other, MarkKind.CENTER, at)
    return Mark(MarkKind.CENTER, at, (place, along(place, outward, reach)), (mate,))


def _backing_marks(layers: Layers, top: Ring, corners: tuple[Corner, ...]) -> tuple[Mark, ...]:
    """Folds of sides and corners, tip trims and centers."""
    marks = []
    sides = len(top)
    first_fold = offset(top, layers.borders)
    for i, (start, end) in enumerate(edges(top)):
        at = letter(i)
        ends = corners[i], corners[(i + 1) % sides]
        marks.append(Mark(MarkKind.FIRST_FOLD, at, _on_cloth(layers, edges(first_fold)[i], ends)))
        marks.append(Mark(MarkKind.SECOND_FOLD, at, (start, end)))
        marks.append(_backing_center(layers, i, middle(start, end), ends))
        name = corner_name(i, sides)
        marks.append(Mark(MarkKind.CORNER_FOLD, name, _corner_fold(layers, top, i)))
        if not layers.corners_trimmed:
            marks.append(Mark(MarkKind.TIP_TRIM, name, corners[i].trim))
    return tuple(marks)


def _backing_center(layers: Layers, i: int, place: Point, ends: tuple[Corner, Corner]) -> Mark:
    """A center mark that ends at the raw edge, or at a tip trim that is cut beforehand."""
    outward = right_of(directions(layers.seam)[i])
    trims = [corner.trim for corner in ends] if layers.corners_trimmed else []
    reach = reach_to_edge(place, outward, 2 * layers.borders[i], trims)
    return _center(layers, i, place, reach, TOP)


def _on_cloth(
    layers: Layers, fold: tuple[Point, Point], corners: tuple[Corner, Corner]
) -> tuple[Point, Point]:
    """A first fold between the tip trims at its ends, where those are cut beforehand."""
    if not layers.corners_trimmed:
        return fold
    way = sub(fold[1], fold[0])
    start, end = (meet(fold[0], way, c.trim[0], sub(c.trim[1], c.trim[0])) for c in corners)
    return start, end
