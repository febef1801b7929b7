"""`cutpaths prove`: the proof that the pieces sew together."""

from __future__ import annotations

from pathlib import Path

import click

from cutpaths.cli.kit import kit_of, variant_options
from cutpaths.cli.working import working


@click.command()
@click.argument("project", type=click.Path(path_type=Path))
@variant_options
def command(project: Path, size: str | None, colorway: str | None) -> None:
    """Sew a PROJECT up on paper and print each check.

    Says what was expected and what was found. Exit status 1 when a check fails.
    """
    from cutpaths.proof import prove, require
    from cutpaths.proof.show import lines

    with working("Proving"):
        proof = prove(kit_of(project, size, colorway))
    click.echo("\n".join(lines(proof)))
    require(proof)
