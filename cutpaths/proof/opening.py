"""The turning opening: as asked, clear of the dots, and at the same place on both pieces."""

from __future__ import annotations

from cutpaths.geometry.marks import MarkKind, letter
from cutpaths.geometry.polygons import distance
from cutpaths.lengths import Unit
from cutpaths.proof.check import Check
from cutpaths.proof.paper import Paper
from cutpaths.proof.planes import ahead
from cutpaths.proof.reading import Fault, Reading, faultless, judge
from cutpaths.proof.seams import both
from cutpaths.proof.tolerances import COUNT, PLACE_MM

# Common practice, no source: the usual lengths, the longest that fits first, and what must stay
# sewn beside each dot.
USUAL_INCH_MM = tuple(inches * 25.4 for inches in (8, 7, 6, 5, 4))
USUAL_METRIC_MM = (200.0, 180.0, 150.0, 120.0, 100.0)
# With a filling, which goes in through the opening, longer ones come first.
FILLED_INCH_MM = tuple(inches * 25.4 for inches in (12, 11, 10, 9))
FILLED_METRIC_MM = (300.0, 280.0, 250.0, 220.0)
DOT_CLEARANCE_MM = 2 * 25.4

_ASKED = "The opening is as long as asked, or else the longest usual one that fits, on its side."


def opening(paper: Paper) -> tuple[Check, ...]:
    """Checks of the opening; where it is not there once, only that."""
    pieces = {"TOP": paper.top, "BACKING": paper.backing}
    faults = [
        Fault(name, f"{len(piece.of_kind(MarkKind.OPENING_FOLD))} openings")
        for name, piece in pieces.items()
        if len(piece.of_kind(MarkKind.OPENING_FOLD)) != 1
    ]
    if faults:
        return faultless("opening-asked", _ASKED, faults)
    side = paper.top.of_kind(MarkKind.OPENING_FOLD)[0].at
    return (*_asked(paper, side), *_clear(paper, side), *_meets(paper, side))


def _asked(paper: Paper, side: str) -> tuple[Check, ...]:
    """Side, length and place against what the project asks for."""
    asked = paper.kit.project.opening
    if asked is None:
        return ()
    index = paper.kit.order[1] if asked.side is None else asked.side
    readings = [
        Reading(
            at=side,
            expected=index,
            found=paper.sides.index(side),
            slack=COUNT,
            text=lambda i: f"on side {letter(round(i))}",
        )
    ]
    for piece, line in both(paper, side):
        near, far = piece.line(MarkKind.OPENING_FOLD, side)
        wish = _usual(paper, distance(*line)) if asked.length is None else float(asked.length)
        readings.append(paper.measure.length(side, wish, distance(near, far)))
        if asked.start is not None:
            start = ahead(near, line)
            readings.append(paper.measure.length(side, float(asked.start), start))
    return judge("opening-asked", _ASKED, readings)


def _usual(paper: Paper, side: float) -> float:
    """The longest usual opening that fits a side; 0 where none does."""
    inches = paper.kit.project.ruler.unit is Unit.INCH
    room = side - 2 * DOT_CLEARANCE_MM + PLACE_MM
    usual = USUAL_INCH_MM if inches else USUAL_METRIC_MM
    if paper.kit.project.filling is not None:
        usual += FILLED_INCH_MM if inches else FILLED_METRIC_MM
    return max((length for length in usual if length <= room), default=0.0)


def _clear(paper: Paper, side: str) -> tuple[Check, ...]:
    """What stays sewn between the opening and either dot."""
    readings = []
    for piece, line in both(paper, side):
        near, far = piece.line(MarkKind.OPENING_FOLD, side)
        for sewn in (ahead(near, line), distance(*line) - ahead(far, line)):
            readings.append(paper.measure.length(side, DOT_CLEARANCE_MM, sewn, least=True))
    return judge(
        "opening-clear", "Enough stays sewn between the opening and the dots beside it.", readings
    )


def _meets(paper: Paper, side: str) -> tuple[Check, ...]:
    """The opening's ends on both pieces, by its fold and by the signs at its ends."""
    over = paper.fold[side]
    readings = []
    folds = (piece.line(MarkKind.OPENING_FOLD, side) for piece in (paper.top, paper.backing))
    for n, (here, there) in enumerate(zip(*folds, strict=True), 1):
        at = f"{side}:{n}"
        readings.append(paper.measure.apart(at, distance(over.point(there), here)))
        here = paper.top.point(MarkKind.OPENING_END, at)
        there = paper.backing.point(MarkKind.OPENING_END, at)
        readings.append(paper.measure.apart(at, distance(over.point(there), here)))
    return judge(
        "opening-meets",
        "The opening has the same ends on top and backing, the border folded over.",
        readings,
    )
