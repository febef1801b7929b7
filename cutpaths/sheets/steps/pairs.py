"""The step that sews triangles in pairs, before they are cut; mm."""

from __future__ import annotations

from cutpaths.geometry.layouts.pairs import SewnPair
from cutpaths.geometry.marks import MarkKind, select
from cutpaths.geometry.polygons import (
    Ring,
    along,
    distance,
    middle,
    right_of,
    sub,
    unit,
)
from cutpaths.paint import Paint
from cutpaths.roles import Role
from cutpaths.shapes import Point, shift
from cutpaths.sheets.steps.cutting import Segment, folded, side_of
from cutpaths.sheets.steps.ink import scissors
from cutpaths.sheets.steps.making import Making
from cutpaths.sheets.steps.picture import Picture
from cutpaths.sheets.steps.shades import shades_of
from cutpaths.sheets.steps.step import Stage, Step
from cutpaths.sheets.steps.tints import Cloth
from cutpaths.sheets.steps.view import Room, whole

LEFT, RIGHT = Room(5.0, 0.0, 58.0, 66.0), Room(77.0, 0.0, 58.0, 66.0)

THREE = (Room(6.0, 0.0, 36.0, 44.0), Room(52.0, 0.0, 36.0, 44.0), Room(98.0, 0.0, 36.0, 44.0))


def pair_step(making: Making, pair: SewnPair) -> Step:
    """Two squares sewn on both sides of a diagonal, cut on it, opened and trimmed."""
    picture = Picture(kit=making.kit, key="sew-pairs", shows="two triangles from two squares")
    outline = pair.marked.outline
    marks = pair.marked.marks
    cut = select(marks, MarkKind.CUT_APART)[0].points
    seams = [mark.points for mark in select(marks, MarkKind.STITCH)]
    line = cut[0], cut[1]
    first = whole(outline, THREE[0])
    picture.layer(first, outline, Cloth.TOP_WRONG)
    for seam in seams:
        picture.line(first, seam, Role.STITCH, meaning="stitches")
    picture.line(first, line, Role.TRIM, meaning="cut")
    halves = [side_of(outline, line, middle(*seam)) for seam in seams]
    away = [step_away(line, middle(*seam), distance(*line) * 0.05) for seam in seams]
    moved = [shift(*off).ring(half) for off, half in zip(away, halves, strict=True)]
    second = whole([p for ring in moved for p in ring], THREE[1])
    for off, half, seam in zip(away, halves, seams, strict=True):
        picture.layer(second, shift(*off).ring(half), Cloth.TOP_WRONG)
        picture.line(second, [shift(*off).point(p) for p in seam], Role.STITCH)
    start, tip = making.toward(*second.points((line[1], line[0])))
    way = unit(sub(tip, start))
    picture.signs(scissors(along(start, way, 4.0), way))
    shades = shades_of(making.kit)
    picture.shades(tuple(shades.values()))
    paints = shades[pair.marked.fabric], shades[pair.plain.fabric]
    opened_unit(picture, halves[0], (seams[0][0], seams[0][1]), paints)
    for x in (45.0, 91.0):
        picture.move_arrow((x - 2.5, 20.0), (x + 5.0, 20.0), 0.0, 1.4)
    text = making.numbers[f"{pair.marked.key.lower()}.from"]
    return Step(
        key=picture.key,
        stage=Stage.TOP,
        title="Sew the pairs of triangles",
        words=(
            "Lay two squares right sides together.",
            f"{pair.marked.key}: {text}.",
            "Draw the diagonal, sew on both sides of it, then cut on it. Close the cutter.",
            "Press each unit and trim it to its size.",
        ),
        check="The seam of each unit runs from corner to corner.",
        drawing=picture.drawing(),
    )


def step_away(line: Segment, beside: Point, reach: float) -> Point:
    """A move square to a line, to the side where a point lies."""
    way = right_of(unit(sub(line[1], line[0])))
    x, y = sub(beside, line[0])
    turn = 1.0 if way[0] * x + way[1] * y > 0 else -1.0
    return way[0] * reach * turn, way[1] * reach * turn


def opened_unit(picture: Picture, half: Ring, seam: Segment, paints: tuple[Paint, Paint]) -> None:
    """A unit opened, right side up: one triangle and, over its seam, the other, in their shades."""
    body = side_of(half, seam, far_corner(half, seam))
    other = folded(body, seam)
    third = whole((*body, *other), THREE[2])
    picture.layer(third, body, Cloth.TOP_RIGHT, paint=paints[0])
    picture.layer(third, other, Cloth.TOP_RIGHT, paint=paints[1])


def far_corner(ring: Ring, line: Segment) -> Point:
    """The point of a ring that is farthest from a line."""
    way = right_of(unit(sub(line[1], line[0])))
    return max(ring, key=lambda p: abs((p[0] - line[0][0]) * way[0] + (p[1] - line[0][1]) * way[1]))
