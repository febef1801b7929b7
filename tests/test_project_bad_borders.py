"""Borders, measured sizes, openings and constructions that cannot be: whole messages."""

from __future__ import annotations

import pytest
from bad_input import FOLDED, SQUARES, TITLE, Row, told

ROWS: list[Row] = [
    (
        {"width = 2": 'width = "1/8"'},
        (
            "pond.toml:11: `border.width` must be at least 1/4 in to hide the seam "
            "allowance, got 1/8 in. Make the border wider"
        ),
    ),
    (
        {"width = 2": "width = {A=1,B=2,C=3}"},
        ("pond.toml:11: `border.width` must give a width for each of A, B, C, D, has none for D"),
    ),
    (
        {"width = 2": "width = {A=1,B=2,C=3,D=4,E=5}"},
        ("pond.toml:11: `border.width.E` is not a side of this top, whose sides are A, B, C, D"),
    ),
    (
        {"width = 2": 'width = {A=1,B=2,C=3,D="1/8"}'},
        (
            "pond.toml:11: `border.width.D` must be at least 1/4 in to hide the seam "
            "allowance, got 1/8 in. Make the border wider"
        ),
    ),
    (
        {"width = 2": 'width = "3/8"\n[seams]\nmiter = "1/2"'},
        (
            "pond.toml:11: `border.width` must be at least 1/2 in to hide the miter's "
            "allowance, got 3/8 in. Make the border wider or the miter smaller"
        ),
    ),
    (
        {"width = 2": "width = 2\n[seams]\nmiter = 3"},
        (
            "pond.toml:11: `border.width` must be at least 3 in to hide the miter's allowance, "
            "got 2 in. Make the border wider or the miter smaller"
        ),
    ),
    (
        {TITLE: f'{TITLE}\nturn_of_cloth = "1/2"', "width = 2": 'width = "3/8"'},
        (
            "pond.toml:12: `border.width` must be at least 1/2 in to hide the seam allowance and "
            "half the turn of cloth, got 3/8 in. Make the border wider or the seam allowance "
            "smaller"
        ),
    ),
    (
        {"width = 2": "backing = 20\n[seams]\nmiter = 3"},
        (
            "pond.toml:11: `border.backing` must be at least 39 1/2 in wide for a border of 3 in "
            "to hide the miter's allowance, got 20 in. Make it larger, or the top or the miter "
            "smaller\n"
            "pond.toml:11: `border.backing` must be at least 44 in high for a border of 3 in "
            "to hide the miter's allowance, got 20 in. Make it larger, or the top or the miter "
            "smaller"
        ),
    ),
    (
        {"width = 2": "width = 2\nbacking = { width = 40, height = 46 }"},
        (
            "pond.toml:12: `border.backing` disagrees with `border.width`, which makes it 35 "
            "1/2 in x 40 in, got 40 in x 46 in. Give only one of the two"
        ),
    ),
    (
        {"width = 2": "width = 2\nfinished = 30"},
        (
            "pond.toml:12: `border.finished` disagrees with `border.width`, which makes it 31 "
            "in x 35 1/2 in, got 30 in x 30 in. Give only one of the two"
        ),
    ),
    (
        {"width = 2": "backing = 45\nfinished = 40"},
        (
            "pond.toml:12: `border.finished` disagrees with `border.backing`, which makes it "
            "35 3/4 in x 38 in, got 40 in x 40 in. Give only one of the two"
        ),
    ),
    (
        {"width = 2": "backing = 20"},
        (
            "pond.toml:11: `border.backing` must be at least 28 1/2 in wide for a border of "
            "1/4 in to hide the seam allowance, got 20 in. Make it larger or the top smaller\n"
            "pond.toml:11: `border.backing` must be at least 33 in high for a border of 1/4 "
            "in to hide the seam allowance, got 20 in. Make it larger or the top smaller"
        ),
    ),
    (
        {"width = 2": "finished = 27"},
        (
            "pond.toml:11: `border.finished` must be at least 27 1/2 in wide for a border of "
            "1/4 in to hide the seam allowance, got 27 in. Make it larger or the top smaller\n"
            "pond.toml:11: `border.finished` must be at least 32 in high for a border of 1/4 "
            "in to hide the seam allowance, got 27 in. Make it larger or the top smaller"
        ),
    ),
    (
        {"width = 2": 'nearest = "1/8"'},
        (
            "pond.toml:10: `border` must have `width`, `backing` or `finished`. Write for "
            "example `width = 2`\n"
            "pond.toml:11: `border.nearest` has a place only where `backing` or `finished` "
            "settles the border. Leave it out"
        ),
    ),
    (
        {"width = 2": 'width = 2\nnearest = "1/8"'},
        (
            "pond.toml:12: `border.nearest` has a place only where `backing` or `finished` "
            "settles the border. Leave it out"
        ),
    ),
    (
        {"width = 2": "backing = 40\nnearest = 5"},
        (
            "pond.toml:12: `border.nearest` must leave a border of at least 1/4 in to hide "
            "the seam allowance, leaves 0 in. Make the step smaller"
        ),
    ),
    (
        {
            TITLE: (
                'title = "Pond"\n'
                'construction = "folded-over"\n'
                "turn_of_cloth = 0\n"
                "[opening]\n"
                "length=8\n"
                "[seams]\n"
                "basting=1"
            )
        },
        (
            "pond.toml:4: `turn_of_cloth` has no place in a folded-over blanket: no border is "
            "turned round a seam. Leave it out\n"
            "pond.toml:5: `opening` has no place in a folded-over blanket: nothing is turned "
            "right side out. Leave it out\n"
            "pond.toml:8: `seams.basting` has no place in a folded-over blanket: the layers "
            "are not basted before a seam. Leave it out"
        ),
    ),
    (
        {
            SQUARES: (
                'layout = "outline"\n'
                "points = [[0,0],[10,0],[10,10],[0,10]]\n"
                'size="seen"\n'
                "[seams]\n"
                "allowance=6"
            )
        },
        (
            "pond.toml:12: `border.width` must be at least 6 in to hide the seam allowance, "
            "got 2 in. Make the border wider or the seam allowance smaller"
        ),
    ),
    (
        {"width = 2": "width = 2\n[measured]\nwidth = 40\nheight = 32"},
        (
            "pond.toml:13: `measured.width` must be within 10 % of the raw top as designed, 27 "
            "1/2 in, got 40 in. Measure again from raw edge to raw edge"
        ),
    ),
    (
        {"width = 2": 'width = 2\n[opening]\nside = "E"'},
        "pond.toml:13: `opening.side` must be one of A, B, C, D, got E",
    ),
    (
        {
            SQUARES: (
                'layout = "outline"\n'
                "points = [[0,0],[30,0],[40,20],[15,30]]\n"
                "[measured]\n"
                "width=3\n"
                "height=3"
            )
        },
        ("pond.toml:7: `measured` has a place only beside a rectangular top. Leave it out"),
    ),
    (
        {
            SQUARES: (
                'layout = "outline"\n'
                "points = [[0,0],[15,0],[30,0],[30,20],[0,20]]\n"
                "[opening]\n"
                'side = "B"\n'
                "start = 3"
            )
        },
        (
            "pond.toml:9: `opening.start` cannot be counted on side B, which is part of a "
            "straight side. Leave out the point in the middle of it"
        ),
    ),
    (
        {TITLE: FOLDED, "width = 2": "finished = 30"},
        (
            "pond.toml:12: `border.finished` does not settle the border of a folded-over "
            "blanket, which finishes as its top. Give `width` or `backing`"
        ),
    ),
    (
        {TITLE: FOLDED, "width = 2": 'width = "1/4"'},
        (
            "pond.toml:12: `border.width` must be more than 1/4 in to hide the seam "
            "allowance, got 1/4 in. Make the border wider or the seam allowance smaller"
        ),
    ),
    (
        {TITLE: FOLDED, "width = 2": "width = 2\n[seams]\nmiter = 3"},
        (
            "pond.toml:14: `seams.miter` must fit under the borders at corner AB, which hide "
            "~2.8284 in, got 3 in. Make it smaller or the border wider"
        ),
    ),
    (
        {TITLE: FOLDED, "width = 2": "width = {A=3,B=4,C=3,D=4}\n[seams]\nmiter = 4.81"},
        (
            "pond.toml:14: `seams.miter` must fit under the borders at corner AB, which hide "
            "~4.8 in, got 4.81 in. Make it smaller or the border wider"
        ),
    ),
    (
        {TITLE: FOLDED, "width = 2": "backing = 29"},
        (
            "pond.toml:12: `border.backing` must be more than 33 in high for a border of 1/4 "
            "in to hide the seam allowance, got 29 in. Make it larger, or the top or the "
            "seam allowance smaller"
        ),
    ),
    (
        {TITLE: FOLDED, SQUARES: 'layout = "panel"\nseen = { width = 30, height = 36 }'},
        (
            "pond.toml:7: `top.seen` has no place in a folded-over blanket: no seam runs round "
            "the top. Give `cut`"
        ),
    ),
    (
        {TITLE: FOLDED, SQUARES: 'layout = "outline"\nregular = { sides = 6, side = 9 }'},
        (
            "pond.toml:7: `top.regular` has no place in a folded-over blanket: no seam runs "
            "round the top. Write a square as a panel with its `cut` size"
        ),
    ),
    (
        {TITLE: FOLDED, SQUARES: 'layout = "outline"\npoints = [[0,0],[30,0],[40,20],[15,30]]'},
        (
            "pond.toml:7: `top.points` must have right angles only in a folded-over blanket. "
            'Make it a rectangle, or write `construction = "turned"`'
        ),
    ),
    (
        {
            TITLE: FOLDED,
            SQUARES: 'layout = "outline"\npoints = [[0,0],[30,0],[30,20],[0,20]]\nsize = "seen"',
        },
        (
            "pond.toml:8: `top.size` has no place in a folded-over blanket: no seam runs round "
            'the top. Write `size = "cut"`'
        ),
    ),
    (
        {
            SQUARES: 'layout = "outline"\npoints = [[0,0],[15,0],[30,0],[30,20],[0,20]]',
            "width = 2": "width = {A=1,B=2,C=3,D=4,E=5}",
        },
        (
            "pond.toml:9: `border.width.B` must be as wide as A, since both lie on one line, 1 "
            "in, got 2 in"
        ),
    ),
    (
        {
            SQUARES: 'layout = "outline"\npoints = [[0,0],[30,0],[30,20],[0,20]]',
            "width = 2": "backing = 40",
        },
        (
            "pond.toml:9: `border.backing` has no place round an outline, where only "
            "`border.width` settles the border. Leave it out"
        ),
    ),
    (
        {
            SQUARES: 'layout = "outline"\npoints = [[0,0],[30,0],[40,20],[15,30]]',
            "width = 2": "width = {A=1,B=2,C=3}",
        },
        ("pond.toml:9: `border.width` must give a width for each of A, B, C, D, has none for D"),
    ),
    (
        {
            SQUARES: 'layout = "outline"\nregular = { sides = 3, side = 9 }',
            "width = 2": "finished = 40",
        },
        (
            "pond.toml:9: `border.finished` has no place round an outline, where only "
            "`border.width` settles the border. Leave it out"
        ),
    ),
]


@pytest.mark.parametrize(("changes", "message"), ROWS)
def test_bad_borders(changes: dict[str, str], message: str) -> None:
    """Each rule of the border is told whole, with the values that break it."""
    assert told(changes) == message
