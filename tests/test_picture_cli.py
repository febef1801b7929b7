"""`cutpaths picture` as a person meets it: each test starts a fresh process."""

from __future__ import annotations

import io
import json
import os
import subprocess
import sys
from pathlib import Path

import pytest
from PIL import Image

FIXTURES = Path(__file__).parent.parent / "fixtures"
TIDEPOOL = str(FIXTURES / "tidepool.toml")
PROJECT = """\
format = 1
title = "Pond"

[fabric.reed]
swatch = { file = "reed.png", width = 3 }

[top]
layout = "squares"
patch = 5
columns = 2
rows = 3

[border]
width = 2

[opening]
length = 3
"""
MISSING = (
    "import sys\n"
    "for name in {names!r}: sys.modules[name] = None\n"
    "sys.argv = ['cutpaths', *{arguments!r}]\n"
    "from cutpaths.cli import main\n"
    "main()"
)


def _run(*arguments: str, cwd: Path, **more: str) -> subprocess.CompletedProcess[str]:
    return _python("-m", "cutpaths", *arguments, cwd=cwd, **more)


def _without(names: list[str], *arguments: str, cwd: Path) -> subprocess.CompletedProcess[str]:
    """Runs the command where some packages are not installed."""
    return _python("-c", MISSING.format(names=names, arguments=list(arguments)), cwd=cwd)


def _python(*arguments: str, cwd: Path, **more: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, *arguments],
        cwd=cwd,
        env=os.environ | more,
        capture_output=True,
        text=True,
        encoding="utf-8",
        check=False,
    )


def _names(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir()) if folder.exists() else []


def _pond(folder: Path, colour: str = "#406030") -> None:
    (folder / "pond.toml").write_text(PROJECT, encoding="utf-8")
    image = Image.new("RGB", (60, 40), colour)
    image.paste("#c0d0a0", (0, 0, 20, 30))
    image.save(folder / "reed.png")


def test_front_back_and_chart_in_both_formats(tmp_path: Path) -> None:
    """Six files for a pieced top, each said in one line, and their list."""
    run = _run("picture", TIDEPOOL, "-o", "out", cwd=tmp_path)
    assert (run.returncode, run.stderr) == (0, "")
    made = [
        f"tide-pool-picture-{name}.{form}"
        for name in ("front", "back", "chart")
        for form in ("svg", "png")
    ]
    assert run.stdout.split() == [str(Path("out") / name) for name in made]
    assert _names(tmp_path / "out") == sorted(["cutpaths.json", *made])
    with Image.open(tmp_path / "out" / "tide-pool-picture-front.png") as image:
        assert image.size[0] == 1600


def test_format_and_width(tmp_path: Path) -> None:
    """`--format` writes one format, `--width` sets the pixels of PNG."""
    run = _run("picture", TIDEPOOL, "-o", "out", "--format", "png", "--width", "300", cwd=tmp_path)
    assert run.returncode == 0
    assert {Path(name).suffix for name in _names(tmp_path / "out")} == {".png", ".json"}
    with Image.open(tmp_path / "out" / "tide-pool-picture-chart.png") as image:
        assert image.size[0] == 300


def test_pictures_and_cutting_files_share_a_folder(tmp_path: Path) -> None:
    """Neither command removes what the other has written for the same project."""
    assert _run("write", TIDEPOOL, "-o", "out", "--for", "cad", cwd=tmp_path).returncode == 0
    before = _names(tmp_path / "out")
    assert _run("picture", TIDEPOOL, "-o", "out", "--format", "svg", cwd=tmp_path).returncode == 0
    assert set(before) < set(_names(tmp_path / "out"))
    listed = json.loads((tmp_path / "out" / "cutpaths.json").read_text(encoding="utf-8"))["files"]
    assert sorted([*listed, "cutpaths.json"]) == sorted(
        path.relative_to(tmp_path / "out").as_posix()
        for path in (tmp_path / "out").rglob("*")
        if path.is_file()
    )


def test_same_input_same_bytes(tmp_path: Path) -> None:
    """With a swatch, in fresh processes with other hash seeds."""
    _pond(tmp_path)
    for seed, folder in (("1", "a"), ("2", "b")):
        run = _run(
            "picture",
            "pond.toml",
            "-o",
            folder,
            "--width",
            "300",
            cwd=tmp_path,
            PYTHONHASHSEED=seed,
        )
        assert (run.returncode, run.stderr) == (0, "")
    for name in _names(tmp_path / "a"):
        assert (tmp_path / "a" / name).read_bytes() == (tmp_path / "b" / name).read_bytes()


def test_a_swatch_is_found_beside_the_project(tmp_path: Path) -> None:
    """Wherever the command is run, the file stands in the project's folder."""
    (tmp_path / "deep").mkdir()
    _pond(tmp_path / "deep")
    project = str(Path("deep") / "pond.toml")
    run = _run("picture", project, "-o", "out", "--format", "svg", cwd=tmp_path)
    assert run.returncode == 0
    svg = (tmp_path / "out" / "pond-picture-front.svg").read_text(encoding="utf-8")
    assert svg.count("data:image/png;base64,") == 1


