"""`cutpaths new-rig`: a commented rig file."""

from __future__ import annotations

from pathlib import Path

import click


@click.command()
@click.argument("file", type=click.Path(path_type=Path))
def command(file: Path) -> None:
    """Write a rig FILE to start from: a projector above a table.

    It is commented. Put the projector's pixels into it, then see `cutpaths target`.
    """
    from cutpaths.files import write_new
    from cutpaths.projector.starter import template

    write_new(file, template().encode())
    click.echo(file)
