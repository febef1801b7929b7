"""A file of another kind is told as that in one line, by its tables."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from cutpaths.errors import InputError
from cutpaths.machine.bed_reading import load as load_bed
from cutpaths.project import load
from cutpaths.projector.rig_reading import load as load_rig

FIXTURES = Path(__file__).parent.parent / "fixtures"
LOADS: dict[str, Callable[[Path], object]] = {"project": load, "bed": load_bed, "rig": load_rig}
START = {"project": "new", "bed": "new-bed", "rig": "new-rig"}
FILES = {
    "project": [FIXTURES / "tidepool.toml", FIXTURES / "fjord.toml"],
    "bed": sorted((FIXTURES / "beds").glob("*.toml")),
    "rig": sorted((FIXTURES / "rigs").glob("*.toml")),
}
CASES = [
    (given, asked, path)
    for given, paths in FILES.items()
    for path in paths
    for asked in LOADS
    if asked != given
]


@pytest.mark.parametrize(("given", "asked", "path"), CASES)
def test_a_file_of_another_kind(given: str, asked: str, path: Path) -> None:
    """One line says which kind it is, which is asked for, and how to start one."""
    with pytest.raises(InputError) as caught:
        LOADS[asked](path)
    assert str(caught.value) == (
        f"{path.name}:1: is a {given} file, not a {asked} file. "
        f"Start a {asked} file with `cutpaths {START[asked]}`"
    )


def test_every_kind_of_file_is_tried() -> None:
    """There are files of each kind, so that none goes untried."""
    assert {given for given, _, _ in CASES} == set(LOADS)


def test_a_file_with_a_table_of_its_own_is_of_its_kind(tmp_path: Path) -> None:
    """A project with tables of a bed is a project with unknown keys."""
    file = tmp_path / "pond.toml"
    file.write_text('format = 1\ntitle = "Pond"\n[bed]\n[tool]\n')
    with pytest.raises(InputError) as caught:
        load(file)
    assert "pond.toml:3: `bed` is not a known key" in str(caught.value)
    assert "is a bed file" not in str(caught.value)
