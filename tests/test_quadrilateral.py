"""The true quadrilateral of taped lengths, against closed forms and another engine."""

from __future__ import annotations

import math
import random
from collections.abc import Mapping

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray
from scipy.optimize import least_squares

from cutpaths.geometry.equations import solution
from cutpaths.geometry.polygons import (
    Ring,
    corner_angle,
    distance,
    edges,
    middle,
    signed_area,
)
from cutpaths.geometry.quadrilateral import DIAGONALS, MIDDLES, SIDES, Span, fit, length, misfits

Floats = NDArray[np.float64]
SAME_MM = 1e-9


def tape(ring: Ring, *spans: Span) -> dict[Span, float]:
    """Lengths of a known quadrilateral, by its corners and the middles of its sides."""
    da, ab, bc, cd = ring
    foot, right, head, left = (middle(p, q) for p, q in edges(ring))
    ends = {
        Span.A: (da, ab),
        Span.B: (ab, bc),
        Span.C: (bc, cd),
        Span.D: (cd, da),
        Span.RISING: (da, bc),
        Span.FALLING: (ab, cd),
        Span.WIDTH: (left, right),
        Span.HEIGHT: (foot, head),
    }
    return {span: distance(*ends[span]) for span in spans or Span}


def crooked(seed: int) -> Ring:
    """A quadrilateral that lies level on its side A, each corner off a rectangle's by chance."""
    rng = random.Random(seed)  # noqa: S311
    width, height = rng.uniform(200, 2500), rng.uniform(200, 2500)
    most = min(width, height) / 12
    x1, x2, x3 = (x + rng.uniform(-most, most) for x in (width, width, 0.0))
    y2, y3 = (height + rng.uniform(-most, most) for _ in range(2))
    return (0.0, 0.0), (x1, 0.0), (x2, y2), (x3, y3)


def apart(first: Ring, second: Ring) -> float:
    """How far two rings are apart, corner by corner, in mm."""
    return max(distance(p, q) for p, q in zip(first, second, strict=True))


def test_rectangle_has_the_diagonal_of_pythagoras() -> None:
    """Sides 3, 4, 3, 4 with a diagonal of 5 are a rectangle, and so is the other diagonal 5."""
    sides = dict(zip(SIDES, (300.0, 400.0, 300.0, 400.0), strict=True))
    ring = fit({**sides, Span.RISING: 500.0})
    assert apart(ring, ((0.0, 0.0), (300.0, 0.0), (300.0, 400.0), (0.0, 400.0))) < SAME_MM
    assert length(ring, Span.FALLING) == pytest.approx(500.0, abs=SAME_MM)
    assert length(ring, Span.WIDTH) == pytest.approx(300.0, abs=SAME_MM)


@pytest.mark.parametrize("seed", range(20))
@pytest.mark.parametrize("diagonal", DIAGONALS)
def test_four_sides_and_a_diagonal_give_the_shape_back(seed: int, diagonal: Span) -> None:
    """What no more than settles the shape is met exactly, whichever diagonal was taped."""
    ring = crooked(seed)
    taped = tape(ring, *SIDES, diagonal)
    assert apart(fit(taped), ring) < SAME_MM
    assert max(map(abs, misfits(fit(taped), taped).values())) < SAME_MM


@pytest.mark.parametrize("seed", range(20))
def test_true_lengths_leave_no_misfit(seed: int) -> None:
    """All eight lengths of one shape agree, so the fit is that shape."""
    ring = crooked(seed)
    taped = tape(ring)
    assert apart(fit(taped), ring) < SAME_MM
    assert max(map(abs, misfits(fit(taped), taped).values())) < SAME_MM


