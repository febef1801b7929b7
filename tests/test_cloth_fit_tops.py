"""Every kind of top is fitted to cloth on hand, and each size found can be made."""

from __future__ import annotations

from pathlib import Path

import pytest

from cutpaths import source
from cutpaths.cloth.by_hand import plans_of
from cutpaths.cloth.fit import options
from cutpaths.cloth.fit_file import project_text
from cutpaths.cloth.fit_tops import grid_of, resized, row_turn_of, turn_of
from cutpaths.cloth.lengths_to_buy import shopping
from cutpaths.cloth.packing.effort import Effort
from cutpaths.cloth.searched_strips import Search
from cutpaths.errors import InputError
from cutpaths.pieces import build
from cutpaths.project import load, read
from cutpaths.proof import prove

HEAD = """
format = 1
title = "Tarn"
[fabric.sand.stock]
on_hand = [{ length = 24 }]
[fabric.sea.stock]
on_hand = [{ length = 20 }]
[fabric.night.stock]
on_hand = [{ length = 40 }, { length = 30 }]
[backing]
fabric = "night"
"""
BORDER = "[border]\nwidth = 2\n"
SQUARES = """
[top]
layout = "squares"
patch = 5
columns = 6
rows = 7
fabrics = ["sand", "sea"]
"""
TOPS = {
    "squares": SQUARES,
    "chart": """
[top]
layout = "squares"
patch = 6
chart = ["sand sea sea", "sea sand sea"]
""",
    "bricks": """
[top]
layout = "bricks"
cut = { width = "6 1/2", height = "3 1/2" }
columns = 4
rows = 6
fabrics = ["sand", "sea"]
""",
    "on-point": """
[top]
layout = "on-point"
patch = { finished = 6 }
columns = 4
rows = 5
fabrics = ["sand", "sea"]
setting = "sea"
""",
    "blocks": """
[block.vane]
widths = [4]
heights = [4]
chart = ["sand/sea sand", "sea sea\\\\sand"]
[top]
layout = "blocks"
chart = ["vane vane>", "vane< vane>>"]
sashing = { width = "1 1/2", fabric = "sea" }
""",
    "strips": """
[top]
layout = "strips"
widths = [5, 3]
length = 20
fabrics = ["sand", "sea"]
""",
    "strips across": """
[top]
layout = "strips"
run = "across"
size = "cut"
widths = [5, 4]
length = 20
fabrics = ["sand", "sea"]
""",
    "blocks and plain squares": """
[block.vane]
widths = [4]
heights = [4]
chart = ["sand/sea"]
[top]
layout = "blocks"
chart = ["vane sand", "sand vane"]
""",
    "panel": """
[top]
layout = "panel"
cut = { width = 20, height = 22 }
fabric = "sand"
""",
    "grid": """
[top]
layout = "grid"
widths = [6, "1 1/2", 6]
heights = [6, "1 1/2", 6]
chart = ["sand sea sand", "sea sand sea", "sand sea sand"]
""",
}
BORDERS = {
    "finished": "[border]\nfinished = { width = 32, height = 38 }\nnearest = '1/4'\n",
    "backing": "[border]\nbacking = { width = 37, height = 42 }\n",
    "unequal": "[border]\nwidth = { A = 3, B = 2, C = 1, D = 2 }\n",
}


def few(done: int, _of: int) -> bool:
    """Lets the first sizes be tried."""
    return done < 25


def _require_made(folder: Path, text: str) -> None:
    """First and last of the sizes load, prove, have the size listed and buy no cloth."""
    file = folder / "tarn.toml"
    file.write_text(text, encoding="utf-8")
    found = options(load(file), few)
    assert found
    for each in (found[0], found[-1]):
        made = folder / "made.toml"
        written = project_text(source.load(file).table, each, "tarn.toml")
        made.write_text(written, encoding="utf-8")
        kit = build(load(made))
        assert grid_of(kit.project.top) == (each.columns, each.rows)
        assert kit.project.borders == (each.border,) * 4
        assert [check.name for check in prove(kit).failed] == []
        plans = plans_of(kit, Search(Effort(seconds=None, tries=20)))
        assert [shopping(plan).to_buy for plan in plans] == [0] * len(plans)


@pytest.mark.parametrize("kind", TOPS)
def test_every_kind_of_top_can_be_made_as_listed(kind: str, tmp_path: Path) -> None:
    """Whatever the layout, each size is written as a project that needs no other cloth."""
    _require_made(tmp_path, HEAD + TOPS[kind] + BORDER)


@pytest.mark.parametrize("settled", BORDERS)
def test_borders_settled_in_any_way(settled: str, tmp_path: Path) -> None:
    """A border that the finished size or the backing settles gives way to the width found."""
    _require_made(tmp_path, HEAD + SQUARES + BORDERS[settled])


def test_what_is_measured_and_cut_before_is_left_out(tmp_path: Path) -> None:
    """A measured top, a size and an opening of the old file do not hinder the new one."""
    more = (
        "[measured]\nwidth = 28\nheight = 32\n[opening]\nlength = 6\nside = 'B'\n"
        "[size.small.top]\ncolumns = 4\n"
    )
    _require_made(tmp_path, HEAD + SQUARES + BORDER + more)


def test_an_outline_is_refused() -> None:
    """One line says which tops can be fitted."""
    top = '[top]\nlayout = "outline"\nfabric = "sand"\nregular = { sides = 6, side = 9 }\n'
    with pytest.raises(InputError) as caught:
        options(read(HEAD + top + BORDER), few)
    assert str(caught.value) == (
        "`top.layout` must be a rectangle to be fitted to cloth: squares, bricks, on-point, "
        'blocks, strips, grid or panel, got "outline". Fit a panel about as large'
    )


def test_a_chart_is_repeated() -> None:
    """A chart of 3 x 2 as 4 x 3 begins again at its left column and its head row."""
    top = read(HEAD + TOPS["chart"] + BORDER).top
    made = resized(top, 4, 3)
    assert made is not None
    assert made.chart == (  # type: ignore[union-attr]
        ("sand", "sea", "sea", "sand"),
        ("sea", "sand", "sea", "sea"),
        ("sand", "sea", "sea", "sand"),
    )


@pytest.mark.parametrize("kind", TOPS)
def test_a_top_in_its_own_numbers_is_itself(kind: str) -> None:
    """Nothing changes where columns and rows are those that there are."""
    top = read(HEAD + TOPS[kind] + BORDER).top
    assert resized(top, *grid_of(top)) == top


def test_turns_are_seen() -> None:
    """Fabrics in turn are told from charts, however often one of them comes."""
    assert turn_of((("a", "b", "a"), ("b", "a", "a"), ("a", "a", "b"))) == ("a", "b", "a")
    assert turn_of((("a", "b"), ("a", "b"))) is None
    assert row_turn_of((("a", "a"), ("b",), ("a", "a"))) == ("a", "b")
    assert row_turn_of((("a", "b"), ("b",), ("a", "a"))) is None


def test_blocks_without_a_block_in_a_row_are_not_made() -> None:
    """A row of plain squares alone has no height, so that size is passed over."""
    blocks = TOPS["blocks"].replace('["vane vane>", "vane< vane>>"]', '["vane sand", "sand vane"]')
    top = read(HEAD + blocks + BORDER).top
    assert resized(top, 1, 2) is None
    assert resized(top, 2, 2) == top
