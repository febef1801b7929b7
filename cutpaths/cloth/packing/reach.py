"""Which lengths pieces can add up to.

Pieces may be pushed to the left and down until each touches another or the edge, so that in some
best plan every piece ends at a sum of sizes (J. C. Herz, "Recursive computational procedure for
two-dimensional stock cutting", IBM Journal of Research and Development 16(5), 1972, 462-469).
A strip is no wider to its pieces than the largest such sum, and no plan's length lies between two
of them. Lengths are in steps; the set of sums is the bits of an integer.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping

from cutpaths.cloth.packing.sheet import Sheet

MOST = 1 << 17  # steps; beyond that sums are too many to list and lie too close to matter


def snug_width(sheet: Sheet) -> int:
    """The largest sum of widths that the strip can hold."""
    if sheet.width > MOST:
        return sheet.width
    return sums(_counts(sheet, 0), sheet.width).bit_length() - 1


def next_height(sheet: Sheet, least: int) -> int:
    """The least sum of heights that is not below a given length."""
    tallest = max(height for kind in sheet.kinds for _, height, _ in kind.ways)
    if least + tallest > MOST:
        return least
    above = sums(_counts(sheet, 1), least + tallest) >> least
    return least + (above & -above).bit_length() - 1


def _counts(sheet: Sheet, axis: int) -> Counter[int]:
    """How many pieces can have each length across (0) or along (1) the strip."""
    counts: Counter[int] = Counter()
    for kind in sheet.kinds:
        for length in {way[axis] for way in kind.ways}:
            counts[length] += kind.count
    return counts


def sums(counts: Mapping[int, int], most: int) -> int:
    """The set of sums, up to `most`, of at most so many of each length.

    >>> bin(sums({2: 2, 5: 1}, 7))
    '0b10110101'
    """
    reached, mask = 1, (1 << most + 1) - 1
    for length, count in counts.items():
        left, times = min(count, most // length), 1
        while left:
            times = min(times, left)
            reached |= reached << times * length & mask
            left -= times
            times *= 2
    return reached
