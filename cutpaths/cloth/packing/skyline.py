"""Fills a strip from below: at the lowest gap, the piece that fits it best.

After the best-fit heuristic of E. K. Burke, G. Kendall, G. Whitwell, "A new placement heuristic
for the orthogonal stock-cutting problem", Operations Research 52(4), 2004, 655-671. Their widest
piece is replaced by a rule that leaves room for a search: a piece that fills the gap's width, else
one that ends level with the taller wall beside it, else the first in the order that fits. Scoring
a gap by its walls is due to S. C. H. Leung, D. Zhang, K. M. Sim, "A two-stage intelligent search
algorithm for the two-dimensional strip packing problem", EJOR 215, 2011, 57-69. Here the walls at
the strip's edges end at the height aimed for. All lengths are in steps.
"""

from __future__ import annotations

from cutpaths.cloth.packing.filling import Filling
from cutpaths.cloth.packing.order import Order, first


def skyline_filling(order: Order, width: int, target: int) -> Filling:
    """Fills a strip up to a target height, until more is wasted than can be spared."""
    # Stretch k of the upper edge lies at levels[k] and runs from starts[k] to starts[k + 1];
    # neighbours differ in level. The first and the last are the walls at the strip's edges.
    levels, starts = [target, 0, target], [0, 0, width]
    at_most_wide, at_most_high = order.widths.at_most, order.heights.at_most
    of_width, of_height = order.widths.exactly.get, order.heights.exactly.get
    left, area, spare, steps = order.everything, 0, width * target - order.area, []
    while left:
        level = min(levels)
        k = levels.index(level)
        if k == 0:
            break
        gap, taller = starts[k + 1] - starts[k], max(levels[k - 1], levels[k + 1])
        fitting = left & at_most_wide(gap) & at_most_high(target - level)
        if fitting:
            fitting = fitting & of_width(gap, 0) or fitting
            rank = first(fitting & of_height(taller - level, 0) or fitting)
            shape = order.shapes[rank]
            left ^= order.same_piece(rank)
            area += shape.width * shape.height
            x = _set_down(levels, starts, k, shape.width, shape.height)
            steps.append((shape, x, level))
        else:
            lower = min(levels[k - 1], levels[k + 1])
            spare -= gap * (lower - level)
            if spare < 0:
                break
            _set_down(levels, starts, k, gap, lower - level)
    return Filling(area, not left, steps)


def _set_down(levels: list[int], starts: list[int], k: int, width: int, height: int) -> int:
    """Raises a skyline by a piece in gap k, against the taller wall; gives its x."""
    x, top = starts[k], levels[k] + height
    if x + width == starts[k + 1]:
        levels[k] = top
        if levels[k + 1] == top:
            del levels[k + 1], starts[k + 1]
        if levels[k - 1] == top:
            del levels[k], starts[k]
    elif levels[k - 1] >= levels[k + 1]:
        starts[k] = x + width
        if levels[k - 1] != top:
            levels.insert(k, top)
            starts.insert(k, x)
    else:
        x = starts[k + 1] - width
        if levels[k + 1] == top:
            starts[k + 1] = x
        else:
            levels.insert(k + 1, top)
            starts.insert(k + 1, x)
    return x
