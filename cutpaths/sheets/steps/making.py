"""What all steps of one kit share: its numbers as the figures print them, and its geometry; mm."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import cached_property

from cutpaths.figures import figures_of
from cutpaths.geometry.blanket import Corner
from cutpaths.geometry.marks import Mark, MarkKind, letter, select
from cutpaths.geometry.polygons import Ring, carry, directions, right_of, sub
from cutpaths.pieces import Kit
from cutpaths.project.model import BackingCorners, Construction
from cutpaths.shapes import IDENTITY, Motion, Point, shift
from cutpaths.sheets.steps.step import Hand
from cutpaths.values import Value


class Numbers(Value):
    """The printed figures of a kit, by their keys."""

    texts: Mapping[str, str]

    def __getitem__(self, key: str) -> str:
        return self.texts[key]

    def get(self, key: str) -> str:
        """A figure; empty where the kit has none of that key."""
        return self.texts.get(key, "")

    def side(self, i: int) -> str:
        """Length of a side from dot to dot."""
        return self.get(f"side.{letter(i).lower()}.seam") or self.get("side.seam")

    @property
    def allowance(self) -> str:
        """The seam allowance; empty where nothing is sewn with one."""
        return self.get("seam.allowance")

    def at_corner(self, number: int, name: str) -> tuple[tuple[str, str], ...]:
        """What a corner has for both its sides, each with the side's letter; once if alike."""
        start = f"corner.{number}."
        what, _, rest = name.partition("/")
        end = f".{rest}" if rest else ""
        alike = self.texts.get(f"{start}{what}{end}")
        if alike is not None:
            return (("", alike),)
        found = []
        for key, text in self.texts.items():
            if key.startswith(f"{start}{what}-") and key.endswith(end):
                side = key.removeprefix(f"{start}{what}-").removesuffix(end)
                if len(side) == 1:
                    found.append((side.upper(), text))
        return tuple(found)


class Making(Value, dict=True):  # room for what is worked out once
    """A kit with what its steps ask of it again and again, and the hand that works."""

    kit: Kit
    hand: Hand = Hand.RIGHT

    def toward(self, p: Point, q: Point) -> tuple[Point, Point]:
        """Two ends of a cut or a seam on the sheet, in the order in which a hand works them.

        Scissors and needle come from the side of their hand: a right hand works from right to
        left, a left hand from left to right (common practice, no source).
        """
        left, right = sorted((p, q))
        return (right, left) if self.hand is Hand.RIGHT else (left, right)

    @cached_property
    def numbers(self) -> Numbers:
        """The printed figures."""
        groups = figures_of(self.kit).groups
        return Numbers({f.key: f.text for group in groups for f in group.figures})

    @property
    def turned(self) -> bool:
        """Whether it is turned; else folded over."""
        return self.kit.project.construction is Construction.TURNED

    @property
    def trimmed_before(self) -> bool:
        """Whether the backing's corners are cut off before anything is sewn."""
        return self.kit.project.corners is BackingCorners.TRIMMED

    @property
    def all_corners(self) -> str:
        """How many corners are made alike, such as `all 4 corners`."""
        return f"all {self.sides} corners"

    @property
    def sides(self) -> int:
        """How many sides the blanket has."""
        return len(self.kit.blanket.seam)

    def out(self, i: int) -> Point:
        """Unit vector that points out of side i in the front view."""
        return right_of(directions(self.kit.blanket.seam)[i])

    def sewing(self, i: int) -> Motion:
        """From the front view to the work as it is sewn: mirrored, side i along the foot."""
        return carry(((0.0, 0.0), self.out(i)), ((0.0, 0.0), (0.0, -1.0)), mirrored=True)

    def front_facing(self, i: int) -> Motion:
        """From the front view to the same, turned so that side i runs along the head."""
        return carry(((0.0, 0.0), self.out(i)), ((0.0, 0.0), (0.0, 1.0)), mirrored=False)

    def onto_backing(self, i: int) -> Motion:
        """The shift that lays the top on the flat backing for sewing side i."""
        return shift(*sub(self.kit.blanket.corners[i].miter[1], self.kit.blanket.seam[i]))

    @property
    def uncut_backing(self) -> Ring:
        """The backing with its corners left on, so that edge i is side i."""
        return tuple(corner.backing_point for corner in self.kit.blanket.corners)

    def corners_of(self, i: int) -> tuple[Corner, Corner]:
        """The corners where side i starts and ends."""
        corners = self.kit.blanket.corners
        return corners[i], corners[(i + 1) % len(corners)]

    def dot_along(self, at: str, side: str) -> str:
        """The figure of how far the dot of a side stands from a corner along its raw edge.

        Corners that share a card share its figures; a card turned over swaps its sides.
        """
        for number, card in enumerate(self.kit.templates, 1):
            if at in card.corners:
                texts = dict(self.numbers.at_corner(number, "dot/along"))
                place = at.index(side)
                first = card.corners[0]
                own = first[1 - place] if at in card.turned_over else first[place]
                return texts.get("") or texts[own]
        raise ValueError(f"must be a corner of the blanket, got {at!r}")

    def top_marks(self, kind: MarkKind, at: Callable[[str], bool] | None = None) -> list[Mark]:
        """Marks of the top in the front view."""
        found = select(self.kit.blanket.top_marks, kind)
        return [mark for mark in found if at is None or at(mark.at)]

    def backing_marks(self, kind: MarkKind, at: Callable[[str], bool] | None = None) -> list[Mark]:
        """Marks of the backing in the front view."""
        found = select(self.kit.blanket.backing_marks, kind)
        return [mark for mark in found if at is None or at(mark.at)]

    def crease_mark(self, at: str) -> tuple[Point, Point]:
        """The miter fold of a corner as it is marked on the backing, in the front view."""
        points = select(self.kit.blanket.backing_marks, MarkKind.MITER_FOLD, at)[0].points
        return points[0], points[1]

    @property
    def trimmed_backing(self) -> Ring:
        """The backing once its corners are trimmed, in the front view."""
        return tuple(p for corner in self.kit.blanket.corners for p in corner.outline)

    @property
    def front_view(self) -> Motion:
        """The front view itself."""
        return IDENTITY


def belongs_to(side: int) -> Callable[[str], bool]:
    """Whether a mark's place is on a side: `A`, `A:3` or `DA:A`."""
    name = letter(side)
    return lambda at: at == name or at.startswith(f"{name}:") or at.endswith(f":{name}")
