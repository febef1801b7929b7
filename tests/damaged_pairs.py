"""Squares that are sewn in pairs before cutting, spoiled one by one."""

from __future__ import annotations

from collections.abc import Callable

from damage import PieceDamage, lose, marks, move, pair, places
from damage import outline as cut
from damaged_kits import Case, paired

from cutpaths.geometry.layouts.pairs import SewnPair
from cutpaths.geometry.marks import MarkKind
from cutpaths.lengths import INCH
from cutpaths.values import replace


def _marked(change: PieceDamage) -> Callable[[SewnPair], SewnPair]:
    """Spoils the upper square."""
    return lambda found: replace(found, marked=change(found.marked))


def _plain(change: PieceDamage) -> Callable[[SewnPair], SewnPair]:
    """Spoils the square under it."""
    return lambda found: replace(found, plain=change(found.plain))


CASES = [
    Case(
        "square under too small",
        paired,
        pair(_plain(cut(lambda ring: tuple((x * 0.97, y * 0.97) for x, y in ring)))),
        "pairs-serve",
    ),
    Case(
        "square of another width than is said",
        paired,
        pair(lambda found: replace(found, cut=found.cut + INCH / 8)),
        "pairs-serve",
    ),
    Case(
        "exact size forgets the diagonal",
        paired,
        pair(lambda found: replace(found, exact=found.trim_to)),
        "pairs-serve",
    ),
    Case(
        "seam of a pair too near the cut",
        paired,
        pair(_marked(marks(MarkKind.STITCH, "1", move(0, -1)))),
        "pairs-serve",
    ),
    Case(
        "seam of a pair forgotten",
        paired,
        pair(_marked(marks(MarkKind.STITCH, "2", lose))),
        "pairs-serve",
    ),
    Case(
        "cut beside the diagonal",
        paired,
        pair(_marked(marks(MarkKind.CUT_APART, "", move(2, 0, only=1)))),
        "pairs-serve",
    ),
    Case(
        "cut forgotten", paired, pair(_marked(marks(MarkKind.CUT_APART, "", lose))), "pairs-serve"
    ),
    Case("a square too few", paired, pair(_plain(places(lambda old: old[1:]))), "pairs-serve"),
    Case(
        "trimmed to the finished size",
        paired,
        pair(lambda found: replace(found, trim_to=found.trim_to - INCH / 2)),
        "pairs-serve",
    ),
]
