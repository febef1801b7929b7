"""The command line as a person meets it: each test starts a fresh process."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

FIXTURES = Path(__file__).parent.parent / "fixtures"
TIDEPOOL = str(FIXTURES / "tidepool.toml")


def _run(*arguments: str, cwd: Path, **more: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "cutpaths", *arguments],
        cwd=cwd,
        env=os.environ | more,
        capture_output=True,
        text=True,
        encoding="utf-8",
        check=False,
    )


def _files(folder: Path) -> dict[str, bytes]:
    """Every file by its path in the folder."""
    files = (path for path in sorted(folder.rglob("*")) if path.is_file())
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in files}


def test_new_figures_prove_write(tmp_path: Path) -> None:
    """A person gets from nothing to files with four commands, each of which says what it did."""
    new = _run("new", "first.toml", cwd=tmp_path)
    assert (new.returncode, new.stdout, new.stderr) == (0, "first.toml\n", "")
    figures = _run("figures", "first.toml", cwd=tmp_path)
    assert figures.stdout.splitlines()[0] == "First blanket"
    prove = _run("prove", "first.toml", cwd=tmp_path)
    assert (prove.returncode, prove.stdout.splitlines()[-1]) == (0, "All 42 checks hold.")
    write = _run("write", "first.toml", "-o", "out", cwd=tmp_path)
    assert (write.returncode, write.stderr) == (0, "")
    listed = {Path(line).relative_to("out").as_posix() for line in write.stdout.splitlines()}
    assert listed | {"cutpaths.json"} == set(_files(tmp_path / "out"))


def test_new_never_overwrites(tmp_path: Path) -> None:
    """A file that is there stays as it is."""
    (tmp_path / "mine.toml").write_text("mine", encoding="utf-8")
    run = _run("new", "mine.toml", cwd=tmp_path)
    assert (run.returncode, run.stdout) == (1, "")
    assert run.stderr == "Error: mine.toml exists. Choose another name\n"
    assert (tmp_path / "mine.toml").read_text(encoding="utf-8") == "mine"


def test_json_is_for_programs(tmp_path: Path) -> None:
    """`figures --json` prints JSON and nothing else."""
    run = _run("figures", TIDEPOOL, "--json", cwd=tmp_path)
    assert json.loads(run.stdout)["figures"]["finished.width"]["value"] == 812.8


@pytest.mark.parametrize(
    ("use", "folder", "suffixes"),
    [
        ("cad", "cad", {".dxf", ".svg"}),
        ("cutter", "machine", {".dxf", ".svg"}),
        ("projector", "projector", {".svg", ".html"}),
    ],
)
def test_one_use_at_a_time(tmp_path: Path, use: str, folder: str, suffixes: set[str]) -> None:
    """`--for` writes the files of that use only, into its folder."""
    assert _run("write", TIDEPOOL, "-o", "out", "--for", use, cwd=tmp_path).returncode == 0
    names = [Path(name) for name in _files(tmp_path / "out") if name != "cutpaths.json"]
    assert {name.suffix for name in names} == suffixes
    assert all(name.name.startswith(f"tide-pool-{use}-") for name in names)
    assert {name.parent.name for name in names} == {folder}


def test_same_input_same_bytes(tmp_path: Path) -> None:
    """Two runs, with other hash seeds and in other folders, write the same bytes."""
    for seed, folder in (("1", "a"), ("2", "b")):
        run = _run("write", TIDEPOOL, "-o", folder, cwd=tmp_path, PYTHONHASHSEED=seed)
        assert run.returncode == 0
    assert _files(tmp_path / "a") == _files(tmp_path / "b")


def test_files_of_others_are_left_alone(tmp_path: Path) -> None:
    """A folder with the files of another project is refused before anything is written."""
    assert _run("write", TIDEPOOL, "-o", "out", "--for", "cad", cwd=tmp_path).returncode == 0
    before = _files(tmp_path / "out")
    run = _run("write", str(FIXTURES / "orchard.toml"), "-o", "out", cwd=tmp_path)
    assert run.returncode == 1
    assert run.stderr == (
        "Error: out has the files of 'Tide pool'. Choose another folder, or use --force to replace"
        " files of the same name\n"
    )
    assert _files(tmp_path / "out") == before


LONG_OPENING = """format = 1
title = "T"
[top]
layout = "squares"
patch = 5
columns = 4
rows = 4
[border]
width = 2
[opening]
length = 15
"""
WIDE_BORDER = """format = 1
title = "T"
[top]
layout = "outline"
regular = { sides = 6, side = 10 }
[border]
width = { A = 1, B = 3, C = 1, D = 1, E = 1, F = 1 }
"""


def _no_room(corner: str) -> str:
    return (
        "p.toml:7: `border.width` must leave room for every miter, but corner"
        f" {corner} has a dot, or the allowance beside it, off the backing. Make the wider border"
        " next to it narrower, or the borders more alike\n"
    )


@pytest.mark.parametrize(
    ("text", "message"),
    [
        pytest.param(
            LONG_OPENING,
            "Error: p.toml:11: `opening.length` must leave 2 in sewn at each dot of side C, got"
            " 15 in. The longest opening there is 14 in\n",
            id="opening too long",
        ),
        pytest.param(
            WIDE_BORDER,
            f"Error: {_no_room('AB')}{_no_room('BC')}",
            id="border too wide beside a narrow one",
        ),
    ],
)
@pytest.mark.parametrize("command", ["figures", "prove"])
def test_what_cannot_be_made_is_one_line_a_reason(
    tmp_path: Path, command: str, text: str, message: str
) -> None:
    """Exit status 1, nothing on standard output, no traceback."""
    (tmp_path / "p.toml").write_text(text, encoding="utf-8")
    run = _run(command, "p.toml", cwd=tmp_path)
    assert (run.returncode, run.stdout, run.stderr) == (1, "", message)


def test_missing_file(tmp_path: Path) -> None:
    """A project that is not there is no usage error: exit status 1, one line."""
    run = _run("figures", "none.toml", cwd=tmp_path)
    assert (run.returncode, run.stdout) == (1, "")
    assert run.stderr == "Error: none.toml: cannot be read: no such file or directory\n"


@pytest.mark.parametrize(
    "arguments", [("sew",), ("write", TIDEPOOL), ("write", TIDEPOOL, "-o", "x", "--for", "loom")]
)
def test_wrong_usage(tmp_path: Path, arguments: tuple[str, ...]) -> None:
    """What click refuses has exit status 2, and nothing is written."""
    run = _run(*arguments, cwd=tmp_path)
    assert run.returncode == 2
    assert run.stderr.startswith("Usage: ")
    assert list(tmp_path.iterdir()) == []


def test_unwritable_folder(tmp_path: Path) -> None:
    """A file where the folder should be is one clear line."""
    (tmp_path / "taken").write_text("", encoding="utf-8")
    run = _run("write", TIDEPOOL, "-o", "taken/out", cwd=tmp_path)
    assert run.returncode == 1
    assert run.stderr == "Error: the folder taken/out cannot be made: not a directory\n"


def test_letters_without_strokes_are_reported(tmp_path: Path) -> None:
    """A title in a script that the font lacks is written, drawn as boxes, and said."""
    text = Path(TIDEPOOL).read_text(encoding="utf-8").replace("Tide pool", "海辺")
    (tmp_path / "p.toml").write_text(text, encoding="utf-8")
    run = _run("write", "p.toml", "-o", "out", "--for", "projector", cwd=tmp_path)
    assert run.returncode == 0
    assert run.stderr == "Note: no stroke letters for 海 辺; drawn as boxes.\n"
    first = Path("out") / "projector" / "blanket-projector-backing.svg"
    assert run.stdout.splitlines()[0] == str(first)


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="needs a device that is always full")
def test_a_full_output_is_one_line(tmp_path: Path) -> None:
    """No traceback where standard output takes nothing, nor where standard error does either."""
    command = [sys.executable, "-m", "cutpaths", "figures", TIDEPOOL]
    with Path("/dev/full").open("w") as full:
        run = subprocess.run(
            command, cwd=tmp_path, stdout=full, stderr=subprocess.PIPE, text=True, check=False
        )
        both = subprocess.run(command, cwd=tmp_path, stdout=full, stderr=full, check=False)
    message = "Error: the output cannot be written: no space left on device\n"
    assert (run.returncode, run.stderr, both.returncode) == (1, message, 1)


def test_a_reader_that_goes_away_ends_it_quietly(tmp_path: Path) -> None:
    """Exit status 1 and not a word where nobody reads the pipe any more."""
    reader, writer = os.pipe()
    os.close(reader)
    run = subprocess.run(
        [sys.executable, "-m", "cutpaths", "figures", TIDEPOOL],
        cwd=tmp_path,
        stdout=writer,
        stderr=subprocess.PIPE,
        text=True,
        check=False,
    )
    os.close(writer)
    assert (run.returncode, run.stderr) == (1, "")


CHARTED = """\
format = 1
title = "Pond"
include = ["chart.toml"]
[fabric.sand]
[fabric.sea]
[top]
layout = "squares"
patch = 5
[border]
width = 2
[size.small]
border.width = 1
[size.large]
top.columns = 8
"""


def test_a_size_that_its_chart_rules_out_stops_that_size_alone(tmp_path: Path) -> None:
    """The plain project and the other size are told, with a note; the size itself is an error."""
    (tmp_path / "pond.toml").write_text(CHARTED, encoding="utf-8")
    chart = '[top]\nchart = ["sand sea sand", "sea sand sea"]\n[backing]\nfabric = "sea"\n'
    (tmp_path / "chart.toml").write_text(chart, encoding="utf-8")
    told = (
        "pond.toml:14: `top.columns` must be as in the chart, 3, got 8 (with size large). "
        "Leave it out: the chart gives it"
    )
    for chosen in ((), ("--size", "small")):
        run = _run("figures", "pond.toml", *chosen, "--json", cwd=tmp_path)
        assert (run.returncode, run.stderr) == (0, "")
        found = json.loads(run.stdout)
        assert f"The table has no size large: {told}." in found["notes"]
        assert "size.small" in found["figures"]
        assert "size.large" not in found["figures"]
    assert _run("prove", "pond.toml", cwd=tmp_path).returncode == 0
    for command in ("figures", "prove"):
        run = _run(command, "pond.toml", "--size", "large", cwd=tmp_path)
        assert (run.returncode, run.stdout, run.stderr) == (1, "", f"Error: {told}\n")


def test_every_summary_fits_a_terminal_of_80_columns(tmp_path: Path) -> None:
    """The list of commands says what each does, in a whole sentence."""
    run = _run("--help", cwd=tmp_path, COLUMNS="80")
    listed = run.stdout[run.stdout.index("Commands:") :].splitlines()[1:]
    assert len(listed) == 14
    assert [line for line in listed if not line.endswith(".") or line.endswith("..")] == []
    assert max(map(len, listed)) <= 80


@pytest.mark.parametrize(
    ("arguments", "told"),
    [
        (
            ("beds", "p.toml", "p.toml", "-o", "out"),
            "is a project file, not a bed file. Start a bed",
        ),
        (("calibrate", "p.toml"), "is a project file, not a rig file. Start a rig"),
        (("figures", "b.toml"), "is a bed file, not a project file. Start a project"),
        (
            ("write", "p.toml", "-o", "out", "--rig", "b.toml"),
            "is a bed file, not a rig file. Start a rig",
        ),
    ],
)
def test_a_file_of_the_wrong_kind_is_one_line(
    arguments: tuple[str, ...], told: str, tmp_path: Path
) -> None:
    """It says which kind it is, and which command starts the right one."""
    assert _run("new", "p.toml", cwd=tmp_path).returncode == 0
    assert _run("new-bed", "b.toml", cwd=tmp_path).returncode == 0
    command = {"bed": "new-bed", "rig": "new-rig", "project": "new"}[told.split()[-1]]
    file = arguments[-1] if arguments[0] == "write" else arguments[1]
    run = _run(*arguments, cwd=tmp_path)
    assert (run.returncode, run.stdout) == (1, "")
    assert run.stderr == f"Error: {file}:1: {told} file with `cutpaths {command}`\n"
