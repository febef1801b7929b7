"""Files that stand beside a project, such as a bed or a rig, read in the stages of a project file.

Text, shape, rules: each stage says all that it finds wrong, with file and line.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import TYPE_CHECKING, Generic, TypeVar

from cutpaths import source
from cutpaths.project.fill import fill
from cutpaths.project.flaws import Flaw, stop_at
from cutpaths.project.kinds import Table
from cutpaths.values import Value

if TYPE_CHECKING:
    from pathlib import Path

    from cutpaths.source import Source

Shape = TypeVar("Shape", bound=Table)
Settled = TypeVar("Settled")


class FileReader(Value, Generic[Shape, Settled]):
    """Reads one kind of file.

    Attributes:
        shape: its tables, keys and types.
        rules: what is wrong between the keys.
        settled: the value of a sound file, from its tables and the SHA-256 of its bytes.
        name: of a file that is only a text.
    """

    shape: type[Shape]
    rules: Callable[[Shape], Iterable[Flaw]]
    settled: Callable[[Shape, str], Settled]
    name: str

    def load(self, path: Path) -> Settled:
        """Reads and checks a file.

        Raises:
            FileError: the file cannot be read.
            InputError: something in it cannot be used; it carries every finding of its stage.
        """
        return self._value(source.load(path))

    def read(self, text: str, *, name: str = "") -> Settled:
        """Reads and checks a text; findings give `name` as its file.

        Raises:
            InputError: something in it cannot be used; it carries every finding of its stage.
        """
        return self._value(source.read(text, name or self.name))

    def _value(self, text: Source) -> Settled:
        file = fill(self.shape, text)
        stop_at(list(self.rules(file)), text)
        return self.settled(file, text.digest)
