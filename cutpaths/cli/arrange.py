"""`cutpaths arrange`: which print goes where."""

from __future__ import annotations

from pathlib import Path

import click

from cutpaths.cli.options import file_option, force_option, seconds_option, seed_option
from cutpaths.cli.searching import INTERRUPTED, arranging

BROKEN = 1
SLOWER = 4  # times slower than an ordinary machine at most; then the clock ends the search


@click.command()
@click.argument("project", type=click.Path(path_type=Path))
@file_option("File to write the chart to, for the project to include. Only shown by default.")
@seed_option("Another seed gives another layout, the same one the same.")
@seconds_option(
    0.1, 10.0, "Most work to do, in seconds of an ordinary machine; most layouts take a tenth."
)
@force_option("Replace a file that is not a layout.")
@click.pass_context
def command(
    ctx: click.Context, project: Path, file: Path | None, seed: int, seconds: float, force: bool
) -> None:
    """Lay out the prints of a PROJECT by its table [arrange].

    Ctrl-C ends the search and keeps the best layout so far. The exit status is 1 when the layout
    does not keep every rule.
    """
    from cutpaths.arrange.included import included
    from cutpaths.arrange.report import chart_lines, supply_lines, verdict_lines
    from cutpaths.arrange.search import arranged
    from cutpaths.files import write_file
    from cutpaths.project.reading import load_to_arrange

    rules, includes = load_to_arrange(project)
    if file is not None:
        _require_free(file, project, force)
    with arranging(SLOWER * seconds) as watch:
        found = arranged(rules, seed=seed, seconds=seconds, watch=watch)
    for line in (*chart_lines(rules, found.layout), "", *supply_lines(rules, found.layout), ""):
        click.echo(line)
    for line in verdict_lines(rules, found):
        click.echo(line)
    if watch.stopped:
        click.echo(f"Note: ended early, {watch.stopped}.", err=True)
    if file is not None:
        write_file(file, included(rules, found, seed=seed, seconds=seconds))
        click.echo(file)
        _say_include(file, project, includes)
    ctx.exit(INTERRUPTED if watch.interrupted else BROKEN if found.violations else 0)


def _require_free(file: Path, project: Path, force: bool) -> None:
    """Refuses to replace what is no layout, and the project itself in any case.

    Raises:
        FileError: something stands in the way.
    """
    from cutpaths.arrange.included import HEAD
    from cutpaths.errors import FileError

    if not file.parent.is_dir():
        raise FileError(f"{file} cannot be written: its folder is not there")
    if not file.exists():
        return
    if file.samefile(project):
        raise FileError(f"{file} is the project itself. Choose another name")
    try:
        with file.open("rb") as stream:
            own = stream.read(len(HEAD)) == HEAD.encode()
    except OSError as error:
        reason = (error.strerror or str(error)).lower()
        raise FileError(f"{file} cannot be read: {reason}") from error
    if not own and not force:
        raise FileError(
            f"{file} exists and is not a layout. Choose another name, or use --force to replace it"
        )


def _say_include(file: Path, project: Path, includes: tuple[str, ...]) -> None:
    """How the project comes to use the file, where it does not yet."""
    if file.resolve().parent != project.resolve().parent:
        click.echo("Note: only a file in the project's own folder can be included.", err=True)
    elif file.name not in includes:
        line = f'include = ["{file.name}"]'
        click.echo(f"Note: to use it, write {line} at the head of {project.name}.", err=True)
