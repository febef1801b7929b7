"""Whether the swatches of a project are where it says, which only pictures of it need."""

from __future__ import annotations

import os.path
from typing import TYPE_CHECKING

from cutpaths.project.model import Project
from cutpaths.values import replace

if TYPE_CHECKING:
    from pathlib import Path


def with_swatch_notes(project: Project, folder: Path) -> Project:
    """The project with a note for each swatch that is not in its folder."""
    missing = (
        f"The swatch of {fabric.name}, {fabric.swatch.file}, is not in the folder of the project: "
        "pictures cannot be drawn without it."
        for fabric in project.fabrics
        if fabric.swatch is not None and not os.path.isfile(folder / fabric.swatch.file)
    )
    return replace(project, notes=(*project.notes, *missing))
