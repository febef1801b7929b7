"""A projector above a table as checked, frozen values; lengths are exact mm."""

from __future__ import annotations

import math
from fractions import Fraction

from cutpaths.lengths import Unit
from cutpaths.shapes import Point
from cutpaths.values import Value


class Distance(Value):
    """What the tape says from one cross to another.

    `unit` is the one that is written beside it, where that is not the unit of the file.
    """

    first: int
    second: int
    mm: Fraction
    unit: Unit | None = None

    @property
    def name(self) -> str:
        """As it stands in the rig file: `1-4`."""
        return f"{self.first}-{self.second}"


class Position(Value):
    """Where a cross falls on a ruled mat, x right and y up."""

    cross: int
    x: Fraction
    y: Fraction


class Lens(Value):
    """Height of the lens above the table, and tape readings from the lens to crosses."""

    height: Fraction
    distances: tuple[tuple[int, Fraction], ...]


class Rig(Value, kw_only=True):
    """A projector, its picture, and what was measured on the table.

    Attributes:
        name: as the person wrote it.
        digest: SHA-256 of the rig file.
        unit: the unit of what is shown.
        width, height: of the picture, in pixels.
        columns, rows: of the target's crosses.
        inset: from the picture's edges to the outermost crosses, in pixels.
        within: what a reading is usually off by (one standard deviation).
        margin: what a frame keeps free along the edges of the picture.
        thickness: of the cloth above what was calibrated on.
        lens: None while it is not known.
        distances: from cross to cross.
        positions: of crosses on a mat.
    """

    name: str
    digest: str
    unit: Unit
    width: int
    height: int
    columns: int
    rows: int
    inset: int
    within: Fraction
    margin: Fraction
    thickness: Fraction
    lens: Lens | None
    distances: tuple[Distance, ...]
    positions: tuple[Position, ...]

    @property
    def crosses(self) -> tuple[Point, ...]:
        """The middle of each cross in pixels; number 1 first, row by row from the upper left."""
        xs = _spread(self.width, self.columns, self.inset)
        ys = _spread(self.height, self.rows, self.inset)
        return tuple((x, y) for y in ys for x in xs)

    @property
    def outer(self) -> tuple[int, int, int, int]:
        """Numbers of the four corner crosses, round the picture from the upper left."""
        last = self.columns * self.rows
        return 1, self.columns, last, last - self.columns + 1


def usual_inset(width: int, height: int) -> int:
    """The inset where the rig file gives none: a sixteenth of the shorter edge."""
    return max(1, min(width, height) // 16)


def _spread(size: int, count: int, inset: int) -> tuple[float, ...]:
    """Evenly spread places, each in the middle of a pixel, so that thin lines are sharp."""
    step = (size - 2 * inset) / (count - 1)
    return tuple(min(size - 1, math.floor(inset + step * n)) + 0.5 for n in range(count))
