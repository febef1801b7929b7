"""How much work a search may do, and how it hears that it should stop.

Work is counted in steps and not by the clock, so that the same seed ends at the same layout on a
slow machine and on a fast one. Only the watch knows the clock.
"""

from __future__ import annotations

from typing import Protocol

STEPS_A_SECOND = 10_000_000  # looks at a cell, on an ordinary machine
SWAP_STEPS = 12  # what choosing two squares and deciding costs, in looks at a cell
TRIES_BETWEEN = 512  # swaps tried between two words with the watch


class Watch(Protocol):
    """Hears what is being done and may stop it; once it did, it goes on saying so."""

    @property
    def stopped(self) -> str:
        """Why it stopped the search; empty while it did not."""

    def __call__(self, doing: str, done: float) -> bool:
        """Hears how much of something is done, 0 to 1; answers whether to go on."""


class Unwatched:
    """Lets every search run to its end."""

    stopped = ""

    def __call__(self, doing: str, done: float) -> bool:
        """Goes on."""
        del doing, done
        return True


UNWATCHED = Unwatched()


def tries_of(seconds: float, looks: float) -> int:
    """How many swaps to try in so much work, when one looks at so many cells."""
    return max(TRIES_BETWEEN, int(seconds * STEPS_A_SECOND / (SWAP_STEPS + looks)))
