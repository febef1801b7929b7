"""From a rig file to a checked `Rig`, in the stages of a project file: text, shape, rules."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import TYPE_CHECKING

from cutpaths import source
from cutpaths.errors import InputError
from cutpaths.lengths import unit_of
from cutpaths.project.file_reader import FileReader
from cutpaths.projector.rig import Distance, Lens, Position, Rig, usual_inset
from cutpaths.projector.rig_rules import USUAL_MARGIN, rig_flaws, within_of
from cutpaths.projector.rig_shape import LensTable, RigTable
from cutpaths.values import replace

if TYPE_CHECKING:
    from pathlib import Path

    from cutpaths.source import Source


def placed(error: InputError, path: Path) -> InputError:
    """The same error of a later stage, with the file and line of each key."""
    text = source.load(path)
    found = []
    for finding in error.findings:
        table, _, key = finding.key.partition(".")
        file, line = text.place(tuple(filter(None, (table, key))) or ("distances",))
        found.append(replace(finding, file=file, line=line))
    return InputError(*found)


def _settled(file: RigTable, digest: str) -> Rig:
    picture = file.picture
    crosses = (name.split("-") for name in file.distances)
    margin = file.cloth.margin
    return Rig(
        name=file.name,
        digest=digest,
        unit=file.units,
        width=picture.width,
        height=picture.height,
        columns=picture.columns,
        rows=picture.rows,
        inset=picture.inset or usual_inset(picture.width, picture.height),
        within=within_of(file),
        margin=USUAL_MARGIN if margin is None else margin,
        thickness=file.cloth.thickness or Fraction(0),
        lens=_lens(file.lens),
        distances=tuple(
            Distance(int(first), int(second), mm)
            for (first, second), mm in zip(crosses, file.distances.values(), strict=True)
        ),
        positions=tuple(Position(int(name), *place) for name, place in file.positions.items()),
    )


def _lens(table: LensTable | None) -> Lens | None:
    if table is None:
        return None
    return Lens(table.height, tuple((int(name), mm) for name, mm in table.distances.items()))


_FILE = FileReader(RigTable, rig_flaws, _settled, "rig")


def load(path: Path) -> Rig:
    """Reads and checks a rig file.

    Raises:
        FileError: it cannot be read.
        InputError: something in it cannot be used; it carries every finding of its stage.
    """
    return _with_units(_FILE.load(path), source.load(path))


def read(text: str, *, name: str = "rig") -> Rig:
    """Reads and checks a rig from its text; findings give `name` as its file.

    Raises:
        InputError: something in it cannot be used; it carries every finding of its stage.
    """
    return _with_units(_FILE.read(text, name=name), source.read(text, name))


def _with_units(rig: Rig, text: Source) -> Rig:
    """The rig with the unit of each reading that has one of its own."""
    match text.table.get("distances"):
        case Mapping() as written:
            units = {name: unit_of(value, rig.unit) for name, value in written.items()}
        case _:
            return rig
    own = {name: unit for name, unit in units.items() if unit != rig.unit}
    return replace(rig, distances=tuple(replace(d, unit=own.get(d.name)) for d in rig.distances))
