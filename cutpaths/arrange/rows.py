"""Counts of groups in the rows while squares change places."""

from __future__ import annotations

from cutpaths.arrange.rules import ArrangeRules, Layout, share_of_rows


class RowCounts:
    """How many squares of each group each row has, and what a change of places does to that.

    Changes are asked by row and by group, -1 being none. Uneven squares are those that a row has
    over or under its even share.
    """

    __slots__ = ("_counts", "_uneven")

    def __init__(self, rules: ArrangeRules, layout: Layout) -> None:
        groups = [rules.group_of[each] for each in layout]
        self._counts = [[0] * rules.rows for _ in rules.balance]
        for cell, group in enumerate(groups):
            if group >= 0:
                self._counts[group][rules.row_of(cell)] += 1
        self._uneven = []
        for counts in self._counts:
            least, most = share_of_rows(sum(counts), rules.rows)
            self._uneven.append(
                [max(least - count, count - most, 0) for count in range(rules.columns + 1)]
            )

    def uneven(self) -> int:
        """Uneven squares of all groups and rows."""
        return sum(
            uneven[count]
            for uneven, counts in zip(self._uneven, self._counts, strict=True)
            for count in counts
        )

    def change(self, row: int, group: int, other_row: int, other_group: int) -> int:
        """How many more squares are uneven once a square of each group takes the other's row."""
        if row == other_row or group == other_group:
            return 0
        return self._moved(group, row, other_row) + self._moved(other_group, other_row, row)

    def swap(self, row: int, group: int, other_row: int, other_group: int) -> None:
        """Keeps the counts once the two have changed places."""
        for each, start, end in ((group, row, other_row), (other_group, other_row, row)):
            if each >= 0:
                self._counts[each][start] -= 1
                self._counts[each][end] += 1

    def _moved(self, group: int, start: int, end: int) -> int:
        if group < 0:
            return 0
        counts, uneven = self._counts[group], self._uneven[group]
        before = uneven[counts[start]] + uneven[counts[end]]
        return uneven[counts[start] - 1] + uneven[counts[end] + 1] - before
