"""The least-squares fit of a picture to tape readings, by Levenberg and Marquardt.

A picture on a table is known up to where the table's own axes lie, so five numbers say it:
a, b, e, g, h. With x right and y up about the middle of the picture, in half diagonals, a pixel
falls at ((ax + by) / (gx + hy + 1), ey / (gx + hy + 1)). Crosses read off a mat bring three more:
the mat's turn and shift. Lengths are in `unit` mm, the tape's mean length for a half diagonal, so
that all numbers are near 1. `page/fit.js` does the same sums: keep the two alike.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from cutpaths.projector.rig import Rig
from cutpaths.projector.view import Matrix, View, product, view_of
from cutpaths.shapes import Point
from cutpaths.values import Value

Array = NDArray[np.float64]

PICTURE = 5  # how many numbers say the picture
MAT = 3  # and the mat
ROUNDS_MOST = 200
SETTLED = 1e-14  # relative step at which the fit ends
DEPTH_LEAST = 0.05  # of gx + hy + 1 at the picture's corners: the picture ends before the horizon
# Keystones to start from; the best fit of all starts counts.
STARTS = ((0.0, 0.0), (0.3, 0.0), (-0.3, 0.0), (0.0, 0.3), (0.0, -0.3))


class Readings(Value, kw_only=True):
    """All that was read, as numbers.

    Attributes:
        crosses: of the target, about the picture's middle, in half diagonals, y up.
        corner: of the picture in the same frame, right and up.
        pairs, lengths: of distances; indices of crosses, and units.
        placed, places: of crosses on a mat; indices, and units.
        unit: mm in a unit.
    """

    crosses: Array
    corner: Point
    pairs: NDArray[np.intp]
    lengths: Array
    placed: NDArray[np.intp]
    places: Array
    unit: float

    @property
    def count(self) -> int:
        """How many numbers were read."""
        return len(self.lengths) + 2 * len(self.placed)

    @property
    def unknowns(self) -> int:
        """How many numbers are looked for."""
        return PICTURE + (MAT if len(self.placed) else 0)

    def without(self, reading: int) -> Readings:
        """All but one reading; distances are counted first, then crosses on the mat."""
        keep_d = np.arange(len(self.lengths)) != reading
        keep_p = np.arange(len(self.placed)) != reading - len(self.lengths)
        return Readings(
            crosses=self.crosses,
            corner=self.corner,
            pairs=self.pairs[keep_d],
            lengths=self.lengths[keep_d],
            placed=self.placed[keep_p],
            places=self.places[keep_p],
            unit=self.unit,
        )


class Fit(Value, kw_only=True):
    """The best numbers, what is left of each reading (model less tape), and how both hang together.

    Attributes:
        numbers: a, b, e, g, h and, with a mat, its turn and shift.
        rest: in units, distances first, then right and up of each cross on the mat.
        slope: change of each rest with each number.
    """

    numbers: Array
    rest: Array
    slope: Array

    @property
    def squares(self) -> float:
        """Sum of squares of what is left."""
        return float(self.rest @ self.rest)


def readings_of(rig: Rig) -> Readings:
    """A rig's readings as numbers."""
    half = _half_diagonal(rig.width, rig.height)
    crosses = np.array(
        [((x - rig.width / 2) / half, (rig.height / 2 - y) / half) for x, y in rig.crosses]
    )
    pairs = np.array([(d.first - 1, d.second - 1) for d in rig.distances], dtype=np.intp)
    pairs = pairs.reshape(-1, 2)
    lengths = np.array([float(d.mm) for d in rig.distances])
    placed = np.array([p.cross - 1 for p in rig.positions], dtype=np.intp)
    places = np.array([(float(p.x), float(p.y)) for p in rig.positions]).reshape(-1, 2)
    unit = _unit(crosses, pairs, lengths, placed, places)
    return Readings(
        crosses=crosses,
        corner=(rig.width / 2 / half, rig.height / 2 / half),
        pairs=pairs,
        lengths=lengths / unit,
        placed=placed,
        places=places / unit,
        unit=unit,
    )


def fit(readings: Readings) -> Fit:
    """The fit with the least squares of all starts."""
    return min((_settle(readings, start) for start in _starts(readings)), key=lambda f: f.squares)


def view_from(numbers: Array, unit: float, rig: Rig) -> View:
    """The view of a rig's picture that a fit's numbers say."""
    a, b, e, g, h = (float(v) for v in numbers[:PICTURE])
    half = _half_diagonal(rig.width, rig.height)
    about: Matrix = (
        *(1 / half, 0.0, -rig.width / 2 / half),
        *(0.0, -1 / half, rig.height / 2 / half),
        *(0.0, 0.0, 1.0),
    )
    picture: Matrix = (a * unit, b * unit, 0.0, 0.0, e * unit, 0.0, g, h, 1.0)
    return view_of(rig.width, rig.height, product(picture, about))


