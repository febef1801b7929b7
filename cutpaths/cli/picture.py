"""`cutpaths picture`: the finished blanket, front and back, and the layout chart."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from cutpaths.cli.kit import kit_of, variant_options

FORMATS = ("png", "svg")


@click.command()
@click.argument("project", type=click.Path(path_type=Path))
@click.option(
    "-o",
    "--out",
    "folder",
    type=click.Path(path_type=Path, file_okay=False),
    required=True,
    help="Folder to write to; made when it is not there.",
)
@click.option(
    "--format",
    "formats",
    type=click.Choice(FORMATS),
    multiple=True,
    help="Format of the files; repeatable. Both by default; PNG needs the extra `pictures`.",
)
@click.option(
    "--width",
    type=click.IntRange(200, 4000),
    default=1600,
    show_default=True,
    help="Width of PNG files in pixels.",
)
@click.option("--no-check", is_flag=True, help="Do not read the files back before writing them.")
@click.option("--force", is_flag=True, help="Replace files that are not this project's.")
@variant_options
def command(
    project: Path,
    folder: Path,
    formats: tuple[str, ...],
    width: int,
    no_check: bool,
    force: bool,
    size: str | None,
    colorway: str | None,
) -> None:
    """Draw the finished blanket of a PROJECT, front and back, and the chart of its patches.

    Fabrics have the colour, or the swatch, that their tables give; else a colour is chosen.
    """
    from cutpaths.errors import InputError
    from cutpaths.files import safe_name, write_folder
    from cutpaths.formats import FORMATS as TABLE
    from cutpaths.formats import render_checked
    from cutpaths.project.located import located
    from cutpaths.sheets.chart import chart_sheets
    from cutpaths.sheets.fabric_paint import cloths_of
    from cutpaths.sheets.picture import picture_sheets
    from cutpaths.sheets.sheet import unknown_letters

    kit = kit_of(project, size, colorway)
    try:
        cloths = cloths_of(kit.project.fabrics, project.parent)
    except InputError as error:
        raise located(error, project, size=size, colorway=colorway) from error
    made = (*picture_sheets(kit, cloths), *chart_sheets(kit, cloths))
    wanted = formats or FORMATS
    jobs = [(output, name) for output in made for name in output.formats if name in wanted]
    stem = safe_name(" ".join(filter(None, (kit.project.title, size, colorway))))
    files = {}
    with click.progressbar(jobs, label="Drawing", file=sys.stderr, hidden=_quiet()) as shown:
        for output, name in shown:
            options = {"width": width} if name == "png" else {}
            data = render_checked(output.document, name, check=not no_check, **options)
            files[f"{stem}-{output.name}{TABLE[name].suffix}"] = data
    digest, title = kit.project.digest, kit.project.title
    for path in write_folder(folder, files, project=title, digest=digest, force=force):
        click.echo(path)
    if unknown := unknown_letters(made):
        click.echo(f"Note: no stroke letters for {' '.join(unknown)}; drawn as boxes.", err=True)


def _quiet() -> bool:
    return not sys.stderr.isatty()
