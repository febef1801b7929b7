"""Seams and the opening of a kit, spoiled one by one."""

from __future__ import annotations

from damage import Damage, backing, both, marks, move, top
from damaged_kits import OPENING, Case, checkers

from cutpaths.geometry.marks import MarkKind
from cutpaths.values import replace


def _ends_moved(first: float, second: float) -> Damage:
    """Both ends of the opening on side B shifted along it, on both pieces."""
    return both(
        marks(MarkKind.STITCH, "B", move(0, first, only=1), 0),
        marks(MarkKind.STITCH, "B", move(0, second, only=0), 1),
        marks(MarkKind.OPENING_FOLD, "B", move(0, first, only=0)),
        marks(MarkKind.OPENING_FOLD, "B", move(0, second, only=1)),
        marks(MarkKind.OPENING_END, "B:1", move(0, first)),
        marks(MarkKind.OPENING_END, "B:2", move(0, second)),
    )


CASES = [
    # Seams.
    Case(
        "tick beside its seam on both pieces",
        checkers,
        both(marks(MarkKind.PATCH_SEAM, "B:2", move(0, 5))),
        "ticks-at-seams",
    ),
    Case(
        "tick moved on the backing",
        checkers,
        backing(marks(MarkKind.PATCH_SEAM, "A:1", move(4, 0))),
        "matches-meet",
    ),
    Case(
        "stitching stops short",
        checkers,
        backing(marks(MarkKind.STITCH, "A", move(-3, 0, only=1))),
        "stitching-whole",
    ),
    Case(
        "short seam",
        checkers,
        backing(marks(MarkKind.DOT, "AB:A", move(-3, 0))),
        "seams-equal",
        "dots-meet stitching-whole centers-in-middle signs-on-seams miter-halves",
    ),
    Case(
        "dot off its seam",
        checkers,
        backing(marks(MarkKind.DOT, "CD:D", move(1, 0))),
        "dots-meet",
        "seams-equal stitching-whole centers-in-middle signs-on-seams border-width "
        "backing-allowance miter-halves",
    ),
    Case(
        "center moved on the backing",
        checkers,
        backing(marks(MarkKind.CENTER, "C", move(3, 0))),
        "matches-meet",
        "centers-in-middle",
    ),
    Case(
        "center moved on both pieces",
        checkers,
        both(marks(MarkKind.CENTER, "B", move(0, 3))),
        "centers-in-middle",
    ),
    Case(
        "quarter mark moved on both pieces",
        checkers,
        both(marks(MarkKind.QUARTER, "B:1", move(0, 3))),
        "centers-in-middle",
    ),
    Case(
        "tick stops short of the edge",
        checkers,
        top(marks(MarkKind.PATCH_SEAM, "B:2", move(-1, 0, only=1))),
        "signs-on-seams",
        "marks-inside",
    ),
    Case(
        "back-tack sign beside its dot",
        checkers,
        top(marks(MarkKind.BACK_TACK, "AB:B", move(0, 2))),
        "signs-on-seams",
    ),
    Case(
        "back-tack sign of the miter beside the fold point",
        checkers,
        backing(marks(MarkKind.BACK_TACK, "AB:B", move(2, 2), number=2)),
        "signs-on-seams",
    ),
    # The opening.
    Case("opening over a dot", checkers, _ends_moved(-70, -70), "opening-clear", "opening-asked"),
    Case(
        "opening elsewhere on the backing",
        checkers,
        backing(marks(MarkKind.OPENING_END, "B:1", move(0, 1))),
        "opening-meets",
        "signs-on-seams",
    ),
    Case("opening too short on both pieces", checkers, _ends_moved(0, -9), "opening-asked"),
    Case(
        "opening on another side than asked",
        checkers,
        lambda kit: replace(kit, project=replace(kit.project, opening=replace(OPENING, side=3))),
        "opening-asked",
    ),
]
