"""Which fabrics a project has, and which of them the top and the backing take."""

from __future__ import annotations

from collections.abc import Iterator

from cutpaths.lengths import shown
from cutpaths.project.flaws import Flaw
from cutpaths.project.model import Fabric
from cutpaths.project.shape import FileTable, SquaresTable
from cutpaths.project.spelling import nearest_name
from cutpaths.project.words import word_flaws
from cutpaths.source import KeyPath

TOP, BACKING = "top", "backing"
DEFAULTS = (
    Fabric(name=TOP, label="Top fabric", directional=False),
    Fabric(name=BACKING, label="Backing fabric", directional=False),
)


def fabrics_of(file: FileTable) -> tuple[Fabric, ...]:
    """The declared fabrics in the order of the file, or one for top and one for backing."""
    if not file.fabric:
        return DEFAULTS
    return tuple(
        Fabric(name=name, label=table.label or name, directional=table.directional)
        for name, table in file.fabric.items()
    )


def top_fabrics(file: FileTable) -> tuple[str, ...]:
    """Names of the fabrics that take turns in the top; one for a top of one piece."""
    top = file.top
    given = top.fabrics or [] if isinstance(top, SquaresTable) else [top.fabric or ""]
    return tuple(name for name in given if name) or (_only(file, TOP),)


def backing_fabric(file: FileTable) -> str:
    """Name of the backing's fabric."""
    return file.backing.fabric or _only(file, BACKING)


def _only(file: FileTable, default: str) -> str:
    """The fabric that is meant where none is named."""
    return next(iter(file.fabric), default)


def fabric_flaws(file: FileTable) -> Iterator[Flaw]:
    """Rules of [fabric.*], and of every name that asks for one of them."""
    for name, table in file.fabric.items():
        if table.label is not None:
            yield from word_flaws(("fabric", name, "label"), table.label)
    yield from _unnamed(file)
    known = sorted(file.fabric)
    seen: set[str] = set()
    for path, name in _named(file):
        if name not in file.fabric and name not in seen:
            seen.add(name)
            problem = f"must name a declared fabric, got {shown(name)}"
            yield Flaw(path, problem, _declared(name, known))


def _declared(name: str, known: list[str]) -> str:
    if not known:
        return "Declare it in a table such as [fabric.sand]"
    near = nearest_name(name, known)
    instead = f"Write `{near}`; declared are " if near else "Declared are "
    return instead + ", ".join(known)


def _unnamed(file: FileTable) -> Iterator[Flaw]:
    """Where several fabrics are declared, top and backing must say which they take."""
    if len(file.fabric) < 2:
        return
    known = ", ".join(sorted(file.fabric))
    top = file.top
    if isinstance(top, SquaresTable):
        if top.fabrics is None and top.chart is None:
            yield Flaw(("top", "fabrics"), "is missing", f"Name one or more of {known}")
    elif top.fabric is None:
        yield Flaw(("top", "fabric"), "is missing", f"Name one of {known}")
    if file.backing.fabric is None:
        yield Flaw(("backing", "fabric"), "is missing", f"Name one of {known}")


def _named(file: FileTable) -> Iterator[tuple[KeyPath, str]]:
    """Every fabric name that the tables use, with its place."""
    top = file.top
    if isinstance(top, SquaresTable):
        for count, name in enumerate(top.fabrics or ()):
            yield ("top", "fabrics", count), name
        for count, row in enumerate(top.chart or ()):
            for name in row.split():
                yield ("top", "chart", count), name
    elif top.fabric is not None:
        yield ("top", "fabric"), top.fabric
    if file.backing.fabric is not None:
        yield ("backing", "fabric"), file.backing.fabric
