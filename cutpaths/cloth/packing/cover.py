"""Covers demands by columns at the least cost; the only user of HiGHS.

A column is a way to make some pieces at a cost. HiGHS (Q. Huangfu, J. A. J. Hall, "Parallelizing
the dual revised simplex method", Mathematical Programming Computation 10, 2018, 119-142) is loaded
when a `Cover` is made. It runs in one thread and starts no process, so that none can hang.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from importlib.util import find_spec
from math import inf
from typing import TYPE_CHECKING, NamedTuple

from cutpaths.cloth.packing.columns import Column, Relaxed

if TYPE_CHECKING:
    import highspy


def is_installed() -> bool:
    """Whether the solver is there, without loading it."""
    return find_spec("highspy") is not None


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

    def whole(
        self,
        *,
        seconds: float,
        gap: float,
        nodes: int | None = None,
        go_on: Callable[[], bool] | None = None,
    ) -> Whole | None:
        """A cheap cover by whole columns; None if none was found.

        Args:
            seconds: most seconds to look for a cheaper one.
            gap: share of the cost by which it may be above the cheapest.
            nodes: most nodes of the solver's tree; None for any number.
            go_on: asked now and then whether to; the best cover so far is kept.
        """
        from highspy import HighsModelStatus, HighsVarType

        solver = _solver(self._demands)
        for column in self.columns:
            _add(solver, column)
        for index in range(len(self.columns)):
            solver.changeColIntegrality(index, HighsVarType.kInteger)
        if seconds < inf:
            solver.setOptionValue("time_limit", seconds)
        if nodes is not None:
            solver.setOptionValue("mip_max_nodes", nodes)
        solver.setOptionValue("mip_rel_gap", gap)
        if go_on is not None:
            _ask(solver, go_on)
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
                made[piece] += used * float(amount)
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


def _ask(solver: highspy.Highs, go_on: Callable[[], bool]) -> None:
    """Lets the solver ask whether to go on; Python hears of Ctrl-C only while it is asked."""

    def asked(event: highspy.highs.HighsCallbackEvent) -> None:
        if not go_on():
            event.interrupt()

    solver.cbMipInterrupt += asked


def _add(solver: highspy.Highs, column: Column) -> None:
    from highspy import kHighsInf

    pieces, amounts = list(column.makes), [float(amount) for amount in column.makes.values()]
    solver.addCol(float(column.cost), 0.0, kHighsInf, len(pieces), pieces, amounts)
