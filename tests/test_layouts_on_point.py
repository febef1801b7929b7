"""Squares on point: places, setting triangles, seams along the diagonals."""

from __future__ import annotations

from fractions import Fraction
from math import sqrt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from layouts import (
    QUARTER_INCH,
    check_allowances,
    check_sewing,
    check_tiling,
    finished,
    laid,
    rules,
)

from cutpaths.geometry.assembly import Assembly, Seam, Stage
from cutpaths.geometry.layouts.on_point import on_point
from cutpaths.geometry.patch_shapes import PatchKind
from cutpaths.geometry.polygons import Ring, box
from cutpaths.lengths import INCH, nearest
from cutpaths.project.patchwork import Pressing
from cutpaths.project.roots import ROOT2

CHART = (("moss", "rust"), ("sand",), ("rust", "moss"))


def _halves(seam: Seam, half: float) -> tuple[int, ...]:
    """Both ends of a seam in halves of a square's diagonal."""
    return tuple(round(float(x) / half) for p in (seam.start, seam.end) for x in p)


@pytest.mark.parametrize(
    ("side", "diagonal"),
    [
        (4, Fraction(45, 8)),
        (6, Fraction(17, 2)),
        (8, Fraction(91, 8)),
        (10, Fraction(113, 8)),
        (12, Fraction(17)),
        (14, Fraction(79, 4)),
    ],
)
def test_diagonals_are_those_of_the_charts(side: int, diagonal: Fraction) -> None:
    """One square on point is as wide as its diagonal, to the nearest 1/8 in.

    Source: quilter's math charts (2002).
    """
    made = on_point(side * INCH, [["moss"]], "rust", rules())
    width = box(made.outline)[2]
    assert width == float(side * INCH * ROOT2)
    assert nearest(Fraction(width), INCH / 8) == diagonal * INCH


def test_pieces_of_two_by_two() -> None:
    """Five squares, four side triangles and four corner triangles."""
    made = on_point(6 * INCH, CHART, "moss", rules())
    assert [(p.key, p.fabric, p.shape.name if p.shape else "", p.count) for p in made.pieces()] == [
        ("PATCH-1", "moss", "square", 2),
        ("PATCH-2", "rust", "square", 2),
        ("PATCH-3", "sand", "square", 1),
        ("PATCH-4", "moss", "quarter-square triangle", 4),
        ("PATCH-5", "moss", "half-square triangle", 4),
    ]
    half = 6 * INCH * ROOT2 / 2
    assert made.outline[2] == (float(4 * half), float(4 * half))


def test_squares_are_cut_straight_and_turned_once() -> None:
    """A square stands on the grain as it is cut, and its corners come out on the lattice."""
    made = on_point(6 * INCH, CHART, "moss", rules())
    piece = made.pieces()[0]
    assert piece.size == (float(6.5 * INCH), float(6.5 * INCH))
    assert piece.grain is not None
    assert piece.grain.way == (0.0, 1.0)
    half = float(6 * INCH * ROOT2 / 2)
    expected = [(half, 2 * half), (2 * half, 3 * half), (half, 4 * half), (0.0, 3 * half)]
    found = piece.places[0].ring(finished(piece))
    assert [pytest.approx(p, abs=1e-9) for p in expected] == list(found)


def test_grain_runs_along_the_outer_edges() -> None:
    """The threads of every setting triangle are parallel, or square, to the top's edge it fills.

    Side triangles: along their long edge. Trade: triangles cut twice from a square (Dalmeny
    Quilters, guild), so that the bias is not on the outside.
    """
    made = on_point(6 * INCH, CHART, "moss", rules())
    left, foot, right, head = box(made.outline)
    for piece in made.pieces()[3:]:
        assert piece.grain is not None
        for place in piece.places:
            ring: Ring = place.ring(finished(piece))
            start, end = place.point((0.0, 0.0)), place.point(piece.grain.way)
            way = end[0] - start[0], end[1] - start[1]
            touching = [p for p in ring if p[0] in (left, right) or p[1] in (foot, head)]
            assert len(touching) >= 2
            assert min(abs(way[0]), abs(way[1])) == 0.0
            if piece.shape and piece.shape.kind is PatchKind.QUARTER:
                across = abs(ring[1][0] - ring[0][0]) > abs(ring[1][1] - ring[0][1])
                assert abs(way[0] if across else way[1]) == 1.0


