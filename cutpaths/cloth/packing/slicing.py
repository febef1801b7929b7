"""Fills a strip so that cuts from edge to edge set every piece free.

A region of the strip takes, at its lower left corner, the piece that fits it best. A cut above
the piece and one beside it leave two regions, and so on. Best is a piece that fills a region's
width and height, then one that fills either, then the first in the order that fits; after the
priorities of D. Zhang, L. Shi, S. C. H. Leung, T. Wu, "A priority heuristic for the guillotine
rectangular packing problem", Information Processing Letters 116(1), 2016, 15-21. All lengths are
in steps.

Where any cut may follow any other, the first is the one that leaves the larger rest in one piece,
and for flipped ranks the other. Where strips are cut, a strip is as high as the piece that opens
it, and for flipped ranks as a stack of pieces of that width.
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


INSIDE = {Stage.CROSSCUT: Stage.TRIM, Stage.TRIM: Stage.TRIM, Stage.ANY: Stage.ANY}
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
            flipped = bool(order.flips >> rank & 1)
            if stage is Stage.STRIP:
                opened = _stacked(order, left, shape, high) if flipped else shape.height
                regions += _opened(region, shape, opened)
            else:
                regions += _remains(region, shape, flipped=flipped)
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


def _stacked(order: Order, left: int, shape: Shape, high: int) -> int:
    """The height of a stack on a shape, of its width and no higher than the tallest piece."""
    stack, most = shape.height, min(high, order.heights.longest)
    alike = left & order.widths.exactly[shape.width]
    while more := alike & order.heights.at_most(most - stack):
        rank = first(more)
        alike &= ~order.same_piece(rank)
        stack += order.shapes[rank].height
    return stack


def _opened(region: Region, shape: Shape, height: int) -> tuple[Region, Region, Region]:
    """The regions left when a shape opens a strip of some height; the last is filled next."""
    x, y, wide, high, stage = region
    return (
        (x, y + height, wide, high - height, stage),
        (x + shape.width, y, wide - shape.width, height, Stage.CROSSCUT),
        (x, y + shape.height, shape.width, height - shape.height, Stage.TRIM),
    )


def _remains(region: Region, shape: Shape, *, flipped: bool) -> tuple[Region, Region]:
    """The regions left by a shape; the last, which the second cut frees, is filled next."""
    x, y, wide, high, stage = region
    beside, above = wide - shape.width, high - shape.height
    across = stage is Stage.TRIM
    if stage is Stage.ANY:
        across = (beside * high < above * wide) is not flipped
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
