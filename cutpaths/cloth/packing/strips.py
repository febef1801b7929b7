"""Strips across the cloth, in steps: crosscut into stacks, the stacks trimmed into pieces.

Three stages of cuts, the first of which cuts the strip off.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from typing import NamedTuple

from cutpaths.cloth.packing.columns import Column
from cutpaths.cloth.packing.knife import cuts_of
from cutpaths.cloth.packing.runs import Run, runs_of
from cutpaths.cloth.packing.sheet import Shape, Sheet


class Part(NamedTuple):
    """A piece in a stack: the index of its item, its height as it lies and whether it is turned."""

    item: int
    height: int
    turned: bool


class Stack(NamedTuple):
    """Pieces of one width, one above the other."""

    width: int
    parts: tuple[Part, ...]

    @property
    def height(self) -> int:
        """Of all its parts."""
        return sum(part.height for part in self.parts)


class Strip(NamedTuple):
    """Stacks side by side."""

    stacks: tuple[Stack, ...]

    @property
    def height(self) -> int:
        """Of the highest stack."""
        return max(stack.height for stack in self.stacks)

    @property
    def makes(self) -> Counter[int]:
        """How many it makes of each item."""
        return Counter(part.item for stack in self.stacks for part in stack.parts)


def plain_strips(sheet: Sheet) -> Iterator[Strip]:
    """For each way a piece may lie, a strip of nothing else."""
    for item, kind in enumerate(sheet.kinds):
        for width, height, turned in kind.ways:
            yield Strip((Stack(width, (Part(item, height, turned),)),) * (sheet.width // width))


def column(strip: Strip) -> Column:
    """A strip as the solver sees it: its height and what it makes."""
    return Column(strip.height, strip.makes)


def runs_of_strip(sheet: Sheet, strip: Strip, times: int) -> list[Run]:
    """A strip cut so many times, exact again; as several where a cut across it parts no piece."""
    placements, x = [], 0
    for stack in strip.stacks:
        y = 0
        for part in stack.parts:
            shape = Shape(stack.width, part.height, part.item, 0, part.turned)
            placements.append(sheet.placement(shape, x, y))
            y += part.height
        x += stack.width
    cuts = cuts_of(placements, sheet.size(sheet.width), sheet.size(strip.height))
    return [Run(times * run.times, run.strip) for run in runs_of(cuts)]
