"""Cuts found from places alone."""

from __future__ import annotations

import pytest

from cutpaths.cloth.packing.cuts import (
    Cut,
    Taken,
    Waste,
    Way,
    pieces,
    placements,
    rewritten,
    stages,
)
from cutpaths.cloth.packing.items import Placement
from cutpaths.cloth.packing.knife import cuts_of


def place(item: int, x: int, y: int, width: int, height: int) -> Placement:
    """A piece that was not turned."""
    return Placement(item=item, x=x, y=y, width=width, height=height, turned=False)


def taken(item: int, width: int, height: int) -> Taken:
    """The same, cut free."""
    return Taken(item=item, width=width, height=height, turned=False)


TWO_STRIPS = (
    place(0, 0, 0, 4, 5),
    place(1, 4, 0, 3, 2),
    place(1, 4, 2, 3, 2),
    place(2, 0, 5, 10, 3),
)


def test_strips_crosscuts_and_trims_are_found() -> None:
    """Two strips; the first is crosscut into a piece, a stack of two and waste."""
    stack = Cut(
        width=3,
        height=5,
        way=Way.ACROSS,
        parts=(taken(1, 3, 2), taken(1, 3, 2), Waste(width=3, height=1)),
    )
    strip = Cut(
        width=10,
        height=5,
        way=Way.ALONG,
        parts=(taken(0, 4, 5), stack, Waste(width=3, height=5)),
    )
    tree = cuts_of(TWO_STRIPS, 10, 8)
    assert tree == Cut(width=10, height=8, way=Way.ACROSS, parts=(strip, taken(2, 10, 3)))
    assert stages(tree) == 3
    assert sorted(placements(tree), key=repr) == sorted(TWO_STRIPS, key=repr)


def test_a_piece_as_large_as_the_cloth_needs_no_cut() -> None:
    """The tree is the piece."""
    assert cuts_of([place(0, 0, 0, 4, 5)], 4, 5) == taken(0, 4, 5)
    assert stages(taken(0, 4, 5)) == 0


def test_a_pinwheel_cannot_be_cut_from_edge_to_edge() -> None:
    """Five pieces round each other block every cut."""
    wheel = [
        place(0, 0, 0, 2, 1),
        place(1, 2, 0, 1, 2),
        place(2, 1, 2, 2, 1),
        place(3, 0, 1, 1, 2),
        place(4, 1, 1, 1, 1),
    ]
    with pytest.raises(ValueError, match=r"^no cuts from edge to edge set these pieces free$"):
        cuts_of(wheel, 3, 3)


def test_pieces_can_be_replaced_where_they_lie() -> None:
    """The last piece comes first; sizes stay."""
    tree = cuts_of(TWO_STRIPS, 10, 8)
    seen: list[int] = []

    def leaf(piece: Taken) -> Waste:
        seen.append(piece.item)
        return Waste(width=piece.width, height=piece.height)

    assert list(pieces(rewritten(tree, leaf))) == []
    assert seen == [2, 1, 1, 0]