@pytest.mark.parametrize("seed", range(20))
def test_area_is_bretschneiders(seed: int) -> None:
    """Area = sqrt((s-a)(s-b)(s-c)(s-d) - abcd cos²(half of two opposite corners)).

    Bretschneider's formula, 1842, as in any handbook of geometry (from memory).
    """
    taped = tape(crooked(seed), *SIDES, Span.FALLING)
    a, b, c, d = (taped[side] for side in SIDES)
    ring = fit(taped)
    half = math.radians(corner_angle(ring, 0) + corner_angle(ring, 2)) / 2
    s = (a + b + c + d) / 2
    square = (s - a) * (s - b) * (s - c) * (s - d) - a * b * c * d * math.cos(half) ** 2
    assert signed_area(ring) == pytest.approx(math.sqrt(square), rel=1e-12)


def test_area_of_a_trapezoid_in_a_circle_is_brahmaguptas() -> None:
    """With corners on a circle, area = sqrt((s-a)(s-b)(s-c)(s-d)) (Brahmagupta, from memory).

    Sides 14, 13, 4, 13 and both diagonals 15 lie on a circle by Ptolemy: 14 * 4 + 13 * 13 = 15².
    """
    sides = dict(zip(SIDES, (14.0, 13.0, 4.0, 13.0), strict=True))
    ring = fit({**sides, Span.RISING: 15.0, Span.FALLING: 15.0})
    s = 22.0
    brahmagupta = math.sqrt((s - 14) * (s - 13) * (s - 4) * (s - 13))
    assert brahmagupta == 108.0
    assert signed_area(ring) == pytest.approx(108.0, abs=1e-9)


@pytest.mark.parametrize("seed", range(20))
def test_lines_through_the_middle_follow_the_diagonals(seed: int) -> None:
    """The squares of both diagonals are twice those of both middles (bimedians; from memory)."""
    ring = crooked(seed)
    p, q = (length(ring, span) for span in DIAGONALS)
    m, n = (length(ring, span) for span in MIDDLES)
    assert p * p + q * q == pytest.approx(2 * (m * m + n * n), rel=1e-13)


# Each span by the coordinates that are free: x of AB, x and y of BC, x and y of CD.
_POINTS = {
    Span.A: {1: 1.0, 0: -1.0},
    Span.B: {2: 1.0, 1: -1.0},
    Span.C: {3: 1.0, 2: -1.0},
    Span.D: {0: 1.0, 3: -1.0},
    Span.RISING: {2: 1.0, 0: -1.0},
    Span.FALLING: {3: 1.0, 1: -1.0},
    Span.WIDTH: {1: 0.5, 2: 0.5, 0: -0.5, 3: -0.5},
    Span.HEIGHT: {2: 0.5, 3: 0.5, 0: -0.5, 1: -0.5},
}


def judged(taped: Mapping[Span, float]) -> Ring:
    """The least-squares quadrilateral by scipy; a middle counts twice.

    A sum of squares is flat at its least, so a minimiser finds the place to half its digits only:
    scipy then solves for a slope of zero, which is sharp.
    """
    spans = []
    for span in taped:
        rows = np.zeros((2, 8))
        for corner, part in _POINTS[span].items():
            rows[0, 2 * corner] = rows[1, 2 * corner + 1] = part
        spans.append(rows[:, [2, 4, 5, 6, 7]])
    weights = np.array([2.0 if span in MIDDLES else 1.0 for span in taped])
    read = np.array(list(taped.values()))

    def off(x: Floats) -> Floats:
        lengths = np.array([np.hypot(*(rows @ x)) for rows in spans], dtype=np.float64)
        found: Floats = (lengths - read) * weights
        return found

    def slopes(x: Floats) -> Floats:
        ways = np.array([(rows @ x) @ rows / np.hypot(*(rows @ x)) for rows in spans])
        found: Floats = ways * weights[:, None]
        return found

    width, height = taped[Span.A], taped[Span.B]
    near = least_squares(off, [width, width, height, 0.0, height], jac=slopes, method="lm")
    found = least_squares(
        lambda x: slopes(x).T @ off(x), near.x, method="lm", xtol=1e-15, ftol=1e-15, gtol=1e-15
    )
    x1, x2, y2, x3, y3 = (float(x) for x in found.x)
    return (0.0, 0.0), (x1, 0.0), (x2, y2), (x3, y3)


