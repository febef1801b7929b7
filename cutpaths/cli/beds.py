"""`cutpaths beds`: the files of a cutting machine, bed by bed."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from cutpaths.cli.kit import kit_of, variant_options

KITS_MOST = 1_000


@click.command()
@click.argument("project", type=click.Path(path_type=Path))
@click.argument("bed", type=click.Path(path_type=Path))
@click.option(
    "-o",
    "--out",
    "folder",
    type=click.Path(path_type=Path, file_okay=False),
    required=True,
    help="Folder to write to; made when it is not there.",
)
@click.option(
    "--kits",
    type=click.IntRange(1, KITS_MOST),
    default=1,
    show_default=True,
    help="How many blankets to cut for. A template is cut once.",
)
@variant_options
@click.option("--no-check", is_flag=True, help="Do not read the files back before writing them.")
@click.option("--force", is_flag=True, help="Replace files that are not this project's.")
def command(
    project: Path,
    bed: Path,
    folder: Path,
    kits: int,
    size: str | None,
    colorway: str | None,
    no_check: bool,
    force: bool,
) -> None:
    """Lay the pieces of a PROJECT on the BED of a cutting machine, in the order of its work.

    BED is a bed file; start one with `cutpaths new-bed`. Writes a file for each bed, one to check
    the scale with, and a report of lengths, travel, time and cautions, which is printed too.
    """
    from cutpaths.errors import InputError
    from cutpaths.files import safe_name, write_folder
    from cutpaths.formats import FORMATS, render_checked
    from cutpaths.machine.bed_reading import load
    from cutpaths.project.located import located
    from cutpaths.proof import prove, require
    from cutpaths.sheets.beds import bed_run, files_of

    machine = load(bed)
    kit = kit_of(project, size, colorway)
    require(prove(kit))
    try:
        run = bed_run(kit, machine, kits)
    except InputError as error:
        raise located(error, bed) from error
    stem = f"{safe_name(kit.project.title)}-{safe_name(machine.name)}"
    files = {}
    quiet = not sys.stderr.isatty()
    jobs = files_of(run.outputs)
    with click.progressbar(jobs, label="Drawing", file=sys.stderr, hidden=quiet) as shown:
        for output, name in shown:
            data = render_checked(output.document, name, check=not no_check)
            files[f"{stem}-{output.name}{FORMATS[name].suffix}"] = data
    files[f"{stem}-report.txt"] = "".join(f"{line}\n" for line in run.report).encode()
    click.echo("\n".join(run.report))
    click.echo()
    digest, title = kit.project.digest, kit.project.title
    for path in write_folder(
        folder, files, project=title, digest=digest, force=force, family=f"{stem}-"
    ):
        click.echo(path)
    for note in (*kit.notes, *run.notes):
        click.echo(f"Note: {note}", err=True)
