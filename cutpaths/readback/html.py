"""What every reader of our HTML looks for; the standard library alone.

A page must keep to itself: one policy that forbids all but the style and the script in it, named by
their hashes; nothing that loads, sends or runs beside them.
"""

from __future__ import annotations

import base64
import hashlib
import re
from collections.abc import Iterator, Sequence
from html.parser import HTMLParser

_OUTWARD = {"src", "srcset", "action", "formaction", "ping", "background", "poster", "data"}
_FORBIDDEN = {"iframe", "object", "embed", "link", "base", "img", "audio", "video", "form"}


class Reader(HTMLParser):
    """Collects tags, the title, and the contents of style and script."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.texts: dict[str, list[str]] = {"title": [], "style": [], "script": [], "data": []}
        self._in = ""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Takes in a tag."""
        self.tags.append((tag, dict(attrs)))
        if tag in ("title", "style", "script"):
            self._in = "data" if tag == "script" and dict(attrs).get("type") else tag
            self.texts[self._in].append("")

    def handle_endtag(self, tag: str) -> None:
        """Takes in the end of one."""
        if tag in ("title", "style", "script"):
            self._in = ""

    def handle_data(self, data: str) -> None:
        """Takes in text."""
        if self._in:
            self.texts[self._in][-1] += data


def policy(reader: Reader, parts: Sequence[str]) -> Iterator[str]:
    """The policy must name the one `script` or `style`, as asked for, and allow nothing else."""
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
    for tag in parts:
        if len(reader.texts[tag]) != 1:
            yield f"one {tag} expected, {len(reader.texts[tag])} found"
            continue
        digest = hashlib.sha256(reader.texts[tag][0].encode()).digest()
        wanted[f"{tag}-src"] = f"'sha256-{base64.b64encode(digest).decode()}'"
    if rules != wanted:
        yield f"the policy is {rules}"


def outward(reader: Reader) -> Iterator[str]:
    """Nothing may reach out of the page."""
    for tag, attrs in reader.tags:
        if tag in _FORBIDDEN or _OUTWARD & attrs.keys():
            yield f"<{tag}> reaches out of the page"
    if re.search(r"https?://(?!www\.w3\.org/2000/svg)", "".join(reader.texts["script"])):
        yield "the script names an address"


def handlers(reader: Reader) -> Iterator[str]:
    """No tag may have a handler or a style of its own."""
    for tag, attrs in reader.tags:
        if any(name.startswith("on") or name == "style" for name in attrs):
            yield f"<{tag}> has a handler or a style of its own"
