"""What every command starts with: the kit of a project file."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

if TYPE_CHECKING:
    from cutpaths.pieces import Kit

Command = Callable[..., Any]


def variant_options(command: Command) -> Command:
    """Adds the options that choose one of a project's sizes and colorways."""
    size = click.option("--size", metavar="NAME", help="Take the size of table [size.NAME].")
    cloth = click.option(
        "--colorway", metavar="NAME", help="Take the fabrics of table [colorway.NAME]."
    )
    return size(cloth(command))


def kit_of(path: Path, size: str | None = None, colorway: str | None = None) -> Kit:
    """Reads a project file, in one of its sizes and colorways, and makes its pieces.

    Raises:
        InputError: it cannot be made; every finding names its file and line.
        FileError: it cannot be read.
    """
    from cutpaths.errors import InputError
    from cutpaths.pieces import build
    from cutpaths.project import load
    from cutpaths.project.located import located

    project = load(path, size=size, colorway=colorway)
    try:
        return build(project)
    except InputError as error:
        raise located(error, path, size=size, colorway=colorway) from error
