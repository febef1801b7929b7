"""`cutpaths kits`: the cloth of many kits."""

from __future__ import annotations

from pathlib import Path

import click

from cutpaths.cli.kit import kit_of
from cutpaths.cli.options import json_option
from cutpaths.cli.searching import INTERRUPTED, search_options, searching
from cutpaths.cli.working import working

# Named again here, so that help loads no plan; a test compares the two.
BACKINGS = ("yardage", "rough", "exact")


@click.command()
@click.argument("number", type=click.IntRange(1, 10_000))
@click.argument("projects", type=click.Path(path_type=Path), nargs=-1, required=True)
@click.option(
    "--backing",
    type=click.Choice(BACKINGS),
    default="yardage",
    show_default=True,
    help="A length at full width, 2 in larger each way, or to size (tops of one cloth only).",
)
@search_options
@json_option()
@click.pass_context
def command(
    ctx: click.Context,
    number: int,
    projects: tuple[Path, ...],
    backing: str,
    seed: int,
    seconds: float,
    as_data: bool,
) -> None:
    """Plan NUMBER kits of each of some PROJECTS, cut from bolts.

    Prints which strips to cut how often, bolts to order, layers to stack, the cost of a kit and
    left-overs worth keeping, with the gap to a proven bound. Needs the extra `kits`.
    """
    from cutpaths.cloth.joining import with_panels
    from cutpaths.cloth.kits import KitBacking, kit_runs
    from cutpaths.cloth.kits_report import kits_json, kits_lines
    from cutpaths.cloth.packing.effort import Effort
    from cutpaths.cloth.searched_strips import Search
    from cutpaths.errors import InputError
    from cutpaths.project.located import located

    quick = Search(Effort(tries=0))
    with working("Making the pieces"):
        made = [with_panels(kit_of(project), quick) for project in projects]
    kits = [kit for kit, _ in made]
    with searching(seed, seconds) as (person, search):
        try:
            runs = kit_runs(kits, number, KitBacking(backing), search)
        except InputError as error:
            if len(projects) > 1:
                raise
            raise located(error, projects[0]) from error
    titles = [kit.project.title for kit in kits]
    told = (titles, number, KitBacking(backing), runs)
    click.echo(kits_json(*told) if as_data else "\n".join(kits_lines(*told)))
    for note in dict.fromkeys(note for _, notes in made for note in notes):
        click.echo(f"Note: {note}", err=True)
    ctx.exit(INTERRUPTED if person.interrupted else 0)
