"""The folded-over construction, folded on paper: corners first, then each side twice.

Layers lie on one another from the lowest to the highest. A fold takes everything beyond its line,
cuts it off there, turns it over and lays it on top in reversed order, as cloth does.
"""

from __future__ import annotations

from collections.abc import Sequence

import shapely
from shapely import Polygon
from shapely.affinity import affine_transform
from shapely.geometry.base import BaseGeometry

from cutpaths.geometry.marks import MarkKind
from cutpaths.geometry.polygons import distance, middle
from cutpaths.proof.check import Check
from cutpaths.proof.paper import Paper
from cutpaths.proof.planes import (
    Line,
    around,
    beside,
    common,
    fold,
    is_nothing,
    joined,
    less,
    off_segment,
    outside,
)
from cutpaths.proof.reading import Reading, judge
from cutpaths.proof.tolerances import area_slack
from cutpaths.values import Value

_TOP, _BODY, _TIP = "TOP", "BODY", "TIP"


class Layer(Value):
    """One layer of cloth: `TOP`, `BODY`, `TIP`, or the letter of the side that was folded."""

    name: str
    area: BaseGeometry


def folded(paper: Paper) -> tuple[Layer, ...]:
    """The layers once every corner and every side is folded, the lowest first."""
    waste = [Polygon(w.places[0].ring(w.outline)) for w in paper.kit.waste]
    body = less(Polygon(paper.backing.outline), joined(waste))
    layers: tuple[Layer, ...] = (Layer(_BODY, body), Layer(_TOP, Polygon(paper.top.outline)))
    for at in paper.corners:
        layers = _fold(paper, layers, paper.backing.line(MarkKind.CORNER_FOLD, at), _TIP)
    for side in paper.sides:
        for kind in (MarkKind.FIRST_FOLD, MarkKind.SECOND_FOLD):
            layers = _fold(paper, layers, paper.backing.line(kind, side), side)
    return layers


