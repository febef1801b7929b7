"""`cutpaths cloth`: what cloth to buy for a project, and how to cut it."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path
from typing import TYPE_CHECKING

import click

from cutpaths.cli.kit import kit_of, variant_options
from cutpaths.cli.searching import INTERRUPTED, search_options, searching

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from cutpaths.cloth.cutting import FabricPlan
    from cutpaths.cloth.searched_strips import Search
    from cutpaths.pieces import Kit
    from cutpaths.sheets.sheet import Output


@click.command()
@click.argument("project", type=click.Path(path_type=Path))
@click.option(
    "-o",
    "--out",
    "folder",
    type=click.Path(path_type=Path, file_okay=False),
    help="Folder for a drawing of each length, the list of pieces (CSV) and everything as JSON.",
)
@click.option(
    "--machine", is_flag=True, help="Place the shapes freely, for a machine that cuts shapes."
)
@click.option(
    "--spacing", metavar="LENGTH", help="Between shapes on a machine; 1/8 in or 3 mm by default."
)
@click.option("--json", "as_data", is_flag=True, help="Print JSON for programs.")
@click.option("--force", is_flag=True, help="Replace files that are not this project's.")
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
    """Print what cloth to buy for a PROJECT, and how to cut it by hand.

    Each fabric is cut from edge to edge: squared up, in strips across its usable width, crosscut.
    The tables [fabric.NAME.stock] say how it is sold. Ctrl-C keeps the best plan so far.
    """
    from cutpaths.cloth.by_hand import plans_of
    from cutpaths.cloth.joining import with_panels
    from cutpaths.cloth.notes import cloth_notes
    from cutpaths.cloth.report import as_json, lines
    from cutpaths.errors import InputError
    from cutpaths.project.located import located

    with searching(seed, seconds) as (person, search):
        try:
            kit, advice = with_panels(kit_of(project, size, colorway), search)
            if machine:
                _machine(kit, spacing, search, _Out(folder, _stem(kit, size, colorway), force))
                for note in advice:
                    click.echo(f"Note: {note}", err=True)
                ctx.exit(INTERRUPTED if person.interrupted else 0)
            plans = plans_of(kit, search)
        except InputError as error:
            raise located(error, project, size=size, colorway=colorway) from error
        ruler, title = kit.project.ruler, kit.project.title
        notes = (*cloth_notes(plans, ruler), *advice)
        data = as_json(title, kit.project.digest, plans, ruler, notes)
        click.echo(data if as_data else "\n".join(lines(title, plans, ruler)))
        for note in notes:
            click.echo(f"Note: {note}", err=True)
        _write(kit, plans, data, _Out(folder, _stem(kit, size, colorway), force))
    ctx.exit(INTERRUPTED if person.interrupted else 0)


@dataclass(frozen=True, slots=True)
class _Out:
    """Where files go, what their names start with, and whether others may be replaced."""

    folder: Path | None
    stem: str
    force: bool


def _stem(kit: Kit, size: str | None, colorway: str | None) -> str:
    from cutpaths.files import safe_name

    return safe_name(" ".join(filter(None, (kit.project.title, size, colorway))))


def _machine(kit: Kit, spacing: str | None, search: Search, out: _Out) -> None:
    """Lays the shapes out freely, for a machine."""
    from cutpaths.cloth.by_machine import machine_plans
    from cutpaths.cloth.machine_report import machine_lines
    from cutpaths.sheets.cloth_machine import machine_sheets
    from cutpaths.sheets.sheet import Wishes

    plans = machine_plans(kit, _spacing(kit, spacing), search)
    click.echo("\n".join(machine_lines(kit, plans)))
    if out.folder is not None:
        _put(kit, machine_sheets(kit, plans, Wishes()), {}, out)


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


def _write(kit: Kit, plans: Sequence[FabricPlan], data: str, out: _Out) -> None:
    """The drawings, the list of pieces and everything as JSON."""
    from cutpaths.cloth.report import as_csv
    from cutpaths.sheets.cloth import cloth_sheets

    if out.folder is None:
        return
    texts = {"cloth.csv": as_csv(plans), "cloth.json": f"{data}\n"}
    _put(kit, cloth_sheets(kit, plans), texts, out)


def _put(kit: Kit, outputs: Iterable[Output], texts: Mapping[str, str], out: _Out) -> None:
    from cutpaths.files import write_folder
    from cutpaths.formats import FORMATS, render_checked

    files = {
        f"{out.stem}-{output.name}{FORMATS[name].suffix}": render_checked(output.document, name)
        for output in outputs
        for name in output.formats
    }
    files |= {f"{out.stem}-{name}": text.encode() for name, text in texts.items()}
    project = kit.project
    if out.folder is not None:
        for path in write_folder(
            out.folder, files, project=project.title, digest=project.digest, force=out.force
        ):
            click.echo(path, err=True)
