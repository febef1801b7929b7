"""The rig file that a new rig starts from."""

from __future__ import annotations

from os import path

FILE = path.join(path.dirname(__file__), "starter.toml")


def template() -> str:
    """A commented rig file; its readings are still to be measured."""
    with open(FILE, encoding="utf-8") as stream:
        return stream.read()
