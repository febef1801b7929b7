"""Colours for fabrics that have none of their own: one list, in the order in which they are taken.

Chosen for this program: any two differ for people who see all colours and for those who lack red,
green or blue cones, and each has at least twice the luminance of the next or half of it, so that
fabrics declared one after the other can be told apart in grey. After the last the list starts anew.
"""

from __future__ import annotations

from collections.abc import Sequence

from cutpaths.paint import Colour, from_hex
from cutpaths.project.model import Fabric

COLOURS: tuple[Colour, ...] = tuple(
    from_hex(text)
    for text in (
        "#f7e9b4",  # sand
        "#3a879c",  # sea
        "#062853",  # night
        "#d19266",  # clay
        "#474e11",  # olive
        "#8ad2d2",  # aqua
        "#a55180",  # mauve
        "#f5c05b",  # honey
        "#aa4a34",  # brick
        "#a8aad3",  # haze
        "#3a241e",  # cocoa
        "#f5f4f8",  # chalk
        "#81a8ef",  # sky
        "#7e6802",  # moss
        "#631640",  # plum
        "#cfcbfb",  # lilac
        "#306e57",  # fir
        "#ed8799",  # rose
        "#5e66a0",  # slate
        "#d5bf96",  # oat
        "#643f30",  # bark
        "#6e8e6d",  # sage
        "#284770",  # ink
        "#ab933b",  # straw
    )
)


def colours_of(fabrics: Sequence[Fabric]) -> dict[str, Colour]:
    """The colour of each fabric: its own, or that of its place among all fabrics."""
    return {
        fabric.name: from_hex(fabric.colour) if fabric.colour else COLOURS[i % len(COLOURS)]
        for i, fabric in enumerate(fabrics)
    }
