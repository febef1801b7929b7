"""What is wrong with a rig, before file and line of its key are known."""

from __future__ import annotations

from cutpaths.errors import Finding


def finding(key: str, problem: str, hint: str = "") -> Finding:
    """A finding about a key of the rig file."""
    return Finding(key=key, problem=problem, hint=hint)
