"""Which strips to cut how often for many alike pieces: column generation with HiGHS.

A pattern is one strip across the cloth: sections side by side, each a pile of one kind of piece,
as many as the strip's height holds. The linear program over all patterns is solved by making
patterns as they pay (P. C. Gilmore, R. E. Gomory, "A linear programming approach to the
cutting-stock problem", Operations Research 9(6), 1961, 849-859; two-stage cutting 1965): its
optimum is below every plan of such strips. Whole numbers are then found by branch and bound over
the patterns made, within a time limit. Lengths are in whole steps.
"""

from __future__ import annotations

import math
import os
import sys
from collections import Counter
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, NamedTuple

from cutpaths.cloth.packing.items import Item
from cutpaths.cloth.packing.sheet import Kind, Sheet, sheet_of
from cutpaths.errors import CutpathsError

PAYS = 1e-7  # parts of a strip's height; a pattern that saves less is not worth adding
ROUNDS_MOST = 2000


class Section(NamedTuple):
    """A pile of pieces of one item, crosscut as one and then cut apart."""

    item: int
    turned: bool
    width: int
    height: int
    pile: int


@dataclass(frozen=True, slots=True)
class Pattern:
    """One strip: its height, and its sections with how often each is in it."""

    height: int
    sections: tuple[tuple[Section, int], ...]

    def counts(self) -> Counter[int]:
        """How many pieces of each item a strip gives."""
        found: Counter[int] = Counter()
        for section, times in self.sections:
            found[section.item] += section.pile * times
        return found


@dataclass(frozen=True, slots=True, kw_only=True)
class PatternPlan:
    """Patterns and how often each is cut.

    Attributes:
        sheet: the problem in steps.
        uses: patterns with their times, the tallest first.
        bound: length in steps that no plan of such strips is below.
    """

    sheet: Sheet
    uses: tuple[tuple[Pattern, int], ...]
    bound: Fraction

    @property
    def length(self) -> int:
        """Of all strips, in steps."""
        return sum(pattern.height * times for pattern, times in self.uses)


def pattern_plan(items: Sequence[Item], width: Fraction, seconds: float) -> PatternPlan:
    """The strips for some pieces, as short together as is found in time.

    Raises:
        InputError: there is nothing to cut, or a piece is too wide.
        CutpathsError: the extra `kits` is not installed.
    """
    sheet = sheet_of(items, width)
    master = _Master(sheet)
    for pattern in _first_patterns(sheet):
        master.add(pattern)
    bound = 0.0
    for _ in range(ROUNDS_MOST):
        value, duals = master.solved()
        better = [p for h in _heights(sheet) if (p := _best_pattern(sheet, h, duals)) is not None]
        if not better:
            bound = value
            break
        for pattern in better:
            master.add(pattern)
    uses = master.whole(seconds)
    # The solver's own slack is taken off, so that the bound stays one.
    return PatternPlan(sheet=sheet, uses=uses, bound=Fraction(math.floor(bound * (1 - 1e-7))))


def _heights(sheet: Sheet) -> list[int]:
    return sorted({height for kind in sheet.kinds for _, height, _ in kind.ways})


