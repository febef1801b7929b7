"""The largest rectangle in a crooked top, against corners known by hand and another engine."""

from __future__ import annotations

import math
import random

import numpy as np
import pytest
from numpy.typing import NDArray
from scipy.optimize import minimize
from shapely import Polygon

from cutpaths.geometry.largest_rectangle import largest_rectangle
from cutpaths.geometry.polygons import Ring, corner_angle, directions, dot, edges, right_of

Floats = NDArray[np.float64]


def crooked(seed: int) -> Ring:
    """A level quadrilateral, each corner off a rectangle's by up to a twelfth of its short side."""
    rng = random.Random(seed)  # noqa: S311
    width = rng.uniform(200, 2000)
    height = width * rng.uniform(0.4, 2.5)
    most = min(width, height) / 12
    x1, x2, x3 = (x + rng.uniform(-most, most) for x in (width, width, 0.0))
    y2, y3 = (height + rng.uniform(-most, most) for _ in range(2))
    return (0.0, 0.0), (x1, 0.0), (x2, y2), (x3, y3)


def test_rectangle_is_its_own_largest() -> None:
    """Nothing comes off a true rectangle."""
    found = largest_rectangle(((0.0, 0.0), (300.0, 0.0), (300.0, 400.0), (0.0, 400.0)))
    assert found.size == (300.0, 400.0)
    assert found.comes_off == ((0.0, 0.0),) * 4


def test_trapezoid_loses_both_its_wedges() -> None:
    """A head 20 mm shorter than the foot, in the middle, costs 10 mm at both ends of the foot."""
    found = largest_rectangle(((0.0, 0.0), (300.0, 0.0), (290.0, 400.0), (10.0, 400.0)))
    assert found.size == pytest.approx((280.0, 400.0))
    assert [tuple(round(mm, 6) for mm in ends) for ends in found.comes_off] == [
        (0.0, 0.0),
        (10.0, 0.0),
        (0.0, 0.0),
        (0.0, 10.0),
    ]


def test_leaning_top_is_cut_along_its_longer_sides() -> None:
    """A lean of 12 mm over 400 is trimmed along the long sides: only wedges of 9 mm come off.

    The long sides are 400 * sqrt(1 + 0.03²) long and 300 / sqrt(1 + 0.03²) apart; between them a
    rectangle ends where the level foot and head allow, 300 * 0.03 / sqrt(1 + 0.03²) shorter.
    """
    found = largest_rectangle(((0.0, 0.0), (300.0, 0.0), (312.0, 400.0), (12.0, 400.0)))
    slant = math.sqrt(1 + 0.03**2)
    assert found.size[0] == pytest.approx(300.0 / slant)
    assert found.size[1] == pytest.approx(400.0 * slant - 9.0 / slant)
    level = (300.0 - 12.0) * 400.0
    assert found.size[0] * found.size[1] > level
    off = [round(mm, 6) for ends in found.comes_off for mm in ends]
    wedge = round(9.0 / slant, 6)
    assert off == [wedge, 0.0, 0.0, 0.0, wedge, 0.0, 0.0, 0.0]


@pytest.mark.parametrize("seed", range(40))
def test_what_is_left_is_a_rectangle_inside(seed: int) -> None:
    """Four right angles, nothing over the raw edge, and each cut as far off as it says."""
    ring = crooked(seed)
    found = largest_rectangle(ring)
    assert all(abs(corner_angle(found.ring, i) - 90.0) < 1e-9 for i in range(4))
    assert Polygon(ring).buffer(1e-6, join_style="mitre").covers(Polygon(found.ring))
    assert found.size[0] * found.size[1] == pytest.approx(Polygon(found.ring).area)
    assert min(min(ends) for ends in found.comes_off) > -1e-9


@pytest.mark.parametrize("seed", range(4))
def test_none_is_larger(seed: int) -> None:
    """scipy.optimize.minimize, from many starts, finds no rectangle inside that is larger."""
    ring = crooked(seed)
    sides = [
        (right_of(way), dot(right_of(way), start))
        for (start, _), way in zip(edges(ring), directions(ring), strict=True)
    ]
    x, y = (sum(p[axis] for p in ring) / 4 for axis in (0, 1))
    scale = ring[1][0]

    def corners(v: Floats) -> list[tuple[float, float]]:
        cos, sin = math.cos(v[4]), math.sin(v[4])
        halves = [(sx * v[2], sy * v[3]) for sx, sy in ((-1, -1), (1, -1), (1, 1), (-1, 1))]
        return [(v[0] + a * cos - b * sin, v[1] + a * sin + b * cos) for a, b in halves]

    def room(v: Floats) -> Floats:
        return np.array([d - dot(out, p) for out, d in sides for p in corners(v)]) / scale

    best = 0.0
    for turn in np.linspace(-0.15, 0.15, 7):
        start = [x, y, 0.35 * ring[1][0], 0.35 * ring[3][1], turn]
        run = minimize(
            lambda v: -v[2] * v[3] / scale**2,
            start,
            method="SLSQP",
            constraints=[{"type": "ineq", "fun": room}],
            options={"maxiter": 300, "ftol": 1e-13},
        )
        if room(run.x).min() > -1e-9:
            best = max(best, 4 * run.x[2] * run.x[3])
    width, height = largest_rectangle(ring).size
    assert best > 0.9 * width * height
    assert best <= width * height * (1 + 1e-6)


def test_what_is_no_rectangle_at_all_is_refused() -> None:
    """A kite on its tip is not trimmed as if it were level."""
    with pytest.raises(ValueError, match="must be nearly a level rectangle"):
        largest_rectangle(((0.0, 0.0), (100.0, 110.0), (0.0, 200.0), (-100.0, 110.0)))
