"""`cutpaths write` with everything: the folder that a shop hands over."""

from __future__ import annotations

import csv
import html
import io
import json
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest
from pypdfium2 import PdfDocument

FIXTURES = Path(__file__).parent.parent / "fixtures"
TIDEPOOL = str(FIXTURES / "tidepool.toml")
PLAIN = """\
format = 1
title = "Pond"
[top]
layout = "squares"
patch = 5
columns = 3
rows = 3
[border]
width = 2
"""


def _run(*arguments: str, cwd: Path) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "cutpaths", *arguments],
        cwd=cwd,
        capture_output=True,
        text=True,
        encoding="utf-8",
        check=False,
    )


def _files(folder: Path) -> set[str]:
    found = (path for path in folder.rglob("*") if path.is_file())
    return {path.relative_to(folder).as_posix() for path in found}


@pytest.fixture(scope="module")
def everything(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of the example, with everything."""
    folder = tmp_path_factory.mktemp("all")
    run = _run("write", TIDEPOOL, "-o", "out", cwd=folder)
    assert run.returncode == 0, run.stderr
    return folder / "out"


def test_everything_in_its_folder(everything: Path) -> None:
    """Each use has its folder; the page and the list stand beside them."""
    files = _files(everything)
    assert {name for name in files if "/" not in name} == {"index.html", "cutpaths.json"}
    assert {
        "paper/tide-pool-booklet.pdf",
        "paper/tide-pool-kit-list.pdf",
        "paper/tide-pool-kit-list.csv",
        "paper/tide-pool-labels.pdf",
        "paper/tide-pool-pages.pdf",
        "pictures/tide-pool-picture-front.svg",
        "pictures/tide-pool-picture-back.svg",
        "pictures/tide-pool-picture-chart.svg",
        "cloth/tide-pool-cloth.csv",
        "cloth/tide-pool-cloth.json",
        "cloth/tide-pool-cloth-stripe-1.svg",
        "projector/tide-pool-projector-page.html",
        "projector/tide-pool-projector-backing.svg",
        "machine/tide-pool-cutter-all-3.dxf",
        "cad/tide-pool-cad-pieces.dxf",
        "records/tide-pool-figures.json",
        "records/tide-pool-proof.csv",
    } <= files
    listed = json.loads((everything / "cutpaths.json").read_text(encoding="utf-8"))["files"]
    assert listed.keys() | {"cutpaths.json"} == files


def test_the_page_leads_to_every_file(everything: Path) -> None:
    """Its links are the files of the folder, each once, without itself and the list."""
    text = (everything / "index.html").read_text(encoding="utf-8")
    links = [link for link in re.findall(r'href="([^"]*)"', text) if not link.startswith("#")]
    assert sorted(links) == sorted(_files(everything) - {"index.html", "cutpaths.json"})


def test_records_are_what_the_other_commands_print(everything: Path, tmp_path: Path) -> None:
    """The figures are those of `figures --json`, the checks those of `prove`."""
    figures = json.loads((everything / "records/tide-pool-figures.json").read_text("utf-8"))
    printed = json.loads(_run("figures", TIDEPOOL, "--json", cwd=tmp_path).stdout)
    assert figures["figures"] == printed["figures"]
    text = (everything / "records/tide-pool-proof.csv").read_bytes().decode("utf-8")
    rows = list(csv.DictReader(io.StringIO(text, newline=""), strict=True))
    last = _run("prove", TIDEPOOL, cwd=tmp_path).stdout.splitlines()[-1]
    assert last == f"All {len(rows)} checks hold."
    assert {row["holds"] for row in rows} == {"yes"}


def test_the_cloth_is_that_of_its_command(everything: Path, tmp_path: Path) -> None:
    """Bought and cut as `cutpaths cloth` says unasked."""
    made = json.loads((everything / "cloth/tide-pool-cloth.json").read_text("utf-8"))
    printed = json.loads(_run("cloth", TIDEPOOL, "--json", cwd=tmp_path).stdout)
    assert made["fabrics"] == printed["fabrics"]


def test_a_second_run_replaces_and_a_changed_project_tidies_up(tmp_path: Path) -> None:
    """One use again leaves the rest; once the project is another, what is out of date goes."""
    project = tmp_path / "pond.toml"
    project.write_text(PLAIN, encoding="utf-8")
    assert _run("write", "pond.toml", "-o", "out", cwd=tmp_path).returncode == 0
    before = _files(tmp_path / "out")
    assert _run("write", "pond.toml", "-o", "out", "--for", "cad", cwd=tmp_path).returncode == 0
    assert _files(tmp_path / "out") == before
    project.write_text(PLAIN.replace("width = 2", "width = 3"), encoding="utf-8")
    assert _run("write", "pond.toml", "-o", "out", "--for", "cad", cwd=tmp_path).returncode == 0
    assert _files(tmp_path / "out") == {
        "cutpaths.json",
        "cad/pond-cad-pieces.dxf",
        "cad/pond-cad-pieces.svg",
    }
    assert sorted(path.name for path in (tmp_path / "out").iterdir()) == ["cad", "cutpaths.json"]


def test_letters_that_no_font_has_leave_out_the_papers(tmp_path: Path) -> None:
    """All else is made; the page and the notes say what is missing and why."""
    project = tmp_path / "pond.toml"
    project.write_text(PLAIN.replace("Pond", "海辺"), encoding="utf-8")
    run = _run("write", "pond.toml", "-o", "out", cwd=tmp_path)
    assert run.returncode == 0, run.stderr
    names = ("booklet", "kit-list", "labels", "pages", "pages-top")
    left_out = (
        f"{', '.join(f'paper/blanket-{name}.pdf' for name in names)} are left out. "
        "`title`: PDF pages have no letters for 海 辺. Write it in Latin, Greek or Cyrillic "
        "letters, or leave out the uses that have PDF: booklet, labels, pages"
    )
    assert run.stderr.splitlines() == [
        f"Note: {left_out}",
        "Note: no stroke letters for 海 辺; drawn as boxes.",
    ]
    files = _files(tmp_path / "out")
    assert "machine/blanket-cutter-backing.dxf" in files
    assert not any(name.endswith(".pdf") for name in files)
    page = (tmp_path / "out" / "index.html").read_text(encoding="utf-8")
    assert html.unescape(page).count(left_out) == 1
    asked = _run("write", "pond.toml", "-o", "some", "--for", "labels", cwd=tmp_path)
    assert asked.returncode == 1
    assert asked.stderr.startswith("Error: `title`: PDF pages have no letters for 海 辺")
    assert not (tmp_path / "some").exists()


SWATCH = '[fabric.reed]\nswatch = { file = "reed.png", width = 3 }\n'


def test_a_missing_swatch_leaves_out_what_needs_it(tmp_path: Path) -> None:
    """A picture of cloth that is not there keeps nobody from cutting; asked for, it is an error."""
    (tmp_path / "pond.toml").write_text(PLAIN + SWATCH, encoding="utf-8")
    run = _run("write", "pond.toml", "-o", "out", cwd=tmp_path)
    assert run.returncode == 0, run.stderr
    told = (
        "pond.toml:11: `fabric.reed.swatch.file` names 'reed.png', which is not there. "
        "Put the picture beside the project file"
    )
    assert f"Note: the files for 'pictures' are left out. {told}" in run.stderr.splitlines()
    assert "machine/pond-cutter-backing.dxf" in _files(tmp_path / "out")
    asked = _run("write", "pond.toml", "-o", "some", "--for", "pictures", cwd=tmp_path)
    assert (asked.returncode, asked.stderr) == (1, f"Error: {told}\n")
    assert not (tmp_path / "some").exists()


@pytest.mark.parametrize(
    ("paper", "told"),
    [
        (
            "a9",
            "must be a0, a1, a2, a3, a4, ledger, legal, letter, or the width of a roll such as"
            " 36 in or 610 mm, got 'a9'",
        ),
        ("36", "must be a0, a1"),
        ("5 in", "must be a roll from 200 mm to 2 m wide, got '5 in'"),
    ],
)
def test_an_unknown_paper_is_wrong_usage(tmp_path: Path, paper: str, told: str) -> None:
    """Status 2, what would be right, and nothing is written."""
    run = _run("write", TIDEPOOL, "-o", "out", "--paper", paper, cwd=tmp_path)
    assert run.returncode == 2
    assert f"Error: Invalid value for --paper: {told}" in run.stderr
    assert list(tmp_path.iterdir()) == []


def test_a_printers_white_edge_is_asked_for(tmp_path: Path) -> None:
    """Pages keep a wider white edge free; one too wide is wrong usage, and nothing is written."""
    run = _run(
        "write", TIDEPOOL, "-o", "out", "--for", "pages", "--print-margin", "12 mm", cwd=tmp_path
    )
    assert run.returncode == 0, run.stderr
    pdf = PdfDocument(tmp_path / "out" / "paper" / "tide-pool-pages.pdf")
    lefts = [min(thing.get_bounds()[0] for thing in page.get_objects()) for page in pdf]
    points = 12 * 72 / 25.4
    assert min(lefts) > points - 2.5  # half a line's width, and more at an acute corner
    wrong = _run("write", TIDEPOOL, "-o", "some", "--print-margin", "2 in", cwd=tmp_path)
    assert wrong.returncode == 2
    told = "Error: Invalid value for --print-margin: must be a margin from 0 to 25 mm, got '2 in'"
    assert told in wrong.stderr
    assert not (tmp_path / "some").exists()


def test_a_file_in_a_folders_place_stops_it(tmp_path: Path) -> None:
    """Nothing is written where a folder inside cannot be made, and the line says which."""
    (tmp_path / "out").mkdir()
    (tmp_path / "out" / "cad").write_text("mine", encoding="utf-8")
    run = _run("write", TIDEPOOL, "-o", "out", "--for", "cad", "--for", "records", cwd=tmp_path)
    assert (run.returncode, run.stdout) == (1, "")
    assert run.stderr == "Error: cad in out is not a folder. Choose another folder\n"
    assert _files(tmp_path / "out") == {"cad"}


@pytest.mark.skipif(os.name == "nt" or os.getuid() == 0, reason="root may write everywhere")
def test_a_folder_that_takes_nothing_is_one_line(tmp_path: Path) -> None:
    """No traceback, and no file or folder is left."""
    (tmp_path / "out").mkdir(mode=0o500)
    run = _run("write", TIDEPOOL, "-o", "out", "--for", "cad", cwd=tmp_path)
    assert run.returncode == 1
    assert run.stderr == "Error: the folder out/cad cannot be made: permission denied\n"


def test_a_file_that_is_damaged_on_its_way_stops_everything(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A format that may be left out for its letters is still read back."""
    from click.testing import CliRunner

    from cutpaths.cli.write import command
    from cutpaths.errors import DrawingError
    from cutpaths.writers import table

    monkeypatch.setattr(table, "render", lambda _document: b"wrong\r\n")
    with pytest.raises(DrawingError, match="kit-list as csv reads back differently"):
        CliRunner().invoke(command, [TIDEPOOL, "-o", str(tmp_path / "out")], catch_exceptions=False)
    assert not (tmp_path / "out").exists()


def test_help_names_everything_and_loads_nothing() -> None:
    """`write --help` loads no sheet, no rig and no writer."""
    code = (
        "import sys\nfrom cutpaths.cli import cli\n"
        "cli.main(['write', '--help'], standalone_mode=False)\n"
        "print('\\n'.join(sys.modules), file=sys.stderr)"
    )
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    loaded = run.stderr.split()
    heavy = ("cutpaths.sheets", "cutpaths.projector", "cutpaths.writers", "cutpaths.proof")
    assert [name for name in loaded if name.startswith(heavy)] == []


def test_a_rig_is_loaded_only_when_asked_for(tmp_path: Path) -> None:
    """Without `--rig` nothing reads rig files."""
    code = (
        "import sys\nfrom cutpaths.cli import cli\n"
        f"cli.main(['write', {TIDEPOOL!r}, '-o', 'out', '--for', 'cad'], standalone_mode=False)\n"
        "print('\\n'.join(sys.modules), file=sys.stderr)"
    )
    run = subprocess.run(
        [sys.executable, "-c", code], cwd=tmp_path, capture_output=True, text=True, check=True
    )
    assert "cutpaths.projector.rig_reading" not in run.stderr.split()


def test_a_backing_that_must_be_joined_is_told(tmp_path: Path) -> None:
    """What the cutting plan advises stands among the notes, of the command and of the page."""
    wide = PLAIN.replace("columns = 3", "columns = 10").replace("rows = 3", "rows = 10")
    (tmp_path / "pond.toml").write_text(wide, encoding="utf-8")
    run = _run("write", "pond.toml", "-o", "out", cwd=tmp_path)
    assert run.returncode == 0, run.stderr
    (note,) = [line for line in run.stderr.splitlines() if "`join = { seams = 1, run = " in line]
    page = (tmp_path / "out" / "index.html").read_text(encoding="utf-8")
    assert f"<li>{html.escape(note.removeprefix('Note: '))}</li>" in page
