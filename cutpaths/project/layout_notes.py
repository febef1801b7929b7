"""What a person should know about the layout of a pieced top that is no error."""

from __future__ import annotations

from collections.abc import Iterator

from cutpaths.project.layout_shape import BlocksTable, GridTable
from cutpaths.project.model import Top
from cutpaths.project.patchwork import OnPoint
from cutpaths.project.shape import FileTable


def layout_notes(file: FileTable, top: Top) -> Iterator[str]:
    """Notes on prints that have an up."""
    headed = [name for name, fabric in file.fabric.items() if fabric.directional]
    if isinstance(top, OnPoint):
        used = {name for row in top.chart for name in row}
        if leaning := [name for name in headed if name in used]:
            yield (
                f"Squares on point are cut straight, so the print of {', '.join(leaning)} leans: "
                "its up lies half way between head and left."
            )
    paired = file.patches is not None and file.patches.pairs
    if paired and headed and isinstance(file.top, GridTable | BlocksTable):
        yield (
            "Pairs of triangles sewn before cutting lie either way round: where the print of "
            f"{', '.join(headed)} must stand upright, cut its triangles singly."
        )
