"""Booklets for tests: made once, and what other readers see in them; mm."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pypdfium2

from cutpaths.cloth.cutting import FabricPlan
from cutpaths.formats import FORMATS
from cutpaths.pieces import Kit, build
from cutpaths.project import load, read
from cutpaths.sheets.booklet.booklet import Booklet, BookletDocument
from cutpaths.sheets.booklet.facts import facts_of
from cutpaths.sheets.booklet.make import NAME, booklet_of
from cutpaths.sheets.pages.paper import paper_named
from cutpaths.sheets.sheet import Wishes
from cutpaths.values import Value

FIXTURES = Path(__file__).parents[1] / "fixtures"
MM = 25.4 / 72

Box = tuple[float, float, float, float]

PLAIN = '[top]\nlayout = "squares"\npatch = 5\ncolumns = 4\nrows = 4\n[border]\nwidth = 2\n'


class Made(Value, kw_only=True):
    """A booklet: its kit, its content, its file and its cutting plans."""

    kit: Kit
    content: Booklet
    data: bytes
    plans: tuple[FabricPlan, ...]

    @property
    def document(self) -> BookletDocument:
        """The document that its file was made from."""
        return document(self.content)


def document(content: Booklet) -> BookletDocument:
    """A content as a document."""
    return BookletDocument(NAME, (), content)


@cache
def of_fixture(name: str, *, paper: str = "", large: bool = False) -> Made:
    """The booklet of an example."""
    return _made(build(load(FIXTURES / f"{name}.toml")), paper, large=large)


@cache
def of_text(text: str, *, large: bool = False) -> Made:
    """The booklet of a project written in the test."""
    return _made(build(read(text)), "", large=large)


def _made(kit: Kit, paper: str, *, large: bool) -> Made:
    wishes = Wishes(paper=paper_named(paper) if paper else None, large_print=large)
    content = booklet_of(kit, wishes)
    data = FORMATS["booklet"].render(document(content))
    return Made(kit=kit, content=content, data=data, plans=facts_of(kit).plans)


def text_of(data: bytes) -> str:
    """All text as another reader finds it, lines joined by spaces."""
    pdf = pypdfium2.PdfDocument(data)
    pages = (page.get_textpage().get_text_range() for page in pdf)
    return " ".join(" ".join(pages).replace("\u200b", "").split())


def letters_of(page: pypdfium2.PdfPage) -> Iterator[tuple[str, Box]]:
    """The letters of a page with their boxes: left, foot, right, head."""
    text = page.get_textpage()
    for i in range(text.count_chars()):
        letter = text.get_text_range(i, 1)
        left, foot, right, head = (side * MM for side in text.get_charbox(i))
        if letter.strip(" \r\n\u200b") and right > left and head > foot:
            yield letter, (left, foot, right, head)


def overlapping(letters: list[tuple[str, Box]]) -> list[tuple[str, str, Box]]:
    """Pairs of letters of which one covers more of the other than kerning does."""
    found = []
    ordered = sorted(letters, key=lambda each: each[1][0])
    for i, (one, a) in enumerate(ordered):
        for other, b in ordered[i + 1 :]:
            if b[0] >= a[2]:
                break
            wide = min(a[2], b[2]) - b[0]
            high = min(a[3], b[3]) - max(a[1], b[1])
            if wide > 0 and high > 0:
                least = min(_area(a), _area(b))
                if wide * high > COVERED * least:
                    found.append((one, other, a))
    return found


COVERED = 0.3  # part of the smaller box


def _area(box: Box) -> float:
    return (box[2] - box[0]) * (box[3] - box[1])
