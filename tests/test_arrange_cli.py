"""`cutpaths arrange` as a person runs it: what is shown, what is written, how it ends."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
import tomllib
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from test_arrange_checker import alike_meetings, rules_of

from cutpaths.arrange.included import HEAD, included, quoted
from cutpaths.arrange.report import chart_lines
from cutpaths.arrange.rules import ArrangeRules, Print
from cutpaths.arrange.search import arranged
from cutpaths.cli.arrange import command
from cutpaths.errors import FileError
from cutpaths.project import load
from cutpaths.project.model import Squares

PROJECT = """\
format = 1
title = "Kitchen garden"
[top]
layout = "squares"
patch = 5
columns = {columns}
rows = {rows}
[border]
width = 2
[backing]
fabric = "rose"
[fabric]
rose = {{}}
fern = {{}}
sand = {{}}
moss = {{}}
[arrange]
corners = true
prints = {{ rose = {rose}, fern = {fern}, sand = {sand}, moss = {moss} }}
"""
RUN = "from cutpaths.cli.arrange import command; command()"


def project(folder: Path, side: int, *counts: int) -> Path:
    """A square project of four prints with so many squares each."""
    rose, fern, sand, moss = counts
    path = folder / "garden.toml"
    text = PROJECT.format(columns=side, rows=side, rose=rose, fern=fern, sand=sand, moss=moss)
    path.write_text(text, encoding="utf-8")
    return path


def run(*arguments: str | Path) -> Result:
    """Runs the command in this process."""
    return CliRunner().invoke(command, [str(each) for each in arguments], catch_exceptions=False)


def chart_of(path: Path) -> list[str]:
    """The chart that a layout's file holds, which holds nothing else."""
    table = tomllib.loads(path.read_text("utf-8"))
    assert list(table) == ["top"]
    assert list(table["top"]) == ["chart"]
    chart: list[str] = table["top"]["chart"]
    return chart


def test_layout_is_shown_and_written(tmp_path: Path) -> None:
    """On 2 x 2 the four prints stand in some order, and the words say what is kept."""
    file = tmp_path / "arranged.toml"
    result = run(project(tmp_path, 2, 1, 1, 1, 2), "-o", file, "--seconds", "0.1")
    assert result.exit_code == 0
    lines = result.stdout.splitlines()
    assert lines[0].split() == ["c1", "c2"]
    chart = [line.split()[1:] for line in lines[1:3]]
    assert sorted(chart[0] + chart[1]) == ["fern", "moss", "rose", "sand"]
    assert lines[4:] == [
        "  print squares used left nearest two alike",
        "1 rose        1    1    0 -",
        "2 fern        1    1    0 -",
        "3 sand        1    1    0 -",
        "4 moss        2    1    1 -",
        "",
        "Every rule is kept: none alike side by side or corner to corner.",
        str(file),
    ]
    assert [row.split() for row in chart_of(file)] == chart
    assert result.stderr == (
        'Note: to use it, write include = ["arranged.toml"] at the head of garden.toml.\n'
    )


def test_included_layout_is_the_projects_top(tmp_path: Path) -> None:
    """The project takes the file as its chart, and may be laid out again in place."""
    path, file = project(tmp_path, 4, 4, 4, 4, 4), tmp_path / "arranged.toml"
    run(path, "-o", file, "--seconds", "0.5")
    text = path.read_text("utf-8")
    path.write_text('include = ["arranged.toml"]\n' + text, encoding="utf-8")
    top = load(path).top
    assert isinstance(top, Squares)
    names = ["rose", "fern", "sand", "moss"]
    layout = tuple(names.index(name) for row in top.chart for name in row)
    assert alike_meetings(rules_of(4, 4, (4, 4, 4, 4)), layout) == 0
    again = run(path, "-o", file, "--seconds", "0.5", "--seed", "7")
    assert (again.exit_code, again.stderr) == (0, "")
    assert "--seed 7" in file.read_text("utf-8").splitlines()[0]


def test_broken_rules_are_listed_and_still_written(tmp_path: Path) -> None:
    """Status 1, the proof, each violation by its cells, and the same in the file's comments."""
    file = tmp_path / "arranged.toml"
    result = run(project(tmp_path, 4, 5, 4, 4, 3), "-o", file, "--seconds", "0.5")
    assert result.exit_code == 1
    words = result.stdout.split("\n\n")[2].splitlines()
    assert words[0] == (
        "Proved that no layout keeps every rule: with none alike side by side or corner to corner, "
        "rose at most 4 of the 4 x 4 cells; so the prints fill 15 of 16."
    )
    assert words[1] == "The best found breaks them in 1 place:"
    assert words[2].endswith("are both rose, corner to corner") or "side by side" in words[2]
    assert words[3] == "Proved that no layout of the squares used has fewer."
    text = file.read_text("utf-8").splitlines()
    assert text[1:6] == [f"# {line}" for line in words[:5]]
    assert len(chart_of(file)) == 4


