"""How the threads of a kit's pieces run, spoiled one by one."""

from __future__ import annotations

import math

from damage import backing, marks, move, patch, regrained, top
from damaged_kits import Case, checkers, setting, square_panel

from cutpaths.geometry.assembly import Piece
from cutpaths.geometry.marks import MarkKind
from cutpaths.pieces import Kit
from cutpaths.shapes import Motion
from cutpaths.values import replace

_DIAGONAL = math.sqrt(0.5)


def _turned(quarters: int, width: float, height: float) -> Motion:
    """A turn that lays a piece of this size, upright or on its side, into its own box."""
    shifts = {1: (width, 0.0), 2: (width, height)}
    return Motion.quarters(quarters, *shifts[quarters])


def _laid(quarters: int, piece: Piece) -> Piece:
    """The first of some alike squares set down turned, where it was."""
    first, *rest = piece.places
    return replace(piece, places=(_turned(quarters, *piece.size).then(first), *rest))


def _headless(piece: Piece) -> Piece:
    """A print that is taken for a cloth that has no up."""
    assert piece.grain is not None
    return replace(piece, grain=replace(piece.grain, headed=False))


def _kind(kit: Kit, corners: int, fabric: str) -> int:
    """Which patch has so many corners and is of a fabric."""
    return next(
        i
        for i, part in enumerate(kit.patchwork.parts)
        if isinstance(part, Piece) and len(part.outline) == corners and part.fabric == fabric
    )


PRINT = _kind(checkers(), 4, "sea")
PLAIN = _kind(checkers(), 4, "sand")
ON_POINT = _kind(setting(), 4, "sea")
SIDE = _kind(setting(), 3, "sand")

CASES = [
    Case("print on its head", checkers, patch(lambda piece: _laid(2, piece), PRINT), "grain-kept"),
    Case("print on its side", checkers, patch(lambda piece: _laid(1, piece), PRINT), "grain-kept"),
    Case(
        "plain patch cut on the bias",
        checkers,
        patch(regrained((_DIAGONAL, _DIAGONAL)), PLAIN),
        "grain-kept",
    ),
    Case("print taken for plain cloth", checkers, patch(_headless, PRINT), "grain-kept"),
    Case(
        "patch that does not say its grain",
        checkers,
        patch(lambda piece: replace(piece, grain=None), PLAIN),
        "grain-kept",
    ),
    Case("backing cut across", checkers, backing(regrained((1.0, 0.0))), "grain-kept"),
    Case("backing upside down", checkers, backing(regrained((0.0, -1.0))), "grain-kept"),
    Case("top of one cloth cut across", square_panel, top(regrained((1.0, 0.0))), "grain-kept"),
    Case(
        "grain line askew",
        checkers,
        backing(marks(MarkKind.GRAIN, "", move(2, 0, only=1))),
        "grain-kept",
    ),
    Case(
        "side triangle with its long edge across the grain",
        setting,
        patch(regrained((0.0, 1.0)), SIDE),
        "grain-kept",
    ),
    Case(
        "print on point cut upright",
        setting,
        patch(regrained((_DIAGONAL, _DIAGONAL)), ON_POINT),
        "grain-kept",
    ),
]
