"""Whether the filling lies inside the finished blanket, as far from its edge as it is asked to."""

from __future__ import annotations

from collections.abc import Iterator

from shapely import Polygon

from cutpaths.geometry.polygons import Ring, edges
from cutpaths.proof.borders import finished_ring, with_turn
from cutpaths.proof.check import Check
from cutpaths.proof.paper import Paper
from cutpaths.proof.planes import apart, around, beside
from cutpaths.proof.reading import Fault, Reading, faultless, judge
from cutpaths.values import replace

_NAME = "filling-inside"
_CLAIM = (
    "The filling, which has no marks, lies inside the finished edge by what it is cut smaller, all "
    "along every side; on paper half the turn of cloth comes on top of it."
)


def filling(paper: Paper) -> tuple[Check, ...]:
    """The filling where its place puts it, against the edge; none where none is asked for."""
    faults = list(_faults(paper))
    return faultless(_NAME, _CLAIM, faults) if faults else judge(_NAME, _CLAIM, _readings(paper))


def _faults(paper: Paper) -> Iterator[Fault]:
    """Whether it is there just where it is asked for, of the cloth asked for, and bare."""
    piece, asked = paper.kit.filling, paper.kit.project.filling
    if (piece is None) is not (asked is None):
        yield Fault("FILLING", "it is not there" if piece is None else "nobody asked for it")
    elif piece is not None and asked is not None:
        if piece.fabric != asked.fabric:
            yield Fault(piece.key, f"it is cut from {piece.fabric}, not from {asked.fabric}")
        if piece.marks:
            yield Fault(piece.key, f"it has a {piece.marks[0].kind}")


def _readings(paper: Paper) -> Iterator[Reading]:
    piece, asked = paper.kit.filling, paper.kit.project.filling
    if piece is None or asked is None:
        return
    laid = piece.places[0].ring(piece.outline)
    turn = float(paper.kit.project.turn_of_cloth / 2)
    inside = float(asked.less) + turn
    sides = edges(_edge(paper))
    for name, line in zip(paper.sides, sides, strict=True):
        found = min(-beside(p, line) for p in laid)
        reading = paper.measure.length(name, inside, found)
        yield replace(reading, text=lambda mm: with_turn(paper, mm, turn))
    expected = around(sides, [-inside] * len(sides))
    yield paper.measure.apart("", apart(Polygon(laid), expected))


def _edge(paper: Paper) -> Ring:
    """The finished outline: the creases of the borders, or the top's edge where it is folded to."""
    if paper.sewn:
        return finished_ring(paper)
    return tuple(start for start, _ in paper.raw_edges)
