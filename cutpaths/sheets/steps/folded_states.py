"""The folded-over blanket state by state: flat, corners folded, sides folded once and twice; mm.

The backing lies wrong side up and the top right side up on it, as the front view shows them.
"""

from __future__ import annotations

from collections.abc import Sequence

from cutpaths.geometry.marks import MarkKind, letter, select
from cutpaths.geometry.polygons import middle
from cutpaths.shapes import Point
from cutpaths.sheets.steps.cutting import Segment
from cutpaths.sheets.steps.folding import Layer, fold
from cutpaths.sheets.steps.making import Making
from cutpaths.sheets.steps.picture import Picture
from cutpaths.sheets.steps.scenes import top_right
from cutpaths.sheets.steps.tints import Cloth
from cutpaths.sheets.steps.view import View


def flat_layers(making: Making) -> tuple[Layer, ...]:
    """Top on backing, the tips of the backing trimmed."""
    return (
        Layer(making.trimmed_backing, Cloth.BACKING_WRONG),
        Layer(making.kit.blanket.top, Cloth.TOP_RIGHT),
    )


def middle_of_top(making: Making) -> Point:
    """A point that stays whatever is folded."""
    top = making.kit.blanket.top
    return middle(top[0], top[len(top) // 2])


def corners_folded(making: Making, corners: Sequence[int] | None = None) -> tuple[Layer, ...]:
    """With some corners, or all, folded over the corners of the top."""
    layers = flat_layers(making)
    for i, corner in enumerate(making.kit.blanket.corners):
        if corners is None or i in corners:
            layers = fold(layers, corner.miter, middle_of_top(making))
    return layers


def side_lines(making: Making, side: int) -> tuple[Segment, Segment]:
    """First and second fold of a side."""
    marks = making.kit.blanket.backing_marks
    found = []
    for kind in (MarkKind.FIRST_FOLD, MarkKind.SECOND_FOLD):
        points = select(marks, kind, letter(side))[0].points
        found.append((points[0], points[1]))
    return found[0], found[1]


def sides_folded(
    making: Making, layers: tuple[Layer, ...], sides: Sequence[int], folds: int
) -> tuple[Layer, ...]:
    """With some sides folded once or twice."""
    for side in sides:
        for line in side_lines(making, side)[:folds]:
            layers = fold(layers, line, middle_of_top(making))
    return layers


def paint_layers(picture: Picture, view: View, layers: Sequence[Layer], making: Making) -> None:
    """Paints layers, the lowest first; the top with its patches."""
    for layer in layers:
        if layer.cloth is Cloth.TOP_RIGHT:
            top_right(picture, view, making.kit)
        else:
            picture.layer(view, layer.ring, layer.cloth)
