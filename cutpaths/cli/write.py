"""`cutpaths write`: the files of a project."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING

import click

from cutpaths.cli.kit import kit_of, variant_options

if TYPE_CHECKING:
    from cutpaths.pieces import Kit
    from cutpaths.sheets.sheet import Output, Wishes

# The uses are named again here, so that help loads no sheet; a test compares the two.
USES = ("cad", "cutter", "projector")


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
    "--for",
    "uses",
    type=click.Choice(USES),
    multiple=True,
    help="What the files are for; repeatable. All by default.",
)
@click.option(
    "--text-on-cloth", is_flag=True, help="Let a machine draw labels and grain lines on cloth."
)
@click.option(
    "--rig",
    "rig_file",
    type=click.Path(path_type=Path, dir_okay=False),
    help="Rig file of a projector: plan frames for it; see `cutpaths calibrate`.",
)
@click.option(
    "--frame-marks",
    type=click.Choice(("all", "corners")),
    default="all",
    show_default=True,
    help="What frames show: all marks, or only corners and centers.",
)
@click.option(
    "--frame-pixels",
    is_flag=True,
    help="Write each frame of the rig also as PNG; needs the extra `pictures`.",
)
@click.option("--no-check", is_flag=True, help="Do not read the files back before writing them.")
@click.option("--force", is_flag=True, help="Replace files that are not this project's.")
@variant_options
def command(
    project: Path,
    folder: Path,
    uses: tuple[str, ...],
    text_on_cloth: bool,
    rig_file: Path | None,
    frame_marks: str,
    frame_pixels: bool,
    no_check: bool,
    force: bool,
    size: str | None,
    colorway: str | None,
) -> None:
    """Prove a PROJECT and write its true-scale files.

    Nothing is written when the proof fails, or when a file does not read back as it was drawn.
    """
    from cutpaths.files import safe_name, write_folder
    from cutpaths.projector.needs import Wanted
    from cutpaths.projector.rig_reading import load as load_rig
    from cutpaths.proof import prove, require
    from cutpaths.sheets.sheet import Wishes, unknown_letters

    kit = kit_of(project, size, colorway)
    require(prove(kit))
    wishes = Wishes(
        text_on_cloth=text_on_cloth,
        rig=load_rig(rig_file) if rig_file else None,
        frame_marks=Wanted(frame_marks),
        frame_pixels=frame_pixels,
    )
    made = _outputs(kit, uses or USES, wishes, rig_file)
    stem = safe_name(" ".join(filter(None, (kit.project.title, size, colorway))))
    files = _rendered(made, stem, check=not no_check)
    digest, title = kit.project.digest, kit.project.title
    for path in write_folder(folder, files, project=title, digest=digest, force=force):
        click.echo(path)
    for line in (*_page_summary(made), *(f"Note: {note}" for note in kit.notes)):
        click.echo(line, err=True)
    if unknown := unknown_letters(made):
        click.echo(f"Note: no stroke letters for {' '.join(unknown)}; drawn as boxes.", err=True)


def _outputs(
    kit: Kit, uses: tuple[str, ...], wishes: Wishes, rig_file: Path | None
) -> tuple[Output, ...]:
    """What is to be written; what is wrong with a rig is told with its file and line.

    Raises:
        InputError: the rig is not calibrated, or its picture cannot hold a mark.
    """
    from cutpaths.errors import InputError
    from cutpaths.projector.rig_reading import placed
    from cutpaths.sheets.uses import outputs

    try:
        return outputs(kit, uses, wishes)
    except InputError as error:
        raise (placed(error, rig_file) if rig_file else error) from error


def _rendered(made: tuple[Output, ...], stem: str, *, check: bool) -> dict[str, bytes]:
    """Every file by its name, each read back where `check`; shows how far it is."""
    from cutpaths.formats import FORMATS, render_checked

    jobs = [(output, name) for output in made for name in output.formats]
    files = {}
    quiet = not sys.stderr.isatty()
    with click.progressbar(jobs, label="Drawing", file=sys.stderr, hidden=quiet) as shown:
        for output, name in shown:
            options = {"width": output.pixels} if name == "png" and output.pixels else {}
            data = render_checked(output.document, name, check=check, **options)
            files[f"{stem}-{output.name}{FORMATS[name].suffix}"] = data
    return files


def _page_summary(made: tuple[Output, ...]) -> tuple[str, ...]:
    """How many placements and frames the projector page has, and how well they hold."""
    from cutpaths.sheets.page import PageDocument

    pages = (o.document.content for o in made if isinstance(o.document, PageDocument))
    return tuple(line for content in pages for line in content.summary)
