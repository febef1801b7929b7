"""`cutpaths beds`: the files of a cutting machine, bed by bed."""

from __future__ import annotations

from pathlib import Path

import click

from cutpaths.cli.drawing import drawn, put, say_notes
from cutpaths.cli.kit import kit_of, variant_options
from cutpaths.cli.options import folder_option, force_option, unchecked_option
from cutpaths.cli.working import working

KITS_MOST = 1_000


@click.command()
@click.argument("project", type=click.Path(path_type=Path))
@click.argument("bed", type=click.Path(path_type=Path))
@folder_option()
@click.option(
    "--kits",
    type=click.IntRange(1, KITS_MOST),
    default=1,
    show_default=True,
    help="How many blankets to cut for. A template is cut once.",
)
@variant_options
@unchecked_option()
@force_option()
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
    """Lay the pieces of a PROJECT on the BED of a cutting machine.

    They come in the order of its work. BED is a bed file; start one with `cutpaths new-bed`. Writes
    a file for each bed, one to check the scale with, and a report of lengths, travel, time and
    cautions, which is printed too.
    """
    from cutpaths.errors import InputError
    from cutpaths.files import safe_name
    from cutpaths.machine.bed_reading import load
    from cutpaths.project.located import located
    from cutpaths.proof import prove, require
    from cutpaths.sheets.beds import bed_run, files_of

    machine = load(bed)
    kit = kit_of(project, size, colorway)
    with working("Proving"):
        require(prove(kit))
    try:
        with working("Laying pieces on the bed"):
            run = bed_run(kit, machine, kits)
    except InputError as error:
        raise located(error, bed) from error
    stem = f"{safe_name(kit.project.title)}-{safe_name(machine.name)}"
    files = drawn(files_of(run.outputs), stem, check=not no_check)
    files[f"{stem}-report.txt"] = "".join(f"{line}\n" for line in run.report).encode()
    click.echo("\n".join(run.report))
    click.echo()
    put(kit, project, folder, files, force=force, family=f"{stem}-")
    say_notes((*kit.notes, *run.notes))
