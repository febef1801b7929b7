"""The squares of a project whose triangles are sewn in pairs before they are cut."""

from __future__ import annotations

from cutpaths.geometry.assembly import Assembly
from cutpaths.geometry.layouts.pairs import SewnPair, sewn_pair
from cutpaths.project.model import Project


def sewn_pairs(project: Project, patchwork: Assembly) -> tuple[SewnPair, ...]:
    """Pairs of squares with their marks, `PAIR-1` and on; none where triangles are cut singly."""
    if not project.pairs:
        return ()
    return tuple(
        sewn_pair(f"PAIR-{number}", pairs, project.allowance, project.ruler.step)
        for number, pairs in enumerate(patchwork.pairs, 1)
    )
