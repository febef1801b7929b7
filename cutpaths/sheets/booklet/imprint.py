"""What the pattern says of itself: who made it, where to write, what may be done with it."""

from __future__ import annotations

from cutpaths.sheets.booklet.blocks import Block, Paragraph, Section, Terms
from cutpaths.sheets.booklet.facts import Facts


def imprint(facts: Facts) -> tuple[Block, ...]:
    """Who made the pattern, where to write, what may be done with it."""
    project, pattern = facts.kit.project, facts.kit.project.pattern
    rows = [
        ("Version", pattern.version),
        ("Date", pattern.date),
        ("Author", pattern.author),
        ("Corrections to", pattern.contact),
        ("Licence", pattern.licence),
        ("Batch", pattern.batch),
        ("Project file", f"SHA-256 {_grouped(project.digest)}"),
    ]
    words = Paragraph(
        "Made by cutpaths from a project file. All sizes were computed, and the pieces sewn "
        "together on paper, before this booklet was written."
    )
    given = tuple(row for row in rows if row[1])
    return Section("About this pattern"), words, Terms(given)


def _grouped(digest: str) -> str:
    """A digest in groups that a line can be parted between.

    >>> _grouped("0123456789abcdef0123")
    '0123456789abcdef 0123'
    """
    return " ".join(digest[i : i + 16] for i in range(0, len(digest), 16))