def _out(paper: Paper, line: Line) -> Line:
    """A fold line with the middle of the top to its left, whichever way it is drawn."""
    left, right = paper.top.outline[0], paper.top.outline[len(paper.top.outline) // 2]
    return line if beside(middle(left, right), line) < 0 else (line[1], line[0])


def _fold(paper: Paper, layers: Sequence[Layer], mark: Line, name: str) -> tuple[Layer, ...]:
    """Folds all layers along a line; cloth of the body takes the name of the fold."""
    line = _out(paper, mark)
    beyond = outside(line, 0.0, paper.far)
    still = [Layer(each.name, less(each.area, beyond)) for each in layers]
    turned = [
        Layer(
            name if each.name == _BODY or each.name == name else each.name,
            _mirrored(common(each.area, beyond), line),
        )
        for each in reversed(layers)
    ]
    return tuple(each for each in (*still, *turned) if not is_nothing(each.area))


def _mirrored(area: BaseGeometry, line: Line) -> BaseGeometry:
    over = fold(line)
    return affine_transform(area, [-over.cos, -over.sin, -over.sin, over.cos, over.dx, over.dy])


def seen(layers: Sequence[Layer]) -> dict[str, BaseGeometry]:
    """What the front shows of the layers of each name."""
    shown: dict[str, BaseGeometry] = {}
    covered: BaseGeometry = Polygon()
    for layer in reversed(layers):
        part = less(layer.area, covered)
        shown[layer.name] = joined([shown.get(layer.name, Polygon()), part])
        covered = joined([covered, layer.area])
    return shown


def folded_front(paper: Paper) -> tuple[Check, ...]:
    """What the front shows once everything is folded."""
    layers = folded(paper)
    shown = seen(layers)
    outline = Polygon(paper.top.outline)
    bare = around(paper.raw_edges, [-border for border in paper.borders])
    every = joined(layer.area for layer in layers)
    return (
        *judge(
            "finished-as-top",
            "Folded over, the blanket is as large as the top's raw edge.",
            [_difference(paper, "", every, outline)],
        ),
        *_border(paper, shown, less(outline, bare)),
        *judge(
            "middle-bare",
            "Inside the border the top is bare.",
            [_difference(paper, "TOP", shown.get(_TOP, Polygon()), bare)],
        ),
        *judge(
            "tip-hidden",
            "The tips folded in at the corners are hidden under the border.",
            [paper.measure.area("", 0.0, _area(shown.get(_TIP)), area_slack(outline.length))],
        ),
        *_miters(paper, shown, bare),
    )


def _area(area: BaseGeometry | None) -> float:
    return 0.0 if area is None else area.area


def _difference(paper: Paper, at: str, found: BaseGeometry, expected: BaseGeometry) -> Reading:
    """The area by which two shapes differ, as what is found of the expected one and beside it."""
    wrong = less(found, expected).area + less(expected, found).area
    slack = area_slack(found.length + expected.length)
    return paper.measure.area(at, expected.area, expected.area + wrong, slack)


def _border(paper: Paper, shown: dict[str, BaseGeometry], frame: BaseGeometry) -> tuple[Check, ...]:
    """The folded sides against the frame that the border must fill."""
    sides = [shown.get(side, Polygon()) for side in paper.sides]
    readings = [_difference(paper, "", joined(sides), frame)]
    return judge(
        "border-covered",
        "The folded sides of the backing cover the whole border, the corners too.",
        readings,
    )


def _miters(paper: Paper, shown: dict[str, BaseGeometry], bare: BaseGeometry) -> tuple[Check, ...]:
    """At each corner, the edges of the two folded sides against the line between their corners."""
    inner = shapely.get_coordinates(bare)
    readings = []
    for i, at in enumerate(paper.corners):
        corner = paper.raw_edges[i][0]
        near = min(inner.tolist(), key=lambda p: distance((p[0], p[1]), corner))
        line = corner, (near[0], near[1])
        for side in paper.around_corner(i):
            readings.append(paper.measure.apart(at, _edge_gap(shown.get(side), line)))
    return judge(
        "miter-one-line",
        "The mitered edges of two neighbouring sides lie on one line, "
        "from the finished corner to the inner corner of the border.",
        readings,
    )


def _edge_gap(side: BaseGeometry | None, line: Line) -> float:
    """How far a folded side's outline is from having a line as one of its edges."""
    if side is None:
        return float("inf")
    places = shapely.points([line[0], middle(*line), line[1]])
    return float(shapely.distance(side.boundary, places).max())


def folds_in_place(paper: Paper) -> tuple[Check, ...]:
    """The fold marks of sides and corners against the top's raw edge."""
    readings = []
    for i, side in enumerate(paper.sides):
        edge, border = paper.raw_edges[i], paper.borders[i]
        for kind, amount in ((MarkKind.FIRST_FOLD, border), (MarkKind.SECOND_FOLD, 0.0)):
            readings += [
                paper.measure.length(side, amount, beside(p, edge))
                for p in paper.backing.line(kind, side)
            ]
    for i, at in enumerate(paper.corners):
        line = paper.backing.line(MarkKind.CORNER_FOLD, at)
        corner = paper.raw_edges[i][0]
        readings.append(paper.measure.apart(at, off_segment(corner, line)))
    return judge(
        "folds-in-place",
        "The first fold lies a border outside the top's raw edge, the second on it, "
        "and each corner fold runs through the top's corner.",
        readings,
    )


def centers(paper: Paper) -> tuple[Check, ...]:
    """The centers of both pieces against the middle of the top's raw edge, and their own edges."""
    readings = []
    for side, edge in zip(paper.sides, paper.raw_edges, strict=True):
        for piece in (paper.top, paper.backing):
            place, end = piece.line(MarkKind.CENTER, side)
            readings.append(paper.measure.apart(side, distance(place, middle(*edge))))
            raw = zip(piece.outline, piece.outline[1:] + piece.outline[:1], strict=True)
            readings.append(paper.measure.apart(side, min(off_segment(end, e) for e in raw)))
    return judge(
        "centers-meet",
        "The centers of top and backing lie on one another, in the middle of the top's raw edge, "
        "and reach the raw edge of their piece.",
        readings,
    )
