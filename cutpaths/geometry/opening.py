"""Where the turning opening goes; distances in mm along one side from the dot where it starts.

An opening keeps clear of the dots and, where there is room, ends clear of patch seams, and lies
between the center mark and a dot, so that the center can be pinned and sewn over. Lengths and
clearances are common practice, no source.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from cutpaths.geometry.polygons import SAME_PLACE_MM

INCH = 25.4
DEFAULT_LENGTHS = tuple(inches * INCH for inches in (8, 7, 6, 5, 4))
DOT_CLEARANCE = 2 * INCH
SEAM_CLEARANCE = INCH / 2


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacedOpening:
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
    length: float | None = None,
    start: float | None = None,
) -> PlacedOpening | None:
    """Places an opening on a side.

    Args:
        side: index of the side.
        side_length: from dot to dot.
        seams: where patch seams meet the side.
        length: the length asked for; without it the longest default that fits is taken.
        start: the first end asked for; without it the place is chosen.

    Returns:
        The opening, or None where it does not fit.
    """
    for candidate in DEFAULT_LENGTHS if length is None else (length,):
        found = _place_one(side_length, candidate, seams, start)
        if found is not None:
            begin, clear = found
            end = begin + candidate
            return PlacedOpening(side=side, start=begin, end=end, clear_of_seams=clear)
    return None


def _place_one(
    side_length: float, length: float, seams: Sequence[float], start: float | None
) -> tuple[float, bool] | None:
    """The first end of an opening of one length, and whether it is clear of seams."""
    lowest, highest = DOT_CLEARANCE, side_length - DOT_CLEARANCE - length
    if start is not None:
        lowest = highest = start
        if start < DOT_CLEARANCE - SAME_PLACE_MM or start > side_length - DOT_CLEARANCE - length:
            return None
    if highest < lowest - SAME_PLACE_MM:
        return None
    half = side_length / 2
    beyond_center = start is None and highest >= half - SAME_PLACE_MM
    if beyond_center:
        # The middle of the stretch from the center mark to the far dot's clearance.
        lowest, wish = half, (half + highest) / 2
    else:
        wish = (side_length - length) / 2 if start is None else start
    clear = [
        b for b in _candidates(seams, length, lowest, highest, wish) if _clear(b, length, seams)
    ]
    if not clear:
        return min(max(wish, lowest), highest), False
    # Ties go toward the center mark, which is the lower end of the stretch.
    return min(clear, key=lambda b: (round(abs(b - wish), 6), b)), True


def _candidates(
    seams: Sequence[float], length: float, lowest: float, highest: float, wish: float
) -> list[float]:
    """The wish and every place where an end just keeps its clearance, inside the stretch."""
    keep = (-SEAM_CLEARANCE, SEAM_CLEARANCE)
    places = [wish, *(seam + k - back for seam in seams for k in keep for back in (0.0, length))]
    return [p for p in places if lowest - SAME_PLACE_MM <= p <= highest + SAME_PLACE_MM]


def _clear(begin: float, length: float, seams: Sequence[float]) -> bool:
    """Whether both ends keep the clearance from every patch seam."""
    least = SEAM_CLEARANCE - SAME_PLACE_MM
    return all(abs(end - seam) >= least for seam in seams for end in (begin, begin + length))