def model(readings: Readings, numbers: Array) -> tuple[Array, Array]:
    """What the tape should read less what it reads, and its change with each number."""
    places, slopes = places_of(readings.crosses, numbers)
    first, second = readings.pairs[:, 0], readings.pairs[:, 1]
    across = places[first] - places[second]
    length = np.hypot(across[:, 0], across[:, 1])
    way = across / length[:, None]
    distance_rest = length - readings.lengths
    slope = np.einsum("ni,nij->nj", way, slopes[first] - slopes[second])
    if not len(readings.placed):
        return distance_rest, slope
    mat_rest, mat_slope = _on_mat(readings, numbers, places, slopes)
    padded = np.hstack([slope, np.zeros((len(slope), MAT))])
    return np.concatenate([distance_rest, mat_rest]), np.vstack([padded, mat_slope])


def places_of(points: Array, numbers: Array) -> tuple[Array, Array]:
    """Where points of the picture fall, and the change of each with a, b, e, g and h."""
    a, b, e, g, h = numbers[:PICTURE]
    x, y = points[:, 0], points[:, 1]
    depth = g * x + h * y + 1.0
    right, up = (a * x + b * y) / depth, e * y / depth
    none = np.zeros_like(x)
    slopes = np.stack(
        [
            np.stack([x / depth, y / depth, none, -right * x / depth, -right * y / depth], axis=1),
            np.stack([none, none, y / depth, -up * x / depth, -up * y / depth], axis=1),
        ],
        axis=1,
    )
    return np.stack([right, up], axis=1), slopes


def _on_mat(
    readings: Readings, numbers: Array, places: Array, slopes: Array
) -> tuple[Array, Array]:
    """Right and up of each cross on the mat, less what was read, and the change of each."""
    turn, shift = numbers[PICTURE], numbers[PICTURE + 1 :]
    cos, sin = math.cos(turn), math.sin(turn)
    turned = np.array([[cos, -sin], [sin, cos]])
    turning = np.array([[-sin, -cos], [cos, -sin]])
    spots = places[readings.placed]
    rest = spots @ turned.T + shift - readings.places
    count = len(readings.placed)
    slope = np.zeros((count, 2, PICTURE + MAT))
    slope[:, :, :PICTURE] = np.einsum("ij,njk->nik", turned, slopes[readings.placed])
    slope[:, :, PICTURE] = spots @ turning.T
    slope[:, :, PICTURE + 1 :] = np.eye(2)
    return rest.ravel(), slope.reshape(2 * count, PICTURE + MAT)


def _settle(readings: Readings, start: Array) -> Fit:
    """Steps downhill from a start until the steps vanish."""
    numbers, damping = start, 1e-3
    rest, slope = model(readings, numbers)
    for _ in range(ROUNDS_MOST):
        square = slope.T @ slope
        damped = square + damping * np.diag(np.diag(square) + 1e-12)
        step = np.linalg.solve(damped, -slope.T @ rest)
        tried = numbers + step
        if _possible(readings, tried):
            new_rest, new_slope = model(readings, tried)
            if float(new_rest @ new_rest) <= float(rest @ rest):
                numbers, rest, slope = tried, new_rest, new_slope
                damping = max(damping / 10, 1e-15)
                if float(np.abs(step).max()) < SETTLED:
                    break
                continue
        damping *= 10
        if damping > 1e12:
            break
    return Fit(numbers=numbers, rest=rest, slope=slope)


def _possible(readings: Readings, numbers: Array) -> bool:
    """Whether the picture is the right way round and all of it falls on the table."""
    a, _, e, g, h = numbers[:PICTURE]
    x, y = readings.corner
    return bool(a > 0 and e > 0 and 1 - abs(g * x) - abs(h * y) >= DEPTH_LEAST)


def _starts(readings: Readings) -> Iterator[Array]:
    """A picture without keystone at the tape's own scale, some with; the mat as it fits them."""
    for g, h in STARTS:
        numbers = np.array([1.0, 0.0, 1.0, g, h])
        if len(readings.placed):
            places, _ = places_of(readings.crosses[readings.placed], numbers)
            numbers = np.concatenate([numbers, _laid_on(places, readings.places)])
        yield numbers


def _laid_on(places: Array, mat: Array) -> Array:
    """The turn and shift that lay places on a mat best (in the plane this has a closed form)."""
    middle, other = places.mean(axis=0), mat.mean(axis=0)
    p, q = places - middle, mat - other
    turn = math.atan2(float((p[:, 0] * q[:, 1] - p[:, 1] * q[:, 0]).sum()), float((p * q).sum()))
    cos, sin = math.cos(turn), math.sin(turn)
    x, y = middle
    return np.array([turn, other[0] - cos * x + sin * y, other[1] - sin * x - cos * y])


def _unit(
    crosses: Array,
    pairs: NDArray[np.intp],
    lengths: Array,
    placed: NDArray[np.intp],
    places: Array,
) -> float:
    """Mm for a half diagonal: the median over all distances read, those on the mat among them."""
    across = crosses[pairs[:, 0]] - crosses[pairs[:, 1]]
    ratios = list(lengths / np.hypot(across[:, 0], across[:, 1]))
    for n in range(1, len(placed)):
        apart = float(np.hypot(*(crosses[placed[n]] - crosses[placed[n - 1]])))
        if apart:
            ratios.append(float(np.hypot(*(places[n] - places[n - 1]))) / apart)
    middle = float(np.median(ratios)) if ratios else 1.0
    return middle if middle > 0 else 1.0


def _half_diagonal(width: int, height: int) -> float:
    return math.hypot(width, height) / 2
