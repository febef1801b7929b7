"""From a rig file to a checked `Rig`, in the stages of a project file: text, shape, rules."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from cutpaths import source
from cutpaths.errors import InputError
from cutpaths.project.file_reader import FileReader
from cutpaths.projector.rig import Distance, Lens, Position, Rig, usual_inset
from cutpaths.projector.rig_rules import USUAL_MARGIN, rig_flaws, within_of
from cutpaths.projector.rig_shape import LensTable, RigTable
from cutpaths.values import replace

if TYPE_CHECKING:
    from pathlib import Path


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
load = _FILE.load
read = _FILE.read
