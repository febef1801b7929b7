"""Findings of later stages, which know a key but not where it stands."""

from __future__ import annotations

from typing import TYPE_CHECKING

from cutpaths import source
from cutpaths.errors import Finding, InputError
from cutpaths.project.flaws import variant_words
from cutpaths.project.variants import chosen
from cutpaths.values import replace

if TYPE_CHECKING:
    from pathlib import Path


def located(
    error: InputError, path: Path, *, size: str | None = None, colorway: str | None = None
) -> InputError:
    """The same error, with the file and line of every key that a project file holds."""
    text = chosen(source.load(path), size, colorway)

    def place(finding: Finding) -> Finding:
        if finding.file or not finding.key:
            return finding
        file, line = text.place(tuple(finding.key.split(".")))
        problem = f"{finding.problem}{variant_words(text)}"
        return replace(finding, problem=problem, file=file, line=line)

    return InputError(*(place(finding) for finding in error.findings))
