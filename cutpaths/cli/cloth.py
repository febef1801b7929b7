"""`cutpaths cloth`: what cloth to buy for a project, and how to cut it."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from cutpaths.cli.kit import kit_of, variant_options
from cutpaths.cli.searching import search_options, searching

if TYPE_CHECKING:
    from collections.abc import Sequence

    from cutpaths.cloth.cutting import FabricPlan
    from cutpaths.pieces import Kit

INTERRUPTED = 130


@click.command()
@click.argument("project", type=click.Path(path_type=Path))
@click.option(
    "-o",
    "--out",
    "folder",
    type=click.Path(path_type=Path, file_okay=False),
    help="Folder for a drawing of each length, the list of pieces (CSV) and everything as JSON.",
)
@click.option("--json", "as_data", is_flag=True, help="Print JSON for programs.")
@click.option("--force", is_flag=True, help="Replace files that are not this project's.")
@search_options
@variant_options
@click.pass_context
def command(
    ctx: click.Context,
    project: Path,
    folder: Path | None,
    as_data: bool,
    force: bool,
    seed: int,
    seconds: float,
    size: str | None,
    colorway: str | None,
) -> None:
    """Print what cloth to buy for a PROJECT, and how to cut it by hand.

    Each fabric is cut from edge to edge: squared up, in strips across its usable width, crosscut.
    The tables [fabric.NAME.stock] say how it is sold. Ctrl-C keeps the best plan so far.
    """
    from cutpaths.cloth.by_hand import plans_of
    from cutpaths.cloth.joining import with_panels
    from cutpaths.cloth.notes import cloth_notes
    from cutpaths.cloth.report import as_json, lines
    from cutpaths.errors import InputError
    from cutpaths.project.located import located

    with searching(seed, seconds) as (person, search):
        try:
            kit, advice = with_panels(kit_of(project, size, colorway), search)
            plans = plans_of(kit, search)
        except InputError as error:
            raise located(error, project, size=size, colorway=colorway) from error
        ruler, title = kit.project.ruler, kit.project.title
        notes = (*cloth_notes(plans, ruler), *advice)
        data = as_json(title, kit.project.digest, plans, ruler, notes)
        click.echo(data if as_data else "\n".join(lines(title, plans, ruler)))
        for note in notes:
            click.echo(f"Note: {note}", err=True)
        if folder is not None:
            _write(kit, plans, data, folder, " ".join(filter(None, (size, colorway))), force)
    ctx.exit(INTERRUPTED if person.interrupted else 0)


def _write(
    kit: Kit, plans: Sequence[FabricPlan], data: str, folder: Path, variant: str, force: bool
) -> None:
    from cutpaths.cloth.report import as_csv
    from cutpaths.files import safe_name, write_folder
    from cutpaths.formats import FORMATS, render_checked
    from cutpaths.sheets.cloth import cloth_sheets

    stem = safe_name(f"{kit.project.title} {variant}")
    files = {
        f"{stem}-{output.name}{FORMATS[name].suffix}": render_checked(output.document, name)
        for output in cloth_sheets(kit, plans)
        for name in output.formats
    }
    files[f"{stem}-cloth.csv"] = as_csv(plans).encode()
    files[f"{stem}-cloth.json"] = f"{data}\n".encode()
    project = kit.project
    for path in write_folder(
        folder, files, project=project.title, digest=project.digest, force=force
    ):
        click.echo(path, err=True)
