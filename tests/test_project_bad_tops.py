"""Tops, fabrics, seams and titles that cannot be: whole messages."""

from __future__ import annotations

import pytest
from bad_input import SQUARES, TITLE, Row, told

ROWS: list[Row] = [
    (
        {TITLE: 'title = "a\\u0001b"'},
        (
            "pond.toml:2: `title` must not hold control characters, got U+0001. Write one line "
            "of plain text"
        ),
    ),
    ({TITLE: 'title = " "'}, "pond.toml:2: `title` must not be blank"),
    (
        {"columns = 6": "columns = 100000"},
        (
            "pond.toml:4: `top` must not have over 250,000 patches, has 700,000. Use fewer "
            "columns or rows"
        ),
    ),
    (
        {"patch = 5": 'patch = "99 m"'},
        (
            "pond.toml:4: `top` must not be over ~3937.0079 in, is ~27279.9646 in. Use fewer or "
            "smaller patches"
        ),
    ),
    (
        {"patch = 5": 'patch = { finished = "75 m" }', TITLE: 'title = "Pond"\nunits = "mm"'},
        (
            "pond.toml:5: `top` must not be over 100000 mm, is 525000 mm. Use fewer or "
            "smaller patches"
        ),
    ),
    (
        {TITLE: 'title = "Pond"\nruler = "1/7"'},
        "pond.toml:3: `ruler` must be 1, 1/2, 1/4, 1/8, 1/16, 1/32 or 1/64 in, got 1/7 in",
    ),
    (
        {TITLE: 'title = "Pond"\nunits = "mm"\nruler = "1/8 in"'},
        (
            "pond.toml:1: `seams.allowance` must be less than half the cut patch, 2.5 mm, got "
            "6 mm. Make the patch larger or the seam allowance smaller\n"
            "pond.toml:4: `ruler` must be a whole number of tenths of a mm, 10 mm at most, got "
            "3.2 mm"
        ),
    ),
    (
        {SQUARES: 'layout = "squares"\npatch = 5\nchart = ["a b", "a"]'},
        (
            "pond.toml:7: `top.chart` row 1 must name a declared fabric, got 'a'. Declare it "
            "in a table such as [fabric.sand]\n"
            "pond.toml:7: `top.chart` row 1 must name a declared fabric, got 'b'. Declare it "
            "in a table such as [fabric.sand]\n"
            "pond.toml:7: `top.chart` row 2 must have 2 names like row 1, got 1"
        ),
    ),
    (
        {SQUARES: 'layout = "squares"\npatch = 5\nchart = []'},
        "pond.toml:7: `top.chart` must have at least one row with one fabric name",
    ),
    (
        {
            SQUARES: (
                'layout = "squares"\npatch = 5\nchart = ["a b", "a b"]\nrows = 3\nfabrics = ["a"]'
            )
        },
        (
            "pond.toml:7: `top.chart` row 1 must name a declared fabric, got 'b'. Declare it "
            "in a table such as [fabric.sand]\n"
            "pond.toml:8: `top.rows` must be as in the chart, 2, got 3. Leave it out: the "
            "chart gives it\n"
            "pond.toml:9: `top.fabrics` item 1 must name a declared fabric, got 'a'. Declare "
            "it in a table such as [fabric.sand]\n"
            "pond.toml:9: `top.fabrics` has no place beside a chart. Give one of the two"
        ),
    ),
    (
        {"columns = 6\n": ""},
        "pond.toml:4: `top.columns` is missing. Give `columns` and `rows`, or a `chart`",
    ),
    (
        {"rows = 7": 'rows = 7\nfabrics = ["sand"]'},
        (
            "pond.toml:9: `top.fabrics` item 1 must name a declared fabric, got 'sand'. "
            "Declare it in a table such as [fabric.sand]"
        ),
    ),
    (
        {"rows = 7": 'rows = 7\nfabrics = ["sans"]\n[fabric.sand]\n[fabric.sea]'},
        (
            "pond.toml:1: `backing.fabric` is missing. Name one of sand, sea\n"
            "pond.toml:9: `top.fabrics` item 1 must name a declared fabric, got 'sans'. Write "
            "`sand`; declared are sand, sea"
        ),
    ),
    (
        {"rows = 7": "rows = 7\n[fabric.sand]\n[fabric.sea]"},
        (
            "pond.toml:1: `backing.fabric` is missing. Name one of sand, sea\n"
            "pond.toml:4: `top.fabrics` is missing. Name one or more of sand, sea"
        ),
    ),
    (
        {"patch = 5": "patch = { cut = 5, finished = 4 }"},
        (
            "pond.toml:6: `top.patch` has sizes that disagree: finished 4 in is cut 4 1/2 in, "
            "got cut 5 in. Give one of the two"
        ),
    ),
    (
        {"patch = 5": "patch = {}"},
        ("pond.toml:6: `top.patch` must have `cut` or `finished`. Write for example `patch = 5`"),
    ),
    (
        {"width = 2": "width = 2\n[seams]\nallowance = 3"},
        (
            "pond.toml:13: `seams.allowance` must be less than half the cut patch, 2 1/2 in, "
            "got 3 in. Make the patch larger or the seam allowance smaller"
        ),
    ),
    (
        {"width = 2": 'width = 2\n[seams]\nallowance = "1 7/8"'},
        (
            "pond.toml:13: `seams.allowance` must be no larger than the finished patch, 1 1/4 "
            "in, got 1 7/8 in. Make the patch larger or the seam allowance smaller"
        ),
    ),
    (
        {"width = 2": 'width = 2\n[seams]\nbasting = "1/4"'},
        (
            "pond.toml:13: `seams.basting` must be less than the seam allowance, 1/4 in, got "
            "1/4 in. Baste nearer to the raw edge"
        ),
    ),
    (
        {
            SQUARES: (
                'layout = "panel"\n'
                "cut = { width = 30, height = 36 }\n"
                "seen = { width = 30, height = 36 }"
            )
        },
        (
            "pond.toml:6: `top.cut` disagrees with `top.seen`, which is cut 30 1/2 in x 36 1/2 "
            "in, got 30 in x 36 in. Give one of the two"
        ),
    ),
    (
        {SQUARES: 'layout = "panel"'},
        (
            "pond.toml:4: `top` must have `cut` or `seen`. Write for example `cut = { width = "
            "30, height = 36 }`"
        ),
    ),
    (
        {SQUARES: 'layout = "outline"\npoints = [[0,0],[30,0]]'},
        "pond.toml:6: `top.points` must be at least 3, got 2",
    ),
    (
        {SQUARES: 'layout = "outline"\npoints = [[0,0],[30,0],[30,30],[0,30],[0,0]]'},
        (
            "pond.toml:6: `top.points` point 5 must not be the same as point 1. Leave it out: "
            "the outline closes itself"
        ),
    ),
    (
        {SQUARES: 'layout = "outline"\npoints = [[0,0],[30,0],[10,10],[0,30]]'},
        ("pond.toml:6: `top.points` point 3 must not turn inwards: the outline must be convex"),
    ),
    (
        {SQUARES: 'layout = "outline"\npoints = [[0,0],[30,30],[30,0],[0,30]]'},
        "pond.toml:6: `top.points` must not cross or touch itself, side A meets side C",
    ),
    (
        {SQUARES: 'layout = "outline"\npoints = [[0,0],[10,0],[20,0]]'},
        "pond.toml:6: `top.points` must enclose an area, all lie on one line",
    ),
    (
        {SQUARES: 'layout = "outline"\npoints = [[0,0],[10,0],[0,20]]'},
        ("pond.toml:6: `top.points` point 3 must be a corner of 60 to 170 degrees, is one of 26.6"),
    ),
    (
        {
            SQUARES: (
                'layout = "outline"\n'
                "points = [[0,0],[30,0],[30,30],[0,30]]\n"
                "regular={sides=6,side=3}"
            )
        },
        (
            "pond.toml:4: `top` must have only one of `points` and `regular`. Describe the "
            "outline one way"
        ),
    ),
    (
        {
            SQUARES: (
                'layout = "outline"\n'
                "points = [[0,0],[10,0],[10,10],[0,10]]\n"
                'size="cut"\n'
                "[seams]\n"
                "allowance=6"
            )
        },
        (
            "pond.toml:6: `top.points` must leave every side inside a seam of 6 in. Make the "
            "outline larger or the seam allowance smaller"
        ),
    ),
    (
        {SQUARES: 'layout = "outline"'},
        "pond.toml:4: `top` must have `points` or `regular`. Describe the outline one way",
    ),
    (
        {SQUARES: 'layout = "outline"\nregular = { sides = 6, side = 9 }\nsize="cut"'},
        (
            "pond.toml:7: `top.size` has no place beside `regular`, whose side is always the "
            "finished one. Leave it out"
        ),
    ),
    (
        {TITLE: 'title = "a\\uFFFEb"'},
        (
            "pond.toml:2: `title` must not hold control characters, got U+FFFE. Write one line "
            "of plain text"
        ),
    ),
    (
        {TITLE: 'title = "a\\u2028b"'},
        (
            "pond.toml:2: `title` must not hold control characters, got U+2028. Write one line "
            "of plain text"
        ),
    ),
    (
        {SQUARES: 'layout = "panel"\ncut = { width = 30, height = "1/2" }'},
        (
            "pond.toml:1: `seams.allowance` must be less than half the cut panel, 1/4 in, got "
            "1/4 in. Make the panel larger or the seam allowance smaller"
        ),
    ),
    (
        {"rows = 7": 'rows = 7\n[fabric.sand]\nlabel = "a\\nb"'},
        (
            "pond.toml:10: `fabric.sand.label` must not hold control characters, got U+000A. "
            "Write one line of plain text"
        ),
    ),
    (
        {"rows = 7": "rows = 7\nfabrics = []"},
        "pond.toml:9: `top.fabrics` must name at least one fabric, got an empty list",
    ),
]


@pytest.mark.parametrize(("changes", "message"), ROWS)
def test_bad_tops(changes: dict[str, str], message: str) -> None:
    """Each rule of the top is told whole, with the values that break it."""
    assert told(changes) == message
