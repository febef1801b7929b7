"""Templates, and folded-over blankets of a kit, spoiled one by one."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from damage import (
    backing,
    hole_moved,
    holes,
    marks,
    move,
    template,
)
from damage import outline as cut
from damaged_kits import Case, checkers, folded, tips_too_long

from cutpaths.geometry.marks import MarkKind
from cutpaths.geometry.polygons import Ring
from cutpaths.shapes import Point


def _ring(index: int, dx: float, dy: float) -> Callable[[Ring], tuple[Point, ...]]:
    """Moves one corner of an outline."""

    def moved(ring: Ring) -> tuple[Point, ...]:
        return tuple((x + dx, y + dy) if n == index else (x, y) for n, (x, y) in enumerate(ring))

    return moved


CASES = [
    # Templates.
    Case(
        "corner without a template",
        checkers,
        lambda kit: replace(kit, templates=kit.templates[1:]),
        "templates-serve",
    ),
    Case(
        "slot near a hole",
        checkers,
        template(holes(2, hole_moved(-2.5, 2.5))),
        "template-cut-outs",
    ),
    Case("hole beside its dot", checkers, template(holes(1, hole_moved(1, 0))), "template-holes"),
    Case(
        "slot beside its line", checkers, template(holes(2, hole_moved(0.5, 0.5))), "template-slots"
    ),
    Case("template cut wrongly", checkers, template(cut(_ring(2, 0.5, 0))), "template-edges"),
    Case(
        "mark off the piece",
        checkers,
        backing(marks(MarkKind.GRAIN, "", move(0, 800))),
        "marks-inside",
    ),
    # Folded over.
    Case(
        "first fold too near",
        folded,
        backing(marks(MarkKind.FIRST_FOLD, "A", move(0, 2))),
        "folds-in-place",
        "border-covered",
    ),
    Case(
        "second fold too far out",
        folded,
        backing(marks(MarkKind.SECOND_FOLD, "C", move(0, 2))),
        "finished-as-top",
        "folds-in-place border-covered middle-bare miter-one-line",
    ),
    Case(
        "first fold too far out",
        folded,
        backing(marks(MarkKind.FIRST_FOLD, "B", move(10, 0))),
        "middle-bare",
        "folds-in-place border-covered miter-one-line",
    ),
    Case("tip too long", tips_too_long, lambda kit: kit, "tip-hidden", "middle-bare"),
    Case(
        "corner fold at 45 degrees with two widths",
        folded,
        backing(marks(MarkKind.CORNER_FOLD, "DA", move(12, 0, only=1))),
        "miter-one-line",
        "border-covered",
    ),
    Case(
        "center beside the middle, folded over",
        folded,
        backing(marks(MarkKind.CENTER, "B", move(0, 2))),
        "centers-meet",
    ),
]
