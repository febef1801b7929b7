"""The sizes that cloth on hand makes, as a table and as JSON."""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence

from cutpaths.cloth.fit import Option
from cutpaths.cloth.needs import by
from cutpaths.lengths import INCH, Ruler, Unit, decimals
from cutpaths.project.model import Project


def fit_lines(project: Project, found: Sequence[Option]) -> Iterator[str]:
    """One line for each size, numbered from 1."""
    ruler = project.ruler
    yield f"{project.title}: what the cloth on hand makes"
    if not found:
        yield "Nothing: there is not enough cloth for the smallest size."
        return
    yield ""
    head = ("", "columns x rows", "finished", "border", "backing", "waste")
    rows = [head, *(_row(n, each, ruler) for n, each in enumerate(found, 1))]
    widths = [max(len(row[k]) for row in rows) for k in range(len(head))]
    for row in rows:
        cells = (text.ljust(width) for text, width in zip(row, widths, strict=True))
        yield "  ".join(cells).rstrip()


def _row(number: int, each: Option, ruler: Ruler) -> tuple[str, ...]:
    return (
        f"{number}.",
        f"{each.columns} x {each.rows}",
        by(each.finished, ruler),
        ruler.text(each.border),
        backing_words(each),
        _area(each, ruler),
    )


def backing_words(each: Option) -> str:
    """How its backing is cut."""
    if each.join is None:
        return "in one"
    seams = "1 seam" if each.join.seams == 1 else f"{each.join.seams} seams"
    return f"{seams}, {'head to foot' if each.join.down else 'left to right'}"


def _area(each: Option, ruler: Ruler) -> str:
    if ruler.unit is Unit.INCH:
        return f"{decimals(each.waste / INCH**2, 0)} sq in"
    return f"{decimals(each.waste / 100, 0)} cm²"


def fit_json(project: Project, found: Sequence[Option]) -> str:
    """All sizes for programs; lengths in mm, waste in mm²."""
    sizes = [
        {
            "columns": each.columns,
            "rows": each.rows,
            "border": round(float(each.border), 6),
            "finished": [round(float(mm), 6) for mm in each.finished],
            "seams": each.seams,
            "waste": round(float(each.waste), 6),
        }
        for each in found
    ]
    data = {"project": project.title, "digest": project.digest, "sizes": sizes}
    return json.dumps(data, indent=2, ensure_ascii=False)
