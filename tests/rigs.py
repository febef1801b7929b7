"""Simulated projectors: a camera above a table, and tape readings as it would give them."""

from __future__ import annotations

import math
import random
from collections.abc import Iterable, Mapping
from fractions import Fraction

from cutpaths.lengths import Unit
from cutpaths.projector.rig import Distance, Lens, Position, Rig
from cutpaths.projector.view import Matrix, apply, inverse, product
from cutpaths.shapes import Point
from cutpaths.values import replace

SIDES = ((1, 4), (4, 12), (12, 9), (1, 9))
SIX = (*SIDES, (1, 12), (4, 9))
NINE = (*SIX, (1, 10), (3, 12), (4, 11))


def rig(**changes: object) -> Rig:
    """A rig without readings."""
    plain = Rig(
        name="Simulated",
        digest="0" * 64,
        unit=Unit.MILLIMETRE,
        width=1920,
        height=1080,
        columns=4,
        rows=3,
        inset=67,
        within=Fraction(1),
        margin=Fraction(15),
        thickness=Fraction(0),
        lens=None,
        distances=(),
        positions=(),
    )
    return replace(plain, **changes)  # type: ignore[arg-type]  # any field may be changed


def camera(
    *, focal: float, tilt: float, roll: float, turn: float, height: float, off: Point = (0.0, 0.0)
) -> Matrix:
    """Pixels to mm of a lens at a height above the table's origin.

    Args:
        focal: in pixels.
        tilt: degrees about the picture's rows.
        roll: degrees about its columns.
        turn: degrees about the axis.
        height: of the lens, mm.
        off: how far the axis passes the picture's middle, in pixels.
    """
    a, b, c = (math.radians(angle) for angle in (tilt, roll, turn))
    # The lens looks down: rows of the picture run right, columns away from the person's head.
    rx = ((1, 0, 0), (0, math.cos(a), -math.sin(a)), (0, math.sin(a), math.cos(a)))
    ry = ((math.cos(b), 0, math.sin(b)), (0, 1, 0), (-math.sin(b), 0, math.cos(b)))
    rz = ((math.cos(c), -math.sin(c), 0), (math.sin(c), math.cos(c), 0), (0, 0, 1))
    down = ((1, 0, 0), (0, -1, 0), (0, 0, -1))
    r = _times(_times(_times(rx, ry), rz), down)
    table: Matrix = (  # columns: right, up, and the table's origin seen from the lens
        *(r[0][0], r[0][1], -r[0][2] * height),
        *(r[1][0], r[1][1], -r[1][2] * height),
        *(r[2][0], r[2][1], -r[2][2] * height),
    )
    x, y = 960 + off[0], 540 + off[1]
    return inverse(product((focal, 0.0, x, 0.0, focal, y, 0.0, 0.0, 1.0), table))


def measured(
    of: Rig,
    truth: Matrix,
    pairs: Iterable[tuple[int, int]],
    *,
    noise: float = 0.0,
    seed: int = 0,
    wrong: Mapping[tuple[int, int], float] | None = None,
) -> Rig:
    """The rig with distances read off a true table, some of them times a factor."""
    dice = random.Random(seed)  # noqa: S311  # a simulation, no secret
    spots = [apply(truth, p) for p in of.crosses]
    read = []
    for i, j in pairs:
        mm = math.dist(spots[i - 1], spots[j - 1]) + dice.gauss(0.0, noise)
        read.append(Distance(i, j, Fraction(mm * (wrong or {}).get((i, j), 1.0))))
    return replace(of, distances=tuple(read))


def on_mat(
    of: Rig, truth: Matrix, crosses: Iterable[int], *, noise: float = 0.0, seed: int = 0
) -> Rig:
    """The rig with crosses read off a mat that lies askew."""
    dice = random.Random(seed)  # noqa: S311  # a simulation, no secret
    cos, sin = math.cos(0.3), math.sin(0.3)
    read = []
    for n in crosses:
        x, y = apply(truth, of.crosses[n - 1])
        right, up = cos * x - sin * y + 700, sin * x + cos * y + 300
        off = dice.gauss(0.0, noise), dice.gauss(0.0, noise)
        read.append(Position(n, Fraction(right + off[0]), Fraction(up + off[1])))
    return replace(of, positions=tuple(read))


def with_lens(of: Rig, height: float, distances: Iterable[tuple[int, float]] = ()) -> Rig:
    """The rig with a lens."""
    read = tuple((n, Fraction(mm)) for n, mm in distances)
    return replace(of, lens=Lens(Fraction(height), read))


def _times(
    m: tuple[tuple[float, ...], ...], n: tuple[tuple[float, ...], ...]
) -> tuple[tuple[float, ...], ...]:
    return tuple(
        tuple(sum(m[i][k] * n[k][j] for k in range(3)) for j in range(3)) for i in range(3)
    )


CAMERAS: Mapping[str, Matrix] = {
    "straight": camera(focal=3000, tilt=0, roll=0, turn=0, height=1800),
    "tilted": camera(focal=3000, tilt=8, roll=-3, turn=2, height=1800),
    "keystoned": camera(focal=2600, tilt=22, roll=0, turn=0, height=1500),
    "off-centre": camera(focal=3200, tilt=-4, roll=5, turn=-1, height=2000, off=(150, -540)),
}