def test_print_with_an_up_makes_a_piece_for_each_side() -> None:
    """Setting triangles of a directional fabric all have their up toward the head."""
    made = on_point(6 * INCH, CHART, "moss", rules(headed=["moss"]))
    setting = [p for p in made.pieces() if p.fabric == "moss" and p.shape and not _square(p.shape)]
    assert [piece.count for piece in setting] == [1] * 8
    assert all(place.degrees == 0.0 for piece in setting for place in piece.places)


def _square(shape: object) -> bool:
    return getattr(shape, "kind", None) is PatchKind.RECTANGLE


def test_seams_run_along_the_diagonals() -> None:
    """Diagonal rows with their side triangles, then the rows joined, the corners last."""
    made = on_point(6 * INCH, CHART, "moss", rules())
    half = float(6 * INCH * ROOT2 / 2)
    found = [(seam.stage, _halves(seam, half)) for seam in made.seams]
    assert found == [
        (Stage.ROW, (1, 2, 0, 3)),
        (Stage.ROW, (2, 3, 1, 4)),
        (Stage.ROW, (2, 1, 1, 2)),
        (Stage.ROW, (3, 2, 2, 3)),
        (Stage.ROW, (3, 0, 2, 1)),
        (Stage.ROW, (4, 1, 3, 2)),
        (Stage.TOP, (0, 1, 3, 4)),
        (Stage.TOP, (1, 0, 4, 3)),
        (Stage.TOP, (1, 0, 0, 1)),
        (Stage.TOP, (3, 4, 4, 3)),
        (Stage.TOP, (3, 0, 4, 1)),
        (Stage.TOP, (0, 3, 1, 4)),
    ]
    assert made.seams[0].length == pytest.approx(152.4, abs=1e-9)
    assert made.seams[6].length == pytest.approx(3 * 152.4, abs=1e-9)


def test_corners_are_pressed_outward() -> None:
    """Corner triangles are pressed away from the squares, rows to and fro."""
    made = on_point(6 * INCH, CHART, "moss", rules(pressing=Pressing.ALTERNATE))
    diagonal = sqrt(0.5)
    signs = [
        (round(seam.press[0] / diagonal), round(seam.press[1] / diagonal))
        for seam in made.seams
        if seam.press
    ]
    assert signs[-4:] == [(-1, -1), (1, 1), (1, -1), (-1, 1)]
    assert signs[:6] == [(-1, -1)] * 2 + [(1, 1)] * 2 + [(-1, -1)] * 2


def test_blunted_side_triangles_meet_the_squares_edge() -> None:
    """The tips of side triangles are cut square to the legs that are sewn to squares."""
    made = on_point(6 * INCH, CHART, "moss", rules(blunted=True))
    side, corner = made.pieces()[3:]
    assert len(side.outline) == len(corner.outline) == 5
    ring, s = finished(side), float(QUARTER_INCH)
    leg = sqrt(0.5), sqrt(0.5)  # of the lower left tip
    beyond = [(p[0] - ring[0][0]) * leg[0] + (p[1] - ring[0][1]) * leg[1] for p in side.outline]
    assert min(beyond) == pytest.approx(-s, abs=1e-12)
    assert sum(abs(b + s) < 1e-9 for b in beyond) == 2


@settings(deadline=None, max_examples=30)
@given(st.integers(1, 4), st.integers(1, 4), st.integers(8, 99), st.booleans())
def test_any_setting_tiles_and_sews(columns: int, rows: int, eighths: int, headed: bool) -> None:
    """Squares and setting triangles tile the outline, and every seam can be sewn in turn."""
    made = _any(columns, rows, eighths * INCH / 8, headed=headed)
    check_tiling(made)
    check_allowances(made, float(QUARTER_INCH))
    check_sewing(made)
    assert len(laid(made)) == columns * rows + (columns - 1) * (rows - 1) + 2 * (columns + rows)


def _any(columns: int, rows: int, side: Fraction, *, headed: bool) -> Assembly:
    chart = [["moss"] * (columns - i % 2) for i in range(2 * rows - 1)]
    return on_point(side, chart, "rust", rules(headed=["rust"] if headed else []))
