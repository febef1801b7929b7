"""The [arrange] table: what it gives, and each way of getting it wrong in one line."""

from __future__ import annotations

from pathlib import Path

import pytest

from cutpaths.errors import InputError
from cutpaths.project import load
from cutpaths.project.model import Squares
from cutpaths.project.prints import ArrangeRules, Group, Pin, Print
from cutpaths.project.reading import load_to_arrange

HEAD = """\
format = 1
title = "Kitchen garden"
[top]
layout = "squares"
patch = 5
columns = 3
rows = 2
[border]
width = 2
[backing]
fabric = "rose"
[fabric.rose]
[fabric.fern]
[fabric.sand]
"""
FIXED = """\
[arrange]
corners = true
apart = false
prints = { rose = 2, fern = 1 }
balance = { light = ["fern"], dark = ["rose", "sand"] }
pinned = { r2c3 = "sand", r1c1 = "rose" }
[[arrange.pack]]
size = 5
count = 4
bought = 3
prints = ["sand", "fern"]
[[arrange.pack]]
size = 10
counts = { rose = 1, sand = 2 }
"""


def written(folder: Path, text: str) -> Path:
    """A project file with a text."""
    path = folder / "garden.toml"
    path.write_text(text, encoding="utf-8")
    return path


def findings(folder: Path, arrange: str, head: str = HEAD) -> list[str]:
    """What is wrong with a project of this [arrange] table."""
    with pytest.raises(InputError) as caught:
        load_to_arrange(written(folder, head + arrange))
    return str(caught.value).splitlines()


def test_rules_are_read(tmp_path: Path) -> None:
    """Prints and packs add up, a pack as often as bought; a 10 in square makes four of 5 in."""
    rules, includes = load_to_arrange(written(tmp_path, HEAD + FIXED))
    assert includes == ()
    assert rules == ArrangeRules(
        columns=3,
        rows=2,
        prints=(Print("rose", 2 + 4), Print("fern", 1 + 6), Print("sand", 6 + 8)),
        corners=True,
        apart=False,
        balance=(Group("light", ("fern",)), Group("dark", ("rose", "sand"))),
        pinned=(Pin(1, 2, "sand"), Pin(0, 0, "rose")),
    )


def test_rules_left_out_have_defaults(tmp_path: Path) -> None:
    """Sides only, apart, no balance and no pins."""
    table = "[arrange]\nprints = { rose = 3, fern = 3 }\n"
    rules, _ = load_to_arrange(written(tmp_path, HEAD + table))
    prints = (Print("rose", 3), Print("fern", 3))
    assert rules == ArrangeRules(columns=3, rows=2, prints=prints, corners=False, apart=True)


def test_project_without_its_chart_says_what_to_do(tmp_path: Path) -> None:
    """Other commands need the chart, which the command writes."""
    table = "[arrange]\nprints = { rose = 3, fern = 3 }\n"
    with pytest.raises(InputError) as caught:
        load(written(tmp_path, HEAD + table))
    assert str(caught.value) == (
        "garden.toml:3: `top.chart` is missing. "
        "Run `cutpaths arrange` and include the file that it writes"
    )


def test_included_chart_is_used_and_may_be_laid_out_again(tmp_path: Path) -> None:
    """A layout that is included is the top's chart; its size gives the grid where no key does."""
    chart = '[top]\nchart = ["rose fern rose", "fern rose fern"]\n'
    (tmp_path / "arranged.toml").write_text(chart, encoding="utf-8")
    table = "[arrange]\nprints = { rose = 3, fern = 3 }\n"
    bare = HEAD.replace("columns = 3\nrows = 2\n", "")
    path = written(tmp_path, 'include = ["arranged.toml"]\n' + bare + table)
    project = load(path)
    assert isinstance(project.top, Squares)
    assert project.top.chart == (("rose", "fern", "rose"), ("fern", "rose", "fern"))
    rules, includes = load_to_arrange(path)
    assert includes == ("arranged.toml",)
    assert rules is not None
    assert rules == project.arrange
    assert (rules.rows, rules.columns) == (2, 3)


