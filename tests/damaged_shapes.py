"""Shapes, marks, faces and letters of a kit, spoiled one by one."""

from __future__ import annotations

import math

from damage import (
    backing,
    lose,
    marks,
    mirrored,
    move,
    moved_by,
    patch,
    places,
    renamed,
    top,
)
from damage import outline as cut
from damaged_kits import Case, checkers, folded, square_panel

from cutpaths.geometry.assembly import Face
from cutpaths.geometry.marks import MarkKind, select
from cutpaths.pieces import Kit
from cutpaths.shapes import Motion, Point
from cutpaths.values import replace


def _points(kit: Kit, kind: MarkKind, at: str) -> tuple[Point, ...]:
    """The points of a mark of the top."""
    return select(kit.top.marks, kind, at)[0].points


CASES = [
    # Shapes and marks by themselves.
    Case(
        "coordinate is no number",
        checkers,
        backing(marks(MarkKind.CENTER, "B", move(math.nan, 0))),
        "shapes-sound",
    ),
    Case("outline runs clockwise", checkers, backing(cut(lambda r: r[::-1])), "shapes-sound"),
    Case("point twice", checkers, patch(cut(lambda r: (*r, r[-1]))), "shapes-sound"),
    Case(
        "outline crosses itself", checkers, top(cut(lambda r: (r[1], r[0], *r[2:]))), "shapes-sound"
    ),
    Case(
        "line without length",
        checkers,
        backing(marks(MarkKind.BORDER_FOLD, "A", lambda m: replace(m, points=m.points[:1] * 2))),
        "shapes-sound",
    ),
    Case("patch laid nowhere", checkers, patch(places(lambda _: ())), "shapes-sound"),
    Case(
        "place that stretches",
        checkers,
        patch(places(lambda old: [Motion(cos=1.1), *old[1:]])),
        "shapes-sound",
    ),
    Case(
        "two dots at one place",
        checkers,
        top(
            marks(
                MarkKind.DOT,
                "AB",
                lambda m: replace(m, points=_points(checkers(), MarkKind.DOT, "BC")),
            )
        ),
        "marks-complete",
    ),
    Case(
        "dot left out",
        checkers,
        backing(marks(MarkKind.DOT, "AB:A", lose)),
        "marks-complete",
        "marks-mated",
    ),
    Case(
        "dot in a folded-over blanket",
        folded,
        top(
            lambda piece: replace(
                piece,
                marks=(
                    *piece.marks,
                    replace(piece.marks[0], kind=MarkKind.DOT, points=((9.0, 9.0),), mates=()),
                ),
            )
        ),
        "marks-complete",
        "marks-mated",
    ),
    Case(
        "no fold mark", checkers, backing(marks(MarkKind.MITER_FOLD, "AB", lose)), "marks-complete"
    ),
    Case(
        "center without a mate",
        checkers,
        top(marks(MarkKind.CENTER, "B", lambda m: replace(m, mates=()))),
        "marks-mated",
    ),
    Case(
        "patch without its seam line",
        checkers,
        patch(marks(MarkKind.SEAM_RING, "", lose)),
        "marks-complete",
    ),
    # Faces, letters, places.
    Case(
        "top right side up",
        checkers,
        top(lambda piece: replace(piece, face=Face.RIGHT)),
        "faces-up",
    ),
    Case(
        "patch shows its wrong side",
        checkers,
        patch(places(lambda old: [replace(old[0], mirrored=True), *old[1:]])),
        "faces-up",
    ),
    Case("mirrored top", checkers, top(mirrored), "letters-turn"),
    Case("mirrored top of a square", square_panel, top(mirrored), "letters-turn"),
    Case("mirrored backing", square_panel, backing(mirrored), "letters-turn"),
    Case(
        "two letters swapped on a square",
        square_panel,
        top(renamed({"B": "D", "D": "B"})),
        "letters-turn",
    ),
    Case(
        "two letters of neighbours swapped",
        square_panel,
        top(renamed({"A": "B", "B": "A"})),
        "marks-complete",
        "marks-mated",
    ),
    Case("top beside its place", checkers, top(moved_by(1, 0)), "top-placed"),
    Case(
        "top turned by a quarter on a square",
        square_panel,
        top(places(lambda old: [old[0].then(Motion.quarters(1, 508.0, 0.0))])),
        "top-placed",
    ),
]
