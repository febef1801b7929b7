"""How far HP-GL files may reach.

A unit is 0.025 mm (HP, "PCL 5 Printer Language Technical Reference Manual", HP-GL/2 part). Old
plotters take whole numbers from -32768 to 32767, HP-GL/2 from -2**30 to 2**30 - 1.
"""

from __future__ import annotations

from fractions import Fraction

from cutpaths.lengths import Unit, exact_text

UNIT = Fraction(1, 40)
OLD_LEAST, OLD_MOST = -(2**15), 2**15 - 1


def range_problem(size: tuple[Fraction, Fraction], *, middle: bool, unit: Unit) -> tuple[str, str]:
    """Whether a bed is beyond the range of old plotters: what is wrong, and the tiling that fits.

    Args:
        size: width and height of the bed.
        middle: whether the plotter counts from the middle.
        unit: of the message.
    """
    most = OLD_MOST * UNIT * (2 if middle else 1)
    if max(size) <= most:
        return "", ""
    across, down = (-(-side // most) for side in size)
    tile = [
        exact_text(_whole(side / count), unit)
        for side, count in zip(size, (across, down), strict=True)
    ]
    longest = max(size)
    problem = (
        f"cannot have 'hpgl-old' for a bed over {exact_text(most, unit)}, where old plotters stop "
        f"({OLD_MOST} units), got {exact_text(longest, unit)}"
    )
    return problem, f"{across} x {down} beds of {tile[0]} x {tile[1]} would do"


def _whole(mm: Fraction) -> Fraction:
    """A size to the unit of the plotter, downwards."""
    return mm // UNIT * UNIT
