"""Cloth of some thickness: its face is nearer to the lens than the table that was calibrated.

A mark at height t above the table lies on the ray through the table's point that is farther from
the foot of the lens by H / (H - t), H the height of the lens: 2 mm of cloth 35 degrees off the axis
move a mark by 1.4 mm. That is a scaling about the foot, so the picture stays a homography.

The foot comes from tape readings between lens and crosses. Without them the lens is taken to look
through the middle of the picture with square pixels; its height and the keystone then say where it
stands. Projectors that throw upward or downward by design need the readings.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from cutpaths.errors import InputError
from cutpaths.geometry.equations import solution
from cutpaths.geometry.polygons import distance
from cutpaths.projector.finding import finding
from cutpaths.projector.rig import Rig
from cutpaths.projector.view import Matrix, View, product, view_of
from cutpaths.shapes import Point

_ROUNDS = 60
_AGREE_MM = 20.0  # readings from the lens are taken over a person's head


def on_cloth(view: View, rig: Rig) -> View:
    """The view of the cloth's face, for a view of the table under it.

    Raises:
        InputError: the readings from the lens cannot be right.
    """
    if rig.lens is None or not rig.thickness:
        return view
    height, thickness = float(rig.lens.height), float(rig.thickness)
    foot = lens_foot(view, rig)
    return raised(view, foot, height, thickness)


def raised(view: View, foot: Point, height: float, thickness: float) -> View:
    """The view of a plane above the table, seen from a lens at a height above its foot."""
    part = (height - thickness) / height
    x, y = foot
    nearer: Matrix = (part, 0.0, x * (1 - part), 0.0, part, y * (1 - part), 0.0, 0.0, 1.0)
    return view_of(view.width, view.height, product(nearer, view.to_table))


def lens_foot(view: View, rig: Rig) -> Point:
    """The place of the table straight under the lens.

    Raises:
        InputError: there is no height, or the readings from the lens cannot be right.
    """
    lens = rig.lens
    if lens is None:
        raise InputError(finding("lens", "is missing"))
    height = float(lens.height)
    if not lens.distances:
        return _foot_of_level_lens(view, height)
    spots = [view.table(rig.crosses[n - 1]) for n, _ in lens.distances]
    reaches = [math.sqrt(float(mm) ** 2 - height**2) for _, mm in lens.distances]
    foot = _where(spots, reaches)
    worst = max(abs(distance(foot, p) - r) for p, r in zip(spots, reaches, strict=True))
    if worst > _AGREE_MM:
        problem = f"disagree by {worst:.0f} mm: no lens stands there"
        raise InputError(finding("lens.distances", problem, "Measure them and the height again"))
    return foot


def _where(spots: Sequence[Point], reaches: Sequence[float]) -> Point:
    """The point at given distances from some points, by least squares (Gauss and Newton).

    The differences of the circles' equations are linear and give the start.

    Raises:
        InputError: the points lie on a line.
    """
    (x0, y0), r0 = spots[0], reaches[0]
    rows = [(2 * (x - x0), 2 * (y - y0)) for x, y in spots[1:]]
    right = [
        r0 * r0 - r * r + x * x + y * y - x0 * x0 - y0 * y0
        for (x, y), r in zip(spots[1:], reaches[1:], strict=True)
    ]
    at = _least(rows, right)
    for _ in range(_ROUNDS):
        far = [max(distance(at, p), 1e-9) for p in spots]
        ways = [((at[0] - x) / d, (at[1] - y) / d) for (x, y), d in zip(spots, far, strict=True)]
        step = _least(ways, [r - d for r, d in zip(reaches, far, strict=True)])
        at = at[0] + step[0], at[1] + step[1]
        if math.hypot(*step) < 1e-9:
            break
    return at


def _least(rows: Sequence[Point], right: Sequence[float]) -> Point:
    """Two unknowns by least squares."""
    a = sum(x * x for x, _ in rows)
    b = sum(x * y for x, y in rows)
    c = sum(y * y for _, y in rows)
    if a * c - b * b <= 1e-6 * (a + c) ** 2:
        problem = "must be to three crosses that are not on a line"
        raise InputError(finding("lens.distances", problem))
    u = sum(x * r for (x, _), r in zip(rows, right, strict=True))
    v = sum(y * r for (_, y), r in zip(rows, right, strict=True))
    x, y = solution([[a, b], [b, c]], [u, v])
    return x, y


def _foot_of_level_lens(view: View, height: float) -> Point:
    """The foot of a lens that looks through the picture's middle, from its height and the keystone.

    The longer the lens the higher it stands: its focal length in pixels is found by halving.
    """
    low, high = 0.05 * view.width, 50.0 * view.width
    for _ in range(_ROUNDS):
        middle = math.sqrt(low * high)
        if _stand(view, middle)[2] < height:
            low = middle
        else:
            high = middle
    x, y, _ = _stand(view, math.sqrt(low * high))
    return x, y


def _stand(view: View, focal: float) -> tuple[float, float, float]:
    """Where a lens of a focal length (pixels) stands: the camera whose plane is the table."""
    camera: Matrix = (
        *(1 / focal, 0.0, -view.width / 2 / focal),
        *(0.0, 1 / focal, -view.height / 2 / focal),
        *(0.0, 0.0, 1.0),
    )
    m = product(camera, view.to_pixel)
    right, up, shift = m[0::3], m[1::3], m[2::3]
    scale = math.sqrt(_norm(right) * _norm(up))
    r1 = [v / _norm(right) for v in right]
    r2 = [v / _norm(up) for v in up]
    r3 = [
        r1[1] * r2[2] - r1[2] * r2[1],
        r1[2] * r2[0] - r1[0] * r2[2],
        r1[0] * r2[1] - r1[1] * r2[0],
    ]
    t = [v / scale for v in shift]
    x, y, z = (-sum(a * b for a, b in zip(axis, t, strict=True)) for axis in (r1, r2, r3))
    return x, y, abs(z)


def _norm(v: Sequence[float]) -> float:
    return math.sqrt(sum(each * each for each in v))
