"""A finished plan: every piece in its place on a strip."""

from __future__ import annotations

from enum import StrEnum

from cutpaths.cloth.packing.cuts import Node
from cutpaths.cloth.packing.items import Length, Placement
from cutpaths.cloth.packing.knife import cuts_of
from cutpaths.values import Value


class Method(StrEnum):
    """How a plan was made."""

    LEVELS = "levels, the tallest pieces first"
    FREE = "free placement, searched"
    EDGE_TO_EDGE = "edge-to-edge cuts, searched"
    STRIPS = "strips, crosscuts and trims, searched"
    EXACT = "strips, crosscuts and trims, proved shortest"


class Plan(Value, kw_only=True):
    """Every piece in its place.

    Attributes:
        width: of the strip.
        height: length of cloth that the pieces take.
        placements: one for each piece.
        method: how it was made.
    """

    width: Length
    height: Length
    placements: tuple[Placement, ...]
    method: Method


class CutPlan(Plan, kw_only=True):
    """A plan with the tree of cuts, each from edge to edge, that sets its pieces free."""

    cuts: Node


def with_cuts(plan: Plan) -> CutPlan:
    """A plan with its cuts.

    Raises:
        ValueError: no cuts from edge to edge set its pieces free.
    """
    return CutPlan(
        width=plan.width,
        height=plan.height,
        placements=plan.placements,
        method=plan.method,
        cuts=cuts_of(plan.placements, plan.width, plan.height),
    )
