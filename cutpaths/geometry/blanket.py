"""What a construction is given and what it returns; everything in the front view, mm."""

from __future__ import annotations

from enum import StrEnum

from cutpaths.geometry.marks import Mark
from cutpaths.geometry.opening import PlacedOpening
from cutpaths.geometry.polygons import Ring, corner_angle
from cutpaths.shapes import Point
from cutpaths.values import Value

# Angles computed from coordinates miss a right angle by some 1e-14 degrees.
RIGHT_ANGLE_SLACK_DEGREES = 1e-6


class Layers(Value, kw_only=True):
    """What top and backing are laid out from.

    Attributes:
        seam: the seam polygon S, the top's stitching line.
        allowance: seam allowance s.
        borders: the border on paper of each side, with half the turn of cloth in it.
        equal_corners: for each corner, whether both its borders are the same (exactly).
        trim: miter trim t.
        basting: distance of the basting line from the top's raw edge.
        edge_seams: for each side, where patch seams meet it, from the side's start along S.
        opening: where the turning opening is; None without one.
        corners_trimmed: whether the backing's corners are cut off before sewing.
        right_within: how far from 90 degrees a corner still counts as a right angle, in degrees.
    """

    seam: Ring
    allowance: float
    borders: tuple[float, ...]
    equal_corners: tuple[bool, ...]
    trim: float
    basting: float
    edge_seams: tuple[tuple[float, ...], ...]
    opening: PlacedOpening | None
    corners_trimmed: bool
    right_within: float = RIGHT_ANGLE_SLACK_DEGREES


class CornerType(StrEnum):
    """What the words about a corner follow."""

    RIGHT_EQUAL = "right angle, equal borders"
    RIGHT_UNEQUAL = "right angle, unequal borders"
    OTHER = "other angle"


class Corner(Value, kw_only=True):
    """One mitered corner of the backing; where two things are given, that of the side before first.

    Attributes:
        at: its name, such as `AB`.
        kind: its type.
        angle: interior angle in degrees.
        miter: the dots V' and V'' that meet when it is folded; folded over: the ends of the
            corner fold on the raw edges.
        fold_point: C, a corner of the finished outline, where both halves of the miter end.
        fold_end: where the miter's crease leaves the cloth; folded over: the backing's corner.
        backing_point: the backing's corner, before any trimming.
        trim: the trim line from raw edge to raw edge, bent on the crease where it bends; empty
            where its halves meet beyond the cloth: nothing is trimmed there.
        outline: the backing's outline at this corner once it is trimmed.
        waste: what is trimmed away, counter-clockwise; empty where nothing is.
    """

    at: str
    kind: CornerType
    angle: float
    miter: tuple[Point, Point]
    fold_point: Point
    fold_end: Point
    backing_point: Point
    trim: Ring
    outline: Ring
    waste: Ring


class Blanket(Value, kw_only=True):
    """Top and backing laid out on one another, with all their marks.

    Attributes:
        seam: the seam polygon S.
        top: the top's raw outline.
        finished: the finished outline F.
        backing: the backing's cut outline.
        corners: corner i is where side i starts.
        top_marks, backing_marks: in the front view; pieces turn them to how the cloth lies.
    """

    seam: Ring
    top: Ring
    finished: Ring
    backing: Ring
    corners: tuple[Corner, ...]
    top_marks: tuple[Mark, ...]
    backing_marks: tuple[Mark, ...]


def corner_type(
    angle: float, *, equal: bool, within: float = RIGHT_ANGLE_SLACK_DEGREES
) -> CornerType:
    """The type of a corner from its angle in degrees and whether its borders are equal."""
    if abs(angle - 90.0) > within:
        return CornerType.OTHER
    return CornerType.RIGHT_EQUAL if equal else CornerType.RIGHT_UNEQUAL


def sewing_order(seam: Ring) -> tuple[int, ...]:
    """The order in which sides are sewn: opposite sides first on a rectangle, else around.

    Common practice, no source.
    """
    angles = (corner_angle(seam, i) for i in range(len(seam)))
    rectangle = len(seam) == 4 and all(abs(a - 90.0) < RIGHT_ANGLE_SLACK_DEGREES for a in angles)
    return (0, 2, 1, 3) if rectangle else tuple(range(len(seam)))
