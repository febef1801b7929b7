"""Small systems of linear equations, in plain floats."""

from __future__ import annotations

from collections.abc import Sequence


def solution(rows: Sequence[Sequence[float]], right: Sequence[float]) -> list[float]:
    """The unknowns of as many equations, by elimination with row pivots.

    Args:
        rows: the factors of the unknowns, one row for each equation.
        right: what each row comes to.

    Raises:
        ZeroDivisionError: the equations do not settle the unknowns.

    >>> solution([[0.0, 2.0], [1.0, 1.0]], [6.0, 5.0])
    [2.0, 3.0]
    """
    work = [[*row, value] for row, value in zip(rows, right, strict=True)]
    count = len(work)
    for column in range(count):
        best = max(range(column, count), key=lambda i: abs(work[i][column]))
        work[column], work[best] = work[best], work[column]
        pivot = work[column]
        for row in work[column + 1 :]:
            part = row[column] / pivot[column]
            row[column:] = [a - part * b for a, b in zip(row[column:], pivot[column:], strict=True)]
    found = [0.0] * count
    for i in reversed(range(count)):
        known = sum(work[i][j] * found[j] for j in range(i + 1, count))
        found[i] = (work[i][count] - known) / work[i][i]
    return found
