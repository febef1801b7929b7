"""Progress on a terminal: a line on standard error that is gone when the work is done.

Nothing is shown where standard error is no terminal, nor for work that takes under a second.
"""

from __future__ import annotations

import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from threading import Event, Thread

import click

QUIET = 1.0  # s before anything is shown
BETWEEN = 0.5  # s between two words
_CLEARED = "\r\x1b[K"


def quiet() -> bool:
    """Whether nobody watches."""
    return not sys.stderr.isatty()


def say(line: str) -> None:
    """Shows a line in place of the one before."""
    click.echo(f"\r{line}\x1b[K", err=True, nl=False)


def clear() -> None:
    """Takes the line away."""
    click.echo(_CLEARED, err=True, nl=False)


@contextmanager
def working(doing: str) -> Iterator[None]:
    """Shows what is being done and for how long, while work goes on that tells nothing itself."""
    if quiet():
        yield
        return
    done = Event()
    clock = Thread(target=_tell, args=(doing, done), daemon=True)
    clock.start()
    try:
        yield
    finally:
        done.set()
        clock.join()


def _tell(doing: str, done: Event) -> None:
    start = time.monotonic()
    if done.wait(QUIET):
        return
    while True:
        say(f"{doing} ({time.monotonic() - start:.0f} s)")
        if done.wait(BETWEEN):
            clear()
            return
