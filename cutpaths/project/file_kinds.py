"""Which kind of file a person gave: a project, a bed or a rig, told apart by their tables."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from typing import TYPE_CHECKING

from cutpaths.project.flaws import Flaw

if TYPE_CHECKING:
    from cutpaths.source import Source

# Tables and keys that no other kind of file has.
_MARKS = {
    "project": frozenset({"title", "top", "border", "fabric"}),
    "bed": frozenset({"bed", "tool", "travel"}),
    "rig": frozenset({"picture", "distances", "positions"}),
}
_SURE = 2  # marks of another kind, and none of its own, that make a file that other kind
_START = {"project": "new", "bed": "new-bed", "rig": "new-rig"}


def wrong_kind(known: Collection[str], source: Source) -> Iterator[Flaw]:
    """The flaw of a file that is of another kind; nothing where it is not.

    Args:
        known: the keys at the head of the kind of file that is asked for.
        source: the file.
    """
    asked = next((kind for kind, marks in _MARKS.items() if marks <= set(known)), None)
    if asked is None or _MARKS[asked] & source.table.keys():
        return
    for kind, marks in _MARKS.items():
        if len(marks & source.table.keys()) >= _SURE:
            hint = f"Start a {asked} file with `cutpaths {_START[asked]}`"
            yield Flaw((), f"is a {kind} file, not a {asked} file", hint)
