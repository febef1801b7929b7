"""Where the turning opening goes; distances in mm along one side from the dot where it starts.

An opening keeps clear of the dots and, where there is room, ends clear of patch seams, and lies
between the center mark and a dot, so that the center can be pinned and sewn over. Lengths and
clearances are common practice, no source.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from cutpaths.geometry.polygons import SAME_PLACE_MM
from cutpaths.lengths import INCH_MM
from cutpaths.values import Value

USUAL_INCH = tuple(inches * INCH_MM for inches in (8, 7, 6, 5, 4))
USUAL_METRIC = (200.0, 180.0, 150.0, 120.0, 100.0)
# A filling that is slid in afterwards wants a wider one.
FILLED_INCH = (*(inches * INCH_MM for inches in (12, 11, 10, 9)), *USUAL_INCH)
FILLED_METRIC = (300.0, 280.0, 250.0, 220.0, *USUAL_METRIC)
DOT_CLEARANCE = 2 * INCH_MM
SEAM_CLEARANCE = INCH_MM / 2


class PlacedOpening(Value, kw_only=True):
    """An opening on a side.

    Attributes:
        side: index of the side.
        start, end: distances from the side's first dot.
        clear_of_seams: whether both ends keep the clearance from patch seams.
    """

    side: int
    start: float
    end: float
    clear_of_seams: bool

    @property
    def length(self) -> float:
        """Length left unsewn."""
        return self.end - self.start


def longest(side_length: float) -> float:
    """The longest opening that keeps clear of both dots; negative where there is none."""
    return side_length - 2 * DOT_CLEARANCE


def place(
    side: int,
    side_length: float,
    seams: Sequence[float],
    *,
    lengths: Sequence[float],
    step: float,
    start: float | None = None,
) -> PlacedOpening | None:
    """Places an opening on a side.

    Args:
        side: index of the side.
        side_length: from dot to dot.
        seams: where patch seams meet the side.
        lengths: the length asked for, or the usual ones; the first that fits is taken.
        step: step of the ruler that marks it; a place that is chosen falls on it where it can.
        start: the first end asked for; without it the place is chosen.

    Returns:
        The opening, or None where none fits.
    """
    for length in lengths:
        stretch = _stretch(side_length, length, start)
        if stretch is not None:
            begin, clear = _begin(stretch, length, seams, step if start is None else 0.0)
            return PlacedOpening(side=side, start=begin, end=begin + length, clear_of_seams=clear)
    return None


class _Stretch(Value):
    """Where the first end of an opening may lie, and where it would lie best."""

    lowest: float
    highest: float
    wish: float

    def holds(self, place: float) -> bool:
        return self.lowest - SAME_PLACE_MM <= place <= self.highest + SAME_PLACE_MM


def _stretch(side_length: float, length: float, start: float | None) -> _Stretch | None:
    """The stretch for an opening of one length; None where it does not fit."""
    whole = _Stretch(DOT_CLEARANCE, side_length - DOT_CLEARANCE - length, side_length / 2)
    if start is not None:
        return _Stretch(start, start, start) if whole.holds(start) else None
    if whole.highest < whole.lowest - SAME_PLACE_MM:
        return None
    center = side_length / 2
    if whole.highest >= center - SAME_PLACE_MM:
        return _Stretch(center, whole.highest, (center + whole.highest) / 2)
    return _Stretch(whole.lowest, whole.highest, (side_length - length) / 2)


def _begin(
    stretch: _Stretch, length: float, seams: Sequence[float], step: float
) -> tuple[float, bool]:
    """The first end nearest to the wish that is clear of seams, or the wish; and which it is.

    Ties go toward the center mark, which is the lower end of the stretch.
    """
    places = [stretch.wish]
    for seam in seams:
        for end in (seam, seam - length):
            places += [end - SEAM_CLEARANCE, end + SEAM_CLEARANCE]
    marks = [n * step for p in places for n in _around(p, step)]
    for choice in (marks, places):
        clear = [p for p in choice if stretch.holds(p) and _clear(p, length, seams)]
        if clear:
            return min(clear, key=lambda p: (round(abs(p - stretch.wish), 6), p)), True
    return min(max(stretch.wish, stretch.lowest), stretch.highest), False


def _around(place: float, step: float) -> tuple[int, ...]:
    """The marks of the ruler on both sides of a place; none without a ruler."""
    if not step:
        return ()
    below = math.floor(place / step + SAME_PLACE_MM)
    return below, below + 1


def _clear(begin: float, length: float, seams: Sequence[float]) -> bool:
    """Whether both ends keep the clearance from every patch seam."""
    least = SEAM_CLEARANCE - SAME_PLACE_MM
    return all(abs(end - seam) >= least for seam in seams for end in (begin, begin + length))
