"""Rectangles to be cut from a strip, and where each comes to lie.

A strip is cloth of one width and any length: x runs across it from the left selvage, y along it
from the cut end. Every length is exact, in whatever unit the caller uses throughout.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from cutpaths.errors import Finding, InputError
from cutpaths.values import Value

Length = Fraction | int


class Item(Value, kw_only=True):
    """Rectangles of one size.

    Attributes:
        width: across the cloth.
        height: along the cloth.
        count: how many of it.
        turn: whether each may be turned by 90 degrees.

    Raises:
        InputError: a size is not more than 0, or the count less than 1.
    """

    width: Length
    height: Length
    count: int = 1
    turn: bool = False

    def __post_init__(self) -> None:
        if self.width <= 0 or self.height <= 0:
            problem = f"a piece must be larger than 0, got {self.width} x {self.height}"
            raise InputError(Finding(key="", problem=problem))
        if self.count < 1:
            raise InputError(Finding(key="", problem=f"count must be at least 1, got {self.count}"))

    @property
    def least_width(self) -> Length:
        """Width of the narrowest strip that it can be cut from."""
        return min(self.width, self.height) if self.turn else self.width


class Placement(Value, kw_only=True):
    """One piece set down.

    Attributes:
        item: index of its item.
        x, y: its corner nearest to the left selvage and the cut end.
        width, height: across and along the cloth, as it lies.
        turned: whether it was turned by 90 degrees.
    """

    item: int
    x: Length
    y: Length
    width: Length
    height: Length
    turned: bool


def misfits(items: Sequence[Item], width: Length) -> tuple[int, ...]:
    """Indices of the items that are too wide for a strip in every way allowed.

    >>> misfits([Item(width=5, height=50), Item(width=50, height=5, turn=True)], 42)
    ()
    >>> misfits([Item(width=50, height=5)], 42)
    (0,)
    """
    return tuple(index for index, item in enumerate(items) if item.least_width > width)


def require_fit(items: Sequence[Item], width: Length) -> None:
    """Refuses what cannot be cut from the strip at all.

    Raises:
        InputError: there is nothing to cut, the strip has no width, or items are too wide for it.
    """
    findings = [
        Finding(
            key="",
            problem=f"piece {index + 1} must fit a width of {width}, got "
            f"{items[index].width} x {items[index].height}",
            hint=f"It needs cloth of at least {items[index].least_width}",
        )
        for index in misfits(items, width)
    ]
    if not items:
        findings.append(Finding(key="", problem="there must be at least one piece to cut"))
    if findings:
        raise InputError(*findings)
