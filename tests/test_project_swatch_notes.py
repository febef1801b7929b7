"""Swatches that are not where a project says."""

from __future__ import annotations

from pathlib import Path

from cutpaths.project import load, load_variants, read

TEXT = """format = 1
title = "Pond"
[fabric.sand]
swatch = { file = "sand.png", width = 5 }
[top]
layout = "panel"
cut = { width = 30, height = 36 }
[border]
width = 2
[size.large]
border.width = 3
"""
NOTE = (
    "The swatch of sand, sand.png, is not in the folder of the project: "
    "pictures cannot be drawn without it."
)


def test_a_missing_swatch_is_a_note(tmp_path: Path) -> None:
    """A file of that name in the folder of the project ends it; a folder does not."""
    path = tmp_path / "pond.toml"
    path.write_text(TEXT, encoding="utf-8")
    assert load(path).notes == (NOTE,)
    assert [each.notes for each in load_variants(path)] == [(NOTE,), (NOTE,)]
    (tmp_path / "sand.png").mkdir()
    assert load(path).notes == (NOTE,)
    (tmp_path / "sand.png").rmdir()
    (tmp_path / "sand.png").write_bytes(b"any")
    assert load(path).notes == ()


def test_a_text_has_no_folder() -> None:
    """A project that is given as text cannot tell where its swatches are."""
    assert read(TEXT).notes == ()


def test_a_name_that_no_file_can_have_is_a_note(tmp_path: Path) -> None:
    """A name too long for the file system is just not there."""
    name = "\N{CJK UNIFIED IDEOGRAPH-6728}" * 100 + ".png"
    path = tmp_path / "pond.toml"
    path.write_text(TEXT.replace("sand.png", name), encoding="utf-8")
    assert load(path).notes == (NOTE.replace("sand.png", name),)
