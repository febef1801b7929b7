"""x"""

from __future__ import annotations

from typing import NamedTuple

from cutpaths.cloth.packing.order import Order, first
from cutpaths.cloth.packing.skyline import Filling
import os
STRIP, CROSSCUT, TRIM, ANY = 1, 2, 3, 0
RULE=0
PRI1=0
PRI2=1

def slicing_filling(order: Order, width: int, target: int, stage: int = ANY) -> Filling:
    left, area, spare, steps = order.everything, 0, width * target - order.area, []
    at_most_wide, at_most_high = order.widths.at_most, order.heights.at_most
    of_width, of_height = order.widths.exactly.get, order.heights.exactly.get
    regions = [(width, target, 0, stage)]
    while regions and left:
        wide, high, y, stage = regions.pop()
        fitting = left & at_most_wide(wide) & at_most_high(high)
        if stage == TRIM:
            fitting &= of_width(wide,0)
        if not fitting:
            spare -= wide * high
            if spare < 0:
                break
            continue
        if stage==STRIP:
            m=fitting
        elif stage==CROSSCUT:
            up=of_height(high,0)
            m = fitting & of_width(wide,0) & up or fitting&up or fitting
        else:
            m = fitting & of_width(wide,0)
            m = m&of_height(high,0) or m or fitting&of_height(high,0) or fitting
        rank = first(m)
        left ^= order.same_piece(rank)
        shape = order.shapes[rank]
        a,b=shape.width,shape.height
        area += a*b
        steps.append((shape, 0, y))
        beside, above = wide - a, high - b
        if stage==ANY:
            if RULE==0: strip = (beside * high < above * wide) != (order.flips >> rank & 1)
            elif RULE==1: strip = (beside < above) != (order.flips >> rank & 1)
            elif RULE==2: strip = (beside * b < above * a) != (order.flips >> rank & 1)
            inner=ANY
        else: strip = stage !=CROSSCUT; inner=stage+1
        if strip:
            if above: regions.append((wide, above, y + b, stage))
            if beside: regions.append((beside, b, y, inner))
        else:
            if beside: regions.append((beside, high, y, stage))
            if above: regions.append((a, above, y + b, inner))
    return Filling(area, not left, steps)
