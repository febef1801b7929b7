"""Proves random projects one after the other, and counts what could be made and what could not."""

from __future__ import annotations

from collections import Counter

from hypothesis import HealthCheck, given, settings
from hypothesis import seed as seeded
from hypothesis import strategies as st

from cutpaths.errors import InputError
from cutpaths.pieces import build
from cutpaths.project.model import Project
from cutpaths.proof import prove
from cutpaths.values import State, field


class Tally(State):
    """How many projects were made and proved, and the keys that the others were refused for."""

    built: int = 0
    refused: int = 0
    keys: Counter[str] = field(default_factory=Counter)

    def add(self, project: Project) -> None:
        """Makes and proves a project, unless it is refused."""
        try:
            kit = build(project)
        except InputError as error:
            self.refused += 1
            self.keys.update({finding.key for finding in error.findings})
            return
        self.built += 1
        assert prove(kit).failed == ()


def proved(projects: st.SearchStrategy[Project], count: int, seed: int | None = None) -> Tally:
    """Proves `count` projects: always the same ones, or other ones for each seed."""
    tally = Tally()

    @given(projects)
    def each(project: Project) -> None:
        tally.add(project)

    if seed is None:
        settings(max_examples=count)(each)()
        return tally
    # As many as are asked for may take hours, and are new each time.
    free = settings(
        max_examples=count,
        derandomize=False,
        database=None,
        deadline=None,
        suppress_health_check=list(HealthCheck),
    )
    free(seeded(seed)(each))()
    return tally
