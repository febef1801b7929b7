"""One table of all sizes and colorways of a project."""

from __future__ import annotations

from collections.abc import Sequence

from cutpaths.figures.model import Figure, Group, words
from cutpaths.figures.sizes import sizes
from cutpaths.project.model import Project


def variant_groups(projects: Sequence[Project]) -> tuple[Group, ...]:
    """Groups of a project as it stands, in its sizes and in its colorways; none without them.

    Args:
        projects: the project as it stands first.
    """
    plain = projects[0]
    in_sizes = [each for each in projects if each.size]
    in_cloth = [each for each in projects if each.colorway]
    groups = []
    if in_sizes:
        groups.append(Group("All sizes", tuple(map(_size, [plain, *in_sizes]))))
    if in_cloth:
        groups.append(Group("All colorways", tuple(map(_cloth, [plain, *in_cloth]))))
    return tuple(groups)


def _size(project: Project) -> Figure:
    """Blanket, backing and border in one line."""
    ruler, settled = project.ruler, sizes(project)
    borders = sorted(set(project.borders))
    parts = [f"border {' and '.join(ruler.text(border) for border in borders)}"]
    if settled is not None:
        named = {"blanket": settled.finished, "backing": settled.backing}
        parts[:0] = [f"{name} {' x '.join(map(ruler.text, pair))}" for name, pair in named.items()]
    key = f"size.{project.size}" if project.size else "size"
    return words(key, project.size or "as it stands", ", ".join(parts))


def _cloth(project: Project) -> Figure:
    """The fabrics by their labels."""
    key = f"colorway.{project.colorway}" if project.colorway else "colorway"
    labels = ", ".join(fabric.label for fabric in project.fabrics)
    return words(key, project.colorway or "as it stands", labels)
