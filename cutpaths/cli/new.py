"""`cutpaths new`: a commented project file that works as it stands."""

from __future__ import annotations

from pathlib import Path

import click


@click.command()
@click.argument("file", type=click.Path(path_type=Path))
def command(file: Path) -> None:
    """Write a project FILE to start from. It is commented, and works as it stands."""
    from cutpaths.files import write_new
    from cutpaths.project import template

    write_new(file, template().encode())
    click.echo(file)
