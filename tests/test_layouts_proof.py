"""Every layout is proved to sew together, and what figures say of its patches."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given, settings
from layouts import charts

from cutpaths.figures import figures_of, variant_groups
from cutpaths.geometry.assembly import Face
from cutpaths.geometry.edge_seams import edge_seams
from cutpaths.lengths import INCH
from cutpaths.pieces import Kit, build
from cutpaths.project import load, load_variants
from cutpaths.project.cells import read_cells
from cutpaths.project.patchwork import Grid
from cutpaths.proof import prove
from cutpaths.values import replace

FIXTURES = Path(__file__).parents[1] / "fixtures"
LAYOUTS = ("boathouse", "kiln", "lighthouse", "trellis", "windrose")


def _kit(name: str, *, blunted: bool = False) -> Kit:
    project = load(FIXTURES / f"{name}.toml")
    return build(replace(project, blunted=blunted))


@pytest.mark.parametrize("blunted", [False, True])
@pytest.mark.parametrize("name", LAYOUTS)
def test_every_layout_is_proved(name: str, blunted: bool) -> None:
    """All checks of the proof hold, with sharp tips and with blunted ones."""
    assert prove(_kit(name, blunted=blunted)).failed == ()


@settings(deadline=None, max_examples=15)
@given(charts())
def test_any_grid_is_proved(
    chart: tuple[tuple[Fraction, ...], tuple[Fraction, ...], tuple[str, ...]],
) -> None:
    """Grids with joined and split cells of any sizes are proved, but for openings without room."""
    columns, rows, cells = chart
    project = load(FIXTURES / "lighthouse.toml")
    names = ("moss", "rust", "sand")
    fabrics = tuple(map(lambda each, name: replace(each, name=name), project.fabrics, names))
    top = Grid(
        columns=tuple(8 * size for size in columns),
        rows=tuple(8 * size for size in rows),
        cells=read_cells(cells),
    )
    kit = build(replace(project, top=top, fabrics=fabrics, backing_fabric="moss"))
    assert prove(kit).failed == ()


def test_edge_ticks_stand_where_seams_end() -> None:
    """On point, the edge is met at every second half diagonal; seams inside blocks count too."""
    kit = _kit("trellis")
    found = edge_seams(kit.patchwork.outline, kit.patchwork.all_seams())
    assert [len(side) for side in found] == [4, 5, 4, 5]
    assert found[0] == pytest.approx((1 / 8, 3 / 8, 5 / 8, 7 / 8))
    kit = _kit("windrose")
    found = edge_seams(kit.patchwork.outline, kit.patchwork.all_seams())
    assert [len(side) for side in found] == [8, 6, 8, 6]


def test_pairs_take_the_place_of_their_triangles() -> None:
    """What is sewn before it is cut is cut as squares: no triangle of it is left to cut singly."""
    kit = _kit("lighthouse")
    found = [(p.key, p.count, p.face) for p in kit.cloth if p.key.startswith("PAIR")]
    assert found == [
        ("PAIR-1", 4, Face.WRONG),
        ("PAIR-1-UNDER", 4, Face.RIGHT),
        ("PAIR-2", 4, Face.WRONG),
        ("PAIR-2-UNDER", 4, Face.RIGHT),
    ]
    assert {p.shape.name for p in kit.cloth if p.shape} == {
        "square",
        "rectangle",
        "quarter-square triangle",
    }
    single = build(replace(kit.project, pairs=False))
    assert single.pairs == ()
    halves = [p for p in single.cloth if p.shape and p.shape.name == "half-square triangle"]
    assert [piece.count for piece in halves] == [14, 7, 7]


def _texts(kit: Kit) -> dict[str, str]:
    return {f.key: f.text for group in figures_of(kit).groups for f in group.figures}


def test_figures_say_how_triangles_are_cut() -> None:
    """Counts, finished sizes and the trade's squares, beside the exact ones."""
    texts = _texts(_kit("trellis"))
    assert texts["patch-3.count"] == "14 to cut"
    assert texts["patch-3.from"] == (
        "4 squares of 9 3/4 in, cut twice on the diagonal; exactly ~9.6924 in"
    )
    assert texts["patch-4.from"] == (
        "2 squares of 5 1/8 in, cut once on the diagonal; exactly ~5.0962 in"
    )
    assert texts["seams.row.count"] == "38 seams"
    assert texts["seams.row.length"] == "228 in (5791.2 mm)"
    texts = _texts(_kit("lighthouse"))
    assert texts["patch-1.count"] == "14 from pairs"
    assert texts["pair-1.from"] == (
        "4 of each, squares of 4 7/8 in, sewn in pairs on both sides of a diagonal, cut on it, "
        "trimmed to 4 1/2 in; exactly ~4.8536 in"
    )
    assert texts["seams.pressing"] == "alternate"


def test_windmills_are_noted() -> None:
    """Units that lie round each other need a seam that is first sewn in part."""
    project = load(FIXTURES / "lighthouse.toml")
    cells = read_cells(["fog < tide", "tide rope ^", "^ fog <"])
    sizes = (6 * INCH,) * 3
    kit = build(replace(project, top=Grid(columns=sizes, rows=sizes, cells=cells)))
    assert [note for note in figures_of(kit).notes if "windmill" in note] == [
        "Some units of the patchwork lie round each other like the arms of a windmill: sew the "
        "first seam only half way, the others round, and close the first one last."
    ]
    assert prove(kit).failed == ()


def test_all_sizes_are_one_table() -> None:
    """Sizes and colorways of a project stand below each other; without them there is no table."""
    sizes, colorways = variant_groups(load_variants(FIXTURES / "lighthouse.toml"))
    assert [(f.key, f.label, f.text) for f in sizes.figures] == [
        (
            "size",
            "as it stands",
            "blanket 29 1/2 in x 29 1/2 in, backing 34 in x 34 in, border 2 in",
        ),
        (
            "size.large",
            "large",
            "blanket 44 in x 44 in, backing 50 1/2 in x 50 1/2 in, border 3 in",
        ),
    ]
    assert [(f.key, f.text) for f in colorways.figures] == [
        ("colorway", "Fog solid, Brick red, Tide blue, Rope stripe"),
        ("colorway.dusk", "Dusk lilac, Plum, Tide blue, Rope stripe"),
    ]
    assert variant_groups(load_variants(FIXTURES / "trellis.toml")) == ()
