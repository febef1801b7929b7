"""A finished plan: every piece in its place on a strip."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from cutpaths.cloth.packing.cuts import Node
from cutpaths.cloth.packing.items import Length, Placement


class Method(StrEnum):
    """How a plan was made."""

    LEVELS = "levels, the tallest pieces first"
    FREE = "free placement, searched"
    EDGE_TO_EDGE = "edge-to-edge cuts, searched"
    STRIPS = "strips, crosscuts and trims, searched"


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """Every piece in its place.

    Attributes:
        width: of the strip.
        height: length of cloth that the pieces take.
        placements: one for each piece.
        method: how it was made.
        cuts: the tree of cuts that sets the pieces free, where all cuts run from edge to edge.
    """

    width: Length
    height: Length
    placements: tuple[Placement, ...]
    method: Method
    cuts: Node | None = None
