"""Borders, miters and waste of a kit, spoiled one by one."""

from __future__ import annotations

from damage import (
    backing,
    lose,
    marks,
    move,
    moved_by,
    waste,
)
from damage import outline as cut
from damaged_kits import Case, checkers, hexagon_like

from cutpaths.geometry.marks import MarkKind
from cutpaths.geometry.polygons import Ring
from cutpaths.pieces import Kit
from cutpaths.shapes import Point


def _snipped(ring: Ring) -> tuple[Point, ...]:
    """The lower left corner cut off, 2 mm each way."""
    i = ring.index(min(ring, key=sum))
    x, y = ring[i]
    return (*ring[:i], (x, y + 2), (x + 2, y), *ring[i + 1 :])


def _bitten(ring: Ring) -> tuple[Point, ...]:
    """A notch of 2 mm in the middle of the foot."""
    first, second, *rest = ring
    middle = (first[0] + second[0]) / 2 + 40
    return (
        first,
        (middle - 3, first[1]),
        (middle, first[1] + 2),
        (middle + 3, first[1]),
        second,
        *rest,
    )


def _square_waste(ring: Ring) -> tuple[Point, ...]:
    """The triangle at the foot's left made a rectangle, as off a fold through the wrong corner."""
    xs, ys = [p[0] for p in ring], [p[1] for p in ring]
    return (
        (min(xs), min(ys)),
        (max(xs), min(ys)),
        (max(xs), max(ys)),
        (min(xs), max(ys)),
    )


def _without_waste(kit: Kit) -> Kit:
    """Corner AB trimmed nowhere."""
    kit = waste("AB", lose)(kit)
    return backing(marks(MarkKind.MITER_TRIM, "AB", lose))(kit)


CASES = [
    # Borders and backing.
    Case(
        "border folded too narrow",
        checkers,
        backing(marks(MarkKind.BORDER_FOLD, "C", move(0, -1))),
        "border-width",
        "dots-meet matches-meet front-covered miter-halves",
    ),
    Case(
        "widened miter",
        checkers,
        backing(marks(MarkKind.MITER_STITCH, "CD:C", move(3, 3, only=1))),
        "front-covered",
        "signs-on-seams miter-halves miter-crease waste-region trim-line template-slots "
        "template-edges miter-allowance",
    ),
    Case(
        "bite out of the backing",
        checkers,
        backing(cut(_bitten)),
        "backing-allowance",
        "backing-outline waste-and-kept",
    ),
    Case(
        "backing cut short",
        checkers,
        backing(cut(lambda r: tuple((x, max(y, 1.0)) for x, y in r))),
        "backing-outline",
        "backing-allowance waste-and-kept signs-on-seams miter-crease trim-line marks-inside",
    ),
    # Miters.
    Case(
        "fold point off one half",
        checkers,
        backing(marks(MarkKind.BORDER_FOLD, "B", move(0, 2, only=0))),
        "miter-halves",
        "front-covered",
    ),
    Case(
        "fold mark askew",
        checkers,
        backing(marks(MarkKind.MITER_FOLD, "BC", move(-2, 0, only=1))),
        "miter-crease",
        "miter-angle",
    ),
    Case(
        "fold mark askew at an obtuse corner",
        hexagon_like,
        backing(marks(MarkKind.MITER_FOLD, "CD", move(-2, 0, only=1))),
        "miter-angle",
        "miter-crease",
    ),
    Case(
        "too much trimmed",
        checkers,
        waste("DA", cut(lambda r: tuple((x * 1.1, y * 1.1) for x, y in r))),
        "miter-allowance",
        "waste-region",
    ),
    # Waste.
    Case(
        "trim line too near",
        checkers,
        backing(marks(MarkKind.MITER_TRIM, "DA", move(2, 0, only=0))),
        "trim-line",
    ),
    Case(
        "waste is a rectangle",
        checkers,
        waste("DA", cut(_square_waste)),
        "waste-sides",
        "waste-region miter-allowance",
    ),
    Case(
        "waste of five sides",
        hexagon_like,
        waste("BC", cut(_snipped)),
        "waste-sides",
        "waste-region waste-and-kept",
    ),
    Case("waste forgotten, its trim line too", checkers, _without_waste, "waste-region"),
    Case(
        "waste beside its corner",
        checkers,
        waste("AB", moved_by(2, 0)),
        "waste-and-kept",
        "waste-region",
    ),
]
