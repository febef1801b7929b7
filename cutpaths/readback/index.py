"""Reads the page of a folder and compares it with its content; the standard library alone.

It must keep to itself as every page of ours must, run nothing, lead to each of its files once and
to nowhere else, and show every figure and every check as they are.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator

from cutpaths.drawing import Document
from cutpaths.readback.html import Reader, handlers, outward, policy
from cutpaths.sheets.index import IndexContent, IndexDocument

# A name inside the folder or one below it: no scheme, no host, no way up.
_INSIDE = re.compile(r"([a-z0-9][a-z0-9_-]*/)?[a-z0-9][a-z0-9_.-]*", re.IGNORECASE | re.ASCII)
_CELLS = ("th", "td")
_WHOLE = ("h1", "h2", "h3", "li")


class _Texts(Reader):
    """Collects the cells of each row of a table, and the texts of headings and list items."""

    def __init__(self) -> None:
        super().__init__()
        self.rows: list[list[str]] = []
        self.whole: Counter[str] = Counter()
        self._cell = False
        self._open: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        super().handle_starttag(tag, attrs)
        if tag == "tr":
            self.rows.append([])
        elif tag in _CELLS and self.rows:
            self._cell = True
            self.rows[-1].append("")
        elif tag in _WHOLE:
            self._open.append("")

    def handle_endtag(self, tag: str) -> None:
        super().handle_endtag(tag)
        if tag in _CELLS:
            self._cell = False
        elif tag in _WHOLE and self._open:
            self.whole[self._open.pop()] += 1

    def handle_data(self, data: str) -> None:
        super().handle_data(data)
        if self._cell:
            self.rows[-1][-1] += data
        elif self._open:
            self._open[-1] += data


def check(document: Document, data: bytes) -> tuple[str, ...]:
    """Each difference between a page and its document, in words."""
    if not isinstance(document, IndexDocument):
        return ("the page of a folder was expected",)
    try:
        text = data.decode()
    except UnicodeDecodeError as error:
        return (f"not UTF-8: {error.reason}",)
    reader = _Texts()
    reader.feed(text)
    reader.close()
    return (
        *_content(document.content, reader),
        *_links(document.content, reader),
        *policy(reader, ("style",)),
        *outward(reader),
        *handlers(reader),
        *_still(reader),
    )


def _content(content: IndexContent, reader: _Texts) -> Iterator[str]:
    if reader.texts["title"] != [f"{content.title}: all files"]:
        yield f"the title is {reader.texts['title']}"
    figures = [[f.label, f.text] for group in content.figures for f in group.figures]
    checks = [
        row
        for c in content.proof.checks
        for row in (
            [f"{c.name} at {c.at}" if c.at else c.name, c.expected, c.found, _word(c.passed)],
            [c.claim],
        )
    ]
    wanted = [*figures, ["Check", "Expected", "Found", "Holds"], *checks]
    if reader.rows != wanted:
        yield "figures or checks differ"
    titles = [card.title for group in content.groups for card in group.cards]
    for line in (content.title, *titles, *content.notes, *content.left_out):
        if not reader.whole[line]:
            yield f"{line!r} is not on the page"


def _word(passed: bool) -> str:
    return "yes" if passed else "no"


def _links(content: IndexContent, reader: _Texts) -> Iterator[str]:
    """Each file once, places on the page, and nothing else."""
    found = Counter(attrs["href"] or "" for tag, attrs in reader.tags if "href" in attrs)
    places = {f"#{attrs['id']}" for _, attrs in reader.tags if "id" in attrs}
    files = Counter(f.path for group in content.groups for card in group.cards for f in card.files)
    beside = Counter({href: n for href, n in found.items() if not href.startswith("#")})
    if beside != files:
        yield f"links differ: {sorted((beside - files) + (files - beside))}"
    if lost := sorted(set(found) - set(beside) - places):
        yield f"links lead to no place: {lost}"
    if out := sorted(href for href in beside if not _INSIDE.fullmatch(href)):
        yield f"links lead out: {out}"


def _still(reader: _Texts) -> Iterator[str]:
    """No script, and nothing in a picture that names something else."""
    for tag, attrs in reader.tags:
        if tag in ("script", "use", "image", "foreignobject", "animate", "set"):
            yield f"<{tag}> has no place on the page"
        if any(name.endswith(":href") for name in attrs):
            yield f"<{tag}> names something else"
