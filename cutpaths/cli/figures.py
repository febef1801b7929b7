"""`cutpaths figures`: every size of a project."""

from __future__ import annotations

from pathlib import Path

import click

from cutpaths.cli.kit import kit_of


@click.command()
@click.argument("project", type=click.Path(path_type=Path))
@click.option("--json", "as_data", is_flag=True, help="Print JSON for programs.")
def command(project: Path, as_data: bool) -> None:
    """Print every size of a PROJECT, on the ruler and in the other system.

    A size that falls between two marks of the ruler has a ~ before it.
    """
    from cutpaths.figures import figures
    from cutpaths.figures.show import as_json, table

    found = figures(kit_of(project))
    click.echo(as_json(found) if as_data else "\n".join(table(found)))
