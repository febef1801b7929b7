"""Files of a small blanket as they were when a person last read them, tag by tag.

When a change of what is drawn is meant, write them anew and read the difference before keeping it:

    python tests/test_golden.py --write
"""

from __future__ import annotations

import argparse
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from cutpaths.drawing import Document
from cutpaths.formats import FORMATS
from cutpaths.pieces import build
from cutpaths.project import load
from cutpaths.sheets.sheet import Wishes
from cutpaths.sheets.uses import outputs

GOLDEN = Path(__file__).parent.parent / "fixtures" / "golden"
SHEET = "cutter-corner-template"
SECTIONS = ("BLOCKS", "ENTITIES")
# Handles of entities and of their owners: the library numbers all that it writes, also elsewhere.
HANDLES = (5, 330)


def _document() -> Document:
    """The corner template of the small blanket."""
    kit = build(load(GOLDEN / "pebble.toml"))
    (found,) = (o for o in outputs(kit, ["cutter"], Wishes()) if o.name == SHEET)
    return found.document


def svg_text() -> str:
    """The whole SVG file, an element a line."""
    return FORMATS["svg"].render(_document()).decode().replace("><", ">\n<")


def dxf_text() -> str:
    """Blocks and entities of the DXF file, a tag a line; the rest is as the library has it."""
    return "".join(
        f"{code:3} {value}\n" for code, value in _tags(FORMATS["dxf"].render(_document()))
    )


def _tags(data: bytes) -> Iterator[tuple[int, str]]:
    """The tags of both sections, without handles."""
    lines = data.decode().splitlines()
    section, before = "", (0, "")
    for code, value in zip(map(int, lines[::2]), lines[1::2], strict=True):
        if before == (0, "SECTION"):
            section = value
        if section in SECTIONS and code not in HANDLES:
            yield code, value
        if (code, value) == (0, "ENDSEC"):
            section = ""
        before = code, value


FILES: dict[str, Callable[[], str]] = {
    "pebble-corner-template.svg": svg_text,
    "pebble-corner-template.dxf.txt": dxf_text,
}


@pytest.mark.parametrize("name", FILES)
def test_files_are_as_they_were(name: str) -> None:
    """What is written is just what was read and kept."""
    assert FILES[name]() == (GOLDEN / name).read_text(encoding="utf-8")


def main() -> None:
    """Writes the kept files anew, if that is asked for."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--write", action="store_true", required=True)
    parser.parse_args()
    for name, text in FILES.items():
        (GOLDEN / name).write_text(text(), encoding="utf-8")


if __name__ == "__main__":
    main()
