"""The corner templates: their cut-outs, and how they lie on every corner that they serve."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import combinations

import shapely
from shapely import Polygon
from shapely.geometry.base import BaseGeometry

from cutpaths.geometry.assembly import Piece
from cutpaths.geometry.polygons import distance, middle
from cutpaths.proof.cards import Card, every_way, notch
from cutpaths.proof.check import Check
from cutpaths.proof.paper import Paper
from cutpaths.proof.planes import beside, off_segment
from cutpaths.proof.reading import Fault, Reading, count, faultless, judge
from cutpaths.proof.tolerances import PLACE_MM
from cutpaths.shapes import Circle, Path

# Card left between two cut-outs, and the notch for the crease: its depth, half way to the fold
# point at most, and its reach to either side; our own choice.
BRIDGE_MM = 3.0
# The smallest hole that a pencil's point goes through.
LEAST_HOLE_MM = 1.0
NOTCH_DEPTH_MM = 3.0
NOTCH_REACH_MM = 2.0


def templates(paper: Paper) -> tuple[Check, ...]:
    """All that must hold for the templates."""
    cards = [
        card
        for template in paper.kit.templates
        for at in template.corners
        if at in paper.corners
        for card in _best(paper, template.piece, at)
    ]
    pieces = [template.piece for template in paper.kit.templates]
    return (
        *_serve(paper),
        *_cut_outs(paper, pieces),
        *judge(
            "template-holes",
            "Laid on its corner, each round hole of a template falls on its dot, "
            "or on the top's corner where the layers are folded over.",
            [reading for card in cards for reading in _holes(paper, card)],
        ),
        *judge(
            "template-slots",
            "Laid on its corner, each slot of a template runs along its line, half to either side.",
            [reading for card in cards for reading in _slots(paper, card)],
        ),
        *judge(
            "template-edges",
            "Laid on its corner, a template's edges follow the raw edges and the trim line, "
            "and its notch points along the crease.",
            [reading for card in cards for reading in _edges(paper, card)],
        ),
    )


def _serve(paper: Paper) -> tuple[Check, ...]:
    served = Counter(at for template in paper.kit.templates for at in template.corners)
    unlike = sorted(set(served) - set(paper.corners))
    return judge(
        "templates-serve",
        "Every corner has one template.",
        [
            *(count(at, 1, served[at], "template") for at in paper.corners),
            *(count(at, 0, served[at], "template") for at in unlike),
        ],
    )


def _cut_outs(paper: Paper, pieces: Sequence[Piece]) -> tuple[Check, ...]:
    """Cut-outs against the outline and against one another."""
    readings, faults = [], []
    for piece in pieces:
        areas = [_area(hole) for hole in piece.holes]
        inside = Polygon(piece.outline).contains_properly(areas)
        faults += [Fault(piece.key, "a cut-out leaves it") for held in inside if not held]
        readings += [
            paper.measure.card(piece.key, _bridge(one, other), one.distance(other), least=True)
            for one, other in combinations(areas, 2)
        ]
    name = "template-cut-outs"
    claim = "The cut-outs of a template lie inside it and leave card between them."
    return faultless(name, claim, faults) if faults else judge(name, claim, readings)


def _bridge(one: BaseGeometry, other: BaseGeometry) -> float:
    """The card to be left between two cut-outs: less where the dots of a flat corner are near."""
    between = one.centroid.distance(other.centroid) - LEAST_HOLE_MM
    return min(BRIDGE_MM, max(0.0, between))


def _area(hole: Path | Circle) -> BaseGeometry:
    """A cut-out as an area; a circle as a polygon round it."""
    if isinstance(hole, Circle):
        return shapely.Point(hole.center).buffer(hole.radius, quad_segs=64)
    return Polygon(hole.points)


def _best(paper: Paper, piece: Piece, at: str) -> tuple[Card, ...]:
    """The template laid on a corner the way round that fits best."""
    cards = every_way(paper, piece, at)
    fits = [max(reading.off for reading in _edges(paper, card)) for card in cards]
    best = fits.index(min(fits)) if fits else 0
    return cards[best : best + 1]


def _holes(paper: Paper, card: Card) -> Iterator[Reading]:
    """Both dots of a corner, or its fold point, against the hole that is nearest."""
    into, out = paper.trimmed_along[card.corner]
    wanted = [into[0], out[1]] if paper.sewn else [into[1]]
    yield count(card.at, len(wanted), len(card.holes), "hole")
    for place in wanted:
        yield paper.measure.apart(card.at, min(distance(hole, place) for hole in card.holes))


def _slots(paper: Paper, card: Card) -> Iterator[Reading]:
    """Each slot against the half that it runs along: inside its ends, half to either side."""
    for slot in card.slots:
        center = middle(slot[0], slot[2])
        half = min(paper.trimmed_along[card.corner], key=lambda line: off_segment(center, line))
        sides = [beside(p, half) for p in slot]
        yield paper.measure.apart(card.at, abs(max(sides) + min(sides)))
        yield paper.measure.apart(card.at, max(map(abs, sides)) - min(map(abs, sides)))
        ends = middle(slot[0], slot[3]), middle(slot[1], slot[2])
        yield paper.measure.apart(card.at, max(off_segment(end, half) for end in ends))


def _edges(paper: Paper, card: Card) -> Iterator[Reading]:
    """The outline against that of the corner; a sewn one has a notch where the crease leaves."""
    bare = shapely.difference(card.edge, Polygon(card.outline).boundary.buffer(PLACE_MM))
    if not paper.sewn:
        yield paper.measure.apart(card.at, bare.length)
        return
    leaves, tip = notch(paper, card)
    into, _ = paper.trimmed_along[card.corner]
    depth = min(NOTCH_DEPTH_MM, distance(leaves, into[1]) / 2)
    yield paper.measure.card(card.at, depth, distance(leaves, tip))
    yield paper.measure.apart(card.at, min(distance(p, tip) for p in card.outline))
    reach = max((distance((x, y), leaves) for x, y in shapely.get_coordinates(bare)), default=0.0)
    yield paper.measure.apart(card.at, max(0.0, reach - NOTCH_REACH_MM))
