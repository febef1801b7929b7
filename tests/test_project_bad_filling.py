"""Fillings that cannot be: whole messages."""

from __future__ import annotations

import pytest
from bad_input import LIKE, SQUARES, Row, told

BORDER = "[border]\nwidth = 2\n"
NAMED = (
    "`filling.fabric` is missing. Name one of ash, oat, or declare it in a table such as "
    "[fabric.batting]"
)


def filled(keys: str, border: str = BORDER) -> dict[str, str]:
    """The change that gives the sound project a filling, and perhaps another border."""
    return {BORDER: f"{border}\n[filling]\n{keys}\n"}


ROWS: list[Row] = [
    (
        filled("less = 2"),
        "pond.toml:14: `filling.less` must be less than the narrowest border, 2 in, whose "
        "stitching holds the filling, got 2 in",
    ),
    (
        filled("less = 1", "[border]\nwidth = { A = 2, B = 1, C = 2, D = 3 }\n"),
        "pond.toml:14: `filling.less` must be less than the narrowest border, 1 in, whose "
        "stitching holds the filling, got 1 in",
    ),
    (
        # Without the key the default is what is too much, and the table is its place.
        filled("", '[border]\nwidth = "1/8"\n[seams]\nallowance = "1/8"\nmiter = "1/8"\n'),
        "pond.toml:16: `filling.less` must be less than the narrowest border, 1/8 in, whose "
        "stitching holds the filling, got 1/8 in",
    ),
    (
        filled("less = 2", '[border]\nwidth = "1/8"\n'),
        "pond.toml:11: `border.width` must be at least 1/4 in to hide the seam allowance, "
        "got 1/8 in. Make the border wider\n"
        "pond.toml:14: `filling.less` must be less than the narrowest border, 1/8 in, whose "
        "stitching holds the filling, got 2 in",
    ),
    (filled("less = -1"), "pond.toml:14: `filling.less` must not be less than 0, got '-1'"),
    (filled("less = true"), f"pond.toml:14: `filling.less` must be {LIKE}, got true"),
    (
        filled("loft = 1"),
        "pond.toml:14: `filling.loft` is not a known key. Known keys here: fabric, less",
    ),
    (
        filled('fabric = "wool"'),
        "pond.toml:14: `filling.fabric` must name a declared fabric, got 'wool'. "
        "Declare it in a table such as [fabric.sand]",
    ),
    (
        {BORDER: f"{BORDER}filling = 1\n"},
        "pond.toml:12: `border.filling` is not a known key. `filling` is a table of its own: "
        "write [filling]",
    ),
    (
        {
            **filled(""),
            SQUARES: f'{SQUARES}\nfabrics = ["oat"]\n[fabric.oat]\n[fabric.ash]',
            "[top]": '[backing]\nfabric = "ash"\n[top]',
        },
        f"pond.toml:18: {NAMED}",
    ),
]


@pytest.mark.parametrize(("changes", "message"), ROWS, ids=[row[1][:70] for row in ROWS])
def test_bad_filling(changes: dict[str, str], message: str) -> None:
    """Each gets one line for each finding: the key, what is wrong, what would be right."""
    assert told(changes) == message
