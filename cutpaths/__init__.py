"""Exact pieces, marks and proof of a self-bound, mitered patchwork blanket.

From a project file to proven pieces:

>>> import cutpaths
>>> kit = cutpaths.build(cutpaths.read('''
...     format = 1
...     title = "Check"
...     top = { layout = "panel", cut = { width = 30, height = 30 } }
...     border = { backing = 40 }
... '''))
>>> cutpaths.prove(kit).passed
True

Nothing is imported until it is used. The parts below these few names are imported by module:
`cutpaths.lengths`, `cutpaths.sheets.uses`, `cutpaths.formats`, `cutpaths.files`.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from cutpaths.errors import (
        CutpathsError,
        DrawingError,
        FileError,
        Finding,
        InputError,
        ProofError,
    )
    from cutpaths.figures import figures_of
    from cutpaths.pieces import build
    from cutpaths.project import load, read
    from cutpaths.proof import prove, require

__all__ = [
    "CutpathsError",
    "DrawingError",
    "FileError",
    "Finding",
    "InputError",
    "ProofError",
    "build",
    "figures_of",
    "load",
    "prove",
    "read",
    "require",
]

_HOMES = {
    "build": "cutpaths.pieces",
    "figures_of": "cutpaths.figures",
    "load": "cutpaths.project",
    "prove": "cutpaths.proof",
    "read": "cutpaths.project",
    "require": "cutpaths.proof",
}


def __getattr__(name: str) -> object:
    """Imports one of the names above from its home when it is first used."""
    if name not in __all__:
        raise AttributeError(f"module 'cutpaths' has no attribute {name!r}")
    return getattr(import_module(_HOMES.get(name, "cutpaths.errors")), name)
