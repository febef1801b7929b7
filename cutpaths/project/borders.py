"""Settles the border: from its width, the backing's cut size or the wanted finished size.

Sizes are pairs, across and down, in mm. A border found from a size is equal at both ends of its
axis, since the top lies in the middle. Borders are tuples in the order of the sides as the file
counts them (a rectangle: foot, right, head, left).
"""

from __future__ import annotations

from fractions import Fraction
from string import ascii_uppercase

from cutpaths.lengths import nearest
from cutpaths.project import sizes
from cutpaths.project.measured import Measured
from cutpaths.project.measured_rules import designed_raw, measured_of
from cutpaths.project.model import Outline, Regular, Top
from cutpaths.project.outlines import Ring
from cutpaths.project.seams import Seams
from cutpaths.project.shape import EVERY, BorderTable, FileTable, OutlineTable
from cutpaths.project.tops import ring_of
from cutpaths.values import Value

Pair = tuple[Fraction, Fraction]
Borders = tuple[Fraction, ...]


class Edge(Value, kw_only=True):
    """What a border goes round.

    Attributes:
        raw: raw width and height that settle the border: as measured, else as designed; None for an
            outline.
        sides: how many sides the file's letters count.
        ring: the outline whose points the file gives, if it does.
        measured: the top as it was sewn, where it was measured.
        seams: how the border is sewn.
    """

    raw: Pair | None
    sides: int
    ring: Ring | None
    measured: Measured | None
    seams: Seams

    @property
    def letters(self) -> str:
        """The letters of the sides."""
        return ascii_uppercase[: self.sides]


def edge_of(file: FileTable, top: Top, seams: Seams) -> Edge:
    """The edge of a top without flaws."""
    ring = None
    sides = 4
    if isinstance(file.top, OutlineTable) and isinstance(top, Outline):
        ring = ring_of(file.top)
        sides = len(file.top.points or ())
    elif isinstance(top, Regular):
        sides = top.sides
    measured = measured_of(file, top, seams)
    raw = (measured.raw if measured else None) or designed_raw(top, seams)
    return Edge(raw=raw, sides=sides, ring=ring, measured=measured, seams=seams)


def borders_of(border: BorderTable, edge: Edge) -> Borders:
    """The border of each written side; from the width, else the backing, else the finished size."""
    if border.width is not None:
        every = border.width.get(EVERY, Fraction(0))
        return tuple(border.width.get(letter, every) for letter in edge.letters)
    across, down = found(border, edge) or (Fraction(0), Fraction(0))
    if border.nearest is not None:
        across, down = nearest(across, border.nearest), nearest(down, border.nearest)
    return down, across, down, across


def found(border: BorderTable, edge: Edge) -> Pair | None:
    """The borders across and down that a backing or a finished size asks for, not rounded."""
    if edge.raw is None:
        return None
    seams, (width, height) = edge.seams, edge.raw
    if border.backing is not None:
        given = border.backing
        return (
            sizes.border_of_backing(given.width, width, seams.turn),
            sizes.border_of_backing(given.height, height, seams.turn),
        )
    if border.finished is not None:
        wanted = border.finished
        return (
            sizes.border_of_finished(wanted.width, width, seams.allowance),
            sizes.border_of_finished(wanted.height, height, seams.allowance),
        )
    return None


def sizes_of(borders: Borders, raw: Pair, seams: Seams) -> tuple[Pair, Pair]:
    """Backing and finished size of a rectangle with its four borders."""
    foot, right, head, left = borders
    across, down = left + right, foot + head
    backing = (
        sizes.backing(raw[0], across, seams.turn),
        sizes.backing(raw[1], down, seams.turn),
    )
    if seams.folded_over:
        return backing, raw
    finished = (
        sizes.finished(raw[0], across, seams.allowance),
        sizes.finished(raw[1], down, seams.allowance),
    )
    return backing, finished


def along(edge: Edge, borders: Borders) -> Borders:
    """Borders of the sides as the project letters them, from those of the written sides."""
    if edge.ring is None:
        return borders
    return tuple(borders[written[0]] for written in edge.ring.sides)
