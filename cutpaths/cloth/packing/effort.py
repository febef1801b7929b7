"""How much work a search may do, and how it tells of its progress."""

from __future__ import annotations

import time
from collections.abc import Callable

from cutpaths.cloth.packing.items import Length
from cutpaths.cloth.packing.sheet import Sheet
from cutpaths.values import Value, replace

BETWEEN = 0.1  # s between two words of progress


class Effort(Value, kw_only=True):
    """When a search ends, whichever comes first; it also ends at a plan that is proved best.

    Without a limit on seconds or tries it otherwise ends only when the watch says so.

    Attributes:
        seconds: most seconds by the clock; None for no limit.
        tries: most orders of pieces tried; None for no limit. The same tries and seed give the
            same plan wherever they are run, when neither clock nor watch ends the search.
        seed: another one gives another search.
    """

    seconds: float | None = 1.0
    tries: int | None = None
    seed: int = 1


class Progress(Value, kw_only=True):
    """How far a search is.

    Attributes:
        tries: orders of pieces tried.
        seconds: since it began.
        height: length of cloth of the best plan so far.
        bound: no plan is shorter than this. Both are 0 while no plan is made yet.
        late: whether the clock ends it here, so that another run may come to another plan.
    """

    tries: int
    seconds: float
    height: Length
    bound: Length
    late: bool = False


Watch = Callable[[Progress], bool]  # hears of the progress, answers whether to go on


NO_PLAN = Progress(tries=0, seconds=0.0, height=0, bound=0)  # what is told before there is a plan


def unwatched(progress: Progress) -> bool:
    """Lets a search run to its end."""
    del progress
    return True


class Clock:
    """Counts the tries of one search and says when it is over; changed in place.

    Attributes:
        best: height of the best filling so far, in steps; kept up to date by the search.
        least: no filling is lower than this.
        tries: so far.
    """

    def __init__(
        self, sheet: Sheet, effort: Effort, watch: Watch, *, best: int, least: int
    ) -> None:
        self.best, self.least, self.tries = best, least, 0
        self._sheet, self._effort, self._watch = sheet, effort, watch
        self._start = self._said = time.monotonic()
        self._stopped = False

    @property
    def is_over(self) -> bool:
        """Whether time or tries are used up, the watch says so or nothing better is possible."""
        return self._is_done or self._is_late

    @property
    def _is_done(self) -> bool:
        return self._stopped or self.tries == self._effort.tries or self.best <= self.least

    @property
    def _is_late(self) -> bool:
        seconds = self._effort.seconds
        return seconds is not None and time.monotonic() - self._start >= seconds

    def ticks(self) -> bool:
        """Counts one try, unless the search is over."""
        now = time.monotonic()
        if now - self._said >= BETWEEN:
            self._said = now
            self._stopped = self._stopped or not self._watch(self._progress(now))
        if self.is_over:
            if not self._is_done and self._is_late:
                self._stopped = True
                self._watch(replace(self._progress(now), late=True))
            return False
        self.tries += 1
        return True

    def _progress(self, now: float) -> Progress:
        return Progress(
            tries=self.tries,
            seconds=now - self._start,
            height=self._sheet.size(self.best),
            bound=self._sheet.size(self.least),
        )
