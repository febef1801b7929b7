"""Strips of mixed pieces, searched for the least cloth within what an effort allows; mm, exact."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from cutpaths.cloth.checked import require
from cutpaths.cloth.packing import judge
from cutpaths.cloth.packing.bounds import lower_bounds
from cutpaths.cloth.packing.cuts import Cut, Node, Way
from cutpaths.cloth.packing.diving import dived_strips
from cutpaths.cloth.packing.effort import Effort, Watch, unwatched
from cutpaths.cloth.packing.guillotine import pack_guillotine
from cutpaths.cloth.packing.items import Item
from cutpaths.values import Value


class Search(Value):
    """How much work to do, and who hears of it."""

    effort: Effort
    watch: Watch = unwatched


def searched_strips(items: Sequence[Item], width: Fraction, search: Search) -> tuple[Node, ...]:
    """The strips of the shortest plan found cut in three stages at most: strips, crosscuts, trims.

    Patterns made whole come first, then a search over orders of the pieces.

    Raises:
        InputError: there is nothing to cut, or a piece is too wide.
    """
    dived = dived_strips(items, width, effort=search.effort, watch=search.watch)
    if dived is not None and _length(dived) <= lower_bounds(items, width)[0].height:
        return dived
    best = pack_guillotine(items, width, effort=search.effort, watch=search.watch)
    require(judge.faults(items, best), "these pieces")
    if dived is not None and _length(dived) < best.height:
        return dived
    return strips_in(best.cuts)


def _length(strips: Sequence[Node]) -> Fraction:
    return sum((Fraction(strip.height) for strip in strips), Fraction(0))


def strips_in(cuts: Node | None) -> tuple[Node, ...]:
    """The strips that the first cuts of a tree give; all of it where they run along the cloth."""
    if cuts is None:
        return ()
    return cuts.parts if isinstance(cuts, Cut) and cuts.way is Way.ACROSS else (cuts,)
