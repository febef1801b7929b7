"""Outputs drawn, read back and put into a folder, with a word for each file."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterable, Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import click

from cutpaths.cli.working import quiet

if TYPE_CHECKING:
    from cutpaths.pieces import Kit
    from cutpaths.sheets.sheet import Output

Job = tuple["Output", str]

# Formats whose fonts do not have every letter that a title may have.
SET_IN_FONTS = ("booklet", "pdf")


def stem_of(kit: Kit, *more: str) -> str:
    """How the names of a kit's files begin: its title, and the size and colorway that it is."""
    from cutpaths.files import safe_name

    project = kit.project
    words = safe_name(" ".join(filter(None, (project.title, project.size, project.colorway))))
    return "-".join((words, *(safe_name(each) for each in more)))


def jobs_of(outputs: Iterable[Output]) -> list[Job]:
    """Each output in each of its formats."""
    return [(output, name) for output in outputs for name in output.formats]


def drawn(
    jobs: Sequence[Job],
    stem: str,
    *,
    check: bool = True,
    pixels: int = 0,
    left_out: list[str] | None = None,
) -> dict[str, bytes]:
    """Every file by its name, each read back where `check`; shows how far it is.

    `pixels` is the width of pictures that have none of their own. Where a list `left_out` is given,
    a file whose format lacks the letters of its texts is said there and not made.
    """
    from cutpaths.errors import DrawingError
    from cutpaths.formats import rendered, require_same

    files: dict[str, bytes] = {}
    lacking: dict[str, list[str]] = {}
    with click.progressbar(
        jobs, label="Drawing", file=sys.stderr, hidden=quiet(), item_show_func=_shown
    ) as shown:
        for output, name in shown:
            width = output.pixels or pixels
            options = {"width": width} if name == "png" and width else {}
            path = path_of(output, name, stem)
            try:
                data = rendered(output.document, name, **options)
            except DrawingError as error:
                if left_out is None or name not in SET_IN_FONTS:
                    raise
                lacking.setdefault(str(error), []).append(path)
                continue
            if check:
                require_same(output.document, name, data)
            files[path] = data
    if left_out is not None:
        left_out += [_left_out(paths, cause) for cause, paths in lacking.items()]
    return files


def _left_out(paths: Sequence[str], cause: str) -> str:
    """Files that are not made for one cause, which is said once."""
    are = "is" if len(paths) == 1 else "are"
    return f"{', '.join(paths)} {are} left out. {cause}"


def path_of(output: Output, name: str, stem: str) -> str:
    """Where a file of an output stands in the project's folder."""
    from cutpaths.formats import FORMATS

    file = f"{stem}-{output.name}{FORMATS[name].suffix}"
    return f"{output.folder}/{file}" if output.folder else file


def _shown(job: Job | None) -> str | None:
    return None if job is None else f"{job[0].name}, {job[1]}"


def put(
    kit: Kit,
    source: Path,
    folder: Path,
    files: Mapping[str, bytes],
    *,
    force: bool,
    family: str | None = None,
    say: Callable[[Path], None] = click.echo,
) -> None:
    """Writes a kit's files into a folder, and says the path of each.

    Sizes and colorways of one project file may lie side by side: what is out of date goes by the
    digest of the file itself, and not by that of the size.
    """
    from cutpaths.files import write_folder
    from cutpaths.source import load

    title, digest = kit.project.title, load(source).digest
    for path in write_folder(
        folder, files, project=title, digest=digest, force=force, family=family
    ):
        say(path)


def say_notes(notes: Iterable[str]) -> None:
    """One line a note, beside the results."""
    for note in notes:
        click.echo(f"Note: {note}", err=True)


def say_unknown(outputs: Iterable[Output]) -> None:
    """Which letters are drawn as boxes."""
    from cutpaths.sheets.sheet import unknown_letters

    if unknown := unknown_letters(outputs):
        say_notes((f"no stroke letters for {' '.join(unknown)}; drawn as boxes.",))
