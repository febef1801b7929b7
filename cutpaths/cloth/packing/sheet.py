"""The same problem in whole steps: exact sizes become integers and come back unchanged.

The step is the longest length that divides every size. Spacing is added to the right of and above
every piece and once to the width of the strip, so that pieces which merely touch are spaced.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import NamedTuple

from cutpaths.cloth.packing.items import Item, Length, Placement, require_fit
from cutpaths.values import Value


class Shape(NamedTuple):
    """One piece in one of the ways it may lie, in steps; `piece` tells alike pieces apart."""

    width: int
    height: int
    item: int
    piece: int
    turned: bool


class Kind(Value):
    """An item in steps, with the ways it may lie that fit the strip: width, height, turned."""

    count: int
    ways: tuple[tuple[int, int, bool], ...]


class Sheet(Value, kw_only=True):
    """A strip and what is to be cut from it.

    Attributes:
        step: exact length of one step.
        spacing: in steps.
        width: of the strip and one spacing, in steps.
        kinds: one for each item.
    """

    step: Fraction
    spacing: int
    width: int
    kinds: tuple[Kind, ...]

    def shapes(self) -> tuple[Shape, ...]:
        """Every piece in every way it may lie."""
        return tuple(self._shapes())

    def _shapes(self) -> Iterator[Shape]:
        piece = 0
        for item, kind in enumerate(self.kinds):
            for _ in range(kind.count):
                for width, height, turned in kind.ways:
                    yield Shape(width, height, item, piece, turned)
                piece += 1

    def size(self, steps: int) -> Fraction:
        """The exact length of so many steps with one spacing in them."""
        return (steps - self.spacing) * self.step

    def placement(self, shape: Shape, x: int, y: int) -> Placement:
        """A shape set down at steps x, y."""
        return Placement(
            item=shape.item,
            x=x * self.step,
            y=y * self.step,
            width=self.size(shape.width),
            height=self.size(shape.height),
            turned=shape.turned,
        )


def sheet_of(items: Sequence[Item], width: Length, spacing: Length = 0) -> Sheet:
    """A strip and its items in steps.

    Raises:
        InputError: there is nothing to cut, or items are too wide for the strip.
    """
    require_fit(items, width)
    sizes = [size + spacing for item in items for size in (item.width, item.height)]
    step = common_step([*sizes, width + spacing, spacing])
    return Sheet(
        step=step,
        spacing=int(spacing / step),
        width=int((width + spacing) / step),
        kinds=tuple(_kind(item, width, spacing, step) for item in items),
    )


def common_step(lengths: Sequence[Length]) -> Fraction:
    """The longest length that divides every one of these; zeros are passed over.

    >>> common_step([Fraction(9, 4), Fraction(3, 2), 0])
    Fraction(3, 4)
    """
    exact = [Fraction(length) for length in lengths]
    below = math.lcm(*(length.denominator for length in exact))
    return Fraction(math.gcd(*(int(length * below) for length in exact)), below)


def _kind(item: Item, width: Length, spacing: Length, step: Fraction) -> Kind:
    wide, high = int((item.width + spacing) / step), int((item.height + spacing) / step)
    ways = []
    if item.width <= width:
        ways.append((wide, high, False))
    if item.turn and item.height <= width and wide != high:
        ways.append((high, wide, True))
    return Kind(item.count, tuple(ways))
