"""The bed file that a new bed starts from."""

from __future__ import annotations

from os import path

FILE = path.join(path.dirname(__file__), "starter.toml")


def template() -> str:
    """A commented bed file that works as it stands."""
    with open(FILE, encoding="utf-8") as stream:
        return stream.read()
