"""Figures as a table for people and as JSON for programs."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

from cutpaths.figures.model import Figure, Figures
from cutpaths.later import Later

if TYPE_CHECKING:
    import json
else:
    json = Later("json")


def table(figures: Figures, columns: int = 100) -> Iterator[str]:
    """The lines of a table: a heading for each group, then label and figure, then the notes."""
    width = max(len(f.label) for group in figures.groups for f in group.figures)
    yield figures.project
    for group in figures.groups:
        yield ""
        yield group.title
        for figure in group.figures:
            start = f"  {figure.label:<{width}}  "
            yield from textwrap.wrap(
                start + figure.text, columns, subsequent_indent=" " * len(start)
            )
    if figures.notes:
        yield ""
    for note in figures.notes:
        yield from textwrap.wrap(f"Note: {note}", columns, subsequent_indent="  ")


def as_json(figures: Figures) -> str:
    """All figures as JSON; lengths in mm."""
    return json.dumps(as_data(figures), indent=2, ensure_ascii=False)


def as_data(figures: Figures) -> dict[str, Any]:
    """All figures as plain values for programs; lengths in mm."""
    return {
        "project": figures.project,
        "digest": figures.digest,
        "figures": {f.key: _entry(f) for group in figures.groups for f in group.figures},
        "notes": list(figures.notes),
    }


def _entry(figure: Figure) -> dict[str, object]:
    entry: dict[str, object] = {"label": figure.label, "text": figure.text}
    if figure.value is not None:
        entry["value"] = round(float(figure.value), 6)
        entry["unit"] = figure.unit
    return entry
