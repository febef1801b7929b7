"""Searches over orders of pieces for one that a packer turns into a shorter plan.

A packer fills a strip up to a target height and says how much it placed before it had wasted more
than it could spare. The search aims just below the best height so far, exchanges two ranks at a
time, keeps what places as much or more, and starts afresh from another order when that leads no
further. Aiming at a height and counting the area placed tells apart orders of equal height, and
lets a packer stop early: both matter more than the packer's speed.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import cycle
from random import Random

from cutpaths.cloth.packing.order import Order
from cutpaths.cloth.packing.sheet import Shape
from cutpaths.cloth.packing.skyline import Filling

PATIENCE = 5
FLIPS = .0
Packer = Callable[[Order, int], Filling]

@dataclass(frozen=True, slots=True, kw_only=True)
class Effort:
    seconds: float | None = 1.0
    tries: int | None = None
    seed: int = 1

class Clock:
    def __init__(self, effort, watch=None):
        self.effort=effort; self.tries=0; self.t0=time.process_time(); self.watch=watch
    def spent(self):
        self.tries+=1
        e=self.effort
        if e.tries is not None and self.tries>e.tries: return True
        return e.seconds is not None and time.process_time()-self.t0>=e.seconds

def height_of(f):
    return max(y+s.height for s,_,y in f.steps)

def search(starts, pack, ceiling, least, clock, random):
    best=None; height=ceiling
    for start in starts:
        found=squeeze(Order(start),pack,least,height,clock)
        if found is not None:
            best=found; height=height_of(found)
    for start in cycle(starts):
        if height<=least or clock.spent(): return best
        order=Order(start)
        while height>least and (found:=walk(order,pack,height-1,clock,random)) is not None:
            best=found; height=height_of(found)

def squeeze(order,pack,least,height,clock):
    best=None
    target=height-1
    low=least
    while low<=target and not clock.spent():
        found=pack(order,target)
        if found.whole:
            best=found; height=height_of(found)
        else: low=target+1
        target=(low+height-1)//2
    return best

def walk(order,pack,target,clock,random):
    n=len(order.shapes)
    best=-1
    move=None
    stall=0
    while stall<PATIENCE*n and not clock.spent():
        found=pack(order,target)
        if found.whole: return found
        if found.area>=best:
            stall=0 if found.area>best else stall+1
            best=found.area
        else:
            move(); stall+=1
        move=shake(order,random)
    return None

def shake(order,random):
    n=len(order.shapes)
    if FLIPS and random.random()<FLIPS:
        r=int(random.random()*n)
        order.flip(r)
        return lambda: order.flip(r)
    a=int(random.random()*n); b=int(random.random()*n)
    order.swap(a,b)
    return lambda: order.swap(a,b)
