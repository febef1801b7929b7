"""The project: one small TOML file, read, checked and settled.

`load` and `read` give a `Project`, `load_variants` one for each of its sizes and colorways too;
`schema` is the file's JSON Schema, `template` a new file. The last two are loaded when they are
used.
"""

from importlib import import_module
from typing import TYPE_CHECKING

from cutpaths.project.model import Project
from cutpaths.project.reading import load, load_sound_variants, load_variants, read

if TYPE_CHECKING:
    from cutpaths.project.json_schema import schema
    from cutpaths.project.starter import template

__all__ = ["Project", "load", "load_sound_variants", "load_variants", "read", "schema", "template"]

_HOMES = {"schema": "cutpaths.project.json_schema", "template": "cutpaths.project.starter"}


def __getattr__(name: str) -> object:
    """Imports one of the names above from its home when it is first used."""
    if name not in _HOMES:
        raise AttributeError(f"module 'cutpaths.project' has no attribute {name!r}")
    return getattr(import_module(_HOMES[name]), name)
