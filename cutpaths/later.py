"""Modules that are loaded when something of them is first used.

What only some projects or commands ask for is named like this, so that type checkers and
`tests/test_imports.py` see it as the import that it is:

    if TYPE_CHECKING:
        from cutpaths.pieces import panels
    else:
        panels = Later("cutpaths.pieces.panels")
"""

from __future__ import annotations

from importlib import import_module


class Later:
    """Stands for a module by its full name."""

    __slots__ = ("_name",)

    def __init__(self, name: str) -> None:
        self._name = name

    def __getattr__(self, wanted: str) -> object:
        return getattr(import_module(self._name), wanted)
