"""Which fabrics a project has, and which of them the top and the backing take."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from cutpaths.lengths import shown
from cutpaths.project.cells import names_of
from cutpaths.project.flaws import Flaw
from cutpaths.project.layout_shape import (
    BlocksTable,
    BricksTable,
    GridTable,
    OnPointTable,
    StripsTable,
)
from cutpaths.project.model import Fabric, Swatch
from cutpaths.project.shape import (
    FileTable,
    FillingTable,
    OutlineTable,
    PanelTable,
    SquaresTable,
    SwatchTable,
)
from cutpaths.project.spelling import nearest_name
from cutpaths.project.stock_rules import stock_flaws, stock_of
from cutpaths.project.words import word_flaws
from cutpaths.source import KeyPath

TOP, BACKING, FILLING = "top", "backing", "filling"
SWATCH_LEAST = Fraction(5)  # mm; what repeats more often is too fine to be told from a colour
DEFAULTS = (
    Fabric(name=TOP, label="Top fabric", directional=False),
    Fabric(name=BACKING, label="Backing fabric", directional=False),
)


def fabrics_of(file: FileTable) -> tuple[Fabric, ...]:
    """The declared fabrics in the order of the file, or one each for top, backing and filling."""
    if not file.fabric:
        filling = Fabric(name=FILLING, label="Filling", directional=False)
        return DEFAULTS if file.filling is None else (*DEFAULTS, filling)
    return tuple(
        Fabric(
            name=name,
            label=table.label or name,
            directional=table.directional,
            colour=table.colour,
            swatch=_swatch(table.swatch),
            stock=stock_of(table.stock, file.units),
        )
        for name, table in file.fabric.items()
    )


def _swatch(table: SwatchTable | None) -> Swatch | None:
    return None if table is None else Swatch(table.file, table.width)


def top_fabrics(file: FileTable) -> tuple[str, ...]:
    """Names of the fabrics that take turns in the top; one for a top of one piece."""
    match file.top:
        case PanelTable(fabric=fabric) | OutlineTable(fabric=fabric):
            given = [fabric or ""]
        case GridTable() | BlocksTable():
            given = []
        case top:
            given = top.fabrics or []
    return tuple(name for name in given if name) or (_only(file, TOP),)


def backing_fabric(file: FileTable) -> str:
    """Name of the backing's fabric."""
    return file.backing.fabric or _only(file, BACKING)


def filling_fabric(table: FillingTable) -> str:
    """Name of the filling's fabric, which is never that of another layer unless it says so."""
    return table.fabric or FILLING


def _only(file: FileTable, default: str) -> str:
    """The fabric that is meant where none is named."""
    return next(iter(file.fabric), default)


def fabric_flaws(file: FileTable) -> Iterator[Flaw]:
    """Rules of [fabric.*], and of every name that asks for one of them."""
    for name, table in file.fabric.items():
        if table.label is not None:
            yield from word_flaws(("fabric", name, "label"), table.label)
        if table.swatch is not None and table.swatch.width < SWATCH_LEAST:
            problem = f"must be at least {SWATCH_LEAST} mm, got {float(table.swatch.width):g} mm"
            hint = "Give the width of cloth that the picture shows"
            yield Flaw(("fabric", name, "swatch", "width"), problem, hint)
    yield from stock_flaws(file)
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
    if _is_to_arrange(file):
        hint = "Run `cutpaths arrange` and include the file that it writes"
        yield Flaw(("top", "chart"), "is missing", hint)
    known = ", ".join(sorted(file.fabric))
    if file.fabric and file.filling is not None and file.filling.fabric is None:
        hint = f"Name one of {known}, or declare it in a table such as [fabric.batting]"
        yield Flaw(("filling", "fabric"), "is missing", hint)
    if len(file.fabric) < 2:
        return
    top = file.top
    match top:
        case PanelTable(fabric=None) | OutlineTable(fabric=None):
            yield Flaw(("top", "fabric"), "is missing", f"Name one of {known}")
        case StripsTable(fabrics=None):
            yield Flaw(("top", "fabrics"), "is missing", f"Name one or more of {known}")
        case SquaresTable() | OnPointTable() | BricksTable():
            if top.fabrics is None and top.chart is None and not _is_to_arrange(file):
                yield Flaw(("top", "fabrics"), "is missing", f"Name one or more of {known}")
    if file.backing.fabric is None:
        yield Flaw(("backing", "fabric"), "is missing", f"Name one of {known}")


def _named(file: FileTable) -> Iterator[tuple[KeyPath, str]]:
    """Every fabric name that the tables use, with its place."""
    yield from _prints(file)
    match file.top:
        case PanelTable(fabric=fabric) | OutlineTable(fabric=fabric):
            if fabric is not None:
                yield ("top", "fabric"), fabric
        case GridTable(chart=chart):
            yield from _in_cells(("top", "chart"), chart)
        case BlocksTable() as blocks:
            yield from _in_blocks(file, blocks)
        case top:
            yield from _in_rows(top)
    if file.backing.fabric is not None:
        yield ("backing", "fabric"), file.backing.fabric
    if file.filling is not None and file.filling.fabric is not None:
        yield ("filling", "fabric"), file.filling.fabric


def _in_rows(
    top: SquaresTable | OnPointTable | StripsTable | BricksTable,
) -> Iterator[tuple[KeyPath, str]]:
    """Fabrics that take turns, or stand in rows of names."""
    for count, name in enumerate(top.fabrics or ()):
        yield ("top", "fabrics", count), name
    chart = None if isinstance(top, StripsTable) else top.chart
    for count, row in enumerate(chart or ()):
        for name in row.split():
            yield ("top", "chart", count), name
    if isinstance(top, OnPointTable):
        yield ("top", "setting"), top.setting


def _in_cells(path: KeyPath, chart: list[str]) -> Iterator[tuple[KeyPath, str]]:
    """Fabrics in the cells of a grid."""
    for count, row in enumerate(chart):
        for text in row.split():
            for name in names_of(text):
                yield (*path, count), name


def _in_blocks(file: FileTable, top: BlocksTable) -> Iterator[tuple[KeyPath, str]]:
    """Fabrics in blocks and in their sashing; the chart may name blocks too, and has own rules."""
    for name, block in file.block.items():
        yield from _in_cells(("block", name, "chart"), block.chart)
    if top.sashing is not None:
        yield ("top", "sashing", "fabric"), top.sashing.fabric
        if top.sashing.cornerstone is not None:
            yield ("top", "sashing", "cornerstone"), top.sashing.cornerstone


def _prints(file: FileTable) -> Iterator[tuple[KeyPath, str]]:
    """The prints of [arrange], where it says how many there are of them."""
    if file.arrange is None:
        return
    for name in file.arrange.prints:
        yield ("arrange", "prints", name), name
    for place, pack in enumerate(file.arrange.pack):
        for count, name in enumerate(pack.prints or ()):
            yield ("arrange", "pack", place, "prints", count), name
        for name in pack.counts or ():
            yield ("arrange", "pack", place, "counts", name), name


def _is_to_arrange(file: FileTable) -> bool:
    """Whether the top has prints to lay out and no chart yet."""
    top = file.top
    if file.arrange is None or not isinstance(top, SquaresTable):
        return False
    return top.fabrics is None and top.chart is None
