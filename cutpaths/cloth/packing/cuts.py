"""A tree of cuts: cloth cut from edge to edge, and what falls apart cut on, to the single pieces.

Sizes are exact, width across the cloth and height along it. Parts are listed from the cut end up,
or from the left selvage to the right.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import Enum
from itertools import accumulate

from cutpaths.cloth.packing.items import Length, Placement


class Way(Enum):
    """Which way the knife runs."""

    ACROSS = "across the cloth"
    ALONG = "along the cloth"


@dataclass(frozen=True, slots=True, kw_only=True)
class Taken:
    """A piece, cut free: the index of its item, its size as it lay and whether it was turned."""

    item: int
    width: Length
    height: Length
    turned: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Waste:
    """What no piece is cut from."""

    width: Length
    height: Length


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """Cloth that parallel cuts divide into parts; no part is cut the same way again at once."""

    width: Length
    height: Length
    way: Way
    parts: tuple[Node, ...]


Node = Cut | Taken | Waste


def joined(way: Way, *parts: Node) -> Node:
    """What cuts of one way would divide into these parts, cuts of the same way taken together.

    Raises:
        ValueError: there are no parts.
    """
    flat: list[Node] = []
    for part in parts:
        flat.extend(part.parts if isinstance(part, Cut) and part.way is way else (part,))
    if len(flat) == 1:
        return flat[0]
    widths, heights = [part.width for part in flat], [part.height for part in flat]
    width = max(widths) if way is Way.ACROSS else sum(widths)
    height = sum(heights) if way is Way.ACROSS else max(heights)
    return Cut(width=width, height=height, way=way, parts=tuple(flat))


def placements(node: Node, x: Length = 0, y: Length = 0) -> Iterator[Placement]:
    """Where the pieces of a tree lie, its lower left corner at x, y."""
    match node:
        case Taken(item=item, width=width, height=height, turned=turned):
            yield Placement(item=item, x=x, y=y, width=width, height=height, turned=turned)
        case Cut(way=Way.ACROSS, parts=parts):
            for part, rise in zip(parts, accumulate(p.height for p in parts), strict=True):
                yield from placements(part, x, y + rise - part.height)
        case Cut(parts=parts):
            for part, run in zip(parts, accumulate(p.width for p in parts), strict=True):
                yield from placements(part, x + run - part.width, y)
        case Waste():
            pass


def stages(node: Node) -> int:
    """How often the direction of cutting changes on the way to the last piece, the first included.

    A length cut into strips, those crosscut and the crosscuts trimmed has three stages.
    """
    if not isinstance(node, Cut):
        return 0
    return 1 + max(stages(part) for part in node.parts)


def shortened(node: Node, height: Length) -> Node:
    """A tree without the waste that lies beyond a height which no piece crosses."""
    match node:
        case Cut(way=Way.ALONG, parts=parts):
            return joined(Way.ALONG, *(shortened(part, height) for part in parts))
        case Cut(parts=parts):
            kept: list[Node] = []
            for part in parts:
                if height > 0:
                    kept.append(shortened(part, height))
                height -= part.height
            return joined(Way.ACROSS, *kept)
        case Waste(width=width):
            return Waste(width=width, height=min(node.height, height))
        case Taken():
            return node
