"""Strips and bricks that cannot be, and patches of a panel: whole messages, each one line."""

from __future__ import annotations

import pytest
from bad_input import told_of_layout

ROWS: list[tuple[str, str]] = [
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
]


@pytest.mark.parametrize(("tables", "message"), ROWS)
def test_bad_strips_and_bricks(tables: str, message: str) -> None:
    """Every fault of a layout is told with its key, its line and what would be right."""
    assert told_of_layout(tables) == message
