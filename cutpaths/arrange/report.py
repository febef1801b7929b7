"""A layout in words: its chart, what it uses of each print, and what it keeps or does not."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import sqrt

from cutpaths.arrange.rules import ArrangeRules, Layout
from cutpaths.arrange.search import Arranged, Outcome
from cutpaths.arrange.violations import nearest_alike, used_counts

WIDEST = 100  # letters of a chart's line with whole names; else prints go by their numbers
SHOWN = 40  # violations told one by one


def chart_rows(rules: ArrangeRules, layout: Layout) -> tuple[str, ...]:
    """The layout as rows of names in straight columns, the head row first.

    >>> from cutpaths.arrange.rules import Print
    >>> rules = ArrangeRules(columns=2, rows=2, prints=(Print("rose", 2), Print("ox", 2)))
    >>> chart_rows(rules, (0, 1, 1, 0))
    ('rose ox', 'ox   rose')
    """
    return _aligned(_in_rows(rules, [rules.names[each] for each in layout]))


def chart_lines(rules: ArrangeRules, layout: Layout) -> Iterator[str]:
    """The layout with the names of its rows and columns; prints by name, or by number if wide."""
    numbers = [str(place + 1) for place in range(len(rules.prints))]
    widest = max(map(len, rules.names)) + 1
    texts = rules.names if rules.columns * widest <= WIDEST else numbers
    heads = ["", *(f"c{column + 1}" for column in range(rules.columns))]
    rows = _in_rows(rules, [texts[each] for each in layout])
    yield from _aligned([heads, *([f"r{n}", *row] for n, row in enumerate(rows, 1))])


def supply_lines(rules: ArrangeRules, layout: Layout) -> Iterator[str]:
    """For each print what is used and left over, and how near two of its squares come."""
    used, near = used_counts(rules, layout), nearest_alike(rules, layout)
    table = [["", "print", "squares", "used", "left", "nearest two alike"]]
    for place, each in enumerate(rules.prints):
        distance = near[place]
        apart = "-" if distance is None else f"{sqrt(distance):.1f} squares"
        left = each.count - used[place]
        row = [str(place + 1), each.name, str(each.count), str(used[place]), str(left), apart]
        table.append(row)
    yield from _aligned(table)


def verdict_lines(rules: ArrangeRules, found: Arranged) -> Iterator[str]:
    """What is kept, or what is not and whether it could be; then how far apart prints alike lie."""
    match found.outcome:
        case Outcome.KEPT:
            yield f"Every rule is kept: {kept_rules(rules)}."
        case Outcome.IMPOSSIBLE:
            yield f"Proved that no layout keeps every rule: {found.reason}."
        case Outcome.OPEN:
            yield f"Not known whether any layout keeps every rule: {found.reason}."
    if found.violations:
        places = len(found.violations)
        yield f"The best found breaks them in {places} place{'s' if places > 1 else ''}:"
        yield from (f"  {each}" for each in found.violations[:SHOWN])
        if len(found.violations) > SHOWN:
            yield f"  ... and {len(found.violations) - SHOWN} more"
    if found.fewest:
        yield "Proved that no layout of the squares used has fewer."
    distances = [each for each in nearest_alike(rules, found.layout) if each is not None]
    if distances:
        more = "; farther may be possible" if rules.apart else ""
        nearest = f"{sqrt(min(distances)):.1f} squares apart at least, middle to middle"
        yield f"Two alike are {nearest}{more}."


def kept_rules(rules: ArrangeRules) -> str:
    """The rules in one phrase."""
    phrases = ["none alike side by side"]
    if rules.corners:
        phrases[0] += " or corner to corner"
    if rules.balance:
        names = ", ".join(group.name for group in rules.balance)
        phrases.append(f"rows balanced in {names}")
    if rules.pinned:
        phrases.append(f"{len(rules.pinned)} pinned")
    return "; ".join(phrases)


def _in_rows(rules: ArrangeRules, texts: Sequence[str]) -> list[Sequence[str]]:
    starts = range(0, rules.cells, rules.columns)
    return [texts[start : start + rules.columns] for start in starts]


def _aligned(table: Sequence[Sequence[str]]) -> tuple[str, ...]:
    """Rows of texts in straight columns with one space between, numbers at the right."""
    widths = [max(map(len, column)) for column in zip(*table, strict=True)]
    return tuple(" ".join(map(_padded, row, widths)).rstrip() for row in table)


def _padded(text: str, width: int) -> str:
    return text.rjust(width) if text.isdigit() else text.ljust(width)
