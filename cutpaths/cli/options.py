"""Options that several commands share; each stands in a command's help where it is put."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import click

Command = Callable[..., Any]
Decorator = Callable[[Command], Command]

INTERRUPTED = 130  # exit status


def folder_option(says: str = "Folder to write to; made when it is not there.") -> Decorator:
    """`-o FOLDER`, which the command must be given."""
    return _folder(says, required=True)


def wished_folder_option(says: str) -> Decorator:
    """`-o FOLDER` for a command that writes files only when asked."""
    return _folder(says, required=False)


def _folder(says: str, *, required: bool) -> Decorator:
    kind = click.Path(path_type=Path, file_okay=False)
    return click.option("-o", "--out", "folder", type=kind, required=required, help=says)


def file_option(says: str, name: str = "file", *, required: bool = False) -> Decorator:
    """`-o FILE`."""
    kind = click.Path(path_type=Path, dir_okay=False)
    return click.option("-o", "--out", name, type=kind, required=required, help=says)


def force_option(says: str = "Replace files that are not this project's.") -> Decorator:
    """`--force`."""
    return click.option("--force", is_flag=True, help=says)


def json_option() -> Decorator:
    """`--json`."""
    return click.option("--json", "as_data", is_flag=True, help="Print JSON for programs.")


def unchecked_option() -> Decorator:
    """`--no-check`."""
    says = "Do not read the files back before writing them."
    return click.option("--no-check", is_flag=True, help=says)


def seed_option(says: str) -> Decorator:
    """`--seed` of a search."""
    kind = click.IntRange(0, 2**31 - 1)
    return click.option("--seed", type=kind, default=1, show_default=True, help=says)


def seconds_option(least: float, usual: float, says: str) -> Decorator:
    """`--seconds`, how much work a search may do."""
    kind = click.FloatRange(least, 3600)
    return click.option("--seconds", type=kind, default=usual, show_default=True, help=says)
