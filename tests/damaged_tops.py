"""Patches and the top of a kit, spoiled one by one."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

from builders import panel
from damage import (
    marks,
    move,
    patch,
    patchwork,
    places,
    top,
)
from damage import outline as cut
from damaged_kits import Case, checkers, square_panel

from cutpaths.geometry.marks import MarkKind
from cutpaths.geometry.polygons import Ring
from cutpaths.shapes import Point, shift
from cutpaths.values import replace


def _ring(index: int, dx: float, dy: float) -> Callable[[Ring], tuple[Point, ...]]:
    """Moves one corner of an outline."""

    def moved(ring: Ring) -> tuple[Point, ...]:
        return tuple((x + dx, y + dy) if n == index else (x, y) for n, (x, y) in enumerate(ring))

    return moved


def _snipped(ring: Ring) -> tuple[Point, ...]:
    """The lower left corner cut off, 2 mm each way."""
    i = ring.index(min(ring, key=sum))
    x, y = ring[i]
    return (*ring[:i], (x, y + 2), (x + 2, y), *ring[i + 1 :])


CASES = [
    # The patchwork.
    Case(
        "patch dropped",
        checkers,
        patch(places(lambda old: old[1:])),
        "patches-tile",
        "patch-seams",
    ),
    Case(
        "patch dropped inside",
        checkers,
        patch(places(lambda old: old[:3] + old[4:])),
        "patches-tile",
        "patch-seams",
    ),
    Case(
        "patch doubled",
        checkers,
        patch(places(lambda old: (*old, old[0]))),
        "patches-tile",
        "patch-seams",
    ),
    Case(
        "patch shifted",
        checkers,
        patch(places(lambda old: [*old[:3], old[3].then(shift(0.5, 0)), *old[4:]])),
        "patches-tile",
    ),
    Case("allowance shaved", checkers, patch(cut(_ring(1, -1, 0))), "patch-allowance"),
    Case("allowance too wide", checkers, patch(cut(_ring(1, 1, 0))), "patch-allowance"),
    Case(
        "seam forgotten",
        checkers,
        patchwork(lambda a: replace(a, seams=a.seams[1:])),
        "patch-seams",
    ),
    Case(
        "seam through a patch",
        checkers,
        patchwork(lambda a: replace(a, seams=(a.seams[0].moved(shift(9, 0)), *a.seams[1:]))),
        "patch-seams",
    ),
    # The top.
    Case(
        "top of another size",
        square_panel,
        lambda kit: replace(kit, project=replace(kit.project, top=panel(20, Fraction(161, 8)))),
        "top-size",
    ),
    Case("allowance of the top snipped", checkers, top(cut(_snipped)), "top-allowance"),
    Case(
        "patchwork elsewhere",
        square_panel,
        patchwork(lambda a: replace(a, outline=tuple((x + 3, y) for x, y in a.outline))),
        "top-over-patches",
    ),
    Case(
        "basting over the seam",
        checkers,
        top(marks(MarkKind.BASTE, "", move(1, 0, only=0))),
        "basting-line",
    ),
]
