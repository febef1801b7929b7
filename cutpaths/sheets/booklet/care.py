"""Washing and care, and how much the cloth is expected to shrink."""

from __future__ import annotations

from collections.abc import Iterator

from cutpaths.cloth.notes import percent
from cutpaths.cloth.stock import stock_of
from cutpaths.project.model import Fabric
from cutpaths.project.stock import Washed
from cutpaths.sheets.booklet.blocks import Block, Bullets, Chapter, Section, Terms
from cutpaths.sheets.booklet.facts import Facts
from cutpaths.sheets.booklet.first_pages import caution_of_babies


def care(facts: Facts) -> Chapter:
    """How the blanket is washed, and how it is used."""
    blocks: list[Block] = [Bullets(tuple(_washing(facts)))]
    if rows := tuple(_shrinkage(facts)):
        blocks += [Section("Expected shrinkage"), Terms(rows)]
    blocks.append(caution_of_babies())
    return Chapter(title="Washing and care", blocks=tuple(blocks))


def _washing(facts: Facts) -> Iterator[str]:
    """Common practice, no source."""
    yield "Wash the blanket once before it is given away: it takes out marks and what is loose."
    yield (
        "Wash and dry it as its most delicate cloth needs, by the cloth's own label, with like "
        "colours. A scrap of every cloth, washed with white cotton, tells whether it bleeds."
    )
    if not any(_stock_known(fabric) for fabric in facts.fabrics):
        yield (
            "Cloth shrinks, most in its first wash. How much is not known for these cloths: wash a "
            "measured scrap of each and compare. A top and a backing that shrink unlike pucker."
        )
    seams = "of the border" if facts.folded_over else "of the border and the closed opening"
    yield f"Check the seams {seams} from time to time, and mend early."
    yield "Keep a scrap of each cloth and some thread for mending."


def _stock_known(fabric: Fabric) -> bool:
    return fabric.stock is not None and any(fabric.stock.shrinkage)


def _shrinkage(facts: Facts) -> Iterator[tuple[str, str]]:
    for fabric in filter(_stock_known, facts.fabrics):
        stock = stock_of(facts.kit.project, fabric)
        along, across = (percent(part) for part in stock.shrinkage)
        when = (
            "in the wash before cutting; little is left for later"
            if stock.washed is Washed.BEFORE
            else "in the first wash of the blanket"
        )
        yield fabric.label, f"{along} of its length and {across} of its width, {when}"
