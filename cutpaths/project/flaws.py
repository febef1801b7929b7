"""One thing wrong with a project's tables, before file and line of its key are known."""

from __future__ import annotations

import re
from collections.abc import Sequence

from cutpaths.errors import Finding, InputError
from cutpaths.lengths import shown
from cutpaths.source import KeyPath, Source
from cutpaths.values import Value

_BARE = r"[A-Za-z0-9_-]{1,40}"
_ITEMS = {
    "chart": "row",
    "points": "point",
    "widths": "width",
    "heights": "height",
}  # what people call an item of a list


class Flaw(Value):
    """A key by its path, with the problem and the hint of a `Finding`."""

    path: KeyPath
    problem: str
    hint: str = ""


def stop_at(flaws: Sequence[Flaw], source: Source) -> None:
    """Ends a stage that found something wrong.

    Raises:
        InputError: with every flaw, in the order of the files.
    """
    if not flaws:
        return
    order = [file.name for file in source.files]
    findings = [_finding(flaw, source) for flaw in flaws]
    raise InputError(*sorted(findings, key=lambda each: (order.index(each.file), each.line)))


def _finding(flaw: Flaw, source: Source) -> Finding:
    file, line = source.place(flaw.path)
    names = [part for part in flaw.path if isinstance(part, str)]
    places = [part for part in flaw.path if isinstance(part, int)]
    item = f"{_ITEMS.get(names[-1], 'item')} {places[0] + 1} " if places else ""
    return Finding(
        key=".".join(_key(name) for name in names),
        problem=f"{item}{flaw.problem}{variant_words(source)}",
        hint=flaw.hint,
        file=file,
        line=line,
    )


def variant_words(source: Source) -> str:
    """In which size and colorway something is wrong; empty for the file as it stands."""
    named = ", ".join(" ".join(map(str, override)) for override in reversed(source.overrides))
    return f" (with {named})" if named else ""


def _key(name: str) -> str:
    """A key as it may stand in one line, whatever its letters."""
    return name if re.fullmatch(_BARE, name) else shown(name)
