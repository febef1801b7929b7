"""The page about machines: its examples are sound, its table of keys is whole."""

from __future__ import annotations

import re
from pathlib import Path
from typing import get_args

import msgspec
from machine_samples import SOUND

from cutpaths.formats import FORMATS
from cutpaths.machine import bed_shape
from cutpaths.machine.bed_reading import read

PAGE = (Path(__file__).parent.parent / "docs" / "machine.md").read_text(encoding="utf-8")
BLOCK = re.compile(r"^```toml (?P<kind>bed|roles)\n(?P<text>.*?)^```$", re.MULTILINE | re.DOTALL)


def test_every_example_is_sound() -> None:
    """Whole bed files are read as they stand, a table of roles beside the sound bed."""
    blocks = [(found["kind"], found["text"]) for found in BLOCK.finditer(PAGE)]
    assert [kind for kind, _ in blocks] == ["bed", "roles"]
    for kind, text in blocks:
        assert read(text if kind == "bed" else SOUND + text).name


def test_every_key_is_in_the_table() -> None:
    """No key of a bed file is left out of the page."""
    tables: dict[str, type[msgspec.Struct]] = {
        "bed": bed_shape.PlaceTable,
        "tool": bed_shape.ToolTable,
        "travel": bed_shape.TravelTable,
        "plotter": bed_shape.PlotterTable,
    }
    rows = "\n".join(line for line in PAGE.splitlines() if line.startswith("| `"))
    missing = [
        f"{table}.{field.name}"
        for table, kind in tables.items()
        for field in msgspec.structs.fields(kind)
        if not re.search(rf"`[\w.]*\b{field.name}`", rows)
    ]
    assert missing == []


def test_every_format_of_beds_is_there() -> None:
    """What a bed file may ask for is in the table of formats, on the page and in the code."""
    for name in get_args(bed_shape.FormatName):
        assert name in FORMATS
        assert f"| `{name}` |" in PAGE
