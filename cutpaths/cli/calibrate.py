"""`cutpaths calibrate`: what the tape readings of a rig say, and how far they can be trusted."""

from __future__ import annotations

from pathlib import Path

import click


@click.command()
@click.argument("rig", type=click.Path(path_type=Path))
def command(rig: Path) -> None:
    """Check the tape readings of a RIG.

    Says what each is off by, and what a mark may be off by. Ends with exit status 1 where the
    readings do not determine the picture or cannot all be right.
    """
    from cutpaths.errors import InputError
    from cutpaths.projector.calibrate import calibrate
    from cutpaths.projector.report import report
    from cutpaths.projector.rig_reading import load, placed

    read = load(rig)
    try:
        lines = report(calibrate(read))
    except InputError as error:
        raise placed(error, rig) from error
    click.echo("\n".join(lines))
