"""The cheapest cover by parts of columns, in exact numbers; for some dozen demands, no solver.

The simplex method in its revised form (G. B. Dantzig, W. Orchard-Hays, "The product form for the
inverse in the simplex method", Mathematical Tables and Other Aids to Computation 8, 1954, 64-67),
over fractions: it comes to the same cover on every machine, and what it says is proven. The column
that promises most is taken; after a while without gain the first that helps, so that it ends
(R. G. Bland, "New finite pivoting rules for the simplex method", Mathematics of Operations Research
2(2), 1977, 103-107).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from cutpaths.cloth.packing.columns import Column, Relaxed

NONE, ONE = Fraction(0), Fraction(1)
Row = list[Fraction]


class Relaxation:
    """Demands and the columns that may cover them; changed in place.

    Args:
        demands: how much of each row is needed at least. A demand of -n with columns that make -1
            of it lets those be used n times at most.
    """

    def __init__(self, demands: Sequence[int]) -> None:
        self.columns: list[Column] = []
        self._made: list[list[tuple[int, Fraction]]] = []
        self._demands = [Fraction(demand) for demand in demands]
        self._basis: list[int] = []  # a column's index, or -1 - row where more is made than needed
        self._inverse: list[Row] = []
        self._used: Row = []

    def add(self, column: Column) -> None:
        """Adds a column."""
        self.columns.append(column)
        self._made.append([(row, Fraction(made)) for row, made in column.makes.items()])

    def relaxed(self) -> Relaxed:
        """The cheapest cover; each demand above 0 must have a column that makes nothing else."""
        if not self._basis:
            self._start()
        fruitless = 0
        while True:
            worth = self._worth()
            entering = self._entering(worth, first=fruitless > len(self._demands))
            if entering is None:
                return self._found(worth)
            fruitless = 0 if self._pivot(entering) else fruitless + 1

    def _start(self) -> None:
        """Every demand is met by a column of its own."""
        rows = len(self._demands)
        alone = {made[0][0]: k for k, made in reversed([*enumerate(self._made)]) if len(made) == 1}
        for row, demand in enumerate(self._demands):
            column = alone[row] if demand > 0 else -1 - row
            made = self._made[column][0][1] if demand > 0 else -ONE
            self._basis.append(column)
            self._inverse.append([ONE / made if r == row else NONE for r in range(rows)])
            self._used.append(demand / made)

    def _cost(self, column: int) -> Fraction:
        return Fraction(self.columns[column].cost) if column >= 0 else NONE

    def _worth(self) -> Row:
        """What one more of each row would cost."""
        costs = [
            (self._cost(column), row)
            for column, row in zip(self._basis, self._inverse, strict=True)
        ]
        dear = [(cost, row) for cost, row in costs if cost]
        return [
            sum((cost * row[r] for cost, row in dear if row[r]), NONE)
            for r in range(len(self._demands))
        ]

    def _entering(self, worth: Row, *, first: bool) -> int | None:
        """A column that makes the cover cheaper: the one that promises most, or the first."""
        best, most = None, NONE
        for column, less in self._promises(worth):
            if less > most:
                if first:
                    return column
                best, most = column, less
        return best

    def _promises(self, worth: Row) -> Iterator[tuple[int, Fraction]]:
        """Each column and by how much one of it would make the cover cheaper."""
        for row, each in enumerate(worth):
            if each < 0:
                yield -1 - row, -each
        for column, made in enumerate(self._made):
            yield column, sum((worth[row] * n for row, n in made), NONE) - self._cost(column)

    def _pivot(self, entering: int) -> bool:
        """Puts a column to use in place of another; answers whether it is used at all."""
        step = self._direction(entering)
        limits = [
            (self._used[k] / step[k], self._basis[k], k) for k in range(len(step)) if step[k] > 0
        ]
        part, _, leaving = min(limits)
        self._basis[leaving] = entering
        over = step[leaving]
        pivot = [each / over if each else each for each in self._inverse[leaving]]
        self._inverse[leaving] = pivot
        self._used[leaving] = part
        for k, factor in enumerate(step):
            if k != leaving and factor:
                self._used[k] -= factor * part
                row = self._inverse[k]
                self._inverse[k] = [
                    mine - factor * theirs if theirs else mine
                    for mine, theirs in zip(row, pivot, strict=True)
                ]
        return part > 0

    def _direction(self, column: int) -> Row:
        """What one of a column takes the place of."""
        made = self._made[column] if column >= 0 else [(-1 - column, -ONE)]
        return [sum((row[r] * n for r, n in made if row[r]), NONE) for row in self._inverse]

    def _found(self, worth: Row) -> Relaxed:
        times = [NONE] * len(self.columns)
        for column, used in zip(self._basis, self._used, strict=True):
            if column >= 0:
                times[column] = used
        cost = sum((self._cost(k) * used for k, used in enumerate(times) if used), NONE)
        return Relaxed(cost, tuple(times), tuple(worth))
