"""The work cut through from side to side: how the larger backing bulges and folds; mm.

Lengths along the cloth are true to one another; the gap between the layers is not.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from cutpaths.geometry.marks import letter
from cutpaths.geometry.polygons import dot
from cutpaths.shapes import Point
from cutpaths.sheets.steps.ink import DOT, Painted, disc, stroke
from cutpaths.sheets.steps.making import Making
from cutpaths.sheets.steps.picture import Picture
from cutpaths.sheets.steps.tints import TINTS, Cloth
from cutpaths.values import Value

CLOTH_MM = 1.3
STUB_MM = 3.4  # how far the allowances reach past a seam
LAYERS_MM = 5.0  # between backing and top once they lie flat
STEPS = 40
HALVINGS = 60
SEAM_MM = 0.8
_TOP, _BACKING = TINTS[Cloth.TOP_RIGHT].paint, TINTS[Cloth.BACKING_RIGHT].paint


class Lengths(Value):
    """How long top and backing are between the seams of two sides, and each border."""

    top: float
    backing: float
    borders: tuple[float, float]


def lengths(making: Making, side: int) -> Lengths:
    """What a cut through a side and the one opposite meets: from dot to dot, square to the side."""
    blanket, out = making.kit.blanket, making.out(side)
    tops = [dot(p, out) for p in blanket.seam]
    dots = [dot(p, out) for corner in blanket.corners for p in corner.miter]
    borders = making.kit.project.borders
    far = opposite(making, side)
    pair = float(borders[side]), float(borders[far if far is not None else side])
    return Lengths(max(tops) - min(tops), max(dots) - min(dots), pair)


def opposite(making: Making, side: int) -> int | None:
    """The side opposite; None where a corner is."""
    return None if making.sides % 2 else (side + making.sides // 2) % making.sides


def half_angle(part: float) -> float:
    """Half the angle of an arc whose chord is that part of its length: sin(x) / x = part."""
    low, high = 0.0, math.pi
    for _ in range(HALVINGS):
        half = (low + high) / 2
        low, high = (half, high) if math.sin(half) > part * half else (low, half)
    return low


def bulge(left: Point, chord: float, part: float) -> tuple[Point, ...]:
    """An arc that hangs below a level chord that is so much of its length."""
    x = half_angle(part)
    if x < 1e-6:
        return left, (left[0] + chord, left[1])
    radius = chord / 2 / math.sin(x)
    center = left[0] + chord / 2, left[1] + radius * math.cos(x)
    turns = (-x + 2 * x * i / STEPS for i in range(STEPS + 1))
    return tuple(
        (center[0] + radius * math.sin(t), center[1] - radius * math.cos(t)) for t in turns
    )


def bulging(picture: Picture, making: Making, side: int, left: Point, chord: float) -> float:
    """The top flat, both sides at its seams, the backing bulging below; how deep it hangs."""
    cut = lengths(making, side)
    arc = bulge(left, chord, min(cut.top / cut.backing, 1.0))
    right = left[0] + chord, left[1]
    over = left[1] + CLOTH_MM
    picture.signs(_band(arc, Cloth.BACKING_RIGHT))
    picture.signs(_band(((left[0], over), (right[0], over)), Cloth.TOP_RIGHT))
    _stubs(picture, (left, right))
    low = min(y for _, y in arc)
    picture.name("top", (left[0] + chord * 0.3, over), (0.0, 1.0))
    picture.name("backing bulges", (left[0] + chord / 2, low), (0.0, -1.0))
    _letters(picture, making, side, (left, right))
    return left[1] - low


def _stubs(picture: Picture, ends: tuple[Point, Point]) -> None:
    """Both allowances past each seam, and the stitches that hold them."""
    for (x, y), turn in zip(ends, (-1.0, 1.0), strict=True):
        far = x + turn * STUB_MM
        picture.signs(_band(((x, y), (far, y)), Cloth.BACKING_RIGHT))
        picture.signs(_band(((x, y + CLOTH_MM), (far, y + CLOTH_MM)), Cloth.TOP_RIGHT))
        picture.signs(((disc((x, y + CLOTH_MM / 2), SEAM_MM), DOT),))


def _letters(
    picture: Picture, making: Making, side: int, ends: tuple[Point, Point], away: float = 8.0
) -> None:
    """The letters of both sides beside a cut; the far one is left out where a corner is."""
    far = opposite(making, side)
    (x, y), (x1, y1) = ends
    picture.letter(letter(side), (x - away, y))
    if far is not None:
        picture.letter(letter(far), (x1 + away, y1))


def flat(picture: Picture, making: Making, side: int, left: Point, wide: float) -> None:
    """The work laid flat: the backing below from fold to fold, its borders beside the top."""
    cut = lengths(making, side)
    first, last = cut.borders
    scale = wide / (cut.top + first + last)
    x, low = left
    up = low + LAYERS_MM
    seams = (x + first * scale, up), (x + wide - last * scale, up)
    around = (seams[0], *_turn((x, low), -1.0), *reversed(_turn((x + wide, low), 1.0)), seams[1])
    picture.signs(_band(around, Cloth.BACKING_RIGHT))
    picture.signs(_band(seams, Cloth.TOP_RIGHT))
    for sx, sy in seams:
        for off, cloth in ((-CLOTH_MM / 2, Cloth.BACKING_RIGHT), (CLOTH_MM / 2, Cloth.TOP_RIGHT)):
            at = sx + (off if sx < x + wide / 2 else -off)
            picture.signs(_band(((at, sy), (at, sy + STUB_MM)), cloth))
        picture.signs(((disc((sx, sy + CLOTH_MM * 0.8), SEAM_MM), DOT),))
    picture.name("top", (x + wide / 2, up), (0.0, 1.0))
    picture.name("backing", (x + wide / 2, low), (0.0, -1.0))
    picture.name("border", ((x + seams[0][0]) / 2, up), (-0.3, 1.0))
    middle = low + LAYERS_MM / 2
    _letters(picture, making, side, ((x, middle), (x + wide, middle)))


def _turn(at: Point, side: float) -> tuple[Point, ...]:
    """The round of a fold, from its upper to its lower end."""
    radius = LAYERS_MM / 2
    turns = (math.pi / 2 - math.pi * i / 12 for i in range(13))
    center = at[0] - side * radius, at[1] + radius
    return tuple(
        (center[0] + side * radius * math.cos(t), center[1] + radius * math.sin(t)) for t in turns
    )


def _band(line: Sequence[Point], cloth: Cloth) -> tuple[Painted, ...]:
    """Cloth seen on its edge, along a line."""
    paint = _TOP if cloth is Cloth.TOP_RIGHT else _BACKING
    parts = [(stroke(p, q, CLOTH_MM), paint) for p, q in pairwise(line)]
    knees = [(disc(p, CLOTH_MM / 2), paint) for p in line[1:-1]]
    return (*parts, *knees)
