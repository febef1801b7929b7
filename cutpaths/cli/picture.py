"""`cutpaths picture`: the finished blanket, front and back, and the layout chart."""

from __future__ import annotations

from pathlib import Path

import click

from cutpaths.cli.drawing import drawn, jobs_of, put, say_unknown, stem_of
from cutpaths.cli.kit import kit_of, variant_options
from cutpaths.cli.options import folder_option, force_option, unchecked_option

FORMATS = ("png", "svg")


@click.command()
@click.argument("project", type=click.Path(path_type=Path))
@folder_option()
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
@unchecked_option()
@force_option()
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
    """Draw the finished blanket of a PROJECT, front and back.

    The chart of its patches is drawn too. Fabrics have the colour, or the swatch, that their tables
    give; else a colour is chosen.
    """
    from cutpaths.errors import InputError
    from cutpaths.project.located import located
    from cutpaths.sheets.chart import chart_sheets
    from cutpaths.sheets.fabric_paint import cloths_of
    from cutpaths.sheets.picture import picture_sheets

    kit = kit_of(project, size, colorway)
    try:
        cloths = cloths_of(kit.project.fabrics, project.parent)
    except InputError as error:
        raise located(error, project, size=size, colorway=colorway) from error
    made = (*picture_sheets(kit, cloths), *chart_sheets(kit, cloths))
    wanted = formats or FORMATS
    jobs = [(output, name) for output, name in jobs_of(made) if name in wanted]
    files = drawn(jobs, stem_of(kit), check=not no_check, pixels=width)
    put(kit, project, folder, files, force=force)
    say_unknown(made)
