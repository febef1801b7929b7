"""From a rig's readings to a calibrated view, with what each reading is off by.

Refuses what cannot be trusted: too few readings, readings that leave the picture free, a reading
in another unit, a misread one among enough others, and names what to do about it.
"""

from __future__ import annotations

import math
from fractions import Fraction

import numpy as np

from cutpaths.errors import Finding, InputError
from cutpaths.projector.finding import about, finding
from cutpaths.projector.fit import MAT, PICTURE, Fit, Readings, fit, readings_of, view_from
from cutpaths.projector.homography import aligned
from cutpaths.projector.misread import misread_findings
from cutpaths.projector.precision import best_next, determined, error_map, level, standard_errors
from cutpaths.projector.rig import Rig
from cutpaths.projector.view import View
from cutpaths.projector.wrong_unit import unit_findings
from cutpaths.values import Value, replace

DOUBTFUL = 2.5  # standard errors; one good reading in eighty is beyond
WEAK = 20.0  # expected error anywhere, in standard deviations of a reading


class Residual(Value, kw_only=True):
    """What is left of one reading.

    Attributes:
        name: of the reading: `1-4`, or `cross 4` on the mat.
        mm: what was read; for a cross on the mat 0.
        off: the fit less the reading, in mm; for a cross on the mat the distance.
        checked: whether other readings check it.
        doubtful: whether it is off by more than its own error explains.
    """

    name: str
    mm: Fraction
    off: float
    checked: bool
    doubtful: bool


class Calibration(Value, kw_only=True):
    """A calibrated picture.

    Attributes:
        rig: what was calibrated.
        view: pixels and the table.
        residuals: of each reading, in the order of the file.
        errors: expected error of a mark in mm, rows of places from the picture's upper edge.
        spare: how many readings there are beyond what determines the picture.
        following: the pair of crosses to measure next.
    """

    rig: Rig
    view: View
    residuals: tuple[Residual, ...]
    errors: tuple[tuple[float, ...], ...]
    spare: int
    following: tuple[int, int]

    @property
    def worst(self) -> float:
        """The largest expected error, in mm."""
        return max(max(row) for row in self.errors)

    @property
    def usual(self) -> float:
        """Root of the mean square of the expected errors, in mm."""
        every = [mm for row in self.errors for mm in row]
        return math.sqrt(sum(mm * mm for mm in every) / len(every))


def calibrate(rig: Rig) -> Calibration:
    """The view of a rig and how certain it is.

    Raises:
        InputError: the readings do not determine it, or cannot all be right.
    """
    _stop([*unit_findings(rig)])
    readings = readings_of(rig)
    _require_enough(rig, readings)
    fitted = fit(readings)
    _stop(misread_findings(rig, readings, fitted))
    if not determined(fitted):
        _stop([_more(rig, "leave the picture free to change its shape")])
    spare = readings.count - readings.unknowns
    found = math.sqrt(fitted.squares / spare) * readings.unit if spare else 0.0
    # Few readings agree by luck; the tape's own uncertainty is the least that is believed.
    errors = error_map(fitted, readings, max(float(rig.within), found))
    worst = max(max(row) for row in errors)
    if worst > WEAK * float(rig.within):
        off = about(worst, rig.unit)
        _stop([_more(rig, f"hardly determine the picture: a mark may be off by {off}")])
    (following,) = best_next(rig, readings, fitted, _taken(rig), 1)
    return Calibration(
        rig=rig,
        view=view_from(fitted.numbers, readings.unit, rig),
        residuals=_residuals(rig, readings, fitted),
        errors=errors,
        spare=spare,
        following=following,
    )


def first_readings(rig: Rig, count: int) -> tuple[tuple[int, int], ...]:
    """What to measure first: the sides, the diagonals, then what helps the whole picture most."""
    a, b, c, d = rig.outer
    start = ((a, b), (b, c), (d, c), (a, d), (a, c), (b, d))
    readings = readings_of(replace(rig, distances=(), positions=()))
    known = level(readings, start)
    return (*start, *best_next(rig, readings, known, start, max(0, count - len(start))))[:count]


def still_to_measure(rig: Rig) -> tuple[tuple[int, int], ...]:
    """Of what to measure first, what the rig file does not have yet."""
    taken = {tuple(sorted(pair)) for pair in _taken(rig)}
    return tuple(pair for pair in first_readings(rig, 9) if tuple(sorted(pair)) not in taken)


def _require_enough(rig: Rig, readings: Readings) -> None:
    """Refuses readings of which there are too few, or whose crosses lie on a line."""
    count = readings.count - (MAT if len(readings.placed) else 0)
    used = sorted({*(n for d in rig.distances for n in (d.first, d.second))} | _placed(rig))
    spots = [rig.crosses[n - 1] for n in used]
    if len(used) > 2 and (line := aligned(spots)):
        names = ", ".join(str(used[n]) for n in line)
        _stop([_more(rig, f"must reach four crosses of which no three are on a line: {names} are")])
    if count < PICTURE:
        what = "distances" if not rig.positions else "readings"
        got = f"got {len(rig.distances)} distances and {len(rig.positions)} positions"
        _stop([_more(rig, f"must be at least {PICTURE} {what} (or 4 positions), {got}")])
    if not rig.distances and (line := aligned([(float(p.x), float(p.y)) for p in rig.positions])):
        names = ", ".join(str(rig.positions[n].cross) for n in line)
        _stop([finding("positions", f"put crosses {names} on a line, where no picture has them")])


def _placed(rig: Rig) -> set[int]:
    return {p.cross for p in rig.positions}


def _taken(rig: Rig) -> list[tuple[int, int]]:
    return [(d.first, d.second) for d in rig.distances]


def _more(rig: Rig, problem: str) -> Finding:
    todo = ", ".join(f"{a}-{b}" for a, b in still_to_measure(rig)[:3])
    hint = f"Measure next: {todo}" if todo else ""
    return finding(
        "distances" if rig.distances or not rig.positions else "positions", problem, hint
    )


def _stop(findings: list[Finding]) -> None:
    if findings:
        raise InputError(*findings)


def _residuals(rig: Rig, readings: Readings, fitted: Fit) -> tuple[Residual, ...]:
    errors = standard_errors(fitted)
    rest = fitted.rest * readings.unit
    count = len(rig.distances)
    within = float(rig.within)
    found = []
    for n, read in enumerate(rig.distances):
        off, error = float(rest[n]), float(errors[n])
        found.append(_residual(read.name, read.mm, off, error, within))
    for n, spot in enumerate(rig.positions):
        both = slice(count + 2 * n, count + 2 * n + 2)
        off, error = float(np.hypot(*rest[both])), float(errors[both].max())
        found.append(_residual(f"cross {spot.cross}", Fraction(0), off, error, within))
    return tuple(found)


def _residual(name: str, mm: Fraction, off: float, error: float, within: float) -> Residual:
    checked = error > 0.05
    doubtful = checked and abs(off) > DOUBTFUL * within * error
    return Residual(name=name, mm=mm, off=off, checked=checked, doubtful=doubtful)
