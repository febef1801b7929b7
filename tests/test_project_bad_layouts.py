"""Layouts that cannot be: whole messages, each one clear line."""

from __future__ import annotations

import pytest

from cutpaths.errors import InputError
from cutpaths.project import read

HEAD = """format = 1
title = "Pond"
[border]
width = 2
[backing]
fabric = "sea"
[fabric.sand]
[fabric.sea]
[fabric.moss]
"""

ROWS: list[tuple[str, str]] = [
    (
        ("[top]\nlayout = \"grid\"\nwidths = [6]\nheights = [6]\nchart = ['sand sae']"),
        (
            "pond.toml:14: `top.chart` row 1 must name a declared fabric, got 'sae'. Write "
            "`sea`; declared are moss, sand, sea"
        ),
    ),
    (
        ("[top]\nlayout = \"grid\"\nwidths = [6]\nheights = [6]\nchart = ['sand sea', 'sand']"),
        (
            "pond.toml:14: `top.chart` row 2 must have 2 cells like row 1, has 1. Write one "
            "fabric, `<` or `^` for each cell"
        ),
    ),
    (
        ("[top]\nlayout = \"grid\"\nwidths = [6, 2]\nheights = [6]\nchart = ['sand sea sand']"),
        (
            "pond.toml:12: `top.widths` must have one size for each of the 3 columns, has 2. "
            "Give a size for each, or one that is the size of all"
        ),
    ),
    (
        ("[top]\nlayout = \"grid\"\nwidths = [6]\nheights = [6, 6, 6]\nchart = ['sand sea sand']"),
        (
            "pond.toml:13: `top.heights` must have one size for the only row, has 3. Give a "
            "size for each, or one that is the size of all"
        ),
    ),
    (
        (
            "[top]\n"
            'layout = "grid"\n'
            "widths = [6]\n"
            "heights = [6]\n"
            "chart = ['sand < sea', '^ sea sea']"
        ),
        (
            "pond.toml:14: `top.chart` row 1 the cells joined to cell 1, sand, must form a "
            "rectangle. Join whole rows of cells"
        ),
    ),
    (
        ('[top]\nlayout = "grid"\nwidths = [6]\nheights = [6]\nchart = []'),
        ("pond.toml:14: `top.chart` must have at least one row of cells"),
    ),
    (
        ("[top]\nlayout = \"grid\"\nwidths = [6, 0.125]\nheights = [6]\nchart = ['sand sea']"),
        (
            "pond.toml:12: `top.widths` width 2 must be at least the seam allowance, 1/4 in, "
            "got 1/8 in. Make it wider or the seam allowance smaller"
        ),
    ),
    (
        (
            "[top]\n"
            'layout = "grid"\n'
            "widths = [6, 0.5]\n"
            "heights = [6]\n"
            "size = 'cut'\n"
            "chart = ['sand sea']"
        ),
        (
            "pond.toml:12: `top.widths` width 2 must be at least three seam allowances, 3/4 "
            "in, got 1/2 in. Make it wider or the seam allowance smaller"
        ),
    ),
    (
        ("[top]\nlayout = \"grid\"\nwidths = ['60 m']\nheights = [6]\nchart = ['sand sea']"),
        (
            "pond.toml:10: `top` must not be over ~3937.0079 in, is ~4724.4094 in. Use "
            "fewer or smaller patches"
        ),
    ),
    (
        ("[top]\nlayout = \"grid\"\nwidths = [6]\nheights = [6]\nchart = ['sand/sea/moss']"),
        (
            "pond.toml:14: `top.chart` row 1 cell 1 must be `sand`, `sand/sea`, `sand\\sea`, "
            "`sand+sea`, `a+b+c+d`, `<` or `^`, got 'sand/sea/moss'"
        ),
    ),
    (
        ('[top]\nlayout = "grid"\nwidths = [6]\nheights = [6]\nchart = ["sand\\bark"]'),
        (
            "pond.toml:14: `top.chart` row 1 cell 1 must be `sand`, `sand/sea`, `sand\\sea`, "
            "`sand+sea`, `a+b+c+d`, `<` or `^`, got 'sand\\x08ark'. Put the row into single "
            "quotes, where a backslash is a backslash"
        ),
    ),
    (
        ('[top]\nlayout = "grid"\nwidths = [6]\nheights = [6]\nchart = ["sand\\sea"]'),
        ("pond.toml:14: is not TOML: unescaped '\\' in a string"),
    ),
    (
        ("[top]\nlayout = \"grid\"\nwidths = [6]\nchart = ['sand']"),
        ("pond.toml:10: `top.heights` is missing. Write for example `heights = [6, 1.5, 6]`"),
    ),
    (
        ("[top]\nlayout = \"grid\"\nwidths = 6\nheights = [6]\nchart = ['sand']"),
        ("pond.toml:12: `top.widths` must be a list, got '6'"),
    ),
    (
        ("[top]\nlayout = \"grid\"\nwidths = [6]\nheights = []\nchart = ['sand']"),
        (
            "pond.toml:13: `top.heights` must have one size for the only row, has 0. Give a "
            "size for each, or one that is the size of all"
        ),
    ),
    (
        ('[top]\nlayout = "blocks"\nchart = ["star"]'),
        (
            "pond.toml:11: `top.layout` of blocks must have at least one block. Declare one "
            "in a table such as [block.star]"
        ),
    ),
    (
        (
            "[top]\n"
            'layout = "blocks"\n'
            'chart = ["star sar"]\n'
            "[block.star]\n"
            "widths = [3]\n"
            "heights = [3]\n"
            "chart = ['sand sea', 'sea sand']\n"
        ),
        (
            "pond.toml:12: `top.chart` row 1 cell 2 must name a declared block or fabric, "
            "got 'sar'. Write `star`; declared are moss, sand, sea, star"
        ),
    ),
    (
        (
            "[top]\n"
            'layout = "blocks"\n'
            'chart = ["star sand>"]\n'
            "[block.star]\n"
            "widths = [3]\n"
            "heights = [3]\n"
            "chart = ['sand sea', 'sea sand']\n"
        ),
        (
            "pond.toml:12: `top.chart` row 1 cell 2 must name a block before `~`, `<` or "
            "`>`, got 'sand>'. Declared are star"
        ),
    ),
    (
        (
            "[top]\n"
            'layout = "blocks"\n'
            'chart = ["star tall"]\n'
            "[block.star]\n"
            "widths = [3]\n"
            "heights = [3]\n"
            "chart = ['sand sea', 'sea sand']\n"
            "[block.tall]\n"
            "widths = [3]\n"
            "heights = [3, 4]\n"
            "chart = ['sand', 'sea']\n"
        ),
        (
            "pond.toml:12: `top.chart` row 1 block tall in row 1 must be as high as star. "
            "Make the sizes of both blocks add up to one row"
        ),
    ),
    (
        (
            "[top]\n"
            'layout = "blocks"\n'
            'chart = ["star"]\n'
            "[block.sand]\n"
            "widths = [3]\n"
            "heights = [3]\n"
            "chart = ['sand sea', 'sea sand']\n"
            "[block.star]\n"
            "widths = [3]\n"
            "heights = [3]\n"
            "chart = ['sand sea', 'sea sand']\n"
        ),
        ("pond.toml:13: `block.sand` must not have the name of a fabric. Rename one of them"),
    ),
    (
        (
            "[top]\n"
            'layout = "blocks"\n'
            'chart = ["star sand"]\n'
            'sashing = {width = 0.1, fabric = "rose"}\n'
            "[block.star]\n"
            "widths = [3]\n"
            "heights = [3]\n"
            "chart = ['sand sea', 'sea sand']\n"
        ),
        (
            "pond.toml:13: `top.sashing.fabric` must name a declared fabric, got 'rose'. "
            "Declared are moss, sand, sea\n"
            "pond.toml:13: `top.sashing.width` must be at least the seam allowance, 1/4 in, "
            "got 0.1 in. Make it wider or the seam allowance smaller"
        ),
    ),
    (
        (
            "[top]\n"
            'layout = "blocks"\n'
            'chart = ["star sand"]\n'
            "[block.star]\n"
            "widths = [3]\n"
            "heights = [3]\n"
            "chart = ['sand sea', 'sea sand']\n"
        ),
        (
            "pond.toml:12: `top.chart` row 1 has no block in column 2 to say how large it "
            "is. Make it a block of one cell"
        ),
    ),
    (
        (
            "[top]\n"
            'layout = "blocks"\n'
            "chart = []\n"
            "[block.star]\n"
            "widths = [3]\n"
            "heights = [3]\n"
            "chart = ['sand sea', 'sea sand']\n"
        ),
        ("pond.toml:12: `top.chart` must have at least one row of blocks"),
    ),
    (
        (
            "[top]\n"
            'layout = "grid"\n'
            "widths = [6]\n"
            "heights = [6]\n"
            "chart = ['sand']\n"
            "[block.star]\n"
            "widths = [3]\n"
            "heights = [3]\n"
            "chart = ['sand sea', 'sea sand']\n"
        ),
        ('pond.toml:15: `block` has a place only beside `layout = "blocks"`. Leave it out'),
    ),
    (
        (
            "[top]\n"
            'layout = "panel"\n'
            "seen = {width=30,height=30}\n"
            'fabric="sand"\n'
            "[patches]\n"
            "pairs = true"
        ),
        ("pond.toml:14: `patches` has a place only beside a top of patches. Leave it out"),
    ),
    (
        ('[top]\nlayout = "on-point"\nsetting = "sea"\npatch = 5\nchart = ["sand sand", "sea"]'),
        (
            "pond.toml:14: `top.chart` must have an odd count of rows, has 2. Begin and end "
            "with a full row"
        ),
    ),
    (
        (
            "[top]\n"
            'layout = "on-point"\n'
            'setting = "sea"\n'
            "patch = 5\n"
            'chart = ["sand sand", "sea", "sand"]'
        ),
        ("pond.toml:14: `top.chart` row 3 must have 2 names, like row 1, has 1"),
    ),
    (
        (
            "[top]\n"
            'layout = "on-point"\n'
            'setting = "sea"\n'
            "patch = 5\n"
            'chart = ["sand sand", "sea sea", "sand sand"]'
        ),
        ("pond.toml:14: `top.chart` row 2 must have 1 name, one less than a full row, has 2"),
    ),
    (
        (
            "[top]\n"
            'layout = "on-point"\n'
            'setting = "sea"\n'
            "patch = 5\n"
            'chart = ["sand sand"]\n'
            "columns = 3\n"
            'fabrics=["sand"]'
        ),
        (
            "pond.toml:15: `top.columns` must be as in the chart, 2, got 3. "
            "Leave it out: the chart gives it\n"
            "pond.toml:16: `top.fabrics` has no place beside a chart. Give one of the two"
        ),
    ),
    (
        (
            "[top]\n"
            'layout = "bricks"\n'
            "cut = { width = 6, height = 3 }\n"
            'chart = ["sand sea", "sea sand sea", "sand sea"]\n'
            "columns = 2\n"
            "rows = 2"
        ),
        (
            "pond.toml:15: `top.rows` must be as in the chart, 3, got 2. "
            "Leave it out: the chart gives it"
        ),
    ),
    (
        ('[top]\nlayout = "on-point"\nsetting = "sea"\npatch = 5\ncolumns=2'),
        (
            "pond.toml:10: `top.fabrics` is missing. Name one or more of moss, sand, sea\n"
            "pond.toml:10: `top.rows` is missing. Give `columns` and `rows`, or a `chart`"
        ),
    ),
    (
        (
            "[top]\n"
            'layout = "on-point"\n'
            'setting = "sea"\n'
            "patch = {}\n"
            "columns=2\n"
            "rows=2\n"
            'fabrics=["sand"]'
        ),
        ("pond.toml:13: `top.patch` must have `cut` or `finished`. Write for example `patch = 5`"),
    ),
    (
        (
            "[top]\n"
            'layout = "on-point"\n'
            'setting = "sea"\n'
            "patch = 0.6\n"
            "columns=2\n"
            "rows=2\n"
            'fabrics=["sand"]'
        ),
        (
            "pond.toml:1: `seams.allowance` must be no larger than the finished patch, 0.1 "
            "in, got 1/4 in. Make the patch larger or the seam allowance smaller"
        ),
    ),
    (
        (
            "[top]\n"
            'layout = "on-point"\n'
            'setting = "rose"\n'
            "patch = 5\n"
            "columns=2\n"
            "rows=2\n"
            'fabrics=["sand"]'
        ),
        (
            "pond.toml:12: `top.setting` must name a declared fabric, got 'rose'. Declared "
            "are moss, sand, sea"
        ),
    ),
    (
        (
            "[top]\n"
            'layout = "on-point"\n'
            'setting = "sea"\n'
            "patch = 5\n"
            "columns=2000\n"
            "rows=2000\n"
            'fabrics=["sand"]'
        ),
        (
            "pond.toml:10: `top` must not have over 250,000 patches, has 8,004,001. Use "
            "fewer columns or rows"
        ),
    ),
    (
        ('[top]\nlayout = "strips"\nwidths = []\nlength = 40\nfabrics=["sand"]'),
        ("pond.toml:12: `top.widths` must have at least one width, got an empty list"),
    ),
    (
        (
            "[top]\n"
            'layout = "strips"\n'
            "widths = [3, 0.1]\n"
            "length = 0.1\n"
            'fabrics=["sand","sea","moss"]'
        ),
        (
            "pond.toml:12: `top.widths` width 2 must be at least the seam allowance, 1/4 in, "
            "got 0.1 in. Make it wider or the seam allowance smaller\n"
            "pond.toml:13: `top.length` must be at least the seam allowance, 1/4 in, got 0.1 "
            "in. Make it wider or the seam allowance smaller\n"
            "pond.toml:14: `top.fabrics` must not name more fabrics than there are strips, "
            "2, has 3. Leave some out"
        ),
    ),
    (
        ('[top]\nlayout = "strips"\nwidths = [3]\nlength = 40'),
        ("pond.toml:10: `top.fabrics` is missing. Name one or more of moss, sand, sea"),
    ),
    (
        ('[top]\nlayout = "strips"\nwidths = [3]\nlength = 40\nrun = "up"\nfabrics=["sand"]'),
        ("pond.toml:14: `top.run` must be across or down, got 'up'"),
    ),
    (
        ('[top]\nlayout = "bricks"\ncolumns=3\nrows=3\nfabrics=["sand"]'),
        (
            "pond.toml:10: `top` must have `cut` or `finished`. Write for example `cut = { "
            "width = 6, height = 3 }`"
        ),
    ),
    (
        (
            "[top]\n"
            'layout = "bricks"\n'
            "cut={width=6,height=3}\n"
            "finished={width=5,height=2.5}\n"
            "columns=3\n"
            "rows=3\n"
            'fabrics=["sand"]'
        ),
        (
            "pond.toml:12: `top.cut` disagrees with `top.finished`, which is cut 5 1/2 in x "
            "3 in, got 6 in x 3 in. Give one of the two"
        ),
    ),
    (
        ('[top]\nlayout = "bricks"\ncut={width=6,height=0.6}\ncolumns=3\nrows=3\nfabrics=["sand"]'),
        (
            "pond.toml:1: `seams.allowance` must be no larger than the finished brick, 0.1 "
            "in, got 1/4 in. Make the brick larger or the seam allowance smaller"
        ),
    ),
    (
        ('[top]\nlayout = "bricks"\ncut={width=6,height=3}\nchart=["sand sand","sand sand"]'),
        (
            "pond.toml:13: `top.chart` row 2 must have 3 names, one more or one less than "
            "row 1, has 2"
        ),
    ),
    (
        (
            "[top]\n"
            'layout = "bricks"\n'
            "cut={width=6,height=3}\n"
            'chart=["sand sand","sand sand sand", "sand", "sand sand"]'
        ),
        (
            "pond.toml:13: `top.chart` row 3 must have 2 names, like row 1, has 1\n"
            "pond.toml:13: `top.chart` row 4 must have 3 names, like row 2, has 2"
        ),
    ),
]


@pytest.mark.parametrize(("tables", "message"), ROWS)
def test_bad_layouts(tables: str, message: str) -> None:
    """Every fault of a layout is told with its key, its line and what would be right."""
    with pytest.raises(InputError) as caught:
        read(HEAD + tables, name="pond.toml")
    assert str(caught.value) == message


def test_many_patches_are_refused_at_once() -> None:
    """A chart of blocks may not multiply to more patches than can be laid out."""
    block = "[block.star]\nwidths = [1]\nheights = [1]\nchart = ["
    block += ", ".join(["'" + " ".join(["sand+sea"] * 30) + "'"] * 30) + "]\n"
    rows = ", ".join(['"' + "star " * 40 + '"'] * 40)
    with pytest.raises(InputError) as caught:
        read(f'{HEAD}[top]\nlayout = "blocks"\nchart = [{rows}]\n{block}', name="pond.toml")
    assert str(caught.value) == (
        "pond.toml:10: `top` must not have over 250,000 patches, has 5,760,000. "
        "Use fewer columns or rows"
    )
