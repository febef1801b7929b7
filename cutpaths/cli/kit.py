"""What every command starts with: the kit of a project file."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from cutpaths.pieces import Kit


def kit_of(path: Path) -> Kit:
    """Reads a project file and makes its pieces.

    Raises:
        InputError: it cannot be made; every finding names its file and line.
        FileError: it cannot be read.
    """
    from cutpaths.errors import InputError
    from cutpaths.pieces import build
    from cutpaths.project import load
    from cutpaths.project.located import located

    project = load(path)
    try:
        return build(project)
    except InputError as error:
        raise located(error, path) from error
