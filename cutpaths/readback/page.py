"""Reads the projector's page and compares it with its content; the standard library alone.

The page must keep to itself: one policy that forbids all but the style and the script in it, named
by their hashes; nothing that loads, sends or leads anywhere; the project's data, unharmed.
"""

from __future__ import annotations

import base64
import hashlib
import json
import re
from collections.abc import Iterator
from html.parser import HTMLParser

from cutpaths.drawing import Document
from cutpaths.sheets.page import PageDocument

_OUTWARD = {"src", "srcset", "action", "formaction", "ping", "background", "poster", "data"}
_FORBIDDEN = {"iframe", "object", "embed", "link", "base", "img", "audio", "video", "form"}


class _Reader(HTMLParser):
    """Collects tags, the title, and the contents of style and script."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.texts: dict[str, list[str]] = {"title": [], "style": [], "script": [], "data": []}
        self._in = ""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))
        if tag in ("title", "style", "script"):
            self._in = "data" if tag == "script" and dict(attrs).get("type") else tag
            self.texts[self._in].append("")

    def handle_endtag(self, tag: str) -> None:
        if tag in ("title", "style", "script"):
            self._in = ""

    def handle_data(self, data: str) -> None:
        if self._in:
            self.texts[self._in][-1] += data


def check(document: Document, data: bytes) -> tuple[str, ...]:
    """Each difference between a page and its document, in words."""
    if not isinstance(document, PageDocument):
        return ("a page was expected to have the projector's content",)
    try:
        text = data.decode()
    except UnicodeDecodeError as error:
        return (f"not UTF-8: {error.reason}",)
    reader = _Reader()
    reader.feed(text)
    reader.close()
    return (*_content(document, reader), *_policy(reader), *_outward(reader), *_handlers(reader))


def _content(document: PageDocument, reader: _Reader) -> Iterator[str]:
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


def _policy(reader: _Reader) -> Iterator[str]:
    """The policy must name the one style and the one script, and allow nothing else."""
    policies = [
        attrs.get("content") or ""
        for tag, attrs in reader.tags
        if tag == "meta" and attrs.get("http-equiv") == "Content-Security-Policy"
    ]
    if len(policies) != 1:
        yield f"one policy expected, {len(policies)} found"
        return
    rules = dict(rule.strip().split(" ", 1) for rule in policies[0].split(";"))
    wanted = {"default-src": "'none'", "base-uri": "'none'", "form-action": "'none'"}
    for tag, rule in (("script", "script-src"), ("style", "style-src")):
        if len(reader.texts[tag]) != 1:
            yield f"one {tag} expected, {len(reader.texts[tag])} found"
            continue
        digest = hashlib.sha256(reader.texts[tag][0].encode()).digest()
        wanted[rule] = f"'sha256-{base64.b64encode(digest).decode()}'"
    if rules != wanted:
        yield f"the policy is {rules}"


def _outward(reader: _Reader) -> Iterator[str]:
    for tag, attrs in reader.tags:
        if tag in _FORBIDDEN or _OUTWARD & attrs.keys():
            yield f"<{tag}> reaches out of the page"
    if re.search(r"https?://(?!www\.w3\.org/2000/svg)", "".join(reader.texts["script"])):
        yield "the script names an address"


def _handlers(reader: _Reader) -> Iterator[str]:
    for tag, attrs in reader.tags:
        if any(name.startswith("on") or name == "style" for name in attrs):
            yield f"<{tag}> has a handler or a style of its own"
