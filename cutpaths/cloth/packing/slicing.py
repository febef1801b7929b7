"""Fills a strip so that cuts from edge to edge set every piece free.

A region of the strip takes, at its lower left corner, the piece that fits it best. A cut above
the piece and one beside it leave two regions, and so on. Best is a piece that fills a region's
width and height, then one that fills either, then the first in the order that fits; after the
priorities of D. Zhang, L. Shi, S. C. H. Leung, T. Wu, "A priority heuristic for the guillotine
rectangular packing problem", Information Processing Letters 116(1), 2016, 15-21. The shorter of
the two cuts is made first, and for flipped ranks the longer. All lengths are in steps.
"""

from __future__ import annotations

from enum import Enum

from cutpaths.cloth.packing.filling import Filling
from cutpaths.cloth.packing.order import Order, first
from cutpaths.cloth.packing.sheet import Shape


class Cutting(Enum):
    """How the cuts may follow on one another."""

    STRIPS = "strips, crosscut, the crosscuts trimmed"
    EDGE_TO_EDGE = "any number of cuts, each from edge to edge"


class Stage(Enum):
    """What the next cut of a region may be."""

    STRIP = "across the cloth"
    CROSSCUT = "along the cloth, through one strip"
    TRIM = "across the cloth, through one crosscut"
    ANY = "either"


INSIDE = {
    Stage.STRIP: Stage.CROSSCUT,
    Stage.CROSSCUT: Stage.TRIM,
    Stage.TRIM: Stage.TRIM,
    Stage.ANY: Stage.ANY,
}
START = {Cutting.STRIPS: Stage.STRIP, Cutting.EDGE_TO_EDGE: Stage.ANY}


Region = tuple[int, int, int, int, Stage]  # x, y, width, height and the next cut


def slicing_filling(order: Order, width: int, target: int, cutting: Cutting) -> Filling:
    """Fills a strip up to a target height, until more is wasted than can be spared."""
    at_most_wide, at_most_high = order.widths.at_most, order.heights.at_most
    left, area, spare, steps = order.everything, 0, width * target - order.area, []
    regions: list[Region] = [(0, 0, width, target, START[cutting])]
    while left and regions:
        region = regions.pop()
        x, y, wide, high, stage = region
        fitting = left & at_most_wide(wide) & at_most_high(high)
        if stage is Stage.TRIM:
            fitting &= order.widths.exactly.get(wide, 0)
        if fitting:
            rank = first(_best(order, fitting, region))
            shape = order.shapes[rank]
            left ^= order.same_piece(rank)
            area += shape.width * shape.height
            steps.append((shape, x, y))
            regions += _remains(region, shape, flipped=bool(order.flips >> rank & 1))
        else:
            spare -= wide * high
            if spare < 0:
                break
    return Filling(area, not left, steps)


def _best(order: Order, fitting: int, region: Region) -> int:
    """Those that fit a region best."""
    _, _, wide, high, stage = region
    if stage is Stage.STRIP:
        return fitting
    level = fitting & order.heights.exactly.get(high, 0)
    filling = fitting & order.widths.exactly.get(wide, 0)
    if stage is Stage.CROSSCUT:
        return level & filling or level or fitting
    return level & filling or level | filling or fitting


def _remains(region: Region, shape: Shape, *, flipped: bool) -> tuple[Region, Region]:
    """The regions left by a piece; the one that the second cut frees comes last, and is next."""
    x, y, wide, high, stage = region
    beside, above = wide - shape.width, high - shape.height
    across = (wide < high) is not flipped if stage is Stage.ANY else stage is not Stage.CROSSCUT
    inside = INSIDE[stage]
    if across:
        return (
            (x, y + shape.height, wide, above, stage),
            (x + shape.width, y, beside, shape.height, inside),
        )
    return (
        (x + shape.width, y, beside, high, stage),
        (x, y + shape.height, shape.width, above, inside),
    )
