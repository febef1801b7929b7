"""x"""

from __future__ import annotations

from typing import NamedTuple

from cutpaths.cloth.packing.order import Order, first
from cutpaths.cloth.packing.skyline import Filling
import os
STRIP, CROSSCUT, TRIM, ANY = 1, 2, 3, 0
RULE=0
PRI1=0
PRI2=0

def slicing_filling(order: Order, width: int, target: int, stage: int = ANY) -> Filling:
    left = order.everything
    area, spare, steps = 0, width * target - order.area, []
    regions = [(width, target, 0, stage)]
    widths,heights=order.widths,order.heights
    while regions:
        wide, high, y, stage = regions.pop()
        fitting = left & widths.at_most(wide) & heights.at_most(high)
        across = widths.exactly.get(wide, 0)
        if stage == TRIM:
            fitting &= across
        if not fitting:
            if not left: break
            spare -= wide * high
            if spare < 0:
                break
            continue
        up=heights.exactly.get(high, 0)
        if stage==STRIP:
          m=fitting
          if PRI1==1: m = fitting & across or fitting
          elif PRI1==2: m= fitting&up or fitting
        elif stage==CROSSCUT and PRI2:
            m = fitting & across & up or fitting&up or fitting
            if PRI2==2: m=fitting&up or fitting&across or fitting
            if PRI2==3: m=fitting&up&across or fitting
        else:
            m = fitting & across & up or fitting&across or fitting&up or fitting
        rank = first(m)
        left ^= order.same_piece(rank)
        shape = order.shapes[rank]
        a,b=shape.width,shape.height
        area += a*b
        steps.append((shape, 0, y))
        beside, above = wide - a, high - b
        if stage==ANY:
            strip = (beside * high < above * wide) != (order.flips >> rank & 1)
            if beside==0: strip=True
            if above==0: strip=False
        else: strip = stage !=CROSSCUT
        inner = stage + 1 if stage else ANY
        if strip:
            if above: regions.append((wide, above, y + b, stage))
            if beside: regions.append((beside, b, y, inner))
        else:
            if beside: regions.append((beside, high, y, stage))
            if above: regions.append((a, above, y + b, inner))
    return Filling(area, not left, steps)
