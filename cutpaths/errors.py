"""What can go wrong: one base error and its few children.

A `Finding` is one thing wrong with the input, said in one line. An error carries all the findings
of its stage, so that a person mends a file once and not key by key.
"""

from __future__ import annotations

from cutpaths.values import Value

FINDINGS_SHOWN = 20


class Finding(Value, kw_only=True):
    """One thing wrong with a project file.

    Attributes:
        key: dotted name of the key in the file, such as `border.width`; empty for the whole file.
        problem: the rule and the value as the person wrote it ("must be ..., got ...").
        hint: one imperative sentence that would put it right; may be empty.
        file: name of the file, empty while it is not known.
        line: line number from 1; 0 while it is not known.
    """

    key: str
    problem: str
    hint: str = ""
    file: str = ""
    line: int = 0

    def __str__(self) -> str:
        place = f"{self.file}:{self.line}: " if self.line else f"{self.file}: " if self.file else ""
        subject = f"`{self.key}` " if self.key else ""
        hint = f". {self.hint}" if self.hint else ""
        return f"{place}{subject}{self.problem}{hint}"


class CutpathsError(Exception):
    """Base of every error that cutpaths raises on purpose; its text is fit to show."""


class InputError(CutpathsError, ValueError):
    """The project file, or a value in it, cannot be used.

    Attributes:
        findings: every finding of the stage that failed, in the order of the file.
    """

    def __init__(self, *findings: Finding) -> None:
        self.findings = findings
        shown = [str(finding) for finding in findings[:FINDINGS_SHOWN]]
        if len(findings) > FINDINGS_SHOWN:
            shown.append(f"... and {len(findings) - FINDINGS_SHOWN} more")
        super().__init__("\n".join(shown))


def install_words(extra: str) -> str:
    """How an extra is installed: from the folder of cutpaths, as it is no package to download.

    >>> install_words("kits")
    "run .venv/bin/pip install '.[kits]' in the folder of cutpaths"
    """
    return f"run .venv/bin/pip install '.[{extra}]' in the folder of cutpaths"


class ProofError(CutpathsError):
    """The pieces do not sew together; the text names every failed check."""


class DrawingError(CutpathsError):
    """A drawing asks for something that a file format cannot hold."""


class FileError(CutpathsError):
    """A file could not be read or written; nothing half-written is left."""
