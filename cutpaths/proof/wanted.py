"""Which marks top and backing must carry, by construction; a mark that is not wanted is a fault.

Only the kinds listed here are judged: what is drawn beside them is free.
"""

from __future__ import annotations

from collections.abc import Iterator

from cutpaths.geometry.marks import MarkKind, select
from cutpaths.geometry.polygons import distance
from cutpaths.pieces import Kit
from cutpaths.project.model import BackingCorners
from cutpaths.proof.paper import corner_names, side_names
from cutpaths.proof.tolerances import PLACE_MM
from cutpaths.values import Value

# Sides longer than this carry quarter marks; common practice, no source.
QUARTERS_FROM_MM = 24 * 25.4

_TURNED_ONLY = (
    MarkKind.DOT,
    MarkKind.BACK_TACK,
    MarkKind.STITCH,
    MarkKind.BASTE,
    MarkKind.OPENING_END,
    MarkKind.OPENING_FOLD,
    MarkKind.BORDER_FOLD,
    MarkKind.MITER_FOLD,
    MarkKind.MITER_STITCH,
    MarkKind.MITER_TRIM,
    MarkKind.QUARTER,
    MarkKind.PATCH_SEAM,
)
_FOLDED_ONLY = (
    MarkKind.FIRST_FOLD,
    MarkKind.SECOND_FOLD,
    MarkKind.CORNER_FOLD,
    MarkKind.TIP_TRIM,
)


class Wanted(Value):
    """How often a piece must carry a mark; any of `counts` will do."""

    piece: str
    kind: MarkKind
    at: str
    counts: frozenset[int]


def _wanted(piece: str, kind: MarkKind, at: str, *counts: int) -> Wanted:
    return Wanted(piece, kind, at, frozenset(counts))


def wanted_turned(kit: Kit) -> tuple[Wanted, ...]:
    """The marks of a turned blanket."""
    return tuple(_turned(kit))


def wanted_folded(kit: Kit) -> tuple[Wanted, ...]:
    """The marks of a folded-over blanket: no dots, no opening, no basting."""
    return tuple(_folded(kit))


def _turned(kit: Kit) -> Iterator[Wanted]:
    top, backing = kit.top.key, kit.backing.key
    yield _wanted(top, MarkKind.BASTE, "", 1)
    sides, corners = side_names(kit), corner_names(kit)
    for i, (side, at) in enumerate(zip(sides, corners, strict=True)):
        for piece in (top, backing):
            yield from _on_side(kit, piece, i)
        yield _wanted(backing, MarkKind.BORDER_FOLD, side, 1)
        yield _wanted(top, MarkKind.DOT, at, 1)
        yield from _miter(kit, at, (sides[i - 1], side))
    for kind in _FOLDED_ONLY:
        for piece in (top, backing):
            yield _wanted(piece, kind, "", 0)


def _on_side(kit: Kit, piece: str, i: int) -> Iterator[Wanted]:
    """What both pieces carry along one seam, as the top's opening and length say."""
    sides, corners = side_names(kit), corner_names(kit)
    side, ends = sides[i], (corners[i], corners[(i + 1) % len(corners)])
    opening = bool(select(kit.top.marks, MarkKind.OPENING_FOLD, side))
    yield _wanted(piece, MarkKind.STITCH, side, 2 if opening else 1)
    yield _wanted(piece, MarkKind.CENTER, side, 1)
    yield _wanted(piece, MarkKind.OPENING_FOLD, side, int(opening))
    for n in (1, 2):
        yield _wanted(piece, MarkKind.OPENING_END, f"{side}:{n}", int(opening))
    for n in (1, 3):
        yield _wanted(piece, MarkKind.QUARTER, f"{side}:{n}", *_quarters(kit, ends))
    ticks = [m.at for m in select(kit.top.marks, MarkKind.PATCH_SEAM)]
    for tick in ticks:
        if tick.startswith(f"{side}:"):
            yield _wanted(piece, MarkKind.PATCH_SEAM, tick, 1)
    if piece == kit.top.key:
        for at in ends:
            yield _wanted(piece, MarkKind.BACK_TACK, f"{at}:{side}", 1)


def _quarters(kit: Kit, ends: tuple[str, str]) -> tuple[int, ...]:
    """How many of each quarter mark a side has: one on a long side."""
    dots = [mark for at in ends for mark in select(kit.top.marks, MarkKind.DOT, at)]
    if len(dots) < 2:
        return (0, 1)
    over = distance(dots[0].points[0], dots[-1].points[0]) - QUARTERS_FROM_MM
    return (0, 1) if abs(over) <= PLACE_MM else (int(over > 0),)


def _miter(kit: Kit, at: str, around: tuple[str, str]) -> Iterator[Wanted]:
    """What the backing carries at one corner."""
    backing = kit.backing.key
    for side in around:
        name = f"{at}:{side}"
        yield _wanted(backing, MarkKind.DOT, name, 1)
        yield _wanted(backing, MarkKind.MITER_STITCH, name, 1)
        # One on the side's seam, and one at either end of the miter.
        yield _wanted(backing, MarkKind.BACK_TACK, name, 3)
    yield _wanted(backing, MarkKind.MITER_FOLD, at, 1)
    yield _wanted(backing, MarkKind.MITER_TRIM, at, _trims(kit, at))


def _trims(kit: Kit, at: str) -> int:
    """Whether a corner carries a trim line: where there is waste that is still on."""
    left_on = kit.project.corners is BackingCorners.LEFT_ON
    return int(left_on and any(piece.key == f"WASTE-{at}" for piece in kit.waste))


def _folded(kit: Kit) -> Iterator[Wanted]:
    top, backing = kit.top.key, kit.backing.key
    for side, at in zip(side_names(kit), corner_names(kit), strict=True):
        yield _wanted(backing, MarkKind.FIRST_FOLD, side, 1)
        yield _wanted(backing, MarkKind.SECOND_FOLD, side, 1)
        yield _wanted(backing, MarkKind.CORNER_FOLD, at, 1)
        yield _wanted(backing, MarkKind.TIP_TRIM, at, _trims(kit, at))
        for piece in (top, backing):
            yield _wanted(piece, MarkKind.CENTER, side, 1)
    for kind in _TURNED_ONLY:
        for piece in (top, backing):
            yield _wanted(piece, kind, "", 0)
