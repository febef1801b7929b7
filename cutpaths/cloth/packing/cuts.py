"""A tree of cuts: cloth cut from edge to edge, and what falls apart cut on, to the single pieces.

Sizes are exact, width across the cloth and height along it. Parts are listed from the cut end up,
or from the left selvage to the right.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from enum import Enum

from cutpaths.cloth.packing.items import Length, Placement
from cutpaths.values import Value, replace


class Way(Enum):
    """Which way the knife runs."""

    ACROSS = "across the cloth"
    ALONG = "along the cloth"


class Taken(Value, kw_only=True):
    """A piece, cut free: the index of its item, its size as it lay and whether it was turned."""

    item: int
    width: Length
    height: Length
    turned: bool


class Waste(Value, kw_only=True):
    """Cloth that no piece is cut from."""

    width: Length
    height: Length


class Cut(Value, kw_only=True):
    """Cloth that parallel cuts divide into parts."""

    width: Length
    height: Length
    way: Way
    parts: tuple[Node, ...]


Node = Cut | Taken | Waste


def placements(node: Node, x: Length = 0, y: Length = 0) -> Iterator[Placement]:
    """Where the pieces of a tree lie when its corner is at x, y."""
    match node:
        case Taken(item=item, width=width, height=height, turned=turned):
            yield Placement(item=item, x=x, y=y, width=width, height=height, turned=turned)
        case Cut(way=way, parts=parts):
            for part in parts:
                yield from placements(part, x, y)
                if way is Way.ACROSS:
                    y += part.height
                else:
                    x += part.width
        case Waste():
            pass


def pieces(node: Node) -> Iterator[Taken]:
    """The pieces of a tree, wherever they lie."""
    match node:
        case Taken():
            yield node
        case Cut(parts=parts):
            for part in parts:
                yield from pieces(part)
        case Waste():
            pass


def stages(node: Node) -> int:
    """How many times the knife changes its way before the last piece is free, the first included.

    Cloth cut into strips, those crosscut and the crosscuts trimmed has three stages.
    """
    return 1 + max(map(stages, node.parts)) if isinstance(node, Cut) else 0


def rewritten(node: Node, leaf: Callable[[Taken], Node]) -> Node:
    """A tree with each of its pieces, the last first, replaced by a node of the same size."""
    match node:
        case Taken():
            return leaf(node)
        case Cut(parts=parts):
            changed = [rewritten(part, leaf) for part in reversed(parts)]
            return replace(node, parts=tuple(reversed(changed)))
        case Waste():
            return node
