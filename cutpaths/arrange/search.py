"""Finds a layout: counting first, then swaps, and the solver only where swaps do not settle it."""

from __future__ import annotations

from enum import Enum
from random import Random

from cutpaths.arrange.bounds import fewest_touches, impossible
from cutpaths.arrange.effort import UNWATCHED, Watch, tries_of
from cutpaths.arrange.rules import ArrangeRules, Layout
from cutpaths.arrange.settle import LOOKS, broken, dealt, settled
from cutpaths.arrange.solver import DOING, INSTALL, Verdict, decided, is_installed
from cutpaths.arrange.spread import looks, spread
from cutpaths.arrange.supply import planned_counts
from cutpaths.arrange.violations import Touch, Violation, used_counts, violations
from cutpaths.values import Value

SECONDS = 10.0  # of work, unless asked otherwise
CHOICES_MOST = 200_000  # cells times prints; the solver takes 2 kB of memory for each
SETTLING, SPREADING = 0.05, 0.06  # shares of the work for swaps; the solver has the rest


class Outcome(Enum):
    """Whether a layout keeps the rules, and if not what is known of others."""

    KEPT = "every rule is kept"
    IMPOSSIBLE = "proved: no layout keeps every rule"
    OPEN = "not known whether any layout keeps every rule"


class Arranged(Value, kw_only=True):
    """The best layout found and what is known of it.

    Attributes:
        layout: one print a cell.
        outcome: whether it keeps the rules.
        reason: why the rules cannot be kept, or why that is not known; empty when they are kept.
        violations: what it does not keep.
        fewest: whether it is proved that no layout of these squares has fewer cells alike meeting.
    """

    layout: Layout
    outcome: Outcome
    reason: str
    violations: tuple[Violation, ...]
    fewest: bool


def arranged(
    rules: ArrangeRules, *, seed: int = 1, seconds: float = SECONDS, watch: Watch = UNWATCHED
) -> Arranged:
    """Searches for a layout that keeps the rules, prints alike as far apart as it can.

    The same rules, seed and seconds give the same layout, unless the watch stops the search.

    Args:
        rules: what to keep.
        seed: another one gives another layout.
        seconds: most work to do, in seconds of an ordinary machine.
        watch: hears of the progress and may stop it; the best layout so far is kept.
    """
    random = Random(seed)  # noqa: S311 (a layout, no secret)
    start = dealt(rules, planned_counts(rules), random)
    layout = settled(rules, start, tries_of(SETTLING * seconds, LOOKS), random, watch)
    outcome, reason = Outcome.KEPT, ""
    if broken(rules, layout):
        outcome, reason, better = _judged(rules, seed, seconds, watch)
        layout = better or layout
    if rules.apart:
        tries = tries_of(SPREADING * seconds, looks(used_counts(rules, layout)))
        layout = spread(rules, layout, tries, random, watch)
    found = violations(rules, layout)
    touches = sum(isinstance(each, Touch) for each in found)
    bound = fewest_touches(rules, used_counts(rules, layout))
    return Arranged(
        layout=layout,
        outcome=outcome,
        reason=reason,
        violations=found,
        fewest=bool(found) and touches == len(found) == bound,
    )


def _judged(
    rules: ArrangeRules, seed: int, seconds: float, watch: Watch
) -> tuple[Outcome, str, Layout | None]:
    """Whether rules that swaps did not keep can be kept, why not or why that is not known."""
    if counted := impossible(rules):
        return Outcome.IMPOSSIBLE, counted, None
    if not watch(DOING, 0.0):
        return Outcome.OPEN, watch.stopped, None
    if not is_installed():
        return Outcome.OPEN, f"the solver that can tell is not installed: {INSTALL}", None
    if rules.cells * len(rules.prints) > CHOICES_MOST:
        size = f"{rules.cells:,} cells in {len(rules.prints)} prints"
        return Outcome.OPEN, f"the solver that can tell is not asked about {size}", None
    answer = decided(rules, seed, (1 - SETTLING - SPREADING) * seconds, watch)
    match answer.verdict:
        case Verdict.KEPT:
            return Outcome.KEPT, "", answer.layout
        case Verdict.RULED_OUT:
            return Outcome.IMPOSSIBLE, "the solver has ruled out every layout", None
        case Verdict.OPEN:
            limit = f"the solver did not decide it in the {seconds:g} seconds of work allowed"
            return Outcome.OPEN, watch.stopped or limit, None