LACKING = (
    "garden.toml:1: `arrange` is missing. "
    "Write a table [arrange] with for example `prints = { rose = 12, fern = 12 }`"
)
BAD = {
    "[arrange]": "garden.toml:15: `arrange.prints` is missing. "
    "Write for example `prints = { rose = 12, fern = 12 }`",
    "[arrange]\nprints = { rose = 3, fern = 2 }": "garden.toml:15: `arrange` must have 6 squares "
    "for 2 rows of 3, has 5. Add 1 square of its prints",
    "[arrange]\nprints = { rose = 3, ferm = 3 }": "garden.toml:16: `arrange.prints.ferm` must name "
    "a declared fabric, got 'ferm'. Write `fern`; declared are fern, rose, sand",
    "[arrange]\nprints = { rose = 2.5, fern = 5 }": "garden.toml:16: `arrange.prints.rose` must be "
    "a whole number from 1 to 250,000, got '2.5'",
    "[arrange]\nprints = { rose = 0, fern = 6 }": "garden.toml:16: `arrange.prints.rose` must be "
    "a whole number from 1 to 250,000, got '0'",
    '[arrange]\nprints = { rose = "many", fern = 6 }': "garden.toml:16: `arrange.prints.rose` must "
    "be a whole number from 1 to 250,000, got 'many'",
    "[arrange]\nprints = 12": "garden.toml:16: `arrange.prints` must be a table, got '12'",
    "[arrange]\nprint = { rose = 12 }": "garden.toml:16: `arrange.print` is not a known key. "
    "Write `prints`",
    "[arrange]\ncorners = 1\nprints = { rose = 6 }": "garden.toml:16: `arrange.corners` must be "
    "true or false, got '1'",
    '[arrange]\nprints = { rose = 6 }\npinned = { r3c1 = "rose" }': "garden.toml:17: "
    "`arrange.pinned.r3c1` is outside the top of 2 rows and 3 columns. The last cell is r2c3",
    '[arrange]\nprints = { rose = 6 }\npinned = { r1c1 = "sand" }': "garden.toml:17: "
    "`arrange.pinned.r1c1` must be one of the prints, got 'sand'",
    '[arrange]\nprints = { rose = 6 }\npinned = { A1 = "rose" }': "garden.toml:17: "
    "`arrange.pinned.A1` must be the name of a cell, such as `r1c12`: row 1 from the head, "
    "column 12, got 'A1'",
    '[arrange]\nprints = { rose = 6 }\npinned = { r1c1 = "rose", r2c1 = "rose" }': "garden.toml:"
    "17: `arrange.pinned.r1c1` is rose, as is r2c1, side by side. "
    "Pin another print or let one of them go",
    "[arrange]\ncorners = true\nprints = { rose = 6 }\n"
    'pinned = { r1c2 = "rose", r2c1 = "rose" }': "garden.toml:18: `arrange.pinned.r1c2` is rose, "
    "as is r2c1, corner to corner. Pin another print or let one of them go",
    "[arrange]\nprints = { rose = 1, fern = 5 }\n"
    'pinned = { r1c1 = "rose", r2c2 = "rose" }': "garden.toml:17: `arrange.pinned` asks for 2 "
    "squares of rose, there are 1. Let some of them go",
    '[arrange]\nprints = { rose = 6 }\nbalance = { light = ["sand"] }': "garden.toml:17: "
    "`arrange.balance.light` item 1 must be one of the prints, got 'sand'",
    '[arrange]\nprints = { rose = 6 }\nbalance = { light = ["rose"], dark = ["rose"] }': (
        "garden.toml:17: `arrange.balance.dark` item 1 must not be in two groups: "
        "rose is in light already"
    ),
    '[[arrange.pack]]\nsize = 4\ncount = 6\nprints = ["rose"]': "garden.toml:15: "
    "`arrange.pack.size` item 1 must be at least the cut patch, 5 in, got 4 in. "
    "Use smaller patches or another pack",
    '[[arrange.pack]]\nsize = 5\ncount = 7\nprints = ["rose", "fern"]': "garden.toml:15: "
    "`arrange.pack.count` item 1 must be a multiple of its 2 prints, got 7. "
    "Give `counts` for each print where they differ",
    '[[arrange.pack]]\nsize = 5\nprints = ["rose"]': "garden.toml:15: `arrange.pack.count` item 1 "
    "is missing. Write for example `count = 42`",
    '[[arrange.pack]]\nsize = 5\ncount = 8\nprints = ["rose", "rose"]': "garden.toml:15: "
    "`arrange.pack.prints` item 1 must name each print once, got 'rose' again",
    "[[arrange.pack]]\nsize = 5\ncount = 8": "garden.toml:15: `arrange.pack` item 1 must have "
    "`prints` or `counts`. Name its prints one way",
    '[[arrange.pack]]\nsize = 5\ncount = 8\nprints = ["rose"]\ncounts = { rose = 8 }': (
        "garden.toml:15: `arrange.pack` item 1 must have only one of `prints` and `counts`. "
        "Name its prints one way"
    ),
    "[[arrange.pack]]\nsize = 5\ncount = 8\ncounts = { rose = 6 }": "garden.toml:15: "
    "`arrange.pack.count` item 1 must be as many as its `counts` say, 6, got 8. Leave it out",
    "[[arrange.pack]]\nsize = 5\ncount = 8\nprints = []": "garden.toml:15: "
    "`arrange.pack.prints` item 1 must name at least one print, got an empty list",
}


