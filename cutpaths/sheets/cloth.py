"""Drawings of cutting plans: each length of cloth at true scale, with every cut; mm.

Cuts are lines, drawn once each: strips right across, then crosscuts, then trims. Waste is crossed
by a diagonal. The cloth's own edges are drawn as dimensions are: nothing is cut there. Beside cloth
with an up an arrow says where that is: pieces stand along the selvage.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import groupby

from cutpaths.cloth.cutting import FabricPlan, Sheet, Source
from cutpaths.cloth.lengths_to_buy import length_words
from cutpaths.cloth.needs import by
from cutpaths.cloth.packing.cuts import Cut, Node, Taken, Waste, Way
from cutpaths.cloth.plan_words import CAUTION
from cutpaths.cloth.report import PLACE_COLUMNS, as_data, place_rows
from cutpaths.cloth.sheets_of import LENGTH
from cutpaths.drawing import Dimension, Document, Item, Pen
from cutpaths.lengths import Ruler
from cutpaths.pieces import Kit
from cutpaths.roles import Role
from cutpaths.shapes import Path
from cutpaths.sheets.cloth_names import LEADING, named
from cutpaths.sheets.cloth_names import Lettering as Lettering
from cutpaths.sheets.data import DataDocument, TableDocument
from cutpaths.sheets.sheet import Output, about, fit, label
from cutpaths.sheets.wrap import wrapped
from cutpaths.strokes import text_width

FORMATS = ("svg", "dxf")
PEN = Pen(text_as_strokes=False)
TITLE = 16.0


PLAIN = Lettering()
SMALL, GAP = PLAIN.small, PLAIN.gap


def cloth_sheets(kit: Kit, plans: Sequence[FabricPlan]) -> tuple[Output, ...]:
    """A drawing of each length of cloth; alike quarters or pack pieces are drawn once."""
    return tuple(output for plan in plans for output in _fabric(kit, plan))


def cloth_outputs(
    kit: Kit, plans: Sequence[FabricPlan], notes: Sequence[str]
) -> tuple[Output, ...]:
    """The drawings, the list of pieces with their places, and everything for programs."""
    project = kit.project
    table = TableDocument("cloth", (), PLACE_COLUMNS, tuple(place_rows(plans)))
    told = as_data(project.title, project.digest, plans, project.ruler, notes)
    data = DataDocument("cloth", (), told)
    return (
        *cloth_sheets(kit, plans),
        Output(name="cloth", document=table, formats=("csv",)),
        Output(name="cloth", document=data, formats=("json",)),
    )


def _fabric(kit: Kit, plan: FabricPlan) -> Iterator[Output]:
    alike = groupby(plan.sheets, key=lambda each: (each.source, each.width, each.strips))
    for number, (_, group) in enumerate(alike, 1):
        sheets = tuple(group)
        name = f"cloth-{plan.fabric.name}-{number}"
        items = _sheet(kit, plan, sheets)
        drawing = fit(name, items, about(kit, f"cutting plan, {plan.fabric.label}", ""), PEN)
        yield Output(name=name, document=Document(name, (drawing,)), formats=FORMATS)


def _sheet(kit: Kit, plan: FabricPlan, sheets: Sequence[Sheet]) -> tuple[Item, ...]:
    cuts = sheet_cuts(plan, sheets[0], kit.project.ruler, PLAIN)
    return (*cuts, *_heading(kit, plan, sheets), *_caution(float(sheets[0].width)))


def sheet_cuts(
    plan: FabricPlan,
    sheet: Sheet,
    ruler: Ruler,
    lettering: Lettering,
    counts: Sequence[int] = (),
) -> tuple[Item, ...]:
    """The cloth of one sheet with every cut, lettered; a strip may stand for a number of them."""
    width, length = float(sheet.width), float(sheet.length)
    cuts = _Cuts(plan, ruler, lettering)
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
        if not lettering.level:
            cuts.height(width, y, top, ruler.text(Fraction(strip.height)))
        y = top
    if lettering.level:
        cuts.heights(sheet, counts or [1] * len(sheet.strips))
    cuts.width(width, ruler.text(sheet.width))
    if plan.fabric.directional:
        cuts.up(length)
    return tuple(cuts.items)


def _heading(kit: Kit, plan: FabricPlan, sheets: Sequence[Sheet]) -> Iterator[Item]:
    sheet, ruler = sheets[0], kit.project.ruler
    many = "" if len(sheets) == 1 else f" to {sheets[-1].name}, {len(sheets)} alike"
    size = f"{by((sheet.width, sheet.length), ruler)}, selvages left and right"
    named = f"{sheet.name}{many}: {size}"
    if sheet.source is Source.BOUGHT and sheet.name == LENGTH:
        named = f"{sheet.name}, {length_words(plan, ruler)}: {size}"
    lines = [f"{kit.project.title}: {plan.fabric.label}", named]
    if any(wasted(strip) for strip in sheet.strips):
        lines.append("crossed out: waste")
    heights = [TITLE, *[SMALL] * (len(lines) - 1)]
    y = float(sheet.length) + 2 * GAP
    for line, height in zip(reversed(lines), reversed(heights), strict=True):
        for part in reversed(wrapped(line, height, max(float(sheet.width), 300.0))):
            yield label("sheet", part, (0.0, y), height)
            y += height * LEADING
        y += height * (LEADING - 1)


def wasted(node: Node) -> bool:
    """Whether any of a strip is waste."""
    return isinstance(node, Waste) or (isinstance(node, Cut) and any(map(wasted, node.parts)))


def _caution(width: float) -> Iterator[Item]:
    y = -2 * GAP - SMALL
    for line in wrapped(CAUTION, SMALL, max(width, 300.0)):
        yield label("sheet", line, (0.0, y), SMALL)
        y -= SMALL * LEADING


class _Cuts:
    """Collects the lines of one sheet, from the lower left corner of the cloth."""

    def __init__(self, plan: FabricPlan, ruler: Ruler, lettering: Lettering) -> None:
        self.items: list[Item] = []
        self._plan, self._ruler, self._letters = plan, ruler, lettering

    def edge(self, width: float, length: float) -> None:
        """The cloth's own edges."""
        ring = ((0.0, 0.0), (width, 0.0), (width, length), (0.0, length))
        self.items.append(Item(Role.DIMENSION, "cloth", Path(ring, closed=True)))

    def line(self, start: tuple[float, float], end: tuple[float, float]) -> None:
        """One cut."""
        self.items.append(Item(Role.CUT, "cuts", Path((start, end))))

    def up(self, length: float) -> None:
        """An arrow at the left of the cloth that points where the print's up is."""
        letters = self._letters
        x, half = -letters.gap * 0.8, text_width("up", letters.small) / 2
        long = min(length, 4 * letters.gap) - 2 * letters.small
        tip, wing = (x, long), min(half, long / 2)
        head = ((x - wing / 2, long - wing), tip, (x + wing / 2, long - wing))
        for points in (((x, 0.0), tip), head):
            self.items.append(Item(Role.LABEL, "up", Path(points)))
        self.items.append(label("up", "up", (x - half, long + letters.small * 0.8), letters.small))

    def width(self, width: float, text: str) -> None:
        """The cloth's width, under it."""
        self._dimension((0.0, 0.0), (width, 0.0), text)

    def _dimension(self, start: tuple[float, float], end: tuple[float, float], text: str) -> None:
        gap, height = self._letters.gap, self._letters.small
        below = Dimension(start=start, end=end, offset=-gap, text=text, height=height)
        self.items.append(Item(Role.DIMENSION, "cloth", below))

    def height(self, x: float, low: float, high: float, text: str) -> None:
        """A strip's height, at its right."""
        self._dimension((x, low), (x, high), text)

    def heights(self, sheet: Sheet, counts: Sequence[int]) -> None:
        """The heights of strips at their right, level, once for those that are cut alike."""
        letters, low = self._letters, float(sheet.square_up)
        left = float(sheet.width) + letters.gap * 0.4
        right, free = left + letters.gap * 0.4, 0.0
        numbered = zip(sheet.strips, counts, strict=True)
        for height, group in groupby(numbered, key=lambda each: each[0].height):
            strips = list(group)
            many = sum(count for _, count in strips)
            high = low + float(height) * len(strips)
            bracket = ((left, low), (right, low), (right, high), (left, high))
            self.items.append(Item(Role.DIMENSION, "cloth", Path(bracket)))
            middle = (low + high) / 2 - letters.small / 2
            if middle >= free:
                text = f"{f'{many} x ' if many > 1 else ''}{self._ruler.text(Fraction(height))}"
                at = right + letters.gap * 0.4, middle
                self.items.append(label("cloth", text, at, letters.small))
                free = middle + letters.small * LEADING
            low = high

    def node(self, node: Node, x: float, y: float) -> None:
        """What one part of the tree is cut into."""
        width, height = float(node.width), float(node.height)
        match node:
            case Taken(item=item, turned=turned):
                box = (x, y, width, height)
                texts = named(self._plan, item, self._ruler, self._letters, box, turned=turned)
                self.items += [Item(Role.LABEL, "pieces", text) for text in texts]
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
