"""Grids: exact places, pieces alike by key, seams in the order of sewing."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise
from math import hypot

import pytest
from hypothesis import given, settings
from layouts import (
    QUARTER_INCH,
    charts,
    check_allowances,
    check_sewing,
    check_tiling,
    rules,
)

from cutpaths.geometry.assembly import Assembly, Seam, Stage, TrianglePairs
from cutpaths.geometry.layouts.cells import boxes_of, tiles_of
from cutpaths.geometry.layouts.grid import grid
from cutpaths.geometry.layouts.lattice import edges_of, unit_of
from cutpaths.geometry.layouts.squares import squares
from cutpaths.geometry.patch_shapes import PatchKind, PatchShape
from cutpaths.geometry.polygons import box
from cutpaths.lengths import INCH
from cutpaths.project.cells import read_cells
from cutpaths.project.patchwork import Pressing

Chart = tuple[tuple[Fraction, ...], tuple[Fraction, ...], tuple[str, ...]]


def _grid(columns: list[int], rows: list[int], *chart: str, **how: object) -> Assembly:
    """A grid of sizes in inches."""
    sizes = [Fraction(each) * INCH for each in columns], [Fraction(each) * INCH for each in rows]
    return grid(*sizes, read_cells(chart), rules(**how))  # type: ignore[arg-type] # test keywords


def _inches(seam: Seam) -> tuple[float, ...]:
    """Both ends of a seam in inches."""
    return tuple(round(float(x) / 25.4, 9) for p in (seam.start, seam.end) for x in p)


def test_cut_size_is_finished_size_with_both_allowances() -> None:
    """Finished 3 is cut 3 1/2, a rectangle of 2 1/2 x 5 is cut 3 x 5 1/2.

    Source: guild lesson sheet "Allowing for Seam Allowances".
    """
    half = INCH / 2
    square = grid([3 * INCH], [3 * INCH], read_cells(["moss"]), rules()).pieces()[0]
    assert square.size == (float(7 * half), float(7 * half))
    strip = grid([5 * half], [5 * INCH], read_cells(["moss"]), rules()).pieces()[0]
    assert strip.size == (float(3 * INCH), float(11 * half))


def test_nine_patch_of_the_guild() -> None:
    """Nine squares cut 4 1/2 sew to 12 1/2 raw.

    Source: hobby pages, as "nine-patch of 4 1/2 squares sews to 12 1/2 raw".
    """
    made = _grid([4, 4, 4], [4, 4, 4], "moss sand moss", "sand moss sand", "moss sand moss")
    assert [piece.size for piece in made.pieces()] == [(float(INCH * 9 / 2),) * 2] * 2
    left, foot, right, head = box(made.outline)
    raw = right - left + float(2 * QUARTER_INCH), head - foot + float(2 * QUARTER_INCH)
    assert raw == (float(INCH * 25 / 2), float(INCH * 25 / 2))


def test_sashing_is_narrow_columns_and_rows() -> None:
    """Alike patches are one piece with its places; lying and standing sashes are alike."""
    made = _grid([6, 1, 6], [6, 1, 6], "moss sand moss", "sand rust sand", "moss sand moss")
    found = [(p.key, p.fabric, p.count, p.size) for p in made.pieces()]
    assert found == [
        ("PATCH-1", "moss", 4, (float(INCH * 13 / 2), float(INCH * 13 / 2))),
        ("PATCH-2", "sand", 4, (float(INCH * 3 / 2), float(INCH * 13 / 2))),
        ("PATCH-3", "rust", 1, (float(INCH * 3 / 2), float(INCH * 3 / 2))),
    ]
    turns = [place.degrees for place in made.pieces()[1].places]
    assert turns == [0.0, 90.0, 90.0, 0.0]


def test_print_with_an_up_is_never_turned() -> None:
    """Lying and standing sashes of a directional fabric are two pieces, and so are triangles."""
    made = _grid([6, 1, 6], [6, 1, 6], *["sand/sand sand sand"] * 3, headed=["sand"])
    assert {place.degrees for piece in made.pieces() for place in piece.places} == {0.0}
    assert [piece.grain.headed for piece in made.pieces() if piece.grain] == [True] * 8
    assert len(made.pieces()) == 8


def test_quarter_turns_of_a_triangle_are_one_piece() -> None:
    """A pinwheel takes four triangles of each fabric, set by exact quarter turns."""
    made = _grid([3, 3], [3, 3], r"moss\sand sand/moss", r"moss/sand sand\moss")
    assert [(p.fabric, p.count) for p in made.pieces()] == [("moss", 4), ("sand", 4)]
    turns = {(place.cos, place.sin) for p in made.pieces() for place in p.places}
    assert turns == {(1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0)}
    assert made.pieces()[0].shape == PatchShape(PatchKind.HALF, 3 * INCH, 3 * INCH)


def test_mirrored_triangles_are_two_pieces() -> None:
    """Half a rectangle and its mirror image are never one piece, since neither is turned over."""
    made = _grid([4, 4], [2], r"moss/sand moss\sand")
    assert [(p.fabric, p.count, p.shape) for p in made.pieces()] == [
        ("moss", 1, PatchShape(PatchKind.HALF, 2 * INCH, 4 * INCH)),
        ("sand", 1, PatchShape(PatchKind.HALF, 2 * INCH, 4 * INCH)),
        ("moss", 1, PatchShape(PatchKind.HALF, 4 * INCH, 2 * INCH)),
        ("sand", 1, PatchShape(PatchKind.HALF, 4 * INCH, 2 * INCH)),
    ]
    assert all(not place.mirrored for p in made.pieces() for place in p.places)


def test_triangle_outlines_are_exact() -> None:
    """A half-square triangle's leg is cut s (2 + sqrt 2) longer, a quarter's base 2 s (1 + sqrt 2).

    Derived: offset of a right triangle with angles of 45 degrees.
    """
    half, quarter = _grid([3, 3], [3], "moss/moss sand+sand").pieces()
    leg = 76.2 + 6.35 * (2 + 2**0.5)
    assert half.outline[0] == (0.0, 0.0)
    assert half.outline[1] == (half.outline[2][1], 0.0) == (half.size[0], 0.0)
    assert half.size[0] == half.size[1] == pytest.approx(leg, abs=1e-12)
    base = 76.2 + 2 * 6.35 * (1 + 2**0.5)
    assert quarter.outline[:2] == ((0.0, 0.0), (quarter.size[0], 0.0))
    assert quarter.size[0] == pytest.approx(base, abs=1e-12)
    assert quarter.outline[2] == pytest.approx((base / 2, base / 2))


def test_seams_come_as_units_rows_and_rows_to_top() -> None:
    """Triangles first, then each row from the head, then the rows; each with its length."""
    made = _grid([2, 2], [2, 2], r"moss/sand rust", r"sand+moss rust")
    found = [(seam.stage, _inches(seam)) for seam in made.seams]
    assert found == [
        (Stage.UNIT, (0, 2, 2, 4)),
        (Stage.UNIT, (1, 1, 2, 2)),
        (Stage.UNIT, (1, 1, 0, 0)),
        (Stage.UNIT, (0, 2, 2, 0)),
        (Stage.ROW, (2, 2, 2, 4)),
        (Stage.ROW, (2, 0, 2, 2)),
        (Stage.TOP, (0, 2, 4, 2)),
    ]
    assert [seam.length for seam in made.seams[-3:]] == [50.8, 50.8, 101.6]
    assert made.seams[0].length == pytest.approx(hypot(50.8, 50.8))


def test_neighbours_share_the_same_vertex() -> None:
    """Two seams that meet end in the very same point, whatever the sizes."""
    sizes = [Fraction(n, 7) for n in (100, 201, 333, 57)]
    made = squares(sizes[0], [["moss"] * 90] * 90, rules())
    points = [p for seam in made.seams for p in (seam.start, seam.end)]
    by_value = {p: p for p in points}
    assert all(by_value[p] is p for p in points)
    assert {x for x, _ in points} == {float(sizes[0] * i) for i in range(91)}


def test_joined_rows_are_sewn_as_a_unit() -> None:
    """Where a cell reaches over two rows, what stands beside it is sewn first."""
    made = _grid([2, 2, 2], [2, 2, 2], "moss sand sand", "^ sand sand", "sand sand sand")
    assert [(seam.stage, _inches(seam)) for seam in made.seams] == [
        (Stage.UNIT, (2, 4, 4, 4)),
        (Stage.UNIT, (4, 4, 6, 4)),
        (Stage.ROW, (2, 2, 2, 6)),
        (Stage.ROW, (4, 2, 4, 6)),
        (Stage.ROW, (2, 0, 2, 2)),
        (Stage.ROW, (4, 0, 4, 2)),
        (Stage.TOP, (0, 2, 6, 2)),
    ]


def test_windmill_is_sewn_in_part() -> None:
    """Four rectangles round a square have no seam that runs across: all four say so."""
    made = _grid([2, 2, 2], [2, 2, 2], "moss < sand", "sand rust ^", "^ moss <")
    assert [seam.partial for seam in made.seams] == [True] * 4
    assert sorted(_inches(seam) for seam in made.seams) == [
        (0, 4, 4, 4),
        (2, 0, 2, 4),
        (2, 2, 6, 2),
        (4, 2, 4, 6),
    ]
    check_tiling(made)
    check_sewing(made)


def test_pressing_alternates_by_row() -> None:
    """Row seams are pressed right in the first row and left in the second, the others to the foot.

    Common practice, no source: allowances that meet lie on opposite sides.
    """
    made = _grid([2, 2], [2, 2], "moss sand", "sand moss", pressing=Pressing.ALTERNATE)
    assert [seam.press for seam in made.seams] == [(1.0, 0.0), (-1.0, 0.0), (0.0, -1.0)]
    split = _grid([2], [2], r"moss\sand", pressing=Pressing.ALTERNATE)
    assert split.seams[0].press == pytest.approx((0.5**0.5, 0.5**0.5))
    assert [seam.press for seam in _grid([2, 2], [2], "moss sand").seams] == [None]


def test_pairs_of_triangles_are_counted() -> None:
    """Squares split once count by fabrics and size, whichever way they lie."""
    made = _grid([2, 2, 3], [2, 2], r"moss/sand sand\moss moss/sand", "moss/rust rust rust")
    assert made.pairs == (
        TrianglePairs(("moss", "sand"), 2 * INCH, 2),
        TrianglePairs(("moss", "rust"), 2 * INCH, 1),
    )


def test_blunted_tips_meet_the_neighbours_edge() -> None:
    """A blunted tip is cut square, one allowance beyond the finished tip; nothing else is lost."""
    half, quarter = _grid([3, 3], [3], "moss/moss sand+sand", blunted=True).pieces()
    assert half.size == pytest.approx((76.2 + 12.7, 76.2 + 12.7))
    assert len(half.outline) == 5
    assert quarter.size[0] == pytest.approx(76.2 + 12.7)
    assert len(quarter.outline) == 5


@settings(deadline=None, max_examples=60)
@given(charts())
def test_any_grid_tiles_and_sews(chart: Chart) -> None:
    """Joined and split cells of any sizes tile the outline, and every seam can be sewn in turn."""
    columns, rows, cells = chart
    for headed in ((), ("sand", "rust")):
        made = grid(columns, rows, read_cells(cells), rules(headed=headed))
        check_tiling(made)
        check_sewing(made)
        check_allowances(made, float(QUARTER_INCH))
        keys = [piece.key for piece in made.pieces()]
        assert keys == [f"PATCH-{n}" for n in range(1, len(keys) + 1)]


@settings(deadline=None, max_examples=60)
@given(charts())
def test_tiles_fill_the_grid_exactly(chart: Chart) -> None:
    """In whole units, where nothing is rounded, the areas of tiles add up to the grid's."""
    columns, rows, text = chart
    unit = unit_of((*columns, *rows))
    across, down = edges_of(columns, unit), edges_of(rows, unit)
    cells = read_cells(text)
    boxes = boxes_of(cells, across, down)
    tiles = [tile for each in map(tiles_of, cells, boxes) for tile in each]
    twice = [
        sum(p[0] * q[1] - q[0] * p[1] for p, q in pairwise((*tile.ring, tile.ring[0])))
        for tile in tiles
    ]
    assert min(twice) > 0
    assert sum(twice) == 2 * across[-1] * down[-1]
    assert across[-1] * unit == sum(columns)
    assert down[-1] * unit == sum(rows)
