"""Reads the projector's page and compares it with its content; the standard library alone.

The page must keep to itself: one policy that forbids all but the style and the script in it, named
by their hashes; nothing that loads, sends or leads anywhere; the project's data, unharmed.
"""

from __future__ import annotations

import json
from collections.abc import Iterator

from cutpaths.drawing import Document
from cutpaths.readback.html import Reader, handlers, outward, policy
from cutpaths.sheets.page import PageDocument


def check(document: Document, data: bytes) -> tuple[str, ...]:
    """Each difference between a page and its document, in words."""
    if not isinstance(document, PageDocument):
        return ("a page was expected to have the projector's content",)
    try:
        text = data.decode()
    except UnicodeDecodeError as error:
        return (f"not UTF-8: {error.reason}",)
    reader = Reader()
    reader.feed(text)
    reader.close()
    return (
        *_content(document, reader),
        *policy(reader, ("script", "style")),
        *outward(reader),
        *handlers(reader),
    )


def _content(document: PageDocument, reader: Reader) -> Iterator[str]:
    if reader.texts["title"] != [f"{document.content.title}: marks by light"]:
        yield f"the title is {reader.texts['title']}"
    if len(reader.texts["data"]) != 1:
        yield f"one block of data expected, {len(reader.texts['data'])} found"
        return
    try:
        found = json.loads(reader.texts["data"][0])
    except ValueError as error:
        yield f"the data is not JSON: {error}"
        return
    wanted = json.loads(json.dumps(document.content.as_data()))
    for key in sorted(wanted.keys() | found.keys()):
        if wanted.get(key) != found.get(key):
            yield f"the data differs in {key}"
