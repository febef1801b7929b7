"""`cutpaths figures`: every size of a project."""

from __future__ import annotations

from pathlib import Path

import click

from cutpaths.cli.kit import kit_of, variant_options
from cutpaths.cli.options import json_option


@click.command()
@click.argument("project", type=click.Path(path_type=Path))
@json_option()
@variant_options
def command(project: Path, as_data: bool, size: str | None, colorway: str | None) -> None:
    """Print every size of a PROJECT.

    Each is told on the ruler and in the other system. A size that falls between two marks of the
    ruler has a ~ before it. A project with several sizes or colorways gets a table of them all;
    one that cannot be used is left out of it, with a note.
    """
    from cutpaths.figures import figures_of, variant_groups
    from cutpaths.figures.show import as_json, table
    from cutpaths.project import load_sound_variants
    from cutpaths.values import replace

    found = figures_of(kit_of(project, size, colorway))
    variants, left_out = load_sound_variants(project)
    groups, notes = (*found.groups, *variant_groups(variants)), (*found.notes, *left_out)
    found = replace(found, groups=groups, notes=notes)
    click.echo(as_json(found) if as_data else "\n".join(table(found)))
