"""Blocks that cannot be: whole messages, each one clear line."""

from __future__ import annotations

import pytest
from bad_input import told_of_layout

ROWS: list[tuple[str, str]] = [
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
]


@pytest.mark.parametrize(("tables", "message"), ROWS)
def test_bad_blocks(tables: str, message: str) -> None:
    """Every fault of a layout is told with its key, its line and what would be right."""
    assert told_of_layout(tables) == message


def test_many_patches_are_refused_at_once() -> None:
    """A chart of blocks may not multiply to more patches than can be laid out."""
    block = "[block.star]\nwidths = [1]\nheights = [1]\nchart = ["
    block += ", ".join(["'" + " ".join(["sand+sea"] * 30) + "'"] * 30) + "]\n"
    rows = ", ".join(['"' + "star " * 40 + '"'] * 40)
    assert told_of_layout(f'[top]\nlayout = "blocks"\nchart = [{rows}]\n{block}') == (
        "pond.toml:10: `top` must not have over 250,000 patches, has 5,760,000. "
        "Use fewer columns or rows"
    )