def _first_patterns(sheet: Sheet) -> list[Pattern]:
    """A strip of each kind of piece alone, in each way it lies."""
    found = []
    for item, kind in enumerate(sheet.kinds):
        for wide, high, turned in kind.ways:
            section = Section(item, turned, wide, high, 1)
            found.append(Pattern(high, ((section, sheet.width // wide),)))
    return found


def _sections(kinds: Sequence[Kind], height: int) -> list[Section]:
    """Every pile that fits a strip of some height."""
    return [
        Section(item, turned, wide, high, height // high)
        for item, kind in enumerate(kinds)
        for wide, high, turned in kind.ways
        if high <= height
    ]


def _best_pattern(sheet: Sheet, height: int, duals: Sequence[float]) -> Pattern | None:
    """The strip of a height worth most; None where it is worth no more than its cloth."""
    sections = [s for s in _sections(sheet.kinds, height) if duals[s.item] > 0]
    best, choice = _filled(sections, sheet.width, duals)
    if best <= height * (1 + PAYS):
        return None
    taken: Counter[Section] = Counter()
    at = sheet.width
    while choice[at] != 0:
        if choice[at] < 0:
            at -= 1
            continue
        section = sections[choice[at] - 1]
        taken[section] += 1
        at -= section.width
    return Pattern(height, tuple(sorted(taken.items())))


def _filled(
    sections: Sequence[Section], width: int, duals: Sequence[float]
) -> tuple[float, list[int]]:
    """The most that fits a width is worth, and for each width the section it ends with.

    A choice is 0 where nothing lies, -1 where the last step is empty, else a section's number.
    """
    worth, choice = [0.0] * (width + 1), [0] * (width + 1)
    values = [(n, s.width, duals[s.item] * s.pile) for n, s in enumerate(sections, 1)]
    for at in range(1, width + 1):
        worth[at], choice[at] = worth[at - 1], -1 if choice[at - 1] else 0
        for number, wide, value in values:
            if wide <= at and worth[at - wide] + value > worth[at] + 1e-12:
                worth[at], choice[at] = worth[at - wide] + value, number
    return worth[width], choice


class _Master:
    """The linear program over the patterns made so far: strips' heights against demands."""

    def __init__(self, sheet: Sheet) -> None:
        self._solver, self._api = _solver()
        self._patterns: list[Pattern] = []
        self._known: set[Pattern] = set()
        self._rows = len(sheet.kinds)
        for kind in sheet.kinds:
            self._solver.addRow(float(kind.count), self._api.kHighsInf, 0, [], [])

    def add(self, pattern: Pattern) -> None:
        """Takes a pattern in, once."""
        if pattern in self._known:
            return
        self._known.add(pattern)
        self._patterns.append(pattern)
        counts = sorted(pattern.counts().items())
        rows, values = [i for i, _ in counts], [float(n) for _, n in counts]
        self._solver.addCol(
            float(pattern.height), 0.0, self._api.kHighsInf, len(rows), rows, values
        )

    def solved(self) -> tuple[float, list[float]]:
        """The least length with parts of strips, and what one more piece of each item costs."""
        self._solver.run()
        duals = list(self._solver.getSolution().row_dual)
        return self._solver.getInfo().objective_function_value, duals

    def whole(self, seconds: float) -> tuple[tuple[Pattern, int], ...]:
        """Whole numbers of strips: the solver's best within a time, or all rounded up."""
        relaxed = [math.ceil(x - 1e-9) for x in self._solver.getSolution().col_value]
        count = len(self._patterns)
        kinds = [self._api.HighsVarType.kInteger] * count
        self._solver.changeColsIntegrality(count, list(range(count)), kinds)
        self._solver.setOptionValue("time_limit", float(seconds))
        self._solver.setOptionValue("mip_rel_gap", 1e-5)
        self._solver.run()
        values = list(self._solver.getSolution().col_value)
        found = [round(x) for x in values]
        length = [p.height for p in self._patterns]
        if not self._enough(found) or _dot(relaxed, length) < _dot(found, length):
            found = relaxed
        pairs = [(p, n) for p, n in zip(self._patterns, found, strict=True) if n > 0]
        return tuple(sorted(pairs, key=lambda pair: (-pair[0].height, -pair[1], pair[0].sections)))

    def _enough(self, times: Sequence[int]) -> bool:
        if len(times) != len(self._patterns):
            return False
        made: Counter[int] = Counter()
        for pattern, count in zip(self._patterns, times, strict=True):
            for item, number in pattern.counts().items():
                made[item] += number * count
        lower = self._solver.getLp().row_lower_
        return all(made[item] >= lower[item] for item in range(self._rows))


def _dot(times: Sequence[int], heights: Sequence[int]) -> int:
    return sum(a * b for a, b in zip(times, heights, strict=True))


@contextmanager
def _unheard() -> Iterator[None]:
    """Keeps the line with which HiGHS introduces itself off standard output, where data goes."""
    sys.stdout.flush()
    kept, nowhere = os.dup(1), os.open(os.devnull, os.O_WRONLY)
    os.dup2(nowhere, 1)
    try:
        yield
    finally:
        os.dup2(kept, 1)
        os.close(kept)
        os.close(nowhere)


def _solver() -> tuple[Any, Any]:
    """HiGHS, quiet, on one thread and with a fixed seed, so that it answers alike."""
    try:
        import highspy
    except ImportError as error:
        raise CutpathsError(
            "planning kits needs the extra `kits`: install it with pip install 'cutpaths[kits]'"
        ) from error
    api: Any = highspy
    with _unheard():
        solver = api.Highs()
    solver.silent()
    for option, value in (("threads", 1), ("random_seed", 1)):
        solver.setOptionValue(option, value)
    return solver, api
