"""The project: one small TOML file, read, checked and settled.

`load` and `read` give a `Project`, `load_variants` one for each of its sizes and colorways too;
`schema` is the file's JSON Schema, `template` a new file.
"""

from cutpaths.project.json_schema import schema
from cutpaths.project.model import Project
from cutpaths.project.reading import load, load_variants, read
from cutpaths.project.starter import template

__all__ = ["Project", "load", "load_variants", "read", "schema", "template"]
