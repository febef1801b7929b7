"""Rules of [fabric.NAME.stock] and [backing.join], and the stock that they come to."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from cutpaths.lengths import Unit, exact_text
from cutpaths.project.flaws import Flaw
from cutpaths.project.shape import FileTable
from cutpaths.project.stock import (
    FLANNEL_PLIES,
    PLIES,
    Join,
    OnHand,
    Sold,
    Stock,
    Washed,
    plain_stock,
    usual,
)
from cutpaths.project.stock_shape import StockTable
from cutpaths.source import KeyPath
from cutpaths.values import replace

PLIES_MOST = 20
PARTS = ("backing", "filling", "panels", "patches", "top")


def stock_of(table: StockTable | None, unit: Unit) -> Stock | None:
    """The stock of a fabric as its table says; None without one."""
    if table is None:
        return None
    plain = plain_stock(unit)
    shrinkage = table.shrinkage
    lost = (shrinkage.length / 100, shrinkage.width / 100) if shrinkage else plain.shrinkage
    precut = table.sold is Sold.PACK
    width = table.width or plain.width
    return replace(
        plain,
        width=width,
        sold=table.sold,
        step=table.step or plain.step,
        piece=(table.piece.width, table.piece.height) if table.piece else plain.piece,
        count=table.count or 1,
        prints=table.prints or 1,
        price=table.price,
        shrinkage=lost,
        washed=table.washed or (Washed.AFTER if precut or not shrinkage else Washed.BEFORE),
        square_up=_given(table.square_up, plain.square_up),
        strip_ends=_given(table.strip_ends, plain.strip_ends),
        grain=table.grain or {},
        flannel=table.flannel,
        plies=table.plies or (FLANNEL_PLIES if table.flannel else PLIES),
        bolt=table.bolt or plain.bolt,
        bolts=table.bolts,
        on_hand=tuple(
            OnHand(
                size=(each.width or width, each.length) if each.length else None, count=each.count
            )
            for each in table.on_hand or ()
        ),
    )


def _given(value: Fraction | None, default: Fraction) -> Fraction:
    return default if value is None else value


def join_of(file: FileTable) -> Join | None:
    """How the file joins its backing."""
    table = file.backing.join
    if table is None:
        return None
    return Join(
        seams=table.seams,
        down=table.run == "down",
        at=None if table.at is None else tuple(table.at),
        allowance=table.allowance or usual(file.units).join,
    )


def stock_flaws(file: FileTable) -> Iterator[Flaw]:
    """Rules of all stock, and of a joined backing."""
    for name, table in file.fabric.items():
        if table.stock is not None:
            path = "fabric", name, "stock"
            yield from _sold_flaws(path, table.stock)
            yield from _cloth_flaws(path, table.stock, file.units)
            yield from _on_hand_flaws(path, table.stock)
    join = file.backing.join
    if join is not None and join.at is not None:
        if len(join.at) != join.seams:
            problem = f"must have one place for each seam, {join.seams}, got {len(join.at)}"
            yield Flaw(("backing", "join", "at"), problem)
        elif join.at != sorted(set(join.at)):
            yield Flaw(("backing", "join", "at"), "must go up from the left, or from the foot")


def _sold_flaws(path: KeyPath, table: StockTable) -> Iterator[Flaw]:
    """Keys that belong to one way of selling."""
    pack = table.sold is Sold.PACK
    for key in ("piece", "count"):
        if pack and getattr(table, key) is None:
            example = "count = 42" if key == "count" else "piece = { width = 5, height = 5 }"
            yield Flaw((*path, key), "is missing", f"Say what is in a pack: `{example}`")
    for key in ("count", "prints"):
        if not pack and getattr(table, key) is not None:
            yield Flaw((*path, key), 'is only for `sold = "pack"`', "Leave it out")
    if table.sold is Sold.LENGTH and table.piece is not None:
        yield Flaw((*path, "piece"), 'is only for `sold = "quarters"` or "pack"', "Leave it out")
    if pack and (table.prints or 1) > (table.count or 1):
        problem = f"must not be over the pack's count, {table.count}, got {table.prints}"
        yield Flaw((*path, "prints"), problem)
    if pack and table.washed is Washed.BEFORE:
        problem = 'must be "after" for a pack: precuts cannot be washed first'
        yield Flaw((*path, "washed"), problem, "They would shrink and fray out of size")


def _cloth_flaws(path: KeyPath, table: StockTable, unit: Unit) -> Iterator[Flaw]:
    """Losses, plies and grain."""
    stock = stock_of(table, unit)
    if stock is None:
        return
    if 2 * stock.strip_ends >= stock.width:
        most = exact_text(stock.width / 2, unit)
        problem = f"must be less than half the usable width, {most}"
        yield Flaw((*path, "strip_ends"), f"{problem}, got {exact_text(stock.strip_ends, unit)}")
    most_plies = FLANNEL_PLIES if table.flannel else PLIES_MOST
    if stock.plies > most_plies:
        of = " for flannel" if table.flannel else ""
        yield Flaw((*path, "plies"), f"must not be over {most_plies}{of}, got {stock.plies}")
    for part in table.grain or ():
        if part not in PARTS:
            yield Flaw((*path, "grain", part), f"must be for {', '.join(PARTS[:-1])} or top")


def _on_hand_flaws(path: KeyPath, table: StockTable) -> Iterator[Flaw]:
    for place, each in enumerate(table.on_hand or ()):
        at = (*path, "on_hand", place)
        if each.length is None and table.sold is Sold.LENGTH:
            yield Flaw((*at, "length"), "is missing", 'Write for example { length = "2 yd" }')
        elif each.length is None and each.width is not None:
            yield Flaw((*at, "length"), "is missing beside `width`")
