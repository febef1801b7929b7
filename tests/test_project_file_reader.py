"""Files beside a project: each stage ends with all that it finds wrong, file and line named."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from cutpaths.errors import FileError, InputError
from cutpaths.lengths import Unit
from cutpaths.project.file_reader import FileReader
from cutpaths.project.flaws import Flaw
from cutpaths.project.kinds import Length, Table, Text


class ShelfTable(Table, frozen=True):
    """A shelf, as small as a file can be."""

    name: Text
    width: Length
    depth: Length
    units: Unit = Unit.INCH


def _flaws(file: ShelfTable) -> Iterator[Flaw]:
    if file.depth > file.width:
        yield Flaw(("depth",), "must not be more than `width`", "Turn the shelf")


SHELVES = FileReader(ShelfTable, _flaws, lambda file, digest: (file.name, digest[:6]), "shelf")
SOUND = 'name = "Oak"\nwidth = 40\ndepth = 10\n'


def test_a_sound_file_is_settled(tmp_path: Path) -> None:
    """The value comes from the tables and the digest, the same from a file and from its text."""
    file = tmp_path / "oak.toml"
    file.write_text(SOUND)
    assert SHELVES.load(file) == SHELVES.read(SOUND) == ("Oak", SHELVES.read(SOUND)[1])
    assert len(SHELVES.read(SOUND)[1]) == 6


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ("name =", "shelf:1: is not TOML: invalid value"),
        (SOUND.replace("40", "-1"), "shelf:2: `width` must be more than 0, got '-1'"),
        (SOUND.replace("40", "4"), "shelf:3: `depth` must not be more than `width`. Turn the"),
    ],
)
def test_each_stage_stops_with_its_line(text: str, line: str) -> None:
    """Text, shape, rules, in this order."""
    with pytest.raises(InputError) as caught:
        SHELVES.read(text)
    assert str(caught.value).startswith(line)
    with pytest.raises(InputError) as caught:
        SHELVES.read(text, name="oak.toml")
    assert str(caught.value).startswith(line.replace("shelf:", "oak.toml:"))


def test_a_file_that_is_not_there(tmp_path: Path) -> None:
    """One line names it."""
    with pytest.raises(FileError, match=r"none\.toml: cannot be read: no such file"):
        SHELVES.load(tmp_path / "none.toml")
