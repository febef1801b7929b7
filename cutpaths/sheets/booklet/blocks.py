"""Blocks: what a booklet is made of, as plain data; how it is set is for its writer.

Lengths on paper in mm. Texts are plain: no markup in them means anything.
"""

from __future__ import annotations

from cutpaths.drawing import Drawing
from cutpaths.paint import Colour
from cutpaths.values import Value, field


class Section(Value):
    """A heading inside a chapter."""

    title: str


class Paragraph(Value):
    """A few sentences."""

    text: str


class Bullets(Value):
    """Things in no order."""

    items: tuple[str, ...]


class Numbered(Value):
    """What is done in order."""

    items: tuple[str, ...]


class Terms(Value):
    """Words or labels, each with what it stands for."""

    rows: tuple[tuple[str, str], ...]


class Table(Value, kw_only=True):
    """Rows under heads.

    Attributes:
        heads: of the columns.
        rows: each with a text for every column.
        parts: how wide the columns are to one another; as wide as they need where it is empty.
    """

    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    parts: tuple[float, ...] = ()


class Picture(Value, kw_only=True):
    """A drawing, as large as it fits.

    Attributes:
        drawing: what is shown.
        alt: what is seen in it, for those who hear the booklet.
        caption: below it; empty for none.
        height: the most that it takes of a page, in mm.
        width: the most that it takes across, in mm; 0 for all there is.
    """

    drawing: Drawing
    alt: str
    caption: str = ""
    height: float = 120.0
    width: float = 0.0


class Task(Value, kw_only=True):
    """A step with its picture, which no page parts.

    Attributes:
        number: of the step in its chapter.
        title: a few words.
        words: what to do, sentence by sentence.
        check: what must be seen when it is right; empty for nothing.
        picture: beside the words.
    """

    number: int
    title: str
    words: tuple[str, ...]
    check: str
    picture: Picture


class Beside(Value, kw_only=True):
    """Blocks with a small picture at their left."""

    picture: Picture
    blocks: tuple[Block, ...]


class Caution(Value):
    """What can hurt someone."""

    title: str
    items: tuple[str, ...]


class Note(Value):
    """What is good to know beside the text."""

    text: str


class Pointer(Value, kw_only=True):
    """What is done elsewhere in the booklet, with the page on which that stands.

    Attributes:
        text: a sentence without its last stop.
        to: title of the chapter or section; the first of that title is meant.
    """

    text: str
    to: str


class Chip(Value, kw_only=True):
    """A cloth of the key: its tint, the letter in it, its name, and more about it."""

    tint: Colour
    letter: str
    name: str
    more: str = ""


class Key(Value):
    """The key of cloths."""

    chips: tuple[Chip, ...]


class Together(Value):
    """Blocks that one page holds."""

    blocks: tuple[Block, ...]


class Columns(Value):
    """Blocks side by side that no page parts; below one another where letters are large."""

    left: tuple[Block, ...]
    right: tuple[Block, ...]


class Contents(Value):
    """The list of chapters with their pages."""


class PageBreak(Value):
    """What follows starts on a new page."""


Block = (
    Section
    | Paragraph
    | Bullets
    | Numbered
    | Terms
    | Table
    | Picture
    | Task
    | Beside
    | Caution
    | Note
    | Pointer
    | Key
    | Together
    | Columns
    | Contents
    | PageBreak
)


class Chapter(Value, kw_only=True):
    """A chapter.

    Attributes:
        title: its heading.
        blocks: what is in it.
        fresh: whether it starts on a new page.
    """

    title: str
    blocks: tuple[Block, ...] = field(default=())
    fresh: bool = False
