"""What a mark may be off by anywhere in the picture, from how the readings determine the fit.

The covariance of the fit's numbers, and from it that of a place's position, with the picture as a
whole laid where it fits best: where the table's axes lie does not count, because cloth is lined up
in the picture and not on the table ("inner constraints" of surveyors' free networks; from memory).
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations

import numpy as np
from numpy.typing import NDArray

from cutpaths.projector.fit import PICTURE, Fit, Readings, places_of
from cutpaths.projector.rig import Rig
from cutpaths.shapes import Point

Array = NDArray[np.float64]

MAP_COLUMNS, MAP_ROWS = 9, 5
FREE = 1e-7  # singular values under this part of the largest leave the picture free to change
_FAINT = 1e-3  # what is known of each number beforehand, in units, where readings are too few


def determined(fitted: Fit) -> bool:
    """Whether the readings determine the picture."""
    return not _free(fitted.slope)


def standard_errors(fitted: Fit) -> Array:
    """What each rest is divided by to be judged: the part of a reading's error that shows in it.

    A reading that no other checks has nought here.
    """
    inner = np.linalg.pinv(fitted.slope.T @ fitted.slope, rcond=1e-12)
    pull = np.einsum("ni,ij,nj->n", fitted.slope, inner, fitted.slope)
    errors: Array = np.sqrt(np.clip(1.0 - pull, 0.0, None))
    return errors


def error_map(fitted: Fit, readings: Readings, spread: float) -> tuple[tuple[float, ...], ...]:
    """Expected error in mm at evenly spread places of the picture, rows from the upper edge.

    Args:
        fitted: the fit.
        readings: what it was made from.
        spread: standard deviation of a reading, in mm.
    """
    points = _grid(readings.corner)
    errors = _errors(fitted.numbers, _covariance(fitted.slope, 0.0), points, readings.corner)
    rows = (errors * spread).reshape(MAP_ROWS, MAP_COLUMNS)
    return tuple(tuple(float(mm) for mm in row) for row in rows)


def best_next(
    rig: Rig, readings: Readings, fitted: Fit, taken: Sequence[tuple[int, int]], count: int
) -> tuple[tuple[int, int], ...]:
    """The pairs of crosses whose distances would make the whole picture most certain, best first.

    Each is judged as if those before it had been measured.
    """
    numbers = fitted.numbers
    corner = readings.corner
    frame = _centred(numbers, _grid(corner), corner).reshape(-1, PICTURE)
    covariance = _covariance(fitted.slope, 0.0 if determined(fitted) else _FAINT)
    done = {tuple(sorted(pair)) for pair in taken}
    last = rig.columns * rig.rows
    every = [pair for pair in combinations(range(1, last + 1), 2) if pair not in done]
    slopes = {pair: _distance_slope(readings.crosses, numbers, pair) for pair in every}
    chosen: list[tuple[int, int]] = []
    while len(chosen) < count and len(chosen) < len(every):
        gains = {
            pair: _gain(frame, covariance, slope)
            for pair, slope in slopes.items()
            if pair not in chosen
        }
        best = max(gains, key=lambda pair: round(gains[pair], 12))
        covariance = _learned(covariance, slopes[best])
        chosen.append(best)
    return tuple(chosen)


def level(readings: Readings, pairs: Sequence[tuple[int, int]]) -> Fit:
    """A picture without keystone in which some distances are taken as measured."""
    numbers = np.array([1.0, 0.0, 1.0, 0.0, 0.0])
    slope = np.array([_distance_slope(readings.crosses, numbers, pair) for pair in pairs])
    return Fit(numbers=numbers, rest=np.zeros(len(pairs)), slope=slope)


def _free(slope: Array) -> bool:
    if len(slope) < slope.shape[1]:
        return True
    values = np.linalg.svd(slope, compute_uv=False)
    return bool(values[-1] <= FREE * values[0])


def _covariance(slope: Array, faint: float) -> Array:
    """Of the picture's five numbers for readings of standard deviation 1 unit."""
    square = slope.T @ slope + np.float64(faint) * np.eye(slope.shape[1])
    return np.asarray(np.linalg.inv(square)[:PICTURE, :PICTURE], dtype=np.float64)


def _errors(numbers: Array, covariance: Array, points: Array, corner: Point) -> Array:
    slopes = _centred(numbers, points, corner)
    variances = np.einsum("nij,jk,nik->n", slopes, covariance, slopes)
    errors: Array = np.sqrt(np.clip(variances, 0.0, None))
    return errors


def _centred(numbers: Array, points: Array, corner: Point) -> Array:
    """Change of each point with each number, less what a shift and a turn of the whole makes up."""
    frame, slope = places_of(_grid(corner), numbers)
    middle = frame.mean(axis=0)
    motions = _motions(frame - middle)
    flat = motions.reshape(-1, 3)
    follow = np.linalg.solve(flat.T @ flat, flat.T @ slope.reshape(-1, PICTURE))
    places, slopes = places_of(points, numbers)
    centred: Array = slopes - np.einsum("nij,jk->nik", _motions(places - middle), follow)
    return centred


def _motions(places: Array) -> Array:
    """How each place moves with a shift right, a shift up and a turn."""
    one, none = np.ones(len(places)), np.zeros(len(places))
    right = np.stack([one, none, -places[:, 1]], axis=1)
    up = np.stack([none, one, places[:, 0]], axis=1)
    return np.stack([right, up], axis=1)


def _grid(corner: Point) -> Array:
    """Evenly spread places from edge to edge of the picture, rows from the top."""
    xs = np.linspace(-corner[0], corner[0], MAP_COLUMNS)
    ys = np.linspace(corner[1], -corner[1], MAP_ROWS)
    return np.array([(x, y) for y in ys for x in xs])


def _distance_slope(crosses: Array, numbers: Array, pair: tuple[int, int]) -> Array:
    places, slopes = places_of(crosses[[pair[0] - 1, pair[1] - 1]], numbers)
    across = places[0] - places[1]
    slope: Array = across / np.hypot(*across) @ (slopes[0] - slopes[1])
    return slope


def _gain(frame: Array, covariance: Array, slope: Array) -> float:
    """How much less the variances of all places would be with one more distance."""
    seen = covariance @ slope
    less = frame @ seen
    return float(less @ less) / (1.0 + float(slope @ seen))


def _learned(covariance: Array, slope: Array) -> Array:
    seen = covariance @ slope
    learned: Array = covariance - np.outer(seen, seen) / (1.0 + float(slope @ seen))
    return learned
