"""What the proof measures with: folds, half-planes, strips, tilings and distances."""

from __future__ import annotations

import math

import pytest
from shapely import Polygon, box

from cutpaths.proof.patches import least_beside
from cutpaths.proof.planes import (
    angle_between,
    apart,
    areal,
    around,
    beside,
    common,
    fold,
    is_nothing,
    joined,
    less,
    off_segment,
    outside,
    strip,
    tiling,
)
from cutpaths.shapes import Point

SQUARE = ((0.0, 0.0), (4.0, 0.0)), ((4.0, 0.0), (4.0, 4.0)), ((4.0, 4.0), (0.0, 4.0))
SIDES = (*SQUARE, ((0.0, 4.0), (0.0, 0.0)))


@pytest.mark.parametrize(
    ("line", "point", "image"),
    [
        (((0, 0), (1, 0)), (2, 3), (2, -3)),
        (((1, 0), (1, 5)), (3, 2), (-1, 2)),
        (((0, 0), (1, 1)), (3, 0), (0, 3)),
        (((0, 2), (2, 0)), (0, 0), (2, 2)),
    ],
)
def test_fold_is_the_mirror_image(line: tuple[Point, Point], point: Point, image: Point) -> None:
    """A fold carries a point to its mirror image and back."""
    over = fold(line)
    assert over.point(point) == pytest.approx(image, abs=1e-12)
    assert over.point(over.point(point)) == pytest.approx(point, abs=1e-12)
    assert over.mirrored


def test_beside_is_positive_to_the_right() -> None:
    """Outside a counter-clockwise outline is to the right of its sides."""
    assert beside((1, -2), ((0, 0), (4, 0))) == 2
    assert beside((1, 2), ((0, 0), (4, 0))) == -2


def test_off_segment_counts_past_its_ends() -> None:
    """Past an end of a line the distance is that to the end."""
    assert off_segment((7, 4), ((0, 0), (4, 0))) == 5
    assert off_segment((2, 4), ((0, 0), (4, 0))) == 4
    assert off_segment((3, 4), ((0, 0), (0, 0))) == 5


def test_angle_between_ways() -> None:
    """The angle has no sense: 0 to 180 degrees."""
    assert angle_between((1, 0), (0, -2)) == 90
    assert angle_between((1, 0), (-1, 0)) == 180


def test_around_moves_each_side_by_its_own_amount() -> None:
    """A square of 4 with sides moved out by 1, 2, 3 and in by 1 is 5 by 8."""
    found = around(SIDES, (1, 2, 3, -1))
    assert found.bounds == (1, -1, 6, 7)
    assert found.area == 40


def test_outside_starts_at_its_amount() -> None:
    """The half-plane right of a line, from an amount on."""
    area = common(outside(SIDES[1], 2, 100), box(0, 0, 10, 10))
    assert area.bounds == (6, 0, 10, 10)


def test_strip_is_square_at_its_ends() -> None:
    """A strip lies to the right of its line."""
    assert strip(SIDES[0], 2).bounds == (0, -2, 4, 0)


def test_joined_loses_no_part() -> None:
    """Four borders round a square whose corners miss it by 1e-16 mm still cover all.

    Without a grid GEOS 3.14 leaves one of them out.
    """
    lost = -6.488151804023746e-16
    low, high, seam = -11.43, 489.2675, 477.8375
    foot = Polygon([(low, low), (lost, 0), (seam, 0), (high, low)])
    left = Polygon([(low, high), (0, seam), (0, -lost), (low, low)])
    right = Polygon([(high, low), (seam, 0), (seam, seam), (high, high)])
    head = Polygon([(high, high), (seam, seam), (0, seam), (low, high)])
    parts = [box(0, 0, seam, seam), foot, left, right, head]
    assert joined(parts).area == pytest.approx((high - low) ** 2, rel=1e-9)


def test_slivers_are_nothing() -> None:
    """What is thinner than the slack is no area; lines and points are none either."""
    assert is_nothing(box(0, 0, 100, 1e-8))
    assert not is_nothing(box(0, 0, 100, 1e-4))
    assert common(box(0, 0, 1, 1), box(1, 0, 2, 1)).is_empty
    assert areal(box(0, 0, 1, 1)).area == 1


def test_apart_is_the_worst_distance() -> None:
    """Two squares of which one is 0.5 longer are 0.5 apart; slits of no width do not count."""
    assert apart(box(0, 0, 4, 4), box(0, 0, 4.5, 4)) == pytest.approx(0.5, abs=1e-9)
    slit = less(box(0, 0, 4, 4), box(1, 0, 1 + 1e-8, 2))
    assert apart(slit, box(0, 0, 4, 4)) < 1e-6
    assert apart(Polygon(), box(0, 0, 4, 4)) == math.inf
    assert apart(Polygon(), Polygon()) == 0


def test_tiling_tells_bare_double_and_over() -> None:
    """One square missing, two that overlap by 1, one that is half over the edge."""
    outline = box(0, 0, 4, 2)
    laid = tiling([box(0, 0, 2, 1), box(1, 0, 3, 1), box(3, 1, 5, 2)], outline)
    assert laid.laid == 6
    assert laid.double == 1
    assert laid.over.area == 1
    assert laid.bare.area == 4


@pytest.mark.parametrize(
    ("cut", "least"),
    [
        (box(-1, -1, 5, 5), 1.0),
        (box(-1, -0.5, 5, 5), 0.5),
        (Polygon([(-1, -1), (5, -1), (5, 5), (-1, 5)], [[(1, -0.8), (2, -0.8), (2, -0.3)]]), 0.3),
    ],
)
def test_least_beside(cut: Polygon, least: float) -> None:
    """The least cloth beside a line, up to what is asked; a hole counts."""
    assert least_beside(SIDES[0], 1.0, cut) == pytest.approx(least, abs=1e-6)
