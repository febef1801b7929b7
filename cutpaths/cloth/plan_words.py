"""A cutting plan in words, step by step, as it is taught: square up, strips, crosscuts, trims."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import groupby

from cutpaths.cloth.cutting import FabricPlan, Sheet, Source
from cutpaths.cloth.lengths_to_buy import WHOLE, length_words
from cutpaths.cloth.needs import Need, by
from cutpaths.cloth.packing.cuts import Cut, Node, Taken, Waste, placements
from cutpaths.cloth.sheets_of import LENGTH
from cutpaths.lengths import Ruler
from cutpaths.project.stock import Sold
from cutpaths.values import Value

CAUTION = (
    "Rotary cutter: close the blade when you are not cutting, cut away from yourself, keep it "
    "away from children, and supervise those who learn. Local rules and qualified people come "
    "first."
)


def steps(plan: FabricPlan, ruler: Ruler) -> tuple[str, ...]:
    """What to do, sheet by sheet; alike sheets are told once."""
    told = _Told(plan.needs, ruler, length_words(plan, ruler) if plan.bought else "")
    found: list[str] = []
    for sheets in _alike(plan.sheets):
        found += told.sheet(sheets)
    found += [
        f"Then {need.words(ruler, need.count)}: {need.then}." for need in plan.needs if need.then
    ]
    return tuple(found)


def parts_words(strip: Node, needs: Sequence[Need], ruler: Ruler) -> str:
    """What a strip is crosscut into."""
    return _Told(needs, ruler).parts(strip)


def _alike(sheets: Sequence[Sheet]) -> Iterator[tuple[Sheet, ...]]:
    """Sheets next to each other that are cut the same way."""

    def look(sheet: Sheet) -> tuple[object, ...]:
        return sheet.source, sheet.width, sheet.length, sheet.strips

    for _, group in groupby(sheets, key=look):
        yield tuple(group)


class _Told(Value):
    """Puts sheets, strips and pieces of one fabric into words."""

    needs: Sequence[Need]
    ruler: Ruler
    length: str = ""  # what the length bought is, and how much of it is used

    def sheet(self, sheets: Sequence[Sheet]) -> Iterator[str]:
        first = sheets[0]
        names = first.name if len(sheets) == 1 else f"{first.name} to {sheets[-1].name}"
        a_length = first.source is Source.BOUGHT and first.name == LENGTH
        size = self.length if a_length else by((first.width, first.length), self.ruler)
        each = "" if len(sheets) == 1 else ", each cut alike"
        yield f"Take {names} ({size}{each})."
        only = first.strips[0]
        whole = not a_length or self.length.endswith(WHOLE)
        if (
            whole
            and isinstance(only, Taken)
            and (only.width, only.height) == (first.width, first.length)
        ):
            them = "it is" if len(sheets) == 1 else "each is"
            yield f"Nothing is cut: {them} {self.piece(only, 1)}."
            return
        if first.square_up:
            yield (
                f"Square up: press, fold on the grain, and cut {self.ruler.text(first.square_up)} "
                "off each end."
            )
        for strip, group in groupby(first.strips):
            yield self.strip(strip, len(tuple(group)), first)

    def strip(self, strip: Node, count: int, sheet: Sheet) -> str:
        """`Cut 5 strips 5 in x usable width; crosscut 8 squares of 5 in from each`, in a line."""
        high = self.ruler.text(Fraction(strip.height))
        across = "usable width"
        if sheet.source is Source.ON_HAND or sheet.name != LENGTH:
            across = self.ruler.text(sheet.width)
        many = "1 strip" if count == 1 else f"{count} strips"
        each = "from it" if count == 1 else "from each"
        return f"Cut {many} {high} x {across}; crosscut {self.parts(strip)} {each}."

    def parts(self, strip: Node) -> str:
        """What a strip is crosscut into."""
        match strip:
            case Cut(parts=parts):
                counted = Counter(part for part in parts if not isinstance(part, Waste))
                return _listed([self.part(part, count) for part, count in counted.items()])
            case Taken() as piece:
                return self.piece(piece, 1)
            case Waste():
                return "nothing"

    def part(self, part: Node, count: int) -> str:
        """So many alike crosscuts, and what each is cut on into."""
        if isinstance(part, Taken):
            return self.piece(part, count)
        inner = Counter((place.item, place.turned) for place in placements(part))
        size = by((Fraction(part.width), Fraction(part.height)), self.ruler)
        names = [self.needs[item].words(self.ruler, n) for (item, _), n in inner.items()]
        many = "1 piece" if count == 1 else f"{count} pieces"
        if sum(inner.values()) == 1:
            one = f"a {names[0].removeprefix('1 ')}" if names[0].startswith("1 ") else names[0]
            return f"{many} {size} to trim to {one}"
        return f"{many} {size}, {'cut' if count == 1 else 'each cut'} into {_listed(names)}"

    def piece(self, piece: Taken, count: int) -> str:
        return self.needs[piece.item].words(self.ruler, count)


def _listed(parts: Sequence[str]) -> str:
    *most, last = parts
    return f"{', '.join(most)} and {last}" if most else last


def sold_words(plan: FabricPlan, ruler: Ruler) -> str:
    """How the fabric is sold and what is lost of it, for the head of its plan."""
    stock = plan.stock
    match stock.sold:
        case Sold.LENGTH:
            return f"usable width {ruler.text(stock.width)}, sold by the length"
        case Sold.QUARTERS:
            return f"fat quarters of {by(stock.piece, ruler)}"
        case Sold.PACK:
            return f"packs of {stock.count} pieces of {by(stock.piece, ruler)}"
