"""A rig as the text of a rig file, every table of it; what is read back is the same rig.

Lengths stand in mm where they have an end there, else in fractions of an inch, exactly; in a file
in inches those on a ruler's marks do too. Only what has no short fraction either, which no tape
reads, is rounded to a millionth of a mm.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from fractions import Fraction

from cutpaths.lengths import FINEST, INCH, Unit, decimals, mixed
from cutpaths.projector.rig import Lens, Rig

PLACES = 6  # decimals of a mm
DIGITS_MOST = 9  # of each part of a fraction, as lengths are read


def rig_text(rig: Rig) -> str:
    """The text of a rig's file."""
    return "\n".join((*_head(rig), *_cloth(rig), *_lens(rig, rig.lens), *_readings(rig), ""))


def _head(rig: Rig) -> Iterator[str]:
    yield "# A projector above a cutting table, for cutpaths."
    yield "format = 1"
    yield f"name = {json.dumps(rig.name, ensure_ascii=False)}"
    yield f'units = "{rig.unit.value}"'
    yield "\n[picture]"
    for key in ("width", "height", "columns", "rows", "inset"):
        yield f"{key} = {getattr(rig, key)}"


def _cloth(rig: Rig) -> Iterator[str]:
    yield f"\n[tape]\nwithin = {_length(rig, rig.within)}"
    yield f"\n[cloth]\nmargin = {_length(rig, rig.margin)}"
    if rig.thickness:
        yield f"thickness = {_length(rig, rig.thickness)}"


def _lens(rig: Rig, lens: Lens | None) -> Iterator[str]:
    if lens is None:
        return
    yield f"\n[lens]\nheight = {_length(rig, lens.height)}"
    if lens.distances:
        yield "\n[lens.distances]"
        yield from (f'"{cross}" = {_length(rig, mm)}' for cross, mm in lens.distances)


def _readings(rig: Rig) -> Iterator[str]:
    yield "\n[distances]"
    yield from (f'"{d.name}" = {_length(rig, d.mm)}' for d in rig.distances)
    yield "\n[positions]"
    for p in rig.positions:
        yield f'"{p.cross}" = [{_length(rig, p.x)}, {_length(rig, p.y)}]'


def _length(rig: Rig, mm: Fraction) -> str:
    """A length as a value of the file: a bare number of mm in a file in mm, else a text."""
    text, inches = decimals(mm, PLACES), mm / INCH
    on_ruler = rig.unit is Unit.INCH and FINEST % inches.denominator == 0
    if on_ruler or (Fraction(text) != mm and _short(inches)):
        return f'"{mixed(inches)} in"'
    return text if rig.unit is Unit.MILLIMETRE else f'"{text} mm"'


def _short(number: Fraction) -> bool:
    """Whether a number of inches can be read back as whole and fraction."""
    return len(str(number.denominator)) <= DIGITS_MOST and len(str(abs(number) // 1)) <= DIGITS_MOST
