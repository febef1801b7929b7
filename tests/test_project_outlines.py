"""Outlines by points: what is an outline, which way round it runs, and its corners."""

from __future__ import annotations

from fractions import Fraction
from math import pi, tan

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from strategies import outlines

from cutpaths.project.outlines import (
    Point,
    corners,
    faults,
    is_rectangle,
    ring_of,
    shortest_inside,
    twice_area,
)

SQUARE = [(0, 0), (10, 0), (10, 10), (0, 10)]
STAR = [(0, 0), (10, 7), (-2, 7), (8, 0), (3, 11)]


def exactly(points: list[tuple[int, int]]) -> tuple[Point, ...]:
    """Points as exact lengths."""
    return tuple((Fraction(x), Fraction(y)) for x, y in points)


INWARDS = "must not turn inwards: the outline must be convex"
CROSSES = "must not cross or touch itself, side A meets side C"
SHARP = "must be a corner of 60 to 170 degrees, is one of"
MANY = [(i, i * i) for i in range(27)]
BOW = [(0, 0), (10, 10), (10, 0), (0, 10)]
TOUCHING = [(0, 0), (10, 0), (10, 10), (5, 0), (0, 10)]
SPIKE = [(0, 0), (10, 0), (5, 0), (5, 9)]


@pytest.mark.parametrize(
    ("points", "told"),
    [
        (SQUARE, []),
        (SQUARE[::-1], []),
        ([(0, 0), (5, 0), *SQUARE[1:]], []),
        (SQUARE[:2], [(None, "must be at least 3, got 2")]),
        (MANY, [(None, "must be at most 26, one for each letter, got 27")]),
        ([*SQUARE, (0, 0)], [(4, "must not be the same as point 1")]),
        ([(0, 0), (5, 5), (9, 9)], [(None, "must enclose an area, all lie on one line")]),
        ([(0, 0), (10, 0), (4, 4), (0, 10)], [(2, INWARDS)]),
        ([(0, 10), (4, 4), (10, 0), (0, 0)], [(1, INWARDS)]),
        (BOW, [(None, CROSSES)]),
        (STAR, [(None, CROSSES)]),
        (SPIKE, [(None, CROSSES)]),
        (TOUCHING, [(None, CROSSES)]),
        ([(0, 0), (10, 0), (0, 6)], [(1, f"{SHARP} 31.0"), (2, f"{SHARP} 59.0")]),
        ([(0, 0), (20, 0), (20, 20), (10, 21), (0, 20)], []),
        ([(0, 0), (40, 0), (40, 20), (20, 21), (0, 20)], [(3, f"{SHARP} 174.3")]),
    ],
)
def test_faults(points: list[tuple[int, int]], told: list[tuple[int | None, str]]) -> None:
    """Each fault is told with its point; clockwise and straight points are none."""
    assert [(index, problem) for index, problem, _ in faults(exactly(points))] == told


@settings(max_examples=300)
@given(st.lists(st.tuples(st.integers(-6, 6), st.integers(-6, 6)), min_size=3, max_size=8))
def test_outlines_agree_with_an_outside_library(points: list[tuple[int, int]]) -> None:
    """An outline without faults is simple and fills its convex hull, and none other does.

    Source: shapely (GEOS) judges validity and hull; whole coordinates make its answers exact.
    """
    found = [problem for _, problem, _ in faults(exactly(points))]
    polygon = shapely.Polygon(points)
    distinct = len(set(points)) == len(points)
    sound = distinct and polygon.is_valid and polygon.area == polygon.convex_hull.area > 0
    assert (not [each for each in found if "degrees" not in each]) == sound


@given(outlines())
def test_turning_round_keeps_the_outline(points: tuple[Point, ...]) -> None:
    """Written clockwise an outline is the same ring, side A the same side."""
    written = points[::-1]
    ring = ring_of(written)
    assert ring.turned
    assert twice_area(ring.points) == twice_area(points) > 0
    assert {ring.points[0], ring.points[1]} == {written[0], written[1]}
    count = len(points)
    for index, (side, *others) in enumerate(ring.sides):
        ends = {ring.points[index], ring.points[(index + 1) % count]}
        assert ends == {written[side], written[(side + 1) % count]}
        assert others == []


@given(outlines(), st.data())
def test_straight_points_are_left_out(points: tuple[Point, ...], data: st.DataObject) -> None:
    """A point put in the middle of a side changes nothing but the count of written sides."""
    at = data.draw(st.integers(0, len(points) - 1))
    here, after = points[at], points[(at + 1) % len(points)]
    middle = ((here[0] + after[0]) / 2, (here[1] + after[1]) / 2)
    ring = ring_of((*points[: at + 1], middle, *points[at + 1 :]))
    assert ring.points == points
    assert [len(sides) for sides in ring.sides] == [
        1 + (index == at) for index in range(len(points))
    ]
    assert sorted(side for sides in ring.sides for side in sides) == list(range(len(points) + 1))


@given(outlines())
def test_corners_sum_up(points: tuple[Point, ...]) -> None:
    """Inside angles of n corners sum to (n - 2) half turns (Euclid, Elements I.32, corollary)."""
    angles = corners(points)
    assert abs(sum(angles) - 180 * (len(points) - 2)) < 1e-9
    assert 59.999 <= min(angles) <= max(angles) <= 170.001


def test_right_angles_are_exact() -> None:
    """A turned rectangle is one, and a thousandth beside it is none."""
    turned = exactly([(0, 0), (8, 6), (2, 14), (-6, 8)])
    assert is_rectangle(turned)
    assert not is_rectangle((*turned[:3], (Fraction(-6), Fraction(8001, 1000))))


def test_what_a_seam_leaves() -> None:
    """Drawn 1 further in a 10 square keeps 8, and a hexagon loses 2 / tan 60 a side (geometry)."""
    assert abs(shortest_inside(exactly(SQUARE), Fraction(1)) - 8) < 1e-12
    half = Fraction(8660254037844386, 10**16)
    hexagon = [(Fraction(x), y * half) for x, y in [(2, 0), (6, 0), (8, 4), (6, 8), (2, 8), (0, 4)]]
    assert abs(shortest_inside(hexagon, Fraction(1)) - (4 - 2 / tan(pi / 3))) < 1e-12
