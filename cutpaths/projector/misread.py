"""A misread tape: one reading that the others contradict, found by leaving each out in turn."""

from __future__ import annotations

import math
from fractions import Fraction

import numpy as np

from cutpaths.errors import Finding
from cutpaths.lengths import decimals, exact_text
from cutpaths.projector.finding import about, finding
from cutpaths.projector.fit import Fit, Readings, fit, model
from cutpaths.projector.precision import standard_errors
from cutpaths.projector.rig import Rig
from cutpaths.projector.wrong_unit import is_factor, times, unit_read
from cutpaths.values import Value

TOGETHER = 4.0  # standard deviations: readings whose mean misfit is less may all be right
AFTER = 2.5  # the same once the misread one is out
CLEAR = 3.0  # times: how much better the best suspect explains the misfit than the next


class _Suspect(Value):
    """A reading, the misfit of all others without it, and what they say it should be (mm)."""

    index: int
    misfit: float
    expected: float


def misread_findings(rig: Rig, readings: Readings, fitted: Fit) -> list[Finding]:
    """What is wrong with readings that cannot all be right; empty where they may be."""
    spare = readings.count - readings.unknowns
    together = spare < 1 or _misfit(fitted, readings, rig, spare) <= TOGETHER
    if spare < 1 or (together and not _outlier(rig, readings, fitted)):
        return []
    suspects = sorted(_suspects(rig, readings), key=lambda suspect: suspect.misfit)
    if suspects and suspects[0].misfit <= AFTER and _clear(suspects):
        return [_named(rig, readings, suspects[0])]
    off = decimals(Fraction(float(np.abs(fitted.rest).max()) * readings.unit), 1)
    if not suspects:
        hint = "Measure one distance more to find out which"
        return [finding(_table(rig), f"disagree by {off} mm: one reading is wrong", hint)]
    if suspects[0].misfit <= AFTER:
        close = [s.index for s in suspects if s.misfit <= max(AFTER, CLEAR * suspects[0].misfit)]
        hint = f"Measure again {_names(rig, close)}, and one distance more"
        return [finding(_table(rig), f"disagree by {off} mm: one reading is wrong", hint)]
    worst = sorted(range(readings.count), key=lambda n: -abs(float(fitted.rest[n])))
    hint = f"Measure again {_names(rig, [_reading(rig, n) for n in worst])} first"
    return [finding(_table(rig), f"disagree by {off} mm: several readings are wrong", hint)]


def _outlier(rig: Rig, readings: Readings, fitted: Fit) -> bool:
    """Whether one reading stands out although the mean misfit is small."""
    errors = standard_errors(fitted)
    shown = errors > 0.05
    off = np.abs(fitted.rest[shown]) * readings.unit / errors[shown] / float(rig.within)
    return bool(len(off) and off.max() > 2 * TOGETHER)


def _misfit(fitted: Fit, readings: Readings, rig: Rig, spare: int) -> float:
    """Standard deviations of a reading that the rests amount to."""
    return math.sqrt(fitted.squares / spare) * readings.unit / float(rig.within)


def _suspects(rig: Rig, readings: Readings) -> list[_Suspect]:
    """Each reading with the fit of all others; those that then have no check are left out."""
    found = []
    for index in range(len(readings.lengths) + len(readings.placed)):
        rest = readings.without(index)
        spare = rest.count - rest.unknowns
        if spare < 1:
            continue
        fitted = fit(rest)
        misfit = _misfit(fitted, rest, rig, spare)
        found.append(_Suspect(index, misfit, _expected(readings, fitted, index)))
    return found


def _expected(readings: Readings, fitted: Fit, index: int) -> float:
    """What a distance should read, in mm; for a cross on the mat 0."""
    if index >= len(readings.lengths) or len(fitted.numbers) < readings.unknowns:
        return 0.0
    rest, _ = model(readings, fitted.numbers)
    return float(rest[index] + readings.lengths[index]) * readings.unit


def _clear(suspects: list[_Suspect]) -> bool:
    """Whether no other reading explains the misfit nearly as well."""
    if len(suspects) == 1:
        return True
    first, second = suspects[0].misfit, suspects[1].misfit
    return second > AFTER and second > CLEAR * first


def _named(rig: Rig, readings: Readings, suspect: _Suspect) -> Finding:
    count = len(readings.lengths)
    if suspect.index >= count:
        cross = rig.positions[suspect.index - count].cross
        problem = "is not where all other readings have it"
        return finding(f"positions.{cross}", problem, "Read it again")
    read = rig.distances[suspect.index]
    ratio = float(read.mm) / suspect.expected if suspect.expected > 0 else 1.0
    said = read.unit or rig.unit
    right = about(suspect.expected, said)
    problem = f"must be about {right} by all other readings, got {exact_text(read.mm, said)}"
    if not is_factor(ratio):
        return finding(f"distances.{read.name}", problem, "Measure it again")
    unit = unit_read(ratio, said)
    hint = f"Was it read in {unit}?" if unit else "Was another unit written beside it?"
    return finding(f"distances.{read.name}", f"{problem}, {times(ratio)} that", hint)


def _reading(rig: Rig, rest: int) -> int:
    """The reading that a rest belongs to; a cross on the mat has two."""
    count = len(rig.distances)
    return rest if rest < count else count + (rest - count) // 2


def _names(rig: Rig, indices: list[int]) -> str:
    """The first three of some readings, each once."""
    count = len(rig.distances)
    names = [
        f"`{rig.distances[n].name}`" if n < count else f"cross {rig.positions[n - count].cross}"
        for n in dict.fromkeys(indices)
    ]
    return ", ".join(names[:3])


def _table(rig: Rig) -> str:
    return "distances" if rig.distances else "positions"
