"""Asks a constraint solver whether the rules can be kept at all; the only user of OR-Tools.

CP-SAT with one worker and a limit counted in its own deterministic time, so that the same seed
gives the same answer. How far apart prints lie is not asked here.
"""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor, wait
from enum import Enum
from importlib.util import find_spec
from random import Random
from typing import TYPE_CHECKING

from cutpaths.arrange.effort import Watch
from cutpaths.arrange.rules import ArrangeRules, Layout, meetings
from cutpaths.errors import install_words
from cutpaths.values import Value

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ortools.sat.python import cp_model

DOING = "Asking the solver"
INSTALL = install_words("arrange")
SOLVER_SECONDS = 0.3  # of CP-SAT's deterministic time in a second of an ordinary machine
# Level of linear relaxation and share of the work: without one tight layouts are found many times
# faster, with one what counting rules out is proved at all (measured on 9 x 11 to 25 x 25 cells).
PASSES = ((0, 0.4), (1, 0.6))
WAIT = 0.1  # s between two words with the watch


class Verdict(Enum):
    """What the solver found out."""

    KEPT = "there is a layout"
    RULED_OUT = "no layout keeps the rules"
    OPEN = "not decided in the time"


class Answer(Value):
    """The solver's verdict, with the layout that it found if there is one."""

    verdict: Verdict
    layout: Layout | None = None


def is_installed() -> bool:
    """Whether the solver is there, without loading it."""
    return find_spec("ortools") is not None


def decided(rules: ArrangeRules, seed: int, seconds: float, watch: Watch) -> Answer:
    """Whether any layout keeps the rules, whatever squares are left over.

    Args:
        rules: what to keep.
        seed: another one may find another layout.
        seconds: most work, in seconds of an ordinary machine.
        watch: may stop it.
    """
    # Loaded only here: it takes longer than most searches, which do without.
    from ortools.sat.python import cp_model

    model, choice = _model(rules, seed)
    for level, share in PASSES:
        solver = cp_model.CpSolver()
        solver.parameters.num_workers = 1
        solver.parameters.random_seed = seed
        solver.parameters.linearization_level = level
        solver.parameters.max_deterministic_time = share * seconds * SOLVER_SECONDS
        solver.parameters.catch_sigint_signal = False  # the watch says when to stop
        status = _watched(solver, model, watch)
        if status in (cp_model.OPTIMAL, cp_model.FEASIBLE):
            return Answer(Verdict.KEPT, _layout(solver, choice))
        if status == cp_model.INFEASIBLE:
            return Answer(Verdict.RULED_OUT)
    return Answer(Verdict.OPEN)


def _watched(solver: cp_model.CpSolver, model: cp_model.CpModel, watch: Watch) -> int:
    """Solves in a thread of its own, so that the watch can stop it at any time."""
    with ThreadPoolExecutor(1) as pool:
        solving = pool.submit(solver.solve, model)
        while wait([solving], timeout=WAIT).not_done:
            if not watch(DOING, 0.0):
                solver.stop_search()
        return int(solving.result())


Choice = tuple[tuple["cp_model.IntVar", ...], ...]  # for each cell one for each print


def _model(rules: ArrangeRules, seed: int) -> tuple[cp_model.CpModel, Choice]:
    from ortools.sat.python import cp_model

    model = cp_model.CpModel()
    # Prints with most squares first: tight layouts are found only so. Among equals chance decides,
    # which makes a seed's layout its own.
    order = list(range(len(rules.prints)))
    Random(seed).shuffle(order)  # noqa: S311 (a layout, no secret)
    order.sort(key=lambda fabric: -rules.prints[fabric].count)
    made = ({fabric: model.new_bool_var("") for fabric in order} for _ in range(rules.cells))
    choice: Choice = tuple(tuple(options[fabric] for fabric in sorted(order)) for options in made)
    for options in choice:
        model.add_exactly_one(options)
    spare = sum(each.count for each in rules.prints) - rules.cells
    for cell, fabric in rules.fixed.items():
        model.add(choice[cell][fabric] == 1)
    for fabric, each in enumerate(rules.prints):
        squares = sum(cell[fabric] for cell in choice)
        # The lower end follows from the others' counts; said outright it shortens proofs a lot.
        model.add_linear_constraint(squares, max(0, each.count - spare), each.count)
        for block in _blocks(rules):
            model.add_at_most_one(choice[cell][fabric] for cell in block)
    for group in range(len(rules.balance)):
        _add_balance(model, rules, choice, group)
    return model, choice


def _blocks(rules: ArrangeRules) -> Iterator[tuple[int, ...]]:
    """Sets of cells that all meet one another and that hold every meeting."""
    if not rules.corners or rules.rows == 1 or rules.columns == 1:
        yield from meetings(rules)
        return
    for row in range(rules.rows - 1):
        for column in range(rules.columns - 1):
            cell = row * rules.columns + column
            yield cell, cell + 1, cell + rules.columns, cell + rules.columns + 1


def _add_balance(model: cp_model.CpModel, rules: ArrangeRules, choice: Choice, group: int) -> None:
    """No two rows differ by more than one square of a group."""
    inside = [fabric for fabric, each in enumerate(rules.group_of) if each == group]
    least = model.new_int_var(0, rules.columns, "")
    for row in range(rules.rows):
        cells = range(row * rules.columns, (row + 1) * rules.columns)
        squares = sum(choice[cell][fabric] for cell in cells for fabric in inside)
        model.add_linear_constraint(squares - least, 0, 1)


def _layout(solver: cp_model.CpSolver, choice: Choice) -> Layout:
    return tuple(
        next(fabric for fabric, chosen in enumerate(cell) if solver.value(chosen))
        for cell in choice
    )
