"""Keys, types and single values that a project file cannot have: whole messages."""

from __future__ import annotations

import pytest
from bad_input import LIKE, SQUARES, TITLE, XS, Row, told

ROWS: list[Row] = [
    (
        {"[border]": "[fabric.oat]\nprice = 9\n[border]"},
        "pond.toml:11: `fabric.oat.price` is not a known key. `price` belongs in its table `stock`",
    ),
    (
        {"width = 2": 'width = 2\ncolour = "red"'},
        (
            "pond.toml:12: `border.colour` is not a known key. `colour` belongs in the table "
            "[fabric.NAME]"
        ),
    ),
    (
        {"width = 2": 'width = 2\nfabric = "oat"'},
        (
            "pond.toml:12: `border.fabric` is not a known key. `fabric` is a table of its own: "
            "write [fabric.NAME]"
        ),
    ),
    (
        {"[border]": "[borders]"},
        (
            "pond.toml:1: `border` is missing. Write for example the table [border] with "
            "`width = 2`\n"
            "pond.toml:10: `borders` is not a known key. Write `border`"
        ),
    ),
    ({"columns": "colums"}, "pond.toml:7: `top.colums` is not a known key. Write `columns`"),
    (
        {'title = "Pond"\n': ""},
        'pond.toml:1: `title` is missing. Write for example `title = "Tide pool"`',
    ),
    ({"format = 1": "format = 2"}, "pond.toml:1: `format` must be 1, got '2'"),
    ({"format = 1\n": ""}, "pond.toml:1: `format` is missing. Write for example `format = 1`"),
    (
        {"[border]\nwidth = 2": ""},
        ("pond.toml:1: `border` is missing. Write for example the table [border] with `width = 2`"),
    ),
    (
        {'layout = "squares"\n': ""},
        (
            "pond.toml:4: `top.layout` is missing. Write blocks, bricks, grid, on-point, outline, "
            "panel, squares or strips"
        ),
    ),
    (
        {'"squares"': '"stripes"'},
        (
            "pond.toml:5: `top.layout` must be blocks, bricks, grid, on-point, outline, panel, "
            "squares or strips, got 'stripes'"
        ),
    ),
    ({"patch = 5": "patch = true"}, f"pond.toml:6: `top.patch` must be {LIKE}, got true"),
    (
        {"patch = 5": "patch = []"},
        "pond.toml:6: `top.patch` must be a length or a table, got an empty list",
    ),
    (
        {"columns = 6": 'columns = "six"'},
        "pond.toml:7: `top.columns` must be a whole number from 1 to 250,000, got 'six'",
    ),
    (
        {"columns = 6": "columns = 6.5"},
        "pond.toml:7: `top.columns` must be a whole number from 1 to 250,000, got '6.5'",
    ),
    ({TITLE: "title = 7"}, "pond.toml:2: `title` must be text of 1 to 120 letters, got '7'"),
    ({TITLE: "title = 4.5"}, "pond.toml:2: `title` must be text of 1 to 120 letters, got '4.5'"),
    (
        {TITLE: "title = 2020-01-01"},
        "pond.toml:2: `title` must be text of 1 to 120 letters, got a date or time",
    ),
    (
        {TITLE: f'title = "{XS}"'},
        (
            "pond.toml:2: `title` must be text of 1 to 120 letters, got "
            "'xxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxx...'"
        ),
    ),
    ({"width = 2": "width = 0"}, "pond.toml:11: `border.width` must be more than 0, got '0'"),
    ({"width = 2": "width = -1"}, "pond.toml:11: `border.width` must be more than 0, got '-1'"),
    ({"width = 2": "width = nan"}, f"pond.toml:11: `border.width` must be {LIKE}, got 'nan'"),
    ({"width = 2": "width = inf"}, f"pond.toml:11: `border.width` must be {LIKE}, got 'inf'"),
    (
        {"width = 2": 'width = "101 m"'},
        "pond.toml:11: `border.width` must not be over 100 m, got '101 m'",
    ),
    ({"width = 2": "width = 1e3"}, f"pond.toml:11: `border.width` must be {LIKE}, got '1e3'"),
    (
        {"width = 2": 'width = "5 ft"'},
        ("pond.toml:11: `border.width` must be in cm, in, m, mm or yd, got unit 'ft' in '5 ft'"),
    ),
    (
        {"width = 2": 'width = "1/0"'},
        "pond.toml:11: `border.width` must not divide by zero, got '1/0'",
    ),
    (
        {"width = 2": "width = 99999999999999"},
        f"pond.toml:11: `border.width` must be {LIKE}, got a number of more than 9 digits",
    ),
    (
        {"columns = 6": "columns = 1000000000"},
        (
            "pond.toml:7: `top.columns` must be a whole number from 1 to 250,000, got a number "
            "of more than 9 digits"
        ),
    ),
    (
        {TITLE: 'title = "Pond"\nunits = "feet"'},
        "pond.toml:3: `units` must be cm, in or mm, got 'feet'",
    ),
    (
        {"rows = 7": "rows = 7\n[fabric.Sand]"},
        (
            "pond.toml:9: `fabric.Sand` must be named in lower-case letters, such as `sand`; "
            "capitals are for sides, got 'Sand'"
        ),
    ),
    (
        {"width = 2": "width = {A=1,B=2,C=3,d=1}"},
        "pond.toml:11: `border.width.d` must be the letter of a side, such as A, got 'd'",
    ),
    (
        {TITLE: 'title = "Pond"\nconstruction = "folded"'},
        "pond.toml:3: `construction` must be folded-over or turned, got 'folded'",
    ),
    (
        {"width = 2": "finished = 30\n[seams]\nx"},
        "pond.toml:13: is not TOML: expected '=' after a key in a key/value pair",
    ),
    ({SQUARES: 'layout = "panel"\ncut = 30'}, "pond.toml:6: `top.cut` must be a table, got '30'"),
    (
        {SQUARES: 'layout = "panel"\ncut = { width = 30, height = 36 }\npoints = [[0,0]]'},
        (
            "pond.toml:7: `top.points` is not a known key. `points` belongs in the table [top] "
            "with layout outline"
        ),
    ),
    (
        {SQUARES: 'layout = "outline"\npoints = [[0,0],[10],[0,20]]'},
        "pond.toml:6: `top.points` point 2 must be a pair such as [0, 0], got a list of 1",
    ),
    (
        {SQUARES: 'layout = "outline"\npoints = [[0,0],["x",3],[0,20]]'},
        f"pond.toml:6: `top.points` point 2 must be {LIKE}, got 'x'",
    ),
    (
        {SQUARES: 'layout = "outline"\nregular = { sides = 2, side = 9 }'},
        "pond.toml:6: `top.regular.sides` must be a whole number from 3 to 26, got '2'",
    ),
    (
        {"width = 2": "width = 2\n[opening]\nside = 2\nlength = 0"},
        (
            "pond.toml:13: `opening.side` must be the letter of a side, such as A, got '2'\n"
            "pond.toml:14: `opening.length` must be more than 0, got '0'"
        ),
    ),
    (
        {"width = 2": 'width = 2\nallowance = "1/4"'},
        (
            "pond.toml:12: `border.allowance` is not a known key. `allowance` belongs in the "
            "table [seams]"
        ),
    ),
    (
        {"width = 2": 'width = 2\nunits = "in"'},
        (
            "pond.toml:12: `border.units` is not a known key. `units` belongs at the head of "
            "the file, above the first table"
        ),
    ),
    (
        {"width = 2": "width = 2 2"},
        "pond.toml:11: is not TOML: expected newline or end of document after a statement",
    ),
    ({"width = 2": 'width = "'}, "pond.toml:11: is not TOML: illegal character '\\n'"),
    (
        {TITLE: 'title = "Pond"\ninclude = ["x.toml"]'},
        (
            "pond.toml:3: `include` cannot be used in a text that is not a file. Put all "
            "tables into the text itself"
        ),
    ),
    ({TITLE: 'title = "Pond"\ntitle = "x"'}, "pond.toml:3: is not TOML: cannot overwrite a value"),
    (
        {"[border]\nwidth = 2": "border = 2"},
        (
            "pond.toml:1: `border` is missing. Write for example the table [border] with "
            "`width = 2`\n"
            "pond.toml:10: `top.border` is not a known key. `border` is a table of its own: "
            "write [border]"
        ),
    ),
    (
        {"columns = 6": '"co\\nl" = 6\ncolumns = 6'},
        (
            "pond.toml:7: `top.'co\\nl'` is not a known key. Known keys here: chart, columns, "
            "fabrics, layout, patch, rows"
        ),
    ),
    (
        {'"squares"': "4.5"},
        (
            "pond.toml:5: `top.layout` must be blocks, bricks, grid, on-point, outline, panel, "
            "squares or strips, got '4.5'"
        ),
    ),
    (
        {"width = 2": "width = 2\n[fabric]\nx = 3"},
        "pond.toml:13: `fabric.x` must be a table, got '3'",
    ),
    (
        {TITLE: 'title = "Pond"\nturn_of_cloth = -1'},
        "pond.toml:3: `turn_of_cloth` must not be less than 0, got '-1'",
    ),
    (
        {SQUARES: 'layout = "panel"\ncut = { width = 30, height = 0 }'},
        "pond.toml:6: `top.cut.height` must be more than 0, got '0'",
    ),
    (
        {"columns = 6": "columns = 0"},
        "pond.toml:7: `top.columns` must be a whole number from 1 to 250,000, got '0'",
    ),
    (
        {"columns = 6": "columns = -3"},
        "pond.toml:7: `top.columns` must be a whole number from 1 to 250,000, got '-3'",
    ),
    (
        {"width = 2": "backing = { width = 40 }"},
        "pond.toml:11: `border.backing.height` is missing. Write for example `height = 36`",
    ),
    (
        {"width = 2": 'backing = "wide"'},
        f"pond.toml:11: `border.backing` must be {LIKE}, got 'wide'",
    ),
    (
        {"width = 2": "width = []"},
        "pond.toml:11: `border.width` must be a length or a table, got an empty list",
    ),
    (
        {"width = 2": "backing = []"},
        "pond.toml:11: `border.backing` must be a length or a table, got an empty list",
    ),
    (
        {SQUARES: 'layout = "panel"\ncut = { width = 30, height = 36, depth = 3 }'},
        "pond.toml:6: `top.cut.depth` is not a known key. Write `width`",
    ),
    (
        {"width = 2": "width = 2\n[opening]\nstart = -1"},
        "pond.toml:13: `opening.start` must not be less than 0, got '-1'",
    ),
]


@pytest.mark.parametrize(("changes", "message"), ROWS)
def test_bad_keys(changes: dict[str, str], message: str) -> None:
    """Each line names file, line and key, what is wrong and what would be right."""
    assert told(changes) == message
