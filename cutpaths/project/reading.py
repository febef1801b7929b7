"""From a project file to a checked `Project`, stage by stage.

Each stage tells all that it finds wrong and ends there: the text, the shape of its tables, the
rules of each table, the border that needs the top.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from cutpaths import source
from cutpaths.errors import Finding, InputError
from cutpaths.project.arranging import arrange_flaws, arrange_of
from cutpaths.project.border_rules import border_flaws
from cutpaths.project.borders import Edge, along, borders_of, edge_of
from cutpaths.project.fabrics import backing_fabric, fabric_flaws, fabrics_of
from cutpaths.project.fill import fill
from cutpaths.project.flaws import Flaw, stop_at
from cutpaths.project.layout_rules import stray_flaws
from cutpaths.project.layout_shape import PatchesTable
from cutpaths.project.measured_rules import measured_flaws
from cutpaths.project.model import Opening, Project, Top
from cutpaths.project.notes import notes_of
from cutpaths.project.pattern_rules import pattern_flaws, pattern_of
from cutpaths.project.prints import ArrangeRules
from cutpaths.project.rules import (
    filling_flaws,
    filling_of,
    head_flaws,
    opening_flaws,
    ruler_of,
)
from cutpaths.project.seams import Seams, seam_flaws, seams_of
from cutpaths.project.shape import FileTable
from cutpaths.project.stand_in import with_chart, without_turns
from cutpaths.project.stock_rules import join_of
from cutpaths.project.swatch_notes import with_swatch_notes
from cutpaths.project.tops import top_flaws, top_of
from cutpaths.project.variants import chosen, variants_of
from cutpaths.source import Source
from cutpaths.values import replace

if TYPE_CHECKING:
    from pathlib import Path


def load(path: Path, *, size: str | None = None, colorway: str | None = None) -> Project:
    """Reads and checks a project file, with the files that it includes.

    Args:
        path: the file.
        size: name of a table [size.NAME] that overrides parts of it.
        colorway: name of a table [colorway.NAME] that does; it wins over the size.

    Raises:
        FileError: the file cannot be read.
        InputError: something in it cannot be used; it carries every finding of its stage.
    """
    return with_swatch_notes(_project(source.load(path), size, colorway), path.parent)


def read(
    text: str, *, name: str = "project", size: str | None = None, colorway: str | None = None
) -> Project:
    """Reads and checks a project from text; findings give `name` as its file.

    Raises:
        InputError: something in it cannot be used; it carries every finding of its stage.
    """
    return _project(source.read(text, name), size, colorway)


def load_variants(path: Path) -> tuple[Project, ...]:
    """A project as it stands, then in each of its sizes, then in each of its colorways.

    Raises:
        FileError: the file cannot be read.
        InputError: something in it, or in one of them, cannot be used.
    """
    text = source.load(path)
    known = variants_of(text)
    projects = (
        _project(text, None, None),
        *(_project(text, size, None) for size in known.sizes),
        *(_project(text, None, colorway) for colorway in known.colorways),
    )
    return tuple(with_swatch_notes(project, path.parent) for project in projects)


def load_sound_variants(path: Path) -> tuple[tuple[Project, ...], tuple[str, ...]]:
    """The same without the sizes and colorways that cannot be used, and a note on each of those.

    Raises:
        FileError: the file cannot be read.
        InputError: something in it cannot be used as it stands.
    """
    text = source.load(path)
    known = variants_of(text)
    found, notes = [_project(text, None, None)], []
    named = [(size, None) for size in known.sizes]
    for size, colorway in [*named, *((None, each) for each in known.colorways)]:
        try:
            found.append(_project(text, size, colorway))
        except InputError as error:
            kind = f"size {size}" if size else f"colorway {colorway}"
            notes.append(f"The table has no {kind}: {error.findings[0]}.")
    return tuple(with_swatch_notes(project, path.parent) for project in found), tuple(notes)


def load_to_arrange(path: Path) -> tuple[ArrangeRules, tuple[str, ...]]:
    """Reads and checks a project whose prints are to be laid out, whether or not they were before.

    A chart that it includes need not be there yet. Returns the rules of its table [arrange], and
    the names of the files that it includes.

    Raises:
        FileError: the file cannot be read.
        InputError: something in it cannot be used, or its own chart would hide another.
    """
    text = source.load(path, awaited=True)
    rules = _project(with_chart(text), None, None).arrange
    if rules is None:
        hint = "Write a table [arrange] with for example `prints = { rose = 12, fern = 12 }`"
        raise InputError(
            Finding(key="arrange", problem="is missing", hint=hint, file=path.name, line=1)
        )
    return rules, tuple(file.name for file in text.files[1:])


def _project(text: Source, size: str | None, colorway: str | None) -> Project:
    text = without_turns(chosen(text, size, colorway))
    file = fill(FileTable, text)
    seams = seams_of(file)
    stop_at(_table_flaws(file, seams), text)
    top = top_of(file, seams)
    edge = edge_of(file, top, seams)
    stop_at(_edge_flaws(file, top, edge), text)
    project = _settled(file, top, edge, text.digest)
    return replace(project, size=size or "", colorway=colorway or "")


def _table_flaws(file: FileTable, seams: Seams) -> list[Flaw]:
    """What each table has wrong by itself."""
    return [
        *head_flaws(file),
        *pattern_flaws(file),
        *fabric_flaws(file),
        *seam_flaws(file),
        *top_flaws(file, seams),
        *stray_flaws(file),
    ]


def _edge_flaws(file: FileTable, top: Top, edge: Edge) -> list[Flaw]:
    """What is wrong with what goes round a sound top."""
    return [
        *measured_flaws(file, top, edge.seams),
        *border_flaws(file.border, edge),
        *opening_flaws(file, edge),
        *filling_flaws(file, edge),
        *arrange_flaws(file, top, edge.seams),
    ]


def _settled(file: FileTable, top: Top, edge: Edge, digest: str) -> Project:
    seams, patches = edge.seams, file.patches or PatchesTable()
    return Project(
        title=file.title,
        digest=digest,
        ruler=ruler_of(file),
        construction=file.construction,
        top=top,
        measured=edge.measured,
        fabrics=fabrics_of(file),
        backing_fabric=backing_fabric(file),
        corners=file.backing.corners,
        allowance=seams.allowance,
        basting=seams.basting,
        trim=seams.trim,
        borders=along(edge, borders_of(file.border, edge)),
        turn_of_cloth=seams.turn,
        opening=None if seams.folded_over else _opening(file, edge),
        notes=tuple(notes_of(file, top, edge)),
        pressing=patches.pressing,
        blunted=patches.tips == "blunted",
        pairs=patches.pairs,
        arrange=arrange_of(file, top, seams),
        join=join_of(file),
        filling=filling_of(file),
        pattern=pattern_of(file),
    )


def _opening(file: FileTable, edge: Edge) -> Opening:
    """The opening as asked for, on its side as the project letters it."""
    asked = file.opening
    if asked is None:
        return Opening(length=None, side=None, start=None)
    side = edge.letters.index(asked.side) if asked.side else None
    if side is not None and edge.ring is not None:
        side = next(index for index, sides in enumerate(edge.ring.sides) if side in sides)
    return Opening(length=asked.length, side=side, start=asked.start)
