"""Squares of one size in columns and rows; mm, the assembly's frame is the front view."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction
from itertools import pairwise

from cutpaths.geometry.assembly import Assembly, Face, Grain, Piece, PieceKind, Seam
from cutpaths.geometry.marks import Mark, MarkKind
from cutpaths.geometry.outlines import rectangle
from cutpaths.shapes import Motion, shift


def squares(
    finished: Fraction,
    allowance: Fraction,
    chart: Sequence[Sequence[str]],
    directional: Mapping[str, bool],
) -> Assembly:
    """Lays squares edge to edge.

    Args:
        finished: finished side of a square, exact.
        allowance: seam allowance on all sides of a square, exact.
        chart: names of fabrics, the head row first.
        directional: whether a fabric has an up.

    Returns:
        The top's assembly: one piece for each fabric, numbered in the order of the chart.
    """
    columns, rows = len(chart[0]), len(chart)
    # Exact sums turned to float once: neighbours share the very same coordinates.
    xs = [float(finished * i) for i in range(columns + 1)]
    ys = [float(finished * i) for i in range(rows + 1)]
    starts_x = [float(finished * i - allowance) for i in range(columns)]
    starts_y = [float(finished * i - allowance) for i in range(rows)]
    places: dict[str, list[Motion]] = {}
    for row, names in enumerate(chart):
        y = starts_y[rows - 1 - row]
        for x, name in zip(starts_x, names, strict=True):
            places.setdefault(name, []).append(shift(x, y))
    parts = tuple(
        _square(f"PATCH-{n}", finished, allowance, name, directional[name], tuple(found))
        for n, (name, found) in enumerate(places.items(), 1)
    )
    in_rows = [Seam((x, low), (x, high)) for low, high in pairwise(ys) for x in xs[1:-1]]
    between_rows = [Seam((xs[0], y), (xs[-1], y)) for y in ys[1:-1]]
    return Assembly(outline=rectangle(xs[-1], ys[-1]), parts=parts, seams=(*in_rows, *between_rows))


def _square(
    key: str,
    finished: Fraction,
    allowance: Fraction,
    fabric: str,
    headed: bool,
    places: tuple[Motion, ...],
) -> Piece:
    """One square as it is cut, right side up."""
    cut = float(finished + 2 * allowance)
    low, high = float(allowance), float(finished + allowance)
    ring = (low, low), (high, low), (high, high), (low, high)
    return Piece(
        key=key,
        kind=PieceKind.PATCH,
        fabric=fabric,
        face=Face.RIGHT,
        grain=Grain((0.0, 1.0), headed),
        outline=rectangle(cut, cut),
        marks=(Mark(MarkKind.SEAM_RING, "", ring),),
        places=places,
    )
