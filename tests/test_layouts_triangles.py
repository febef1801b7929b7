"""The trade's way to cut triangles, and pairs sewn before cutting."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from layouts import QUARTER_INCH, rules

from cutpaths.geometry.assembly import Face, TrianglePairs
from cutpaths.geometry.layouts.grid import grid
from cutpaths.geometry.layouts.on_point import on_point
from cutpaths.geometry.layouts.pairs import sewn_pair
from cutpaths.geometry.layouts.triangles import Blank, blank_of, blanks_of, rounded_up
from cutpaths.geometry.marks import MarkKind
from cutpaths.geometry.patch_shapes import PatchKind, PatchShape
from cutpaths.geometry.polygons import distance
from cutpaths.lengths import INCH, Ruler, Unit
from cutpaths.project.cells import read_cells

EIGHTH = INCH / 8
RULER = Ruler(Unit.INCH, EIGHTH)


def _half(side: Fraction) -> PatchShape:
    return PatchShape(PatchKind.HALF, side, side)


def _quarter(side: Fraction) -> PatchShape:
    return PatchShape(PatchKind.QUARTER, side, side / 2)


def _blank(shape: PatchShape, step: Fraction = EIGHTH) -> Blank:
    found = blank_of(shape, QUARTER_INCH, step)
    assert found is not None
    return found


def test_half_square_triangle_of_the_guild() -> None:
    """Finished 3, square 3 7/8, cut once. Source: North Hampshire Quilters (guild)."""
    blank = _blank(_half(3 * INCH))
    assert blank.cut == (INCH * 31 / 8, INCH * 31 / 8)
    assert blank.words(RULER, 2) == "2 squares of 3 7/8 in, cut once on the diagonal"


def test_quarter_square_triangle_of_the_guild() -> None:
    """Finished 3, square 4 1/4, cut twice. Source: North Hampshire Quilters (guild)."""
    blank = _blank(_quarter(3 * INCH))
    assert blank.cut == (INCH * 17 / 4, INCH * 17 / 4)
    assert blank.words(RULER, 1) == "1 square of 4 1/4 in, cut twice on the diagonal"


def test_exact_additions() -> None:
    """With s = 1/4 a half-square adds 0.853553, a quarter-square 1.207107.

    Derived: s (2 + sqrt 2) and 2 s (1 + sqrt 2).
    """
    half = (_blank(_half(3 * INCH)).exact[0] - 3 * INCH) / INCH
    quarter = (_blank(_quarter(3 * INCH)).exact[0] - 3 * INCH) / INCH
    assert float(half) == pytest.approx(0.853553, abs=5e-7)
    assert float(quarter) == pytest.approx(1.207107, abs=5e-7)


@pytest.mark.parametrize("side", [4, 6, 8, 10, 12, 14])
def test_setting_triangles_of_the_guild(side: int) -> None:
    """On point: sides from 1.414 f up to the next 1/8, and 1 1/4; corners f / 1.414 so, and 7/8.

    Source: Dalmeny Quilters (guild).
    """
    pieces = on_point(side * INCH, [["moss"] * 2, ["moss"], ["moss"] * 2], "sand", rules()).pieces()
    found = blanks_of(pieces, QUARTER_INCH, EIGHTH)
    across = rounded_up(side * INCH * Fraction(1414, 1000), EIGHTH) + INCH * 5 / 4
    corner = rounded_up(side * INCH / Fraction(1414, 1000), EIGHTH) + INCH * 7 / 8
    assert [(each.blank.cut[0], each.blank.cuts, each.count) for each in found] == [
        (across, 2, 1),
        (corner, 1, 2),
    ]
    assert all(each.blank.exact[0] <= each.blank.cut[0] for each in found)


@given(st.integers(1, 400), st.sampled_from([8, 16, 32]))
def test_what_is_cut_is_never_too_small(marks: int, parts: int) -> None:
    """Rounded up, a blank is as large as the exact one, and less than two steps larger."""
    step = INCH / parts
    for shape in (_half(marks * step), _quarter(marks * step)):
        blank = _blank(shape, step)
        assert 0 <= blank.cut[0] - blank.exact[0] < 2 * step


def test_rounding_up_keeps_what_is_on_a_mark() -> None:
    """A size on a mark stays; the least more goes to the next mark."""
    assert rounded_up(INCH * 31 / 8, EIGHTH) == INCH * 31 / 8
    assert rounded_up(INCH * 31 / 8 + Fraction(1, 10**30), EIGHTH) == 4 * INCH


def test_blank_gives_the_cut_triangle() -> None:
    """The exact blank is as wide and as high as the cut triangle, so no cloth is lost."""
    for text in ("moss/moss", r"moss\moss", "moss+moss"):
        for height in (3, 5):
            made = grid([3 * INCH], [height * INCH], read_cells([text]), rules())
            for piece in made.pieces():
                assert piece.shape is not None
                blank = blank_of(piece.shape, QUARTER_INCH, EIGHTH)
                if height == 5 and piece.shape.kind is PatchKind.QUARTER:
                    assert blank is None
                    continue
                assert blank is not None
                width, tall = (float(size) for size in blank.exact)
                assert piece.size[0] == pytest.approx(width, abs=1e-9)
                if piece.shape.kind is PatchKind.HALF:
                    assert piece.size[1] == pytest.approx(tall, abs=1e-9)


def test_three_four_five_is_exact() -> None:
    """Half of a 3 x 4 rectangle: the diagonal is 5, so the blank is a plain fraction.

    Derived: legs w + s (1 + (5 + w) / h).
    """
    shape = PatchShape(PatchKind.HALF, 3 * INCH, 4 * INCH)
    blank = _blank(shape)
    assert blank.exact == (INCH * (3 + Fraction(3, 4)), INCH * 5)
    assert blank.words(RULER, 3) == (
        "3 rectangles of 3 3/4 in x 5 in, right side up, "
        "cut once on the diagonal that falls to the right"
    )


def test_count_of_blanks() -> None:
    """Five triangles take three squares, five quarters two; a print with an up may take more."""
    chart = ["moss/sand moss/sand moss/sand moss/sand moss/sand"]
    made = grid([3 * INCH] * 5, [3 * INCH], read_cells(chart), rules())
    assert [(b.fabric, b.count) for b in blanks_of(made.pieces(), QUARTER_INCH, EIGHTH)] == [
        ("moss", 3),
        ("sand", 3),
    ]
    headed = grid([3 * INCH] * 5, [3 * INCH], read_cells(chart), rules(headed=["moss"]))
    found = blanks_of(headed.pieces(), QUARTER_INCH, EIGHTH)
    assert [(b.fabric, b.count, b.keys) for b in found] == [
        ("moss", 5, ("PATCH-1",)),
        ("sand", 3, ("PATCH-2",)),
    ]
    both = grid(
        [3 * INCH] * 2, [3 * INCH], read_cells([r"moss/moss moss\moss"]), rules(headed=["moss"])
    )
    assert [b.count for b in blanks_of(both.pieces(), QUARTER_INCH, EIGHTH)] == [2]
    quarters = grid(
        [3 * INCH] * 3,
        [3 * INCH],
        read_cells(["moss+sand moss+sand moss+sand"]),
        rules(),
    )
    assert [b.count for b in blanks_of(quarters.pieces(), QUARTER_INCH, EIGHTH)] == [2, 2]


def test_sewn_pair() -> None:
    """Squares of f + 7/8, two seams a quarter inch either side of the diagonal, trimmed to f + 2s.

    Derived: the unit's square is the half-square triangle's blank.
    """
    pairs = TrianglePairs(("moss", "sand"), 3 * INCH, 5)
    made = sewn_pair("PAIR-1", pairs, QUARTER_INCH, EIGHTH, {"moss": True, "sand": False})
    assert (made.cut, made.trim_to) == (INCH * 31 / 8, INCH * 7 / 2)
    found = [(p.key, p.fabric, p.face, p.count) for p in (made.marked, made.plain)]
    assert found == [
        ("PAIR-1", "moss", Face.WRONG, 3),
        ("PAIR-1-UNDER", "sand", Face.RIGHT, 3),
    ]
    assert made.marked.outline == made.plain.outline
    kinds = [mark.kind for mark in made.marked.marks]
    assert kinds == [MarkKind.CUT_APART, MarkKind.STITCH, MarkKind.STITCH]
    (start, end), *seams = (mark.points for mark in made.marked.marks)
    assert (start, end) == ((0.0, 0.0), (98.425, 98.425))
    for p, q in seams:
        assert abs(p[0] - p[1]) / 2**0.5 == pytest.approx(6.35)
        assert abs(q[0] - q[1]) / 2**0.5 == pytest.approx(6.35)
        assert distance(p, q) == pytest.approx((98.425 - 6.35 * 2**0.5) * 2**0.5)
    assert made.words(RULER) == (
        "3 of each, squares of 3 7/8 in, sewn in pairs on both sides of a diagonal, cut on it, "
        "trimmed to 3 1/2 in"
    )
