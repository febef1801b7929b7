"""The project file that a new project starts from."""

from __future__ import annotations

from os import path

# Not by importlib.resources, which takes longer to load than all the rest of this package.
FILE = path.join(path.dirname(__file__), "starter.toml")


def template() -> str:
    """A commented project file that works as it stands."""
    with open(FILE, encoding="utf-8") as stream:
        return stream.read()
