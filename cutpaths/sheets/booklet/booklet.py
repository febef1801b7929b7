"""A booklet as one value: what it says of itself, its paper, its title page and its chapters."""

from __future__ import annotations

from cutpaths.drawing import Document
from cutpaths.sheets.booklet.blocks import Block, Chapter
from cutpaths.sheets.pages.paper import Paper
from cutpaths.values import Value

BODY, LARGE_BODY = 10.5, 16.0  # size of the letters, in points


class Booklet(Value, kw_only=True):
    """The whole content; how it is set is for its writer.

    Attributes:
        title: of the project.
        subtitle: what is made, in a few words.
        author: who made the pattern; empty where the file does not say.
        keywords: for the file's own catalogue.
        digest: SHA-256 of the project file.
        foot: project and version, at the foot of every page.
        paper: what it is printed on.
        body: size of its letters in points.
        cover: the title page, below title and subtitle.
        chapters: in order.
        written: texts of the project file that are in it, by their keys.
    """

    title: str
    subtitle: str
    author: str
    keywords: tuple[str, ...]
    digest: str
    foot: str
    paper: Paper
    body: float
    cover: tuple[Block, ...]
    chapters: tuple[Chapter, ...]
    written: tuple[tuple[str, str], ...]


class BookletDocument(Document):
    """A document that is a booklet: it has no sheets."""

    content: Booklet
