"""`cutpaths fit`: what can be made of the cloth on hand."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from cutpaths.cli.options import json_option, seconds_option
from cutpaths.cli.searching import INTERRUPTED, counting

if TYPE_CHECKING:
    from cutpaths.cloth.fit import Option
    from cutpaths.project import Project


@click.command()
@click.argument("project", type=click.Path(path_type=Path))
@json_option()
@seconds_option(0.1, 60.0, "Most time for trying sizes; the best of those tried are kept.")
@click.option(
    "--write",
    "chosen",
    type=(click.IntRange(1), click.Path(path_type=Path)),
    metavar="NUMBER FILE",
    help="Write one of the sizes as a project FILE beside the project.",
)
@click.pass_context
def command(
    ctx: click.Context,
    project: Path,
    as_data: bool,
    seconds: float,
    chosen: tuple[int, Path] | None,
) -> None:
    """List the sizes of a PROJECT that the cloth on hand makes.

    Cloth is that of the keys on_hand in [fabric.NAME.stock]. Columns, rows and the width of the
    border vary. The largest size is first; a size is left out where another one is as large, wastes
    as little and has as few joining seams.
    """
    from cutpaths.cloth.fit import options
    from cutpaths.cloth.fit_report import fit_json, fit_lines
    from cutpaths.errors import InputError
    from cutpaths.project import load
    from cutpaths.project.located import located

    made = load(project)
    with counting("Trying sizes", seconds) as person:
        try:
            found = options(made, person.counted)
        except InputError as error:
            raise located(error, project) from error
    click.echo(fit_json(made, found) if as_data else "\n".join(fit_lines(made, found)))
    if person.stopped:
        click.echo(f"Note: ended early, {person.stopped}: larger sizes come first.", err=True)
    if chosen is not None:
        _write(made, found, chosen, project)
    ctx.exit(INTERRUPTED if person.interrupted else 0 if found else 1)


def _write(
    project: Project, found: tuple[Option, ...], chosen: tuple[int, Path], source: Path
) -> None:
    """Writes one size, once it reads back as that size and the cloth on hand makes it.

    Raises:
        FileError: the file exists, or lies in another folder.
        InputError: the project's own keys stand against the size.
    """
    from cutpaths import source as project_source
    from cutpaths.cloth.fit_file import project_text
    from cutpaths.errors import FileError
    from cutpaths.files import write_new

    number, file = chosen
    if number > len(found):
        sizes = "is 1 size" if len(found) == 1 else f"are {len(found)} sizes"
        raise click.BadParameter(f"there {sizes}, got {number}", param_hint="--write")
    if file.resolve().parent != source.resolve().parent:
        raise FileError(f"{file} must be beside {source.name}, where its pictures of cloth are")
    table = project_source.load(source).table
    write_new(file, project_text(table, found[number - 1], source.name).encode())
    try:
        _require_made(file, project)
    except BaseException:
        file.unlink(missing_ok=True)
        raise
    click.echo(file)


def _require_made(file: Path, project: Project) -> None:
    """Reads a size back and asks whether the cloth on hand makes it."""
    from cutpaths.cli.kit import kit_of
    from cutpaths.cloth.on_hand import is_enough
    from cutpaths.errors import CutpathsError

    if not is_enough(kit_of(file)):
        raise CutpathsError(f"{project.title}: the size reads back as one with too little cloth")
