"""Grids that cannot be: whole messages, each one clear line."""

from __future__ import annotations

import pytest
from bad_input import told_of_layout

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
]


@pytest.mark.parametrize(("tables", "message"), ROWS)
def test_bad_grids(tables: str, message: str) -> None:
    """Every fault of a layout is told with its key, its line and what would be right."""
    assert told_of_layout(tables) == message
