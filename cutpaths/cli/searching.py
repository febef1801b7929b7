"""What commands share that search for long: how long, from which seed, and how far they are."""

from __future__ import annotations

import signal
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from types import FrameType
from typing import TYPE_CHECKING, Any

import click

if TYPE_CHECKING:
    from cutpaths.cloth.packing.effort import Progress
    from cutpaths.cloth.searched_strips import Search

Command = Callable[..., Any]

INTERRUPTED = 130
QUIET = 1.0  # s before progress is shown
SLOWER = 10  # times slower than an ordinary machine at most; then the clock ends the search
TRIES_EACH_SECOND = 2000  # of an ordinary machine


def search_options(command: Command) -> Command:
    """Adds the options of a search."""
    seed = click.option(
        "--seed",
        type=click.IntRange(0, 2**31 - 1),
        default=1,
        show_default=True,
        help="Another seed searches elsewhere, the same one gives the same plan.",
    )
    seconds = click.option(
        "--seconds",
        type=click.FloatRange(0.0, 3600),
        default=2.0,
        show_default=True,
        help="Most work for a fabric, in seconds of an ordinary machine; 0 searches for nothing.",
    )
    return seed(seconds(command))


@dataclass(slots=True)
class Searching:
    """A search of the command line; `interrupted` once the person has pressed Ctrl-C."""

    interrupted: bool = False
    said: bool = False
    start: float = field(default_factory=time.monotonic)

    def watch(self, progress: Progress) -> bool:
        """Shows how far it is; answers whether to go on."""
        passed = time.monotonic() - self.start
        if passed > QUIET and sys.stderr.isatty():
            self.said = True
            share = float(progress.height / progress.bound) - 1 if progress.bound else 0.0
            click.echo(
                f"\rSearching, {share:.1%} above the bound ({passed:.0f} s)\x1b[K",
                err=True,
                nl=False,
            )
        return not self.interrupted


@contextmanager
def searching(seed: int, seconds: float) -> Iterator[tuple[Searching, Search]]:
    """A search of so many seconds from a seed; the first Ctrl-C ends it."""
    from cutpaths.cloth.packing.effort import Effort
    from cutpaths.cloth.searched_strips import Search

    effort = Effort(seconds=SLOWER * seconds, tries=round(TRIES_EACH_SECOND * seconds), seed=seed)
    search = Searching()
    with _interruptible(search):
        yield search, Search(effort, search.watch)


@dataclass(slots=True)
class Counting:
    """A search that counts what it tries; `interrupted` once the person has pressed Ctrl-C."""

    doing: str
    seconds: float
    interrupted: bool = False
    late: bool = False
    said: bool = False
    start: float = field(default_factory=time.monotonic)

    def counted(self, done: int, of: int) -> bool:
        """Shows how far it is; answers whether to go on."""
        passed = time.monotonic() - self.start
        self.late = self.late or passed > self.seconds
        if passed > QUIET and sys.stderr.isatty():
            self.said = True
            click.echo(f"\r{self.doing} {done} of {of} ({passed:.0f} s)\x1b[K", err=True, nl=False)
        return not (self.late or self.interrupted)

    @property
    def stopped(self) -> str:
        """Why it ended early; empty where it did not."""
        if self.interrupted:
            return "it was interrupted"
        return f"the time limit of {self.seconds:g} s was reached" if self.late else ""


@contextmanager
def counting(doing: str, seconds: float) -> Iterator[Counting]:
    """Counts what is tried; takes the first Ctrl-C as the wish to end."""
    found = Counting(doing, seconds)
    with _interruptible(found):
        yield found


@contextmanager
def _interruptible(search: Searching | Counting) -> Iterator[None]:
    """Takes the first Ctrl-C as the wish to end; a second one is as abrupt as ever."""
    before = signal.getsignal(signal.SIGINT)

    def interrupt(_number: int, _frame: FrameType | None) -> None:
        search.interrupted = True
        signal.signal(signal.SIGINT, before)

    signal.signal(signal.SIGINT, interrupt)
    try:
        yield
    finally:
        signal.signal(signal.SIGINT, before)
        if search.said:
            click.echo("\r\x1b[K", err=True, nl=False)
