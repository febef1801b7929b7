"""Drawings of cutting plans: each length of cloth at true scale, with every cut; mm.

Cuts are lines, drawn once each: strips right across, then crosscuts, then trims. Waste is crossed
by a diagonal. The cloth's own edges are drawn as dimensions are: nothing is cut there.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import groupby

from cutpaths.cloth.cutting import FabricPlan, Sheet
from cutpaths.cloth.needs import by
from cutpaths.cloth.packing.cuts import Cut, Node, Taken, Waste, Way
from cutpaths.cloth.plan_words import CAUTION
from cutpaths.drawing import Dimension, Document, Item, Pen
from cutpaths.lengths import Ruler
from cutpaths.pieces import Kit
from cutpaths.roles import Role
from cutpaths.shapes import Anchor, Path, Text
from cutpaths.sheets.sheet import Output, about, fit, label
from cutpaths.sheets.wrap import wrapped
from cutpaths.strokes import text_width

FORMATS = ("svg", "dxf")
PEN = Pen(text_as_strokes=False)
TITLE, SMALL, LETTERS_MOST, LETTERS_LEAST = 16.0, 9.0, 14.0, 3.0
GAP = 30.0
LEADING = 1.7
SQUARED = "squared up"


def cloth_sheets(kit: Kit, plans: Sequence[FabricPlan]) -> tuple[Output, ...]:
    """A drawing of each length of cloth; alike quarters or pack pieces are drawn once."""
    return tuple(output for plan in plans for output in _fabric(kit, plan))


def _fabric(kit: Kit, plan: FabricPlan) -> Iterator[Output]:
    alike = groupby(plan.sheets, key=lambda each: (each.source, each.width, each.strips))
    for number, (_, group) in enumerate(alike, 1):
        sheets = tuple(group)
        name = f"cloth-{plan.fabric.name}-{number}"
        items = _sheet(kit, plan, sheets)
        drawing = fit(name, items, about(kit, f"cutting plan, {plan.fabric.label}", ""), PEN)
        yield Output(name=name, document=Document(name, (drawing,)), formats=FORMATS)


def _sheet(kit: Kit, plan: FabricPlan, sheets: Sequence[Sheet]) -> tuple[Item, ...]:
    sheet, ruler = sheets[0], kit.project.ruler
    width, length = float(sheet.width), float(sheet.length)
    cuts = _Cuts(plan, ruler)
    left, right = float(sheet.strip_ends), float(sheet.width - sheet.strip_ends)
    y = float(sheet.square_up)
    cuts.edge(width, length)
    if sheet.square_up:
        cuts.line((0.0, y), (width, y))
    for strip in sheet.strips:
        top = y + float(strip.height)
        cuts.node(strip, left, y)
        if sheet.strip_ends:
            cuts.line((left, y), (left, top))
            cuts.line((right, y), (right, top))
        if top < length:
            cuts.line((0.0, top), (width, top))
        cuts.height(width, y, top, ruler.text(Fraction(strip.height)))
        y = top
    cuts.width(width, ruler.text(sheet.width))
    return (*cuts.items, *_heading(kit, plan, sheets), *_caution(width))


def _heading(kit: Kit, plan: FabricPlan, sheets: Sequence[Sheet]) -> Iterator[Item]:
    sheet, ruler = sheets[0], kit.project.ruler
    many = "" if len(sheets) == 1 else f" to {sheets[-1].name}, {len(sheets)} alike"
    lines = (
        f"{kit.project.title}: {plan.fabric.label}",
        f"{sheet.name}{many}: {by((sheet.width, sheet.length), ruler)}, selvages left and right",
    )
    y = float(sheet.length) + 2 * GAP
    for line, height in zip(reversed(lines), (SMALL, TITLE), strict=True):
        for part in reversed(wrapped(line, height, max(float(sheet.width), 300.0))):
            yield label("sheet", part, (0.0, y), height)
            y += height * LEADING
        y += height * (LEADING - 1)


def _caution(width: float) -> Iterator[Item]:
    y = -2 * GAP - SMALL
    for line in wrapped(CAUTION, SMALL, max(width, 300.0)):
        yield label("sheet", line, (0.0, y), SMALL)
        y -= SMALL * LEADING


class _Cuts:
    """Collects the lines of one sheet, from the lower left corner of the cloth."""

    def __init__(self, plan: FabricPlan, ruler: Ruler) -> None:
        self.items: list[Item] = []
        self._plan, self._ruler = plan, ruler

    def edge(self, width: float, length: float) -> None:
        """The cloth's own edges."""
        ring = ((0.0, 0.0), (width, 0.0), (width, length), (0.0, length))
        self.items.append(Item(Role.DIMENSION, "cloth", Path(ring, closed=True)))

    def line(self, start: tuple[float, float], end: tuple[float, float]) -> None:
        """One cut."""
        self.items.append(Item(Role.CUT, "cuts", Path((start, end))))

    def width(self, width: float, text: str) -> None:
        """The cloth's width, under it."""
        below = Dimension(start=(0.0, 0.0), end=(width, 0.0), offset=-GAP, text=text, height=SMALL)
        self.items.append(Item(Role.DIMENSION, "cloth", below))

    def height(self, x: float, low: float, high: float, text: str) -> None:
        """A strip's height, at its right."""
        beside = Dimension(start=(x, low), end=(x, high), offset=-GAP, text=text, height=SMALL)
        self.items.append(Item(Role.DIMENSION, "cloth", beside))

    def node(self, node: Node, x: float, y: float) -> None:
        """What one part of the tree is cut into."""
        width, height = float(node.width), float(node.height)
        match node:
            case Taken(item=item, turned=turned):
                self._name(item, (x, y, width, height), turned=turned)
            case Waste():
                cross = Path(((x, y), (x + width, y + height)))
                self.items.append(Item(Role.TRIM, "waste", cross))
            case Cut(way=way, parts=parts):
                for count, part in enumerate(parts):
                    if count:
                        across, along = (x + width, y), (x, y + height)
                        self.line((x, y), across if way is Way.ACROSS else along)
                    self.node(part, x, y)
                    if way is Way.ACROSS:
                        y, height = y + float(part.height), height - float(part.height)
                    else:
                        x, width = x + float(part.width), width - float(part.width)

    def _name(self, item: int, box: tuple[float, float, float, float], *, turned: bool) -> None:
        """A piece's name and size in its middle, along its longer side where that is needed."""
        x, y, width, height = box
        need = self._plan.needs[item]
        lines = [", ".join(need.keys), by(need.size, self._ruler)]
        if turned:
            lines.append("turned")
        upright = width >= height
        wide, high = (width, height) if upright else (height, width)
        longest = max(text_width(line, 1.0) for line in lines)
        size = min(LETTERS_MOST, 0.85 * wide / longest, 0.8 * high / (len(lines) * LEADING))
        if size < LETTERS_LEAST:
            lines = lines[:1]
            size = min(LETTERS_MOST, 0.85 * wide / text_width(lines[0], 1.0), 0.5 * high)
        off = (len(lines) - 1) * size * LEADING / 2 - size / 2
        for count, line in enumerate(lines):
            step = off - count * size * LEADING
            at = (0.0, step) if upright else (-step, 0.0)
            text = Text(
                string=line,
                at=(x + width / 2 + at[0], y + height / 2 + at[1]),
                height=size,
                angle=0.0 if upright else 90.0,
                anchor=Anchor.MIDDLE,
            )
            self.items.append(Item(Role.LABEL, "pieces", text))