@pytest.mark.parametrize("table", BAD, ids=range(len(BAD)))
def test_bad_tables_are_told_in_one_line(tmp_path: Path, table: str) -> None:
    """Each names file, line and key, what is wrong and what would be right."""
    assert findings(tmp_path, table) == [BAD[table]]


def test_own_chart_would_hide_the_one_laid_out(tmp_path: Path) -> None:
    """A chart in the project file itself wins over an included one, so it has to go."""
    head = HEAD.replace("columns = 3\n", 'chart = ["rose fern sand", "fern sand rose"]\n')
    assert findings(tmp_path, "[arrange]\nprints = { rose = 6 }\n", head) == [
        "garden.toml:6: `top.chart` stands in the project file itself and would hide the one laid "
        "out. Give `columns` and `rows` instead"
    ]


def test_project_without_prints_has_nothing_to_lay_out(tmp_path: Path) -> None:
    """Whatever its top is, it lacks the table."""
    turns = HEAD.replace("rows = 2\n", 'rows = 2\nfabrics = ["rose", "fern"]\n')
    chart = HEAD.replace("columns = 3\n", 'chart = ["rose fern sand", "fern sand rose"]\n')
    for head in (turns, chart):
        assert findings(tmp_path, "", head) == [LACKING]


def test_only_squares_are_laid_out(tmp_path: Path) -> None:
    """A panel has no cells."""
    panel = 'layout = "panel"\ncut = { width = 30, height = 36 }\nfabric = "rose"\n'
    head = HEAD.replace('layout = "squares"\npatch = 5\ncolumns = 3\nrows = 2\n', panel)
    assert findings(tmp_path, "[arrange]\nprints = { rose = 6 }\n", head) == [
        "garden.toml:14: `arrange` has a place only beside a top of squares. Leave it out"
    ]


@pytest.mark.parametrize(
    ("keys", "line"),
    [
        ("rows = 2\n", "garden.toml:3: `top.columns` is missing. Give `columns` and `rows`, "),
        ("columns = 250000\nrows = 250000\n", "garden.toml:3: `top` must not have over 250,000 "),
        (
            "columns = 51\nrows = 50\n",
            "garden.toml:15: `arrange` can lay out 2,500 cells at most, ",
        ),
    ],
)
def test_grids_that_cannot_be_laid_out(tmp_path: Path, keys: str, line: str) -> None:
    """A grid of unknown size, or of more cells than a search can do, is told as such."""
    head = HEAD.replace("columns = 3\nrows = 2\n", keys)
    assert any(
        found.startswith(line)
        for found in findings(tmp_path, "[arrange]\nprints = { rose = 5000 }\n", head)
    )


def test_other_findings_of_the_project_are_told_too(tmp_path: Path) -> None:
    """A project is checked as a whole before anything is searched."""
    head = HEAD.replace("width = 2\n", "width = -2\n")
    assert findings(tmp_path, "[arrange]\nprints = { rose = 6 }\n", head) == [
        "garden.toml:9: `border.width` must be more than 0, got '-2'"
    ]


def test_chart_to_come_may_be_included_already(tmp_path: Path) -> None:
    """The file that the layout is to be written to counts as there, when prints are laid out."""
    path = written(tmp_path, 'include = ["chart.toml"]\n' + HEAD + FIXED)
    _, includes = load_to_arrange(path)
    assert includes == ("chart.toml",)


def test_fabrics_take_turns_until_a_layout_is_included(tmp_path: Path) -> None:
    """`fabrics` stand beside [arrange]: a chart that is included takes their place."""
    turns = HEAD.replace("rows = 2\n", 'rows = 2\nfabrics = ["rose", "fern"]\n')
    table = "[arrange]\nprints = { rose = 3, fern = 3 }\n"
    path = written(tmp_path, turns + table)
    rules, _ = load_to_arrange(path)
    assert (rules.columns, rules.rows) == (3, 2)
    top = load(path).top
    assert isinstance(top, Squares)
    assert top.chart == (("rose", "fern", "rose"), ("fern", "rose", "fern"))
    chart = '[top]\nchart = ["fern rose fern", "rose fern rose"]\n'
    (tmp_path / "arranged.toml").write_text(chart, encoding="utf-8")
    path = written(tmp_path, 'include = ["arranged.toml"]\n' + turns + table)
    top = load(path).top
    assert isinstance(top, Squares)
    assert top.chart == (("fern", "rose", "fern"), ("rose", "fern", "rose"))
    own = turns.replace("rows = 2\n", 'rows = 2\nchart = ["fern rose fern", "rose fern rose"]\n')
    with pytest.raises(InputError, match=r"`top\.fabrics` has no place beside a chart"):
        load(written(tmp_path, own + table))
