"""The key below a step picture: what its tints, lines and signs mean; mm."""

from __future__ import annotations

from collections.abc import Sequence

from cutpaths.drawing import Item, move
from cutpaths.paint import Paint
from cutpaths.roles import Role
from cutpaths.shapes import Path, Point, Text, shift
from cutpaths.sheets.steps.ink import BELOW, DOT, Painted, arrow, disc, pin, stripes
from cutpaths.sheets.steps.tints import TINTS, Cloth
from cutpaths.sheets.steps.view import frame
from cutpaths.strokes import text_width
from cutpaths.values import Value

HEIGHT = 2.6
CHIP = 8.0, 4.2
_ROW = 6.2
_APART = 5.0
_BESIDE = 1.6
_CHIP_EDGE = Paint(colour=(255, 255, 255), edge=(0x2F, 0x2F, 0x2F))


class Entry(Value):
    """A line of the key: what is shown in a box of the size of a chip, and what it means."""

    text: str
    painted: tuple[Painted, ...] = ()
    lines: tuple[tuple[Role, tuple[Point, ...]], ...] = ()

    @classmethod
    def of_cloth(cls, cloth: Cloth) -> Entry:
        """A chip of a face of cloth."""
        tint = TINTS[cloth]
        chip = frame(0.0, 0.0, *CHIP)
        painted: list[Painted] = [(chip, Paint(colour=tint.paint.colour, edge=_CHIP_EDGE.edge))]
        if tint.stripes is not None:
            painted += [(stripe, tint.stripes) for stripe in stripes(chip, tint.slope)]
        return cls(cloth.value, tuple(painted))

    @classmethod
    def of_line(cls, role: Role, text: str) -> Entry:
        """A piece of line."""
        middle = CHIP[1] / 2
        return cls(text, (), ((role, ((0.0, middle), (CHIP[0], middle))),))

    @classmethod
    def of_dot(cls) -> Entry:
        """A dot."""
        return cls("dot", ((disc((CHIP[0] / 2, CHIP[1] / 2), 1.0), DOT),))

    @classmethod
    def of_pin(cls) -> Entry:
        """A pin."""
        return cls("pin", pin((2.2, CHIP[1] / 2), (1.0, 0.0)))

    @classmethod
    def of_arrow_below(cls) -> Entry:
        """A hollow arrow."""
        level = CHIP[1] / 2
        ring = arrow(((0.2, level), (3.0, level), (7.8, level)), 1.2)
        return cls("moves below the cloth", ((ring, BELOW),))

    @classmethod
    def of_shades(cls, paints: Sequence[Paint]) -> Entry:
        """A chip of a face of a cloth of several fabrics."""
        wide = CHIP[0] / len(paints)
        parts = [
            (frame(i * wide, 0.0, (i + 1) * wide, CHIP[1]), paint) for i, paint in enumerate(paints)
        ]
        edge = Paint(colour=paints[0].colour, edge=_CHIP_EDGE.edge)
        whole = frame(0.0, 0.0, *CHIP), edge
        return cls(f"{Cloth.TOP_RIGHT.value} (all its fabrics)", (whole, *parts))

    @property
    def width(self) -> float:
        """Of chip and words together."""
        return CHIP[0] + _BESIDE + text_width(self.text, HEIGHT)

    def items(self, number: int) -> tuple[Item, ...]:
        """The entry with its lower left corner at the origin."""
        paint_of = [
            Item(Role.LABEL, f"key-{number}-{i}", Path(ring, closed=True), paint)
            for i, (ring, paint) in enumerate(self.painted)
        ]
        line_of = [Item(role, "key", Path(points)) for role, points in self.lines]
        low = (CHIP[1] - HEIGHT) / 2
        words = Text(string=self.text, at=(CHIP[0] + _BESIDE, low), height=HEIGHT)
        return (*paint_of, *line_of, Item(Role.LABEL, "key", words))


def key_items(entries: Sequence[Entry], width: float) -> tuple[tuple[Item, ...], float]:
    """The key below its upper edge, and how deep it is; rows are filled from the left."""
    found: list[Item] = []
    x, y = 0.0, -CHIP[1]
    for number, entry in enumerate(entries):
        if x and x + entry.width > width:
            x, y = 0.0, y - _ROW
        found += [move(shift(x, y), item) for item in entry.items(number)]
        x += entry.width + _APART
    return tuple(found), -y if entries else 0.0
