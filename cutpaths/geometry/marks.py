"""Marks: the places on a piece that a person marks on cloth, by kind and by side or corner.

Everything selects marks by kind and place name, never by position. A mark holds only the points
that count, in mm; how it is drawn is for `signs`.

Place names: a side is its letter, `A`; a corner is its two sides counter-clockwise, `AB`; what
belongs to side A at that corner is `AB:A`.
"""

from __future__ import annotations

from collections.abc import Iterable
from enum import StrEnum
from string import ascii_uppercase

from cutpaths.roles import Role
from cutpaths.shapes import Motion, Point
from cutpaths.values import Value, replace


class MarkKind(StrEnum):
    """What a mark is, and in brackets the points that it holds."""

    DOT = "dot"  # (place)
    BACK_TACK = "back-tack"  # (seam's end, a point of the seam)
    STITCH = "stitching line"  # (start, end)
    SEAM_RING = "seam line"  # (corners of a closed line)
    BASTE = "basting line"  # (corners of a closed line)
    CENTER = "center mark"  # (on the seam, at the raw edge)
    QUARTER = "quarter mark"  # (on the seam, at the raw edge)
    PATCH_SEAM = "patch seam tick"  # (on the seam, at the raw edge)
    OPENING_END = "opening end"  # (on the seam, a point of the sewn part)
    OPENING_FOLD = "opening fold"  # (start, end)
    BORDER_FOLD = "border fold"  # (start, end)
    MITER_FOLD = "miter fold"  # (fold point, raw edge)
    MITER_STITCH = "miter stitching line"  # (dot, fold point)
    MITER_TRIM = "miter trim"  # (raw edge, fold where it bends, raw edge)
    FIRST_FOLD = "first fold"  # (start, end)
    SECOND_FOLD = "second fold"  # (start, end)
    CORNER_FOLD = "corner fold"  # (raw edge, raw edge)
    TIP_TRIM = "tip trim"  # (raw edge, raw edge)
    GRAIN = "grain line"  # (tail, head)
    CUT_APART = "cutting line"  # (start, end), cut once what it crosses is sewn


MARK_ROLE: dict[MarkKind, Role] = {
    MarkKind.DOT: Role.DOT,
    MarkKind.BACK_TACK: Role.DOT,
    MarkKind.STITCH: Role.STITCH,
    MarkKind.SEAM_RING: Role.STITCH,
    MarkKind.BASTE: Role.BASTE,
    MarkKind.CENTER: Role.CENTER,
    MarkKind.QUARTER: Role.MATCH,
    MarkKind.PATCH_SEAM: Role.MATCH,
    MarkKind.OPENING_END: Role.OPENING,
    MarkKind.OPENING_FOLD: Role.FOLD,
    MarkKind.BORDER_FOLD: Role.FOLD,
    MarkKind.MITER_FOLD: Role.FOLD,
    MarkKind.MITER_STITCH: Role.STITCH,
    MarkKind.MITER_TRIM: Role.TRIM,
    MarkKind.FIRST_FOLD: Role.FOLD,
    MarkKind.SECOND_FOLD: Role.FOLD,
    MarkKind.CORNER_FOLD: Role.FOLD,
    MarkKind.TIP_TRIM: Role.TRIM,
    MarkKind.GRAIN: Role.GRAIN,
    MarkKind.CUT_APART: Role.TRIM,
}


CLOSED_KINDS = (MarkKind.SEAM_RING, MarkKind.BASTE)


class Mate(Value):
    """Names the mark of another piece: its piece's key, its kind and its place."""

    piece: str
    kind: MarkKind
    at: str


class Mark(Value):
    """One mark of a piece.

    Attributes:
        kind: what it is.
        at: the side or corner it belongs to; empty for the whole piece.
        points: the places that count, in the order that its kind says.
        mates: the marks of other pieces that its first point must meet.
    """

    kind: MarkKind
    at: str
    points: tuple[Point, ...]
    mates: tuple[Mate, ...] = ()

    @property
    def role(self) -> Role:
        """What the mark is drawn as."""
        return MARK_ROLE[self.kind]

    def moved(self, motion: Motion) -> Mark:
        """The mark in another frame; closed lines stay counter-clockwise."""
        if self.kind in CLOSED_KINDS:
            return replace(self, points=motion.ring(self.points))
        return replace(self, points=tuple(motion.point(p) for p in self.points))


def letter(side: int) -> str:
    """Letter of a side."""
    return ascii_uppercase[side]


def corner_name(corner: int, sides: int) -> str:
    """Name of the corner where side `corner` starts, such as `DA` for corner 0 of a rectangle."""
    return letter((corner - 1) % sides) + letter(corner % sides)


def select(marks: Iterable[Mark], kind: MarkKind, at: str | None = None) -> tuple[Mark, ...]:
    """The marks of a kind, at one place or at all, in their order."""
    return tuple(m for m in marks if m.kind is kind and (at is None or m.at == at))
