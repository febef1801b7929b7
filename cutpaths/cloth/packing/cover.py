"""Covers demands by columns at the least cost; the only user of HiGHS.

A column is a way to make some pieces at a cost. HiGHS (Q. Huangfu, J. A. J. Hall, "Parallelizing
the dual revised simplex method", Mathematical Programming Computation 10, 2018, 119-142) is loaded
when a `Cover` is made. It runs in one thread and starts no process, so that none can hang.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from importlib.util import find_spec
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    import highspy

NODES = (
    2000  # most of the solver's tree; ends it at the same place on a slow machine and a fast one
)
INSTALL = "pip install 'cutpaths[kits]'"


def is_installed() -> bool:
    """Whether the solver is there, without loading it."""
    return find_spec("highspy") is not None


class Column(NamedTuple):
    """What it costs to use a column once, and how much of each piece it makes."""

    cost: float
    makes: Mapping[int, float]


class Relaxed(NamedTuple):
    """The cheapest cover when parts of columns may be used.

    Attributes:
        cost: of the cover.
        times: how often it uses each column.
        worth: what one more of each piece would cost.
    """

    cost: float
    times: tuple[float, ...]
    worth: tuple[float, ...]


class Whole(NamedTuple):
    """How often a cover uses each column, and whether it is proved cheapest up to the gap."""

    times: tuple[int, ...]
    is_proved: bool


class Cover:
    """Demands and the columns that may cover them; changed in place.

    Args:
        demands: how much of each piece is needed at least.
    """

    def __init__(self, demands: Sequence[int]) -> None:
        self.columns: list[Column] = []
        self._demands = tuple(demands)
        self._solver = _solver(demands)

    def add(self, column: Column) -> None:
        """Adds a column."""
        self.columns.append(column)
        _add(self._solver, column)

    def relaxed(self) -> Relaxed:
        """The cheapest cover by parts of columns; each demand must have a column that makes it."""
        self._solver.run()
        solution, cost = self._solver.getSolution(), self._solver.getInfo().objective_function_value
        return Relaxed(cost, tuple(solution.col_value), tuple(solution.row_dual))

    def whole(self, *, seconds: float, gap: float) -> Whole | None:
        """A cheap cover by whole columns; None if none was found.

        Args:
            seconds: most seconds to look for a cheaper one.
            gap: share of the cost by which it may be above the cheapest.
        """
        from highspy import HighsModelStatus, HighsVarType

        solver = _solver(self._demands)
        for column in self.columns:
            _add(solver, column)
        for index in range(len(self.columns)):
            solver.changeColIntegrality(index, HighsVarType.kInteger)
        solver.setOptionValue("time_limit", seconds)
        solver.setOptionValue("mip_max_nodes", NODES)
        solver.setOptionValue("mip_rel_gap", gap)
        solver.run()
        times = tuple(round(value) for value in solver.getSolution().col_value)
        if not times or not self._is_covered(times):
            return None
        return Whole(times, solver.getModelStatus() == HighsModelStatus.kOptimal)

    def _is_covered(self, times: Sequence[int]) -> bool:
        """Whether whole columns meet every demand; a solver's rounding is not relied on."""
        made = [0.0] * len(self._demands)
        for column, used in zip(self.columns, times, strict=True):
            for piece, amount in column.makes.items():
                made[piece] += used * amount
        return all(m >= demand for m, demand in zip(made, self._demands, strict=True))


def _solver(demands: Sequence[int]) -> highspy.Highs:
    """A solver that keeps quiet, with one row for each demand."""
    from highspy import Highs, kHighsInf

    class Quiet(Highs):
        """HiGHS prints its name when it is made, unless told not to before that is done."""

        def enableCallbacks(self) -> None:  # noqa: N802 (its name)
            self.silent()
            super().enableCallbacks()  # type: ignore[no-untyped-call] # has no types

    solver: Highs = Quiet()  # type: ignore[no-untyped-call] # has no types
    solver.silent()
    solver.setOptionValue("threads", 1)
    for demand in demands:
        solver.addRow(float(demand), kHighsInf, 0, [], [])
    return solver


def _add(solver: highspy.Highs, column: Column) -> None:
    from highspy import kHighsInf

    pieces, amounts = list(column.makes), [float(amount) for amount in column.makes.values()]
    solver.addCol(column.cost, 0.0, kHighsInf, len(pieces), pieces, amounts)
