"""The top as it was taped, where the backing is cut to fit it: fitted anew, by another engine; mm.

Corners DA, AB, BC, CD; DA lies at the origin and side A along x.
"""

from __future__ import annotations

import math
from typing import Any

import numpy as np
from numpy.typing import NDArray

from cutpaths.geometry.polygons import Ring
from cutpaths.project.measured import Measured, Remedy
from cutpaths.project.model import Project

Array = NDArray[Any]

# Lines through the middle count for twice an edge, which stretches; common practice, no source.
_MIDDLE_WEIGHT = 2.0
# What each length is made of: parts of the corners, sides first, then diagonals, width, height.
_PARTS = np.array(
    [
        (-1.0, 1.0, 0.0, 0.0),
        (0.0, -1.0, 1.0, 0.0),
        (0.0, 0.0, -1.0, 1.0),
        (1.0, 0.0, 0.0, -1.0),
        (-1.0, 0.0, 1.0, 0.0),
        (0.0, -1.0, 0.0, 1.0),
        (-0.5, 0.5, 0.5, -0.5),
        (-0.5, -0.5, 0.5, 0.5),
    ]
)
_ROUNDS = 60


def raw_as_taped(project: Project) -> Ring | None:
    """The raw edge of a top to which the backing is cut to fit; None for any other."""
    measured = project.measured
    if measured is None or measured.remedy is not Remedy.CUT_TO_FIT:
        return None
    corners = _fitted(measured)
    corners -= corners[0]
    cos, sin = corners[1] / np.hypot(*corners[1])
    level = corners @ np.array([(cos, -sin), (sin, cos)])
    return tuple((float(x), float(y)) for x, y in level)


def seam_as_taped(project: Project) -> Ring | None:
    """The seam polygon of such a top: each corner moves in along its own bisector."""
    raw = raw_as_taped(project)
    if raw is None:
        return None
    points = np.array(raw)
    ways = np.roll(points, -1, axis=0) - points
    ways /= np.hypot(ways[:, 0], ways[:, 1])[:, None]
    left = np.stack([-ways[:, 1], ways[:, 0]], axis=1)
    both = left + np.roll(left, 1, axis=0)
    moved = points + 2 * float(project.allowance) * both / (both**2).sum(axis=1)[:, None]
    return tuple((float(x), float(y)) for x, y in moved - moved[0])


def _fitted(measured: Measured) -> Array:
    """Corners whose lengths are nearest to those taped, by repeated linear least squares."""
    given = (*measured.sides, *measured.diagonals, measured.width, measured.height)
    rows = [i for i, mm in enumerate(given) if mm is not None]
    taped = np.array([float(mm) for mm in given if mm is not None])
    weights = np.where(np.array(rows) < 6, 1.0, _MIDDLE_WEIGHT)
    parts = _PARTS[rows]
    width, height = (float(mm) for mm in measured.average)
    corners = np.array([(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)])
    for _ in range(_ROUNDS):
        spans = parts @ corners
        lengths = np.hypot(spans[:, 0], spans[:, 1])
        slopes = (parts[:, :, None] * (spans / lengths[:, None])[:, None, :]).reshape(len(rows), 8)
        step = np.linalg.lstsq(slopes * weights[:, None], (taped - lengths) * weights)[0]
        corners = corners + step.reshape(4, 2)
        if np.abs(step).max() < math.ulp(width + height):
            break
    return corners
