"""Squares on point that cannot be: whole messages, each one clear line."""

from __future__ import annotations

import pytest
from bad_input import told_of_layout

ROWS: list[tuple[str, str]] = [
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
]


@pytest.mark.parametrize(("tables", "message"), ROWS)
def test_bad_on_point(tables: str, message: str) -> None:
    """Every fault of a layout is told with its key, its line and what would be right."""
    assert told_of_layout(tables) == message
