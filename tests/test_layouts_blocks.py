"""Blocks: turned, mirrored, with sashing."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from layouts import (
    FABRICS,
    QUARTER_INCH,
    check_allowances,
    check_sewing,
    check_tiling,
    finished,
    rules,
)
from shapely import Point, Polygon

from cutpaths.geometry.assembly import Assembly, Stage, TrianglePairs
from cutpaths.geometry.layouts.blocks import blocks
from cutpaths.lengths import INCH
from cutpaths.project.blocks import Block, Sashing, read_sets
from cutpaths.project.cells import read_cells

# A block without any symmetry: 6 wide and 4 high.
FLAG = Block(
    columns=(2 * INCH, 4 * INCH),
    rows=(INCH, 3 * INCH),
    cells=read_cells([r"moss sand/moss", r"moss\rust sand"]),
)
SQUARE = Block(
    columns=(2 * INCH, 4 * INCH),
    rows=(2 * INCH, 4 * INCH),
    cells=read_cells(["moss/sand rust", "a b"]),
)


def _at(made: Assembly, fabric: str, x: float, y: float) -> bool:
    """Whether a fabric lies at a place in inches."""
    spot = Point(x * 25.4, y * 25.4)
    return any(
        Polygon(place.ring(finished(piece))).contains(spot)
        for piece in made.pieces()
        if piece.fabric == fabric
        for place in piece.places
    )


@pytest.mark.parametrize(
    ("text", "size", "where"),
    [
        ("flag", (6, 4), (1, 3.5)),
        ("flag<", (4, 6), (0.5, 1)),
        ("flag>", (4, 6), (3.5, 5)),
        ("flag>>", (6, 4), (5, 0.5)),
        ("flag~", (6, 4), (5, 3.5)),
        ("flag~>", (4, 6), (3.5, 1)),
        ("flag~<", (4, 6), (0.5, 5)),
    ],
)
def test_blocks_are_set_as_written(
    text: str, size: tuple[int, int], where: tuple[float, float]
) -> None:
    """The plain cell at the block's upper left goes where the turn and the mirror take it."""
    made = blocks({"flag": FLAG}, read_sets([text]), None, rules())
    assert made.outline[2] == (float(size[0] * INCH), float(size[1] * INCH))
    assert _at(made, "moss", *where)
    check_tiling(made)


def test_turned_blocks_share_their_pieces() -> None:
    """A turned block is the same assembly with another place; nothing is cut anew."""
    once = blocks({"sq": SQUARE}, read_sets(["sq"]), None, rules())
    made = blocks({"sq": SQUARE}, read_sets(["sq sq>", "sq< sq>>"]), None, rules(headed=["a"]))
    assert len(made.parts) == 1
    assert [p.count for p in made.pieces()] == [4 * p.count for p in once.pieces()]
    assert all(not place.mirrored for piece in made.pieces() for place in piece.places)
    assert made.pairs == (TrianglePairs(("moss", "sand"), 2 * INCH, 4),)


def test_mirrored_blocks_are_laid_out_anew() -> None:
    """In a mirrored block no patch is turned over: unsymmetrical triangles are other pieces."""
    made = blocks({"flag": FLAG}, read_sets(["flag flag~"]), None, rules())
    assert len(made.parts) == 2
    shapes = [(p.fabric, p.shape.name, p.count) for p in made.pieces() if p.shape]
    assert shapes.count(("sand", "half-rectangle triangle", 1)) == 2
    assert all(not place.mirrored for piece in made.pieces() for place in piece.places)
    check_tiling(made)
    check_sewing(made)


def test_sashing_with_cornerstones_around() -> None:
    """Strips between blocks and round them, with squares where they cross."""
    sashing = Sashing(width=INCH, fabric="sand", cornerstone="rust", around=True)
    chart = read_sets(["sq sq>", "sq< sq"])
    made = blocks({"sq": SQUARE}, chart, sashing, rules())
    assert made.outline[2] == (float(15 * INCH), float(15 * INCH))
    counts = {(p.fabric, p.size): p.count for p in made.pieces()}
    assert counts["sand", (165.1, 38.1)] == 12
    assert counts["rust", (38.1, 38.1)] == 9
    check_tiling(made)
    check_sewing(made)


def test_sashing_between_rows_runs_right_across() -> None:
    """Without cornerstones the strips between rows are as long as the top is wide."""
    sashing = Sashing(width=INCH, fabric="sand")
    made = blocks({"sq": SQUARE}, read_sets(["sq sq", "sq sq"]), sashing, rules())
    strips = [(p.size, p.count) for p in made.pieces() if p.fabric == "sand" and not _triangle(p)]
    assert strips == [
        ((38.1, 165.1), 2),
        ((342.9, 38.1), 1),
    ]
    assert made.seams[-1].length == float(13 * INCH)
    assert [seam.stage for seam in made.seams] == [Stage.ROW] * 4 + [Stage.TOP] * 2
    assert {seam.stage for seam in made.all_seams()[: -len(made.seams)]} == {Stage.UNIT}


def _triangle(piece: object) -> bool:
    return "triangle" in getattr(getattr(piece, "shape", None), "name", "")


def test_plain_squares_between_blocks() -> None:
    """A fabric's name stands for a plain patch as large as its column and row."""
    made = blocks({"sq": SQUARE}, read_sets(["sq moss", "moss sq"]), None, rules())
    plain = [p for p in made.pieces() if p.size == (165.1, 165.1)]
    assert [(p.fabric, p.count) for p in plain] == [("moss", 2)]


@settings(deadline=None, max_examples=25)
@given(st.data())
def test_any_blocks_tile_and_sew(data: st.DataObject) -> None:
    """Square blocks set any way, with any sashing, tile the outline and can be sewn in turn."""
    columns, rows = data.draw(st.integers(1, 3)), data.draw(st.integers(1, 3))
    signs = st.sampled_from(["", ">", "<", ">>", "~", "~>", "~<", "~>>"])
    chart = [" ".join("sq" + data.draw(signs) for _ in range(columns)) for _ in range(rows)]
    sashings = st.builds(
        Sashing,
        width=st.integers(3, 40).map(lambda n: Fraction(n, 7) * INCH),
        fabric=st.sampled_from(FABRICS),
        cornerstone=st.one_of(st.none(), st.sampled_from(FABRICS)),
        around=st.booleans(),
    )
    sashing = data.draw(st.one_of(st.none(), sashings))
    headed = data.draw(st.sampled_from([(), ("moss", "a")]))
    made = blocks({"sq": SQUARE}, read_sets(chart), sashing, rules(headed=headed))
    check_tiling(made)
    check_allowances(made, float(QUARTER_INCH))
    check_sewing(made)
