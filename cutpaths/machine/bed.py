"""A machine's bed as checked, frozen values; exact `Fraction` millimetres, x right, y up.

Kerf, blade offset and overcut are set here and nowhere else: one value a tool.
"""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum
from fractions import Fraction

from cutpaths.geometry.assembly import PieceKind
from cutpaths.lengths import Unit
from cutpaths.roles import Role
from cutpaths.values import Value


class ToolKind(StrEnum):
    """What a tool is."""

    PEN = "pen"
    DRAG_KNIFE = "drag-knife"
    ROTARY_BLADE = "rotary-blade"
    LASER = "laser"


class Feed(StrEnum):
    """Which way the cloth's lengthwise threads lie on the bed, and a roll is fed."""

    UP = "up"
    ACROSS = "across"


class Shown(StrEnum):
    """How SVG files show what is cut: as thin lines, or filled."""

    STROKE = "stroke"
    FILL = "fill"


class Tool(Value, kw_only=True):
    """One tool.

    Attributes:
        name: the person's own.
        kind: what it is.
        number: its place in the machine; the pen number in HP-GL.
        colour: of its lines in SVG and DXF; red, green, blue.
        speed: mm a second.
        kerf: width that it takes away.
        blade_offset: how far a drag knife's point trails its axis.
        overcut: how far a closed line is cut on past its start.
    """

    name: str
    kind: ToolKind
    number: int
    colour: tuple[int, int, int]
    speed: Fraction
    kerf: Fraction
    blade_offset: Fraction
    overcut: Fraction

    @property
    def draws(self) -> bool:
        """Whether it draws, and so comes before all that cut."""
        return self.kind is ToolKind.PEN


class Margin(Value, kw_only=True):
    """What stays free along each edge."""

    left: Fraction
    right: Fraction
    foot: Fraction
    head: Fraction


class Bed(Value, kw_only=True):
    """A machine and its bed.

    Attributes:
        name: as the person wrote it.
        digest: SHA-256 of the bed file.
        unit: the unit of its files, where a format has a choice.
        width, height: the area that the machine reaches.
        margin: what stays free of it.
        spacing: least distance of two pieces; the kerf where cuts are common.
        feed: which way lengthwise threads lie.
        pieces: which kinds of pieces the machine cuts.
        common_cuts: whether neighbours share one cut.
        roll: whether cloth is fed on, the bed's height at a time.
        sections: whether a longer piece is cut in feed lengths.
        tools: in the order of their work.
        roles: the tool of each role that the machine does.
        text_on_cloth: whether text is drawn on cloth too, not on card alone.
        travel: mm a second between cuts.
        tool_change: seconds.
        formats: names of formats.
        shown: how SVG files show what is cut.
        plotter_middle: whether HP-GL counts from the bed's middle, else from its lower left corner.
        plotter_turn: quarter turns counter-clockwise of HP-GL files.
    """

    name: str
    digest: str
    unit: Unit
    width: Fraction
    height: Fraction
    margin: Margin
    spacing: Fraction
    feed: Feed
    pieces: frozenset[PieceKind]
    common_cuts: bool
    roll: bool
    sections: bool
    tools: tuple[Tool, ...]
    roles: Mapping[Role, Tool]
    text_on_cloth: bool
    travel: Fraction
    tool_change: int
    formats: tuple[str, ...]
    shown: Shown
    plotter_middle: bool
    plotter_turn: int

    @property
    def free(self) -> Margin:
        """The margins, and at least what a knife's axis runs past the corners."""
        least = self.roles[Role.CUT].blade_offset
        return Margin(
            left=max(self.margin.left, least),
            right=max(self.margin.right, least),
            foot=max(self.margin.foot, least),
            head=max(self.margin.head, least),
        )

    @property
    def room(self) -> tuple[Fraction, Fraction]:
        """Width and height where pieces may lie."""
        free = self.free
        return self.width - free.left - free.right, self.height - free.foot - free.head

    @property
    def kerf(self) -> Fraction:
        """Kerf of the tool that cuts outlines."""
        return self.roles[Role.CUT].kerf
