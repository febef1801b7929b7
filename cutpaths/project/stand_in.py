"""Tops whose prints are laid out by rules: their chart comes from a file that they include."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TypeGuard

from cutpaths.project.flaws import Flaw, stop_at
from cutpaths.project.kinds import PATCHES_MOST
from cutpaths.source import Source, merged
from cutpaths.values import replace


def with_chart(text: Source) -> Source:
    """The project with a chart of one fabric in place of the one that it includes, if any.

    Raises:
        InputError: it has a chart of its own beside what is to be laid out.
    """
    top = text.table.get("top")
    if "arrange" not in text.table or not _is_squares(top):
        return text
    stop_at(_flaws(text), text)
    rows, columns = _size(top) or (0, 0)
    if not 0 < rows * columns <= PATCHES_MOST:
        return text  # what is wrong is found as in any other top
    chart = [" ".join([_any_fabric(text)] * columns)] * rows
    return replace(text, table=merged({"top": {"chart": chart}}, text.table))


def without_turns(text: Source) -> Source:
    """The project without the fabrics that take turns only until a layout is included."""
    top = text.table.get("top")
    if "arrange" not in text.table or not _is_squares(top) or "chart" not in top:
        return text
    if _has_own_chart(text):
        return text  # the two contradict each other, which is found as in any other top
    squares = {key: value for key, value in top.items() if key != "fabrics"}
    return replace(text, table={**text.table, "top": squares})


def _is_squares(top: object) -> TypeGuard[Mapping[str, object]]:
    return isinstance(top, Mapping) and top.get("layout") == "squares"


def _flaws(text: Source) -> list[Flaw]:
    if _has_own_chart(text):
        problem = "stands in the project file itself and would hide the one laid out"
        return [Flaw(("top", "chart"), problem, "Give `columns` and `rows` instead")]
    return []


def _has_own_chart(text: Source) -> bool:
    own = text.files[0].table.get("top")
    return isinstance(own, Mapping) and "chart" in own


def _any_fabric(text: Source) -> str:
    """A declared fabric; without one a print, which is found to be undeclared."""
    match text.table:
        case {"fabric": dict(declared)} if declared:
            return str(next(iter(declared)))
        case {"arrange": {"prints": dict(prints)}} if prints:
            return str(next(iter(prints)))
    return "top"


def _size(top: Mapping[str, object]) -> tuple[int, int] | None:
    """Rows and columns, from their keys or else from a chart; None where neither has them."""
    match top:
        case {"rows": int(rows), "columns": int(columns)} if rows > 0 and columns > 0:
            return rows, columns
        case {"chart": [str(first), *others]}:
            return 1 + len(others), len(first.split())
    return None
