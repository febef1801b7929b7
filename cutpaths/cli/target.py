"""`cutpaths target`: the crosses to throw on the table, and what to measure between them."""

from __future__ import annotations

from pathlib import Path

import click

from cutpaths.cli.options import file_option


@click.command()
@click.argument("rig", type=click.Path(path_type=Path))
@file_option("SVG file to write. Show it full screen, a pixel for a pixel.", "out", required=True)
def command(rig: Path, out: Path) -> None:
    """Write the target of a RIG: crosses to measure between.

    They are numbered, in the pixels of its projector. Says which distances to measure first. The
    page of `cutpaths write --for projector` shows the same crosses.
    """
    from cutpaths.files import write_file
    from cutpaths.formats import render_checked
    from cutpaths.projector.calibrate import still_to_measure
    from cutpaths.projector.report import CAUTIONS
    from cutpaths.projector.rig_reading import load
    from cutpaths.sheets.rig_target import target

    read = load(rig)
    write_file(out, render_checked(target(read), "svg"))
    click.echo(out)
    if todo := still_to_measure(read):
        pairs = ", ".join(f"{a}-{b}" for a, b in todo)
        click.echo(f"Measure from cross to cross, in this order: {pairs}", err=True)
    for caution in CAUTIONS:
        click.echo(f"Note: {caution}", err=True)
