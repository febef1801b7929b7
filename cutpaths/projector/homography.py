"""The homography through pairs of points, by the normalised direct linear transform.

Both sets of points are first shifted and scaled to lie about the origin at a mean distance of
root 2 (R. Hartley, "In defense of the eight-point algorithm", IEEE PAMI 19(6), 1997; from memory),
without which large pixel numbers spoil the result.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations

import numpy as np
from numpy.typing import NDArray

from cutpaths.projector.view import Matrix, on_a_line
from cutpaths.shapes import Point

Array = NDArray[np.float64]

# Three points count as on one line when the third is off it by less than this part of their size.
LINE_SLACK = 0.01


def through(pairs: Sequence[tuple[Point, Point]]) -> Matrix:
    """The homography that takes the first point of each pair to the second, 1 as its last number.

    Exact through four pairs, by least squares of the algebraic error through more.

    Raises:
        ValueError: there are fewer than four pairs, or no four of which no three are on a line.
    """
    if len(pairs) < 4:
        raise ValueError(f"a homography needs four points, got {len(pairs)}")
    for side in (0, 1):
        if line := aligned([pair[side] for pair in pairs]):
            names = ", ".join(str(n + 1) for n in line)
            raise ValueError(f"no homography: points {names} are on one line")
    start, end = (_normaliser([pair[side] for pair in pairs]) for side in (0, 1))
    rows = []
    for p, q in pairs:
        x, y, _ = start @ (*p, 1.0)
        u, v, _ = end @ (*q, 1.0)
        rows += [
            [x, y, 1.0, 0.0, 0.0, 0.0, -u * x, -u * y, -u],
            [0.0, 0.0, 0.0, x, y, 1.0, -v * x, -v * y, -v],
        ]
    smallest = np.linalg.svd(np.array(rows))[2][-1].reshape(3, 3)
    found = np.linalg.inv(end) @ smallest @ start
    a, b, c, d, e, f, g, h, i = (float(v) for v in (found / found[2, 2]).flat)
    return a, b, c, d, e, f, g, h, i


def aligned(points: Sequence[Point]) -> tuple[int, int, int] | None:
    """Three points on a line that leave no four with no three of them on one; None if four do.

    Fewer than four points count as four apart when they are not on one line.
    """
    lines = {
        (i, j, k): on_a_line(points[i], points[j], points[k], LINE_SLACK)
        for i, j, k in combinations(range(len(points)), 3)
    }
    for four in combinations(range(len(points)), 4):
        if not any(lines[trio] for trio in combinations(four, 3)):
            return None
    return next((trio for trio, straight in lines.items() if straight), None)


def _normaliser(points: Sequence[Point]) -> Array:
    """Shifts points to their middle and scales their mean distance from it to root 2."""
    array = np.array(points, dtype=np.float64)
    x, y = array.mean(axis=0)
    scale = np.sqrt(2.0) / np.hypot(array[:, 0] - x, array[:, 1] - y).mean()
    return np.array([[scale, 0.0, -scale * x], [0.0, scale, -scale * y], [0.0, 0.0, 1.0]])
