"""[pattern]: what a pattern says of itself, its rules and its settled value."""

from __future__ import annotations

from collections.abc import Iterator

from cutpaths.project.flaws import Flaw
from cutpaths.project.model import Pattern
from cutpaths.project.pattern_shape import PatternTable
from cutpaths.project.shape import FileTable
from cutpaths.project.words import word_flaws

_KEYS = PatternTable.__struct_fields__


def pattern_of(file: FileTable) -> Pattern:
    """What the file says of itself; empty where it has no such table."""
    table = file.pattern or PatternTable()
    return Pattern(**{key: getattr(table, key) or "" for key in _KEYS})


def pattern_flaws(file: FileTable) -> Iterator[Flaw]:
    """Rules of [pattern]: one line of text for each key."""
    for key in _KEYS if file.pattern else ():
        text = getattr(file.pattern, key)
        if text is not None:
            yield from word_flaws(("pattern", key), text)
