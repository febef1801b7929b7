"""The filling of a kit, spoiled."""

from __future__ import annotations

from damage import Damage, PieceDamage, moved_by, outline
from damaged_kits import Case, filled, filled_and_folded, square_panel

from cutpaths.geometry.assembly import Face
from cutpaths.geometry.marks import Mark, MarkKind
from cutpaths.pieces import Kit
from cutpaths.values import replace


def filling(change: PieceDamage) -> Damage:
    """Spoils the filling."""

    def spoil(kit: Kit) -> Kit:
        assert kit.filling is not None
        return replace(kit, filling=change(kit.filling))

    return spoil


def lost(kit: Kit) -> Kit:
    """Nobody has cut the filling."""
    return replace(kit, filling=None)


def unasked(kit: Kit) -> Kit:
    """A filling in a blanket that has none."""
    return replace(kit, filling=filled().filling)


CENTER = Mark(MarkKind.CENTER, "A", ((100.0, 5.0), (100.0, 0.0)))
INSIDE = "filling-inside"
CASES = [
    Case("filling left out", filled, lost, INSIDE),
    Case("filling nobody asked for", square_panel, unasked, INSIDE),
    Case("filling beside its place", filled, filling(moved_by(1, 0)), INSIDE),
    Case("filling a little too low", filled_and_folded, filling(moved_by(0, -0.01)), INSIDE),
    Case(
        "filling cut short at its foot",
        filled,
        filling(outline(lambda r: [(x, max(y, 1.0)) for x, y in r])),
        INSIDE,
    ),
    Case(
        "filling cut too large on one side",
        filled_and_folded,
        filling(outline(lambda r: [(min(x, 0.0) - 3.0 if x < 1 else x, y) for x, y in r])),
        INSIDE,
    ),
    Case(
        "corner cut off the filling",
        filled,
        filling(outline(lambda r: [(r[0][0] + 5, r[0][1]), *r[1:], (r[0][0], r[0][1] + 5)])),
        INSIDE,
    ),
    Case(
        "filling of another cloth",
        filled,
        filling(lambda piece: replace(piece, fabric="sea")),
        INSIDE,
    ),
    Case(
        "filling with a mark",
        filled,
        filling(lambda piece: replace(piece, marks=(CENTER,))),
        INSIDE,
    ),
    Case(
        "filling that must lie one face up",
        filled,
        filling(lambda piece: replace(piece, face=Face.WRONG)),
        "faces-up",
    ),
    Case(
        "filling whose outline runs clockwise",
        filled,
        filling(outline(lambda r: r[::-1])),
        "shapes-sound",
    ),
]
