"""Cells of a grid: the patches that fill them, and the seams inside them; whole units.

A box is the cell's place on the lattice. Corners of patches are in the order of their shape's own
frame; see `patch_shapes`.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from fractions import Fraction

from cutpaths.geometry.assembly import Stage, TrianglePairs
from cutpaths.geometry.layouts.lattice import Box
from cutpaths.geometry.layouts.patches import Shaping, Tile
from cutpaths.geometry.layouts.sewing import Line
from cutpaths.geometry.patch_shapes import PatchKind, PatchShape
from cutpaths.project.cells import Cell, Split

Pair = tuple[str, str, int]  # both fabrics in the order of the alphabet, and the square's side

# Which triangles fill a split cell, by the eighths they are turned, in the order of its fabrics.
_TURNS = {
    Split.RISING: (PatchKind.HALF, (6, 2)),
    Split.FALLING: (PatchKind.HALF, (0, 4)),
    Split.BOTH: (PatchKind.QUARTER, (4, 2, 0, 6)),
}
# In a cell the long edges of quarter triangles, and the short ones of halves, meet other units.
_ALONG_LONG = frozenset({PatchKind.QUARTER})


def shaping_of(unit: Fraction) -> Shaping:
    """Shapes measured in units of a lattice."""

    def measure(kind: PatchKind, width: int, height: int) -> PatchShape:
        return PatchShape(kind, width * unit, height * unit)

    return Shaping(measure, _ALONG_LONG)


def boxes_of(cells: Iterable[Cell], columns: Sequence[int], rows: Sequence[int]) -> list[Box]:
    """The boxes of cells, from where columns begin from the left and rows from the head."""
    head = rows[-1]
    return [
        (
            columns[cell.column],
            head - rows[cell.row + cell.down],
            columns[cell.column + cell.across],
            head - rows[cell.row],
        )
        for cell in cells
    ]


def tiles_of(cell: Cell, box: Box) -> list[Tile]:
    """The patches that fill a cell, in the order of its fabrics."""
    left, foot, right, head = box
    if cell.split is Split.NONE:
        ring = (left, foot), (right, foot), (right, head), (left, head)
        return [Tile(PatchKind.RECTANGLE, right - left, head - foot, cell.fabrics[0], 0, ring)]
    kind, turns = _TURNS[cell.split]
    return [
        _triangle(kind, turn, box, fabric) for turn, fabric in zip(turns, cell.fabrics, strict=True)
    ]


def different_tiles(cells: Sequence[Cell], boxes: Sequence[Box]) -> Iterator[Tile]:
    """The tiles of all different cells, in the order in which each is first met."""
    met: set[tuple[Split, tuple[str, ...], int, int]] = set()
    for cell, box in zip(cells, boxes, strict=True):
        kind = cell.split, cell.fabrics, box[2] - box[0], box[3] - box[1]
        if kind not in met:
            met.add(kind)
            yield from tiles_of(cell, box)


def _triangle(kind: PatchKind, turn: int, box: Box, fabric: str) -> Tile:
    """The triangle of a cell whose own frame is turned by some eighths."""
    left, foot, right, head = box
    corners = (left, foot), (right, foot), (right, head), (left, head)
    quarters = turn // 2
    wide, high = right - left, head - foot
    if quarters % 2:
        wide, high = high, wide
    first, after = corners[quarters], corners[(quarters + 1) % 4]
    if kind is PatchKind.HALF:
        return Tile(kind, wide, high, fabric, turn, (first, after, corners[quarters - 1]))
    middle = (left + right) // 2, (foot + head) // 2
    return Tile(kind, wide, high // 2, fabric, turn, (first, after, middle))


def splits_of(cell: Cell, box: Box) -> list[Line]:
    """The seams inside a cell, in the order of sewing, pressed toward the fabric named later."""
    left, foot, right, head = box
    match cell.split:
        case Split.NONE:
            return []
        case Split.RISING:
            return [Line((left, foot), (right, head), Stage.UNIT)]
        case Split.FALLING:
            return [Line((left, head), (right, foot), Stage.UNIT, rightward=False)]
        case Split.BOTH:
            middle = (left + right) // 2, (foot + head) // 2
            return [
                Line(middle, (right, head), Stage.UNIT),
                Line(middle, (left, foot), Stage.UNIT),
                Line((left, head), (right, foot), Stage.UNIT),
            ]


def pairs_of(cells: Sequence[Cell], boxes: Sequence[Box]) -> Counter[Pair]:
    """The squares among some cells that are split once, alike ones together."""
    return Counter(
        (min(cell.fabrics), max(cell.fabrics), right - left)
        for cell, (left, foot, right, head) in zip(cells, boxes, strict=True)
        if cell.split in (Split.RISING, Split.FALLING) and right - left == head - foot
    )


def triangle_pairs(counts: Mapping[Pair, int], unit: Fraction) -> tuple[TrianglePairs, ...]:
    """Counted squares by their exact sizes."""
    return tuple(
        TrianglePairs((first, second), side * unit, count)
        for (first, second, side), count in counts.items()
    )