@pytest.mark.parametrize(
    ("edit", "told"),
    [
        (
            ('"reed.png"', '"weed.png"'),
            "pond.toml:5: `fabric.reed.swatch.file` names 'weed.png', which is not there. "
            "Put the picture beside the project file",
        ),
        (
            ('"reed.png"', '"pond.png"'),
            "pond.toml:5: `fabric.reed.swatch.file` must be a picture, 'pond.png' is not a sound "
            "one. Give a PNG or JPEG file",
        ),
        (
            ('"reed.png"', '"../reed.png"'),
            "pond.toml:5: `fabric.reed.swatch.file` must be a PNG or JPEG file in the folder of "
            "the project, such as \"sand.png\", got '../reed.png'",
        ),
        (
            ("width = 3 }", 'width = "2 mm" }'),
            "pond.toml:5: `fabric.reed.swatch.width` must be at least 5 mm, got 2 mm. "
            "Give the width of cloth that the picture shows",
        ),
        (
            (", width = 3 }", " }"),
            "pond.toml:5: `fabric.reed.swatch.width` is missing. Write for example `width = 5`",
        ),
        (
            ("swatch = {", 'colour = "reed green"\nswatch = {'),
            'pond.toml:5: `fabric.reed.colour` must be a colour such as "#3a879c", '
            "got 'reed green'",
        ),
    ],
)
def test_bad_swatches_and_colours_are_one_clear_line(
    tmp_path: Path, edit: tuple[str, str], told: str
) -> None:
    """File, line, key, what is wrong, what would be right; nothing is written."""
    _pond(tmp_path)
    (tmp_path / "pond.png").write_text("no picture", encoding="utf-8")
    assert PROJECT.count(edit[0]) == 1
    (tmp_path / "pond.toml").write_text(PROJECT.replace(*edit), encoding="utf-8")
    run = _run("picture", "pond.toml", "-o", "out", "--format", "svg", cwd=tmp_path)
    assert (run.returncode, run.stdout) == (1, "")
    assert run.stderr == f"Error: {told}\n"
    assert _names(tmp_path / "out") == []


def test_the_base_install_draws_svg_of_plain_colours(tmp_path: Path) -> None:
    """Without the extra, SVG of a project without swatches works."""
    run = _without(
        ["PIL", "resvg_py"], "picture", TIDEPOOL, "-o", "out", "--format", "svg", cwd=tmp_path
    )
    assert (run.returncode, run.stderr) == (0, "")
    assert len(_names(tmp_path / "out")) == 4


@pytest.mark.parametrize(
    ("names", "project", "told"),
    [
        (
            ["resvg_py"],
            TIDEPOOL,
            "PNG needs the extra `pictures`: run .venv/bin/pip install '.[pictures]' in the folder "
            "of cutpaths, or ask for SVG alone",
        ),
        (
            ["PIL"],
            "pond.toml",
            "swatches need the extra `pictures`: run .venv/bin/pip install '.[pictures]' in the "
            "folder of cutpaths",
        ),
    ],
)
def test_a_missing_extra_is_one_clear_line(
    tmp_path: Path, names: list[str], project: str, told: str
) -> None:
    """It says what to install, and nothing is written."""
    _pond(tmp_path)
    run = _without(names, "picture", project, "-o", "out", cwd=tmp_path)
    assert (run.returncode, run.stdout, run.stderr) == (1, "", f"Error: {told}\n")
    assert _names(tmp_path / "out") == []


def test_other_commands_do_not_look_at_swatches(tmp_path: Path) -> None:
    """A project whose swatch is missing is still cut and proved; a note says what is missing."""
    (tmp_path / "pond.toml").write_text(PROJECT, encoding="utf-8")
    run = _without(
        ["PIL", "resvg_py"], "write", "pond.toml", "-o", "out", "--for", "cad", cwd=tmp_path
    )
    assert (run.returncode, run.stderr) == (
        0,
        "Note: The swatch of reed, reed.png, is not in the folder of the project: pictures cannot"
        " be drawn without it.\n",
    )


def test_help_loads_nothing_heavy() -> None:
    """`cutpaths picture --help` loads neither the extra nor a writer."""
    code = (
        "import sys\nfrom cutpaths.cli import cli\n"
        "cli.main(['picture', '--help'], standalone_mode=False)\n"
        "print('\\n'.join(sys.modules), file=sys.stderr)"
    )
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    loaded = set(run.stderr.split())
    assert loaded & {"PIL", "resvg_py", "svgwrite", "shapely", "ezdxf", "numpy"} == set()
    assert {name for name in loaded if name.startswith(("cutpaths.sheets", "cutpaths.w"))} == set()


def test_letters_that_cannot_be_drawn_are_said(tmp_path: Path) -> None:
    """A title in letters that the font lacks is drawn as boxes, and a note says so."""
    _pond(tmp_path)
    text = PROJECT.replace('"Pond"', '"木 pond"')
    (tmp_path / "pond.toml").write_text(text, encoding="utf-8")
    run = _run("picture", "pond.toml", "-o", "out", "--width", "200", cwd=tmp_path)
    assert (run.returncode, run.stderr) == (0, "Note: no stroke letters for 木; drawn as boxes.\n")
    with Image.open(io.BytesIO((tmp_path / "out" / "pond-picture-back.png").read_bytes())) as image:
        assert image.size[0] == 200
