"""Proven lower bounds on the length of cloth, for cuts of any kind.

Widths are made to count as something else, f(w), such that any widths that fit side by side count
as no more than the strip does. Then the heights of the pieces times what their widths count as are
no more than the length of the strip times what its width counts as. Such f are dual feasible
functions; those used are of S. P. Fekete, J. Schepers, "New classes of fast lower bounds for bin
packing problems", Mathematical Programming 91(1), 2001, 11-31; the area is f(w) = w. A piece that
may be turned counts the less of its two ways.

Pieces that leave no room for another beside them are laid apart first, as in S. Martello,
M. Monaci, D. Vigo, "An exact approach to the strip-packing problem", INFORMS Journal on Computing
15(3), 2003, 310-319, and what remains is raised to the next sum of heights. The bound in `slices`
is as good or better and takes a solver.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable, Iterator, Sequence
from enum import StrEnum
from fractions import Fraction
from itertools import accumulate
from typing import NamedTuple

from cutpaths.cloth.packing.items import Item, Length
from cutpaths.cloth.packing.reach import next_height, snug_width
from cutpaths.cloth.packing.sheet import Kind, Sheet, sheet_of
from cutpaths.values import Value, replace

GRAINS = 24  # most parts of a strip that widths are rounded to
SMALLEST = 48  # most widths tried as the smallest that counts


class Reason(StrEnum):
    """Why no plan can be shorter."""

    AREA = "area of the pieces"
    APART = "pieces that do not go side by side"
    WIDTHS = "widths that do not go side by side"
    SLICES = "best mix of widths in every slice of the strip"


class Bound(Value):
    """A length that no plan is below, and why."""

    height: Length
    reason: Reason


class Measure(NamedTuple):
    """What a width counts as, when the strip counts as `whole`."""

    whole: int
    of: Callable[[int], int]


def lower_bounds(items: Sequence[Item], width: Length, spacing: Length = 0) -> tuple[Bound, ...]:
    """Each bound, the best first.

    Raises:
        InputError: there is nothing to cut, or items are too wide for the strip.

    >>> squares, backing = Item(width=5, height=5, count=81), Item(width=42, height=42)
    >>> [f"{bound.height} {bound.reason.name}" for bound in lower_bounds([squares, backing], 42)]
    ['97 WIDTHS', '1263/14 AREA', '47 APART']
    """
    sheet = sheet_of(items, width, spacing)
    area = sum((item.width + spacing) * (item.height + spacing) * item.count for item in items)
    found = (
        Bound(sheet.size(_widths_bound(sheet)), Reason.WIDTHS),
        Bound(Fraction(area, width + spacing) - spacing, Reason.AREA),
        Bound(sheet.size(_apart_bound(sheet)), Reason.APART),
    )
    return tuple(sorted(found, key=lambda bound: -bound.height))


def least_height(sheet: Sheet) -> int:
    """The best bound, in steps."""
    return max(_widths_bound(sheet), _apart_bound(sheet))


def apart(sheet: Sheet) -> tuple[int, Sheet | None]:
    """What length is taken by pieces that nothing fits beside, and the sheet of all others."""
    narrowest = min(width for kind in sheet.kinds for width, _, _ in kind.ways)

    def is_alone(kind: Kind) -> bool:
        return all(width + narrowest > sheet.width for width, _, _ in kind.ways)

    alone = [kind for kind in sheet.kinds if is_alone(kind)]
    others = tuple(kind for kind in sheet.kinds if not is_alone(kind))
    taken = sum(kind.count * _flat(kind) for kind in alone)
    return taken, replace(sheet, kinds=others) if others else None


def _flat(kind: Kind) -> int:
    """The height of a piece that lies as flat as it may."""
    return min(height for _, height, _ in kind.ways)


def _apart_bound(sheet: Sheet) -> int:
    """The most length of pieces of which no two lie side by side.

    They are all those wider than half the strip, or of these the ones beside which some narrower
    piece has no room, and one such piece; each lies as narrow and as flat as it may.
    """
    widths = [(min(width for width, _, _ in kind.ways), kind) for kind in sheet.kinds]
    wide = sorted(
        ((w, kind.count * _flat(kind)) for w, kind in widths if 2 * w > sheet.width), reverse=True
    )
    known = [-w for w, _ in wide]
    lengths = list(accumulate((length for _, length in wide), initial=0))
    narrow = (
        lengths[bisect_left(known, w - sheet.width)] + _flat(kind)
        for w, kind in widths
        if 2 * w <= sheet.width
    )
    return max(lengths[-1], max(narrow, default=0))


def _widths_bound(sheet: Sheet) -> int:
    taken, others = apart(sheet)
    if others is None:
        return taken
    width = snug_width(others)
    return taken + next_height(others, max(_least(others, m) for m in _measures(others, width)))


def _least(sheet: Sheet, measure: Measure) -> int:
    """The least whole length that holds what the pieces count as."""
    taken = sum(
        kind.count * min(measure.of(width) * height for width, height, _ in kind.ways)
        for kind in sheet.kinds
    )
    return -(-taken // measure.whole)


def _measures(sheet: Sheet, width: int) -> Iterator[Measure]:
    """Functions that may serve; each holds for every sheet."""
    widths = sorted({way[0] for kind in sheet.kinds for way in kind.ways})
    halves = [w for w in widths if 2 * w <= width]
    thinned = halves[:: -(-len(halves) // SMALLEST) or 1]
    yield Measure(width, lambda w: w)
    yield from (_rounded(width, grains) for grains in range(1, GRAINS + 1))
    yield from (_none_below(width, least) for least in (*thinned, width // 2 + 1))
    yield from (_counted_from(width, least) for least in thinned)


def _rounded(width: int, grains: int) -> Measure:
    """Widths in so many parts of the strip, rounded: u^(k) of Fekete and Schepers."""

    def of(w: int) -> int:
        parts, rest = divmod((grains + 1) * w, width)
        return parts * width if rest else grains * w

    return Measure(grains * width, of)


def _none_below(width: int, least: int) -> Measure:
    """Widths below the least as nothing, so that the widest take the whole strip: U^(epsilon)."""

    def of(w: int) -> int:
        return 0 if w < least else width if w + least > width else w

    return Measure(width, of)


def _counted_from(width: int, least: int) -> Measure:
    """Widths of the least up to half the strip as one each: phi^(epsilon)."""
    whole = width // least

    def of(w: int) -> int:
        return whole - (width - w) // least if 2 * w > width else int(w >= least)

    return Measure(whole, of)