@pytest.mark.parametrize("seed", range(60))
def test_fit_is_that_of_another_engine(seed: int) -> None:
    """Where tapes disagree, scipy.optimize.least_squares finds the same corners to 1e-9 mm."""
    rng = random.Random(seed)  # noqa: S311
    spans = [*SIDES, rng.choice(DIAGONALS), *(s for s in Span if rng.random() < 0.6)]
    true = tape(crooked(seed), *dict.fromkeys(spans))
    taped = {span: mm * (1 + rng.uniform(-0.004, 0.004)) for span, mm in true.items()}
    assert apart(fit(taped), judged(taped)) < SAME_MM


def test_more_tape_tells_more() -> None:
    """Read to 1 mm, eight lengths find the corners of 200 tops better by a quarter than five."""
    rng = random.Random(11)  # noqa: S311
    eight = five = 0.0
    for seed in range(200):
        ring = crooked(seed)
        taped = {span: mm + rng.gauss(0.0, 1.0) for span, mm in tape(ring).items()}
        eight += apart(fit(taped), ring) ** 2
        five += apart(fit({span: taped[span] for span in (*SIDES, Span.RISING)}), ring) ** 2
    assert math.sqrt(eight / five) < 0.75


def test_middle_counts_for_more_than_the_edges() -> None:
    """Two edges of 804 mm and a middle of 800 mm between them settle at 801 1/3 mm.

    By the weights: edges count 1 each and the middle twice, squared 4: (2 * 804 + 4 * 800) / 6.
    """
    sides = dict(zip(SIDES, (804.0, 1000.0, 804.0, 1000.0), strict=True))
    settled = (2 * 804.0 + 4 * 800.0) / 6
    diagonal = math.hypot(settled, 1000.0)
    ring = fit({**sides, Span.RISING: diagonal, Span.FALLING: diagonal, Span.WIDTH: 800.0})
    assert length(ring, Span.WIDTH) == pytest.approx(settled, abs=SAME_MM)
    assert settled == pytest.approx(801 + 1 / 3)


@pytest.mark.parametrize("missing", [Span.A, Span.C, Span.RISING])
def test_too_little_is_refused(missing: Span) -> None:
    """Four sides and a diagonal are needed; the middle does not tell which way a top leans."""
    taped = tape(crooked(1), *SIDES, Span.RISING, *MIDDLES)
    del taped[missing]
    with pytest.raises(ValueError, match="must have four sides and a diagonal"):
        fit(taped)


@settings(max_examples=60, deadline=None)
@given(st.integers(0, 10**6))
def test_ring_lies_level_and_counter_clockwise(seed: int) -> None:
    """DA is the origin, side A runs along x, and the area is positive."""
    ring = fit(tape(crooked(seed), *SIDES, Span.RISING))
    assert ring[0] == (0.0, 0.0)
    assert ring[1][1] == 0.0
    assert ring[1][0] > 0
    assert signed_area(ring) > 0


def test_equations_are_solved() -> None:
    """Random systems of five are solved as numpy.linalg.solve does, to 1e-10."""
    rng = np.random.default_rng(3)
    for _ in range(30):
        rows, right = rng.normal(size=(5, 5)), rng.normal(size=5)
        found = solution(rows.tolist(), right.tolist())
        assert np.allclose(found, np.linalg.solve(rows, right), rtol=1e-9, atol=1e-10)


def test_equations_that_settle_nothing_are_refused() -> None:
    """A row that is there twice leaves an unknown free."""
    with pytest.raises(ZeroDivisionError):
        solution([[1.0, 2.0], [1.0, 2.0]], [3.0, 3.0])
