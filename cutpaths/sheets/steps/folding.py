"""Layers of cloth that are folded on paper: everything beyond a line is turned over onto the rest.

Layers lie on one another from the lowest to the highest, mm, front view.
"""

from __future__ import annotations

from collections.abc import Sequence

from cutpaths.geometry.polygons import Ring, signed_area
from cutpaths.shapes import Point
from cutpaths.sheets.steps.cutting import Segment, folded, side_of
from cutpaths.sheets.steps.tints import Cloth
from cutpaths.values import Value

OTHER_FACE = {
    Cloth.TOP_RIGHT: Cloth.TOP_WRONG,
    Cloth.TOP_WRONG: Cloth.TOP_RIGHT,
    Cloth.BACKING_RIGHT: Cloth.BACKING_WRONG,
    Cloth.BACKING_WRONG: Cloth.BACKING_RIGHT,
}
NOTHING_MM2 = 1e-3


class Layer(Value):
    """A convex piece of cloth as it lies.

    Attributes:
        ring: its outline, counter-clockwise.
        cloth: the face that is up.
    """

    ring: Ring
    cloth: Cloth


def fold(layers: Sequence[Layer], line: Segment, stays: Point) -> tuple[Layer, ...]:
    """Folds all layers along a line, toward a point that stays.

    Args:
        layers: the lowest first.
        line: two points of the fold.
        stays: a point on the side that stays.
    """
    over = folded((stays, stays, stays), line)[0]
    still = [Layer(side_of(each.ring, line, stays), each.cloth) for each in layers]
    turned = [
        Layer(folded(side_of(each.ring, line, over), line), OTHER_FACE[each.cloth])
        for each in reversed(layers)
    ]
    return tuple(each for each in (*still, *turned) if _is_something(each.ring))


def _is_something(ring: Ring) -> bool:
    return len(ring) > 2 and signed_area(ring) > NOTHING_MM2
