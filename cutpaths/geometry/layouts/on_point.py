"""Squares set on the diagonal, with triangles that fill the sides and the corners; mm.

The lattice is the layout's own frame: its unit is half the diagonal of a square, f / sqrt 2, and
the middle of each square is a node whose coordinates are both odd (squares of the full rows) or
both even (squares between them). Each coordinate is turned to mm once.

Side triangles are quarters of a square whose side is the diagonal, corner triangles are halves of
a square whose side is half the diagonal, so that the grain runs along the top's edges. Squares
stand straight on the grain as they are cut; a print's up lies half way between head and left.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from cutpaths.geometry.assembly import Assembly, Stage
from cutpaths.geometry.layouts.lattice import Lattice
from cutpaths.geometry.layouts.patches import Shaping, Tile, numbered, pieces
from cutpaths.geometry.layouts.rules import PatchRules
from cutpaths.geometry.layouts.sewing import Line, seams_of
from cutpaths.geometry.outlines import rectangle
from cutpaths.geometry.patch_shapes import PatchKind, PatchShape
from cutpaths.project.roots import ROOT2

# Legs of side triangles and long edges of corner triangles are what is sewn to squares.
_ALONG_LONG = frozenset({PatchKind.HALF})


def on_point(
    finished: Fraction, chart: Sequence[Sequence[str]], setting: str, rules: PatchRules
) -> Assembly:
    """Lays squares on point.

    Args:
        finished: finished side of a square, exact mm.
        chart: names of fabrics, the head row first; full rows and the rows between them, which
            have one name less, take turns; the first and the last row are full.
        setting: the fabric of the side and corner triangles.
        rules: how patches are cut and sewn.
    """
    half = finished * ROOT2 / 2
    lattice = Lattice(half)
    columns, rows = 2 * len(chart[0]), len(chart) + 1
    tiles = [*_squares(chart), *_triangles(columns, rows, setting)]
    names = numbered(tiles, rules)

    def measure(kind: PatchKind, width: int, height: int) -> PatchShape:
        if kind is PatchKind.RECTANGLE:
            return PatchShape(kind, finished, finished)
        return PatchShape(kind, width * half, height * half)

    return Assembly(
        outline=rectangle(lattice.mm(columns), lattice.mm(rows)),
        parts=pieces(tiles, lattice, names, Shaping(measure, _ALONG_LONG), rules),
        seams=seams_of(_seams(columns, rows), lattice, rules.pressing),
    )


def _squares(chart: Sequence[Sequence[str]]) -> Iterator[Tile]:
    for row, names in enumerate(chart):
        y = len(chart) - row
        for count, name in enumerate(names):
            x = 2 * count + 1 + row % 2
            ring = (x, y - 1), (x + 1, y), (x, y + 1), (x - 1, y)
            yield Tile(PatchKind.RECTANGLE, 1, 1, name, 1, ring)


def _triangles(columns: int, rows: int, fabric: str) -> Iterator[Tile]:
    """Side triangles, then corner triangles, each from the foot around."""
    sides = (
        (0, (0, 0), (1, 0)),
        (2, (columns, 0), (0, 1)),
        (4, (columns, rows), (-1, 0)),
        (6, (0, rows), (0, -1)),
    )
    for turn, (x, y), (dx, dy) in sides:
        for at in range(2, columns if dx else rows, 2):
            start = x + (at - 1) * dx, y + (at - 1) * dy
            end = x + (at + 1) * dx, y + (at + 1) * dy
            point = x + at * dx - dy, y + at * dy + dx
            yield Tile(PatchKind.QUARTER, 2, 1, fabric, turn, (start, end, point))
    for turn, (x, y), (dx, dy) in sides:
        ring = (x, y), (x + dx, y + dy), (x - dy, y + dx)
        yield Tile(PatchKind.HALF, 1, 1, fabric, turn, ring)


def _seams(columns: int, rows: int) -> list[Line]:
    """Diagonal rows, from lower left to upper right, then what joins them, the corners last."""
    across = [line for row in range(2 - rows, columns, 2) for line in _row(row, columns, rows)]
    between = [_between(line, columns, rows) for line in range(3 - rows, columns - 1, 2)]
    corners = [
        Line((1, 0), (0, 1), Stage.TOP, rightward=False),
        Line((columns - 1, rows), (columns, rows - 1), Stage.TOP, rightward=False),
        Line((columns - 1, 0), (columns, 1), Stage.TOP),
        Line((0, rows - 1), (1, rows), Stage.TOP, rightward=False),
    ]
    return [*across, *between, *corners]


def _row(row: int, columns: int, rows: int) -> Iterator[Line]:
    """The seams of the diagonal row whose middles have x - y = `row`, corner triangles apart."""
    first = max(0, row)
    last = min(columns, rows + row)
    for x in range(first, last):
        y = x - row
        corner = (x, y) == (0, 0) or (x + 1, y + 1) == (columns, rows)
        if not corner:
            yield Line((x + 1, y), (x, y + 1), Stage.ROW, rightward=row % 4 == 0)


def _between(line: int, columns: int, rows: int) -> Line:
    """The seam along x - y = `line`, from edge to edge of the top."""
    start = max(0, line), max(0, -line)
    end = (columns, columns - line) if columns - line <= rows else (rows + line, rows)
    return Line(start, end, Stage.TOP)
