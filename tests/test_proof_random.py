"""Whatever can be made is proved to sew together."""

from __future__ import annotations

from hypothesis import given, settings
from proof_strategies import folded_rectangles, turned_outlines, turned_rectangles
from strategies import projects

from cutpaths.errors import InputError
from cutpaths.pieces import build
from cutpaths.project.model import Project
from cutpaths.proof import prove


def _proved_or_refused(project: Project) -> None:
    try:
        kit = build(project)
    except InputError:
        return
    assert prove(kit).failed == ()


@settings(max_examples=100)
@given(turned_rectangles())
def test_turned_rectangles(project: Project) -> None:
    """A turned rectangle passes every check, or is refused with a reason."""
    _proved_or_refused(project)


@settings(max_examples=100)
@given(turned_outlines())
def test_turned_outlines(project: Project) -> None:
    """A turned polygon of any angles and borders passes every check, or is refused."""
    _proved_or_refused(project)


@settings(max_examples=60)
@given(folded_rectangles())
def test_folded_rectangles(project: Project) -> None:
    """A folded-over rectangle passes every check, or is refused."""
    _proved_or_refused(project)


@settings(max_examples=40)
@given(projects())
def test_project_files(project: Project) -> None:
    """What a project file asks for rightly can be made, and passes every check."""
    assert prove(build(project)).failed == ()
