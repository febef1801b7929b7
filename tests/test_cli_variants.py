"""Sizes and colorways on the command line."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

LIGHTHOUSE = Path(__file__).parents[1] / "fixtures" / "lighthouse.toml"


def _run(*words: str) -> tuple[int, str]:
    command = [sys.executable, "-m", "cutpaths", *words]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    return done.returncode, done.stdout + done.stderr


def test_figures_take_a_size() -> None:
    """The figures are those of the size, and the table of all sizes stands at their end."""
    code, text = _run("figures", str(LIGHTHOUSE), "--size", "large")
    assert code == 0
    lines = [" ".join(line.split()) for line in text.splitlines()]
    assert "finished blanket, across 44 in (1117.6 mm)" in lines
    assert lines[lines.index("All colorways") :] == [
        "All colorways",
        "as it stands Fog solid, Brick red, Tide blue, Rope stripe",
        "dusk Dusk lilac, Plum, Tide blue, Rope stripe",
    ]


def test_prove_takes_both() -> None:
    """A size and a colorway together are proved like the file as it stands."""
    code, text = _run("prove", str(LIGHTHOUSE), "--size", "large", "--colorway", "dusk")
    assert code == 0
    assert text.splitlines()[-1].endswith("checks hold.")


def test_unknown_size_is_one_line() -> None:
    """A size that the file does not declare is told with the line of its sizes."""
    code, text = _run("figures", str(LIGHTHOUSE), "--size", "vast")
    assert code == 1
    assert text == (
        "Error: lighthouse.toml:50: `size` must be a declared one, got 'vast'. Declared are large\n"
    )


def test_files_are_named_after_the_size(tmp_path: Path) -> None:
    """Files of a size have its name, so that they lie beside those of another."""
    code, _ = _run("write", str(LIGHTHOUSE), "-o", str(tmp_path), "--for", "cad", "--size", "large")
    assert code == 0
    found = sorted(path.name for path in tmp_path.rglob("*.*"))
    assert found == [
        "cutpaths.json",
        "lighthouse-large-cad-pieces.dxf",
        "lighthouse-large-cad-pieces.svg",
    ]


def test_sizes_in_one_folder_have_a_page_each(tmp_path: Path) -> None:
    """The page of a size leads to its own files, and leaves that of another size alone."""
    for size in ((), ("--size", "large")):
        code, said = _run("write", str(LIGHTHOUSE), "-o", str(tmp_path), *size)
        assert code == 0, said
    pages = {path.name: path.read_text(encoding="utf-8") for path in tmp_path.glob("*.html")}
    assert sorted(pages) == ["index-large.html", "index.html"]
    assert 'href="cad/lighthouse-large-cad-pieces.dxf"' in pages["index-large.html"]
    assert 'href="cad/lighthouse-cad-pieces.dxf"' in pages["index.html"]
