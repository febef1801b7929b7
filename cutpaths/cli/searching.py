"""What commands share that search for long: how long, from which seed, and how far they are."""

from __future__ import annotations

import signal
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from types import FrameType
from typing import TYPE_CHECKING, Any

from cutpaths.cli.options import INTERRUPTED as INTERRUPTED
from cutpaths.cli.options import seconds_option, seed_option
from cutpaths.cli.working import QUIET, clear, quiet, say
from cutpaths.values import State, field

if TYPE_CHECKING:
    from cutpaths.cloth.packing.effort import Progress
    from cutpaths.cloth.searched_strips import Search

Command = Callable[..., Any]

BETWEEN = 0.1  # s between two words of progress
SLOWER = 10  # times slower than an ordinary machine at most; then the clock ends the search
TRIES_EACH_SECOND = 2000  # of an ordinary machine


def search_options(command: Command) -> Command:
    """Adds the options of a search."""
    seed = seed_option("Another seed searches elsewhere, the same one gives the same plan.")
    seconds = seconds_option(
        0.0,
        2.0,
        "Most work for a fabric, in seconds of an ordinary machine; 0 searches for nothing.",
    )
    return seed(seconds(command))


class Watching(State, kw_only=True):
    """A search of the command line, as the person before it sees it.

    Attributes:
        latest: seconds by the clock after which it ends; None where it has a limit of its own.
        interrupted: whether the person has pressed Ctrl-C.
        late: whether the clock has ended it.
    """

    latest: float | None = None
    interrupted: bool = False
    late: bool = False
    _start: float = field(default_factory=time.monotonic)
    _said: float = 0.0

    def go_on(self, words: str) -> bool:
        """Shows how far it is; answers whether to go on."""
        passed = time.monotonic() - self._start
        self.late = self.late or (self.latest is not None and passed > self.latest)
        if passed > QUIET and passed - self._said > BETWEEN and not quiet():
            self._said = passed
            say(f"{words} ({passed:.0f} s)")
        return not (self.late or self.interrupted)

    def end(self) -> None:
        """Takes the line of progress away."""
        if self._said:
            clear()


class Searching(Watching, kw_only=True):
    """A search for a cutting plan, which knows a bound.

    Attributes:
        clocked: whether the clock ended a search, so that another run may come to another plan.
    """

    clocked: bool = False

    def watch(self, progress: Progress) -> bool:
        """Shows how far it is; answers whether to go on."""
        self.clocked = self.clocked or progress.late
        if not progress.bound:
            return self.go_on("Looking for strips")
        share = float(progress.height / progress.bound) - 1
        return self.go_on(f"Searching, {share:.1%} above the bound")

    @property
    def notes(self) -> tuple[str, ...]:
        """What a person should know of how it ended."""
        words = "the time limit ended the search: another run may come to another plan."
        return (words,) if self.clocked and not self.interrupted else ()


class Counting(Watching, kw_only=True):
    """A search that counts what it tries."""

    doing: str

    def counted(self, done: int, of: int) -> bool:
        """Shows how far it is; answers whether to go on."""
        return self.go_on(f"{self.doing} {done} of {of}")

    @property
    def stopped(self) -> str:
        """Why it ended early; empty where it did not."""
        if self.interrupted:
            return "it was interrupted"
        return f"the time limit of {self.latest:g} s was reached" if self.late else ""


class Arranging(Watching, kw_only=True):
    """A search that says what it is doing and how much of that is done."""

    def __call__(self, doing: str, done: float) -> bool:
        """Shows how far it is; answers whether to go on."""
        return self.go_on(f"{doing} {done:.0%}" if done else doing)

    @property
    def stopped(self) -> str:
        """Why it ended early; empty where it did not."""
        if self.interrupted:
            return "the search was interrupted"
        if self.late:
            return f"the time limit of {self.latest:g} s by the clock was reached"
        return ""


@contextmanager
def searching(seed: int, seconds: float) -> Iterator[tuple[Searching, Search]]:
    """A search of so many seconds from a seed; the first Ctrl-C ends it."""
    from cutpaths.cloth.packing.effort import Effort
    from cutpaths.cloth.searched_strips import Search

    effort = Effort(seconds=SLOWER * seconds, tries=round(TRIES_EACH_SECOND * seconds), seed=seed)
    search = Searching()
    with _interruptible(search):
        yield search, Search(effort, search.watch)


@contextmanager
def counting(doing: str, seconds: float) -> Iterator[Counting]:
    """Counts what is tried; takes the first Ctrl-C as the wish to end."""
    found = Counting(doing=doing, latest=seconds)
    with _interruptible(found):
        yield found


@contextmanager
def arranging(latest: float) -> Iterator[Arranging]:
    """Watches a search until a time by the clock; takes the first Ctrl-C as the wish to end."""
    found = Arranging(latest=latest)
    with _interruptible(found):
        yield found


@contextmanager
def _interruptible(search: Watching) -> Iterator[None]:
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
        search.end()
