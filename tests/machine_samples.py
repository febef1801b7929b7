"""Beds and parts that the tests of machines share; invented, small enough to follow by hand."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from cutpaths.geometry.assembly import Face, Grain, Piece, PieceKind
from cutpaths.geometry.polygons import Ring
from cutpaths.machine.bed import Bed
from cutpaths.machine.bed_reading import read
from cutpaths.machine.parts import Part
from cutpaths.shapes import Motion, shift
from cutpaths.values import replace

SOUND = """format = 1
name = "Bench"
units = "mm"

[bed]
width = 900
height = 600
margin = 10
spacing = 4

[tool.pen]
kind = "pen"
number = 1
speed = 120

[tool.knife]
kind = "drag-knife"
number = 2
speed = 60

[travel]
speed = 300
tool_change = 20
"""


def bench(**changes: object) -> Bed:
    """A bed with a pen and a knife, some of its values changed."""
    return replace(read(SOUND), **changes)  # type: ignore[arg-type]  # the test's own names


def knife(kerf: float = 0.0, blade_offset: float = 0.0, overcut: float = 0.0) -> Bed:
    """The bench with a knife that takes something away, trails, or cuts on past the start."""
    bed = read(SOUND)
    blade = replace(
        bed.tools[1],
        kerf=Fraction(kerf),
        blade_offset=Fraction(blade_offset),
        overcut=Fraction(overcut),
    )
    roles = {role: tool if tool.draws else blade for role, tool in bed.roles.items()}
    return replace(bed, tools=(bed.tools[0], blade), roles=roles)


def rectangle(width: float, height: float) -> Ring:
    """A rectangle from the origin."""
    return (0.0, 0.0), (width, 0.0), (width, height), (0.0, height)


def piece(ring: Ring, key: str = "PATCH-1", grain: Grain | None = None) -> Piece:
    """A piece with nothing but an outline."""
    return Piece(
        key=key,
        kind=PieceKind.PATCH,
        fabric="sand",
        face=Face.RIGHT,
        grain=grain,
        outline=ring,
        marks=(),
        places=(Motion(),),
    )


def part(ring: Ring, count: int = 1, quarters: Sequence[int] = (0,), key: str = "PATCH-1") -> Part:
    """A part that may lie turned by some quarter turns."""
    turns = []
    for turn in quarters:
        turned = Motion.quarters(turn).ring(ring)
        left, bottom = min(x for x, _ in turned), min(y for _, y in turned)
        turns.append(Motion.quarters(turn).then(shift(-left, -bottom)))
    return Part(piece=piece(ring, key), outline=ring, holes=(), turns=tuple(turns), count=count)
