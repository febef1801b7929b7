"""Readings in a unit that the file does not say: 10 or 25.4 times off, recognised, suggested."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from fractions import Fraction
from itertools import pairwise
from statistics import median

from cutpaths.errors import Finding
from cutpaths.geometry.polygons import distance
from cutpaths.lengths import INCH, Unit, exact_text
from cutpaths.projector.finding import about, finding
from cutpaths.projector.rig import Rig

UNITS: Mapping[str, Fraction] = {
    "mm": Fraction(1),
    "cm": Fraction(10),
    "in": INCH,
    "ft": 12 * INCH,
    "m": Fraction(1000),
}
_FACTORS = (10.0, 25.4, 2.54, 12.0, 304.8, 30.48, 100.0, 1000.0)
NEAR = 0.06  # part of a factor by which a reading may miss it
KEYSTONE = 0.4  # the same before the picture's keystone is known
APART = 2.2  # a reading this many times off the others is not keystone alone
# Widths of a picture on a table, in mm; common practice, no source.
LEAST_WIDTH, MOST_WIDTH = 250.0, 6000.0


def unit_read(ratio: float, unit: Unit, near: float = NEAR) -> str:
    """The unit that explains a reading `ratio` times what it should be; empty where none does.

    >>> unit_read(0.1, Unit.MILLIMETRE), unit_read(25.2, Unit.INCH), unit_read(0.5, Unit.INCH)
    ('cm', 'mm', '')
    """
    written = UNITS[unit.value]
    offs = {
        name: abs(math.log(ratio * float(size / written)))
        for name, size in UNITS.items()
        if size != written
    }
    best = min(offs, key=lambda name: offs[name])
    return best if offs[best] < near else ""


def times(ratio: float) -> str:
    """A ratio in words.

    >>> times(10.02), times(0.0394)
    ('10 times', '1/25.4 of')
    """
    up = ratio if ratio >= 1 else 1 / ratio
    shown = _nearest_factor(up) if is_factor(ratio) else round(up, 1)
    return f"{shown:g} times" if ratio >= 1 else f"1/{shown:g} of"


def is_factor(ratio: float) -> bool:
    """Whether a ratio is that of two units, either way.

    >>> is_factor(9.9), is_factor(0.0394), is_factor(1.05)
    (True, True, False)
    """
    up = ratio if ratio >= 1 else 1 / ratio
    return abs(math.log(up / _nearest_factor(up))) < NEAR


def _nearest_factor(up: float) -> float:
    return min(_FACTORS, key=lambda each: abs(math.log(up / each)))


def unit_findings(rig: Rig) -> Iterator[Finding]:
    """Readings that no keystone explains but another unit does, one by one or all together."""
    ratios = _ratios(rig)
    every = [*ratios.values(), *_mat_ratios(rig)]
    if not every:
        return
    usual = median(ratios.values() or every)
    for read, ratio in zip(rig.distances, ratios.values(), strict=True):
        off, said = ratio / usual, read.unit or rig.unit
        if 1 / APART < off < APART:
            continue
        if unit := unit_read(off, said, KEYSTONE):
            problem = f"is about {times(off)} what the other readings say, got "
            hint = f"Was it read in {unit}?"
            yield finding(f"distances.{read.name}", problem + exact_text(read.mm, said), hint)
    yield from _all_wrong(rig, median(every) * rig.width)


def _all_wrong(rig: Rig, width: float) -> Iterator[Finding]:
    """A picture too small or too large to be one, where another unit would make it one."""
    if LEAST_WIDTH <= width <= MOST_WIDTH:
        return
    units = [read.unit or rig.unit for read in rig.distances]
    units += [rig.unit] * len(rig.positions)
    said = units[0] if len(set(units)) == 1 else rig.unit
    shown = about(width, said)
    written = float(UNITS[said.value])
    likely = [
        name
        for name, size in UNITS.items()
        if LEAST_WIDTH <= width * float(size) / written <= MOST_WIDTH
    ]
    near = [name for name in likely if name in ("mm", "cm", "in")]
    hint = f"Were the readings in {' or '.join(near or likely)}?" if likely else ""
    yield finding("units", f"make the picture {shown} wide, which no projector shows", hint)


def _ratios(rig: Rig) -> dict[str, float]:
    """Mm a pixel, by the name of each distance."""
    spots = rig.crosses
    return {
        d.name: float(d.mm) / distance(spots[d.first - 1], spots[d.second - 1])
        for d in rig.distances
    }


def _mat_ratios(rig: Rig) -> Iterator[float]:
    """Mm a pixel from each cross on the mat to the next."""
    for p, q in pairwise(rig.positions):
        pixels = distance(rig.crosses[p.cross - 1], rig.crosses[q.cross - 1])
        if pixels:
            yield math.hypot(float(q.x - p.x), float(q.y - p.y)) / pixels