def test_nothing_is_written_by_default(tmp_path: Path) -> None:
    """Without -o the layout is only shown."""
    result = run(project(tmp_path, 2, 1, 1, 1, 1), "--seconds", "0.1")
    assert (result.exit_code, result.stderr) == (0, "")
    assert [path.name for path in tmp_path.iterdir()] == ["garden.toml"]


def test_only_layouts_are_replaced(tmp_path: Path) -> None:
    """Another file, the project or a missing folder stops it; --force replaces the first."""
    path, other = project(tmp_path, 2, 1, 1, 1, 1), tmp_path / "notes.toml"
    other.write_text("mine = 1\n", encoding="utf-8")
    with pytest.raises(FileError) as caught:
        run(path, "-o", other)
    assert str(caught.value) == (
        f"{other} exists and is not a layout. Choose another name, or use --force to replace it"
    )
    assert other.read_text("utf-8") == "mine = 1\n"
    with pytest.raises(FileError) as caught:
        run(path, "-o", path, "--force")
    assert str(caught.value) == f"{path} is the project itself. Choose another name"
    with pytest.raises(FileError) as caught:
        run(path, "-o", tmp_path / "no" / "a.toml")
    assert str(caught.value) == (
        f"{tmp_path / 'no' / 'a.toml'} cannot be written: its folder is not there"
    )
    assert run(path, "-o", other, "--force", "--seconds", "0.1").exit_code == 0
    assert len(chart_of(other)) == 2
    assert sorted(each.name for each in tmp_path.iterdir()) == ["garden.toml", "notes.toml"]


def test_layout_elsewhere_cannot_be_included(tmp_path: Path) -> None:
    """A project includes files of its own folder only, and is told so."""
    (tmp_path / "out").mkdir()
    result = run(project(tmp_path, 2, 1, 1, 1, 1), "-o", tmp_path / "out" / "a.toml")
    assert result.stderr == "Note: only a file in the project's own folder can be included.\n"


@pytest.mark.parametrize("option", [("--seconds", "0"), ("--seed", "-1"), ("--seed", "many")])
def test_wrong_options_are_usage_errors(tmp_path: Path, option: tuple[str, str]) -> None:
    """Status 2, before the project is looked at."""
    assert run(tmp_path / "none.toml", *option).exit_code == 2


def test_same_bytes_in_fresh_processes(tmp_path: Path) -> None:
    """Hash seeds change nothing, whether swaps settle it or the solver has to."""
    for side, counts in ((6, (9, 9, 9, 9)), (10, (25, 25, 25, 25))):
        path, made = project(tmp_path, side, *counts), set()
        for seed in range(3):
            file = tmp_path / f"arranged-{seed}.toml"
            arguments = [str(path), "-o", str(file), "--seconds", "3"]
            subprocess.run(
                [sys.executable, "-c", RUN, *arguments],
                env=os.environ | {"PYTHONHASHSEED": str(seed)},
                capture_output=True,
                check=True,
            )
            made.add(file.read_bytes())
        assert len(made) == 1


@pytest.mark.skipif(os.name == "nt", reason="signals of this kind are not sent there")
def test_interrupt_keeps_the_best(tmp_path: Path) -> None:
    """Ctrl-C ends the search; the best so far is shown and written, and the status is 130."""
    path, file = project(tmp_path, 40, 400, 400, 400, 400), tmp_path / "arranged.toml"
    arguments = [str(path), "-o", str(file), "--seconds", "3000"]
    process = subprocess.Popen(
        [sys.executable, "-c", RUN, *arguments],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        encoding="utf-8",
    )
    time.sleep(2.5)
    process.send_signal(signal.SIGINT)
    shown, said = process.communicate(timeout=60)
    assert process.returncode == 130
    assert "Not known whether any layout keeps every rule: the search was interrupted." in shown
    assert said.splitlines()[0] == "Note: ended early, the search was interrupted."
    assert len(chart_of(file)) == 40


def test_wide_charts_show_prints_by_number() -> None:
    """Names that would make a line over 100 letters give way to the numbers of the table below."""
    name = "a-very-long-name-of-a-print-"
    prints = tuple(Print(f"{name}{place}", 2) for place in range(4))
    rules = ArrangeRules(columns=4, rows=2, prints=prints)
    assert list(chart_lines(rules, (0, 1, 2, 3, 1, 0, 3, 2))) == [
        "   c1 c2 c3 c4",
        "r1  1  2  3  4",
        "r2  2  1  4  3",
    ]


def test_file_is_safe_whatever_the_names() -> None:
    """Names that no project lets through still make TOML that says the same."""
    odd = 'ro"se\\\n\x7f'
    rules = ArrangeRules(columns=1, rows=1, prints=(Print(odd, 1),), corners=True)
    data = included(rules, arranged(rules, seconds=0.1), seed=1, seconds=10.0)
    assert tomllib.loads(data.decode())["top"]["chart"] == [odd]
    assert data.decode().startswith(f"{HEAD} --seed 1 --seconds 10; ")
    assert tomllib.loads(f"a = {quoted('é木')}") == {"a": "é木"}
