"""`cutpaths arrange`: which print goes where."""

from __future__ import annotations

import signal
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from types import FrameType

import click

INTERRUPTED = 130
BROKEN = 1
SLOWER = 4  # times slower than an ordinary machine at most; then the clock ends the search
QUIET = 1.0  # s before progress is shown
BETWEEN = 0.1  # s between two words of progress


@click.command()
@click.argument("project", type=click.Path(path_type=Path))
@click.option(
    "-o",
    "--out",
    "file",
    type=click.Path(path_type=Path, dir_okay=False),
    help="File to write the chart to, for the project to include. Only shown by default.",
)
@click.option(
    "--seed",
    type=click.IntRange(0, 2**31 - 1),
    default=1,
    show_default=True,
    help="Another seed gives another layout, the same one the same.",
)
@click.option(
    "--seconds",
    type=click.FloatRange(0.1, 3600),
    default=10.0,
    show_default=True,
    help="Most work to do, in seconds of an ordinary machine; most layouts take a tenth.",
)
@click.option("--force", is_flag=True, help="Replace a file that is not a layout.")
@click.pass_context
def command(
    ctx: click.Context, project: Path, file: Path | None, seed: int, seconds: float, force: bool
) -> None:
    """Lay out the prints of a PROJECT by the rules in its table [arrange].

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
    watch = _Watch(seconds)
    with watch.interruptible():
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


class _Watch:
    """Shows progress on a terminal, and ends the search by the clock or when it is interrupted."""

    def __init__(self, seconds: float) -> None:
        self.interrupted = False
        self._start = time.monotonic()
        self._latest = SLOWER * seconds
        self._said = 0.0
        self._late = False

    @property
    def stopped(self) -> str:
        """Why the search ended early."""
        if self.interrupted:
            return "the search was interrupted"
        if self._late:
            return f"the time limit of {self._latest:g} s by the clock was reached"
        return ""

    def __call__(self, doing: str, done: float) -> bool:
        """Shows how far it is; answers whether to go on."""
        passed = time.monotonic() - self._start
        self._late = self._late or passed > self._latest
        if passed > QUIET and passed - self._said > BETWEEN and sys.stderr.isatty():
            self._said = passed
            part = f" {done:.0%}" if done else ""
            click.echo(f"\r{doing}{part} ({passed:.0f} s)\x1b[K", err=True, nl=False)
        return not self.stopped

    @contextmanager
    def interruptible(self) -> Iterator[None]:
        """Takes the first Ctrl-C as the wish to end; a second one is as abrupt as ever."""
        before = signal.getsignal(signal.SIGINT)

        def interrupt(_number: int, _frame: FrameType | None) -> None:
            self.interrupted = True
            signal.signal(signal.SIGINT, before)

        signal.signal(signal.SIGINT, interrupt)
        try:
            yield
        finally:
            signal.signal(signal.SIGINT, before)
            if self._said:
                click.echo("\r\x1b[K", err=True, nl=False)
