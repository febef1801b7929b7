"""Templates, and folded-over blankets of a kit, spoiled one by one."""

from __future__ import annotations

import math
from collections.abc import Callable

from damage import (
    backing,
    hole_moved,
    holes,
    marks,
    move,
    template,
)
from damage import outline as cut
from damaged_kits import Case, checkers, folded, narrow_folds, tips_too_long

from cutpaths.geometry.marks import MarkKind
from cutpaths.geometry.polygons import Ring
from cutpaths.shapes import Circle, Path, Point, shift
from cutpaths.values import replace


def _ring(index: int, dx: float, dy: float) -> Callable[[Ring], tuple[Point, ...]]:
    """Moves one corner of an outline."""

    def moved(ring: Ring) -> tuple[Point, ...]:
        return tuple((x + dx, y + dy) if n == index else (x, y) for n, (x, y) in enumerate(ring))

    return moved


def _slid(slot: Path | Circle) -> Path | Circle:
    """A slot moved 2 mm along itself, toward the hole where it starts."""
    assert isinstance(slot, Path)
    (x0, y0), (x1, y1), *_ = slot.points
    part = 2 / math.hypot(x1 - x0, y1 - y0)
    return shift((x0 - x1) * part, (y0 - y1) * part).line(slot)


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
        template(holes(2, _slid)),
        "template-cut-outs",
    ),
    Case(
        "hole beside its dot",
        checkers,
        template(holes(1, hole_moved(1, 0))),
        "template-holes",
        "template-slots template-edges",
    ),
    Case(
        "slot beside its line", checkers, template(holes(2, hole_moved(0.5, 0.5))), "template-slots"
    ),
    Case("template cut wrongly", checkers, template(cut(_ring(2, 0.5, 0))), "template-edges"),
    Case(
        "template without slots cut wrongly",
        narrow_folds,
        template(cut(_ring(1, 0.5, 0))),
        "template-edges",
    ),
    Case(
        "template without slots whose hole is beside the fold point",
        narrow_folds,
        template(holes(0, hole_moved(0.3, 0))),
        "template-edges",
    ),
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
        "border-covered middle-bare miter-one-line",
    ),
    Case(
        "border folded too narrow, folded over",
        folded,
        backing(marks(MarkKind.FIRST_FOLD, "C", move(0, -2))),
        "border-covered",
        "folds-in-place middle-bare miter-one-line",
    ),
    Case(
        "second fold too far out",
        folded,
        backing(marks(MarkKind.SECOND_FOLD, "C", move(0, 2))),
        "finished-as-top",
        "folds-in-place border-covered middle-bare miter-one-line tip-hidden",
    ),
    Case(
        "first fold too far out",
        folded,
        backing(marks(MarkKind.FIRST_FOLD, "B", move(10, 0))),
        "middle-bare",
        "folds-in-place border-covered",
    ),
    Case("tip too long", tips_too_long, lambda kit: kit, "tip-hidden", "middle-bare"),
    Case(
        "corner fold at 45 degrees with two widths",
        folded,
        backing(marks(MarkKind.CORNER_FOLD, "DA", move(12, 0, only=1))),
        "miter-one-line",
        "finished-as-top folds-in-place border-covered middle-bare tip-hidden trim-line "
        "waste-region template-edges",
    ),
    Case(
        "center beside the middle, folded over",
        folded,
        backing(marks(MarkKind.CENTER, "B", move(0, 2))),
        "centers-meet",
    ),
]
