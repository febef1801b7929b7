"""Ways to make some pieces at a cost, and what covers demands by them."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import NamedTuple, Protocol

Amount = Fraction | float


class Column(NamedTuple):
    """What it costs to use a column once, and how much of each piece it makes."""

    cost: Amount
    makes: Mapping[int, Amount]


class Relaxed(NamedTuple):
    """The cheapest cover when parts of columns may be used.

    Attributes:
        cost: of the cover.
        times: how often it uses each column.
        worth: what one more of each piece would cost.
    """

    cost: Amount
    times: tuple[Amount, ...]
    worth: tuple[Amount, ...]


class Relaxing(Protocol):
    """Demands, and columns that may cover them in parts."""

    def add(self, column: Column) -> None:
        """Adds a column."""

    def relaxed(self) -> Relaxed:
        """The cheapest cover by parts of columns."""
