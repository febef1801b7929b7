"""`cutpaths cloth`: what cloth to buy for a project, and how to cut it."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path
from typing import TYPE_CHECKING

import click

from cutpaths.cli.drawing import drawn, jobs_of, put, say_notes, stem_of
from cutpaths.cli.kit import kit_of, variant_options
from cutpaths.cli.options import force_option, json_option, wished_folder_option
from cutpaths.cli.searching import INTERRUPTED, search_options, searching
from cutpaths.cli.working import working

if TYPE_CHECKING:
    from collections.abc import Iterable

    from cutpaths.cloth.by_machine import MachinePlan
    from cutpaths.cloth.searched_strips import Search
    from cutpaths.pieces import Kit
    from cutpaths.sheets.sheet import Output


@click.command()
@click.argument("project", type=click.Path(path_type=Path))
@wished_folder_option(
    "Folder for a drawing of each length, the list of pieces (CSV) and everything as JSON."
)
@click.option(
    "--machine", is_flag=True, help="Place the shapes freely, for a machine that cuts shapes."
)
@click.option(
    "--spacing", metavar="LENGTH", help="Between shapes on a machine; 1/8 in or 3 mm by default."
)
@json_option()
@force_option()
@search_options
@variant_options
@click.pass_context
def command(
    ctx: click.Context,
    project: Path,
    folder: Path | None,
    machine: bool,
    spacing: str | None,
    as_data: bool,
    force: bool,
    seed: int,
    seconds: float,
    size: str | None,
    colorway: str | None,
) -> None:
    """Print what cloth to buy for a PROJECT, and how to cut it.

    By hand each fabric is cut from edge to edge: squared up, in strips across its usable width,
    crosscut. The tables [fabric.NAME.stock] say how it is sold. Ctrl-C keeps the best plan so far.
    """
    from cutpaths.cloth.by_hand import plans_of
    from cutpaths.cloth.joining import with_panels
    from cutpaths.cloth.notes import cloth_notes
    from cutpaths.cloth.report import as_json, lines
    from cutpaths.errors import InputError
    from cutpaths.project.located import located
    from cutpaths.sheets.cloth import cloth_outputs

    with searching(seed, seconds) as (person, search):
        try:
            with working("Making the pieces"):
                made = kit_of(project, size, colorway)
            kit, advice = with_panels(made, search)
            if machine:
                plan = _machine(kit, spacing, search)
                if folder is not None:
                    _put(kit, project, _machine_sheets(kit, plan), folder, force=force)
                say_notes((*advice, *person.notes))
                ctx.exit(INTERRUPTED if person.interrupted else 0)
            plans = plans_of(kit, search)
        except InputError as error:
            raise located(error, project, size=size, colorway=colorway) from error
        ruler, title = kit.project.ruler, kit.project.title
        notes = (*cloth_notes(plans, ruler), *advice)
        data = as_json(title, kit.project.digest, plans, ruler, notes)
        click.echo(data if as_data else "\n".join(lines(title, plans, ruler)))
        say_notes((*notes, *person.notes))
        if folder is not None:
            _put(kit, project, cloth_outputs(kit, plans, notes), folder, force=force)
    ctx.exit(INTERRUPTED if person.interrupted else 0)


def _machine(kit: Kit, spacing: str | None, search: Search) -> tuple[MachinePlan, ...]:
    """Lays the shapes out freely, for a machine, and says how."""
    from cutpaths.cloth.by_machine import machine_plans
    from cutpaths.cloth.machine_report import machine_lines

    plans = machine_plans(kit, _spacing(kit, spacing), search)
    click.echo("\n".join(machine_lines(kit, plans)))
    return plans


def _machine_sheets(kit: Kit, plans: tuple[MachinePlan, ...]) -> tuple[Output, ...]:
    from cutpaths.sheets.cloth_machine import machine_sheets
    from cutpaths.sheets.sheet import Wishes

    return machine_sheets(kit, plans, Wishes())


def _spacing(kit: Kit, written: str | None) -> Fraction:
    from cutpaths.lengths import INCH, Unit, read_length

    unit = kit.project.ruler.unit
    if written is None:
        return INCH / 8 if unit is Unit.INCH else Fraction(3)
    try:
        spacing = read_length(written, unit)
    except ValueError as error:
        raise click.BadParameter(str(error), param_hint="--spacing") from error
    if spacing < 0:
        raise click.BadParameter(f"must not be less than 0, got {written}", param_hint="--spacing")
    return spacing


def _put(kit: Kit, source: Path, outputs: Iterable[Output], folder: Path, *, force: bool) -> None:
    """The files; their names are talk, the plan is the result."""
    files = drawn(jobs_of(outputs), stem_of(kit))
    put(kit, source, folder, files, force=force, say=lambda path: click.echo(path, err=True))
