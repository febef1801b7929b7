"""A proof as lines for people."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator

from cutpaths.proof.check import Proof


def lines(proof: Proof, columns: int = 100) -> Iterator[str]:
    """Each check with what was expected and found, its claim under it, and the count at the end."""
    width = max(len(check.name) for check in proof.checks)
    indent = " " * 6
    for check in proof.checks:
        word = "holds" if check.passed else "FAILS"
        place = f" at {check.at}" if check.at else ""
        yield f"{word} {check.name:<{width}}  expected {check.expected}, found {check.found}{place}"
        yield from textwrap.wrap(
            check.claim, columns, initial_indent=indent, subsequent_indent=indent
        )
    yield ""
    total, failed = len(proof.checks), len(proof.failed)
    yield f"{failed} of {total} checks fail." if failed else f"All {total} checks hold."
