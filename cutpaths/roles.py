"""Roles: what a line, a point or a text is for, and how each is drawn; one table.

The name of a role is its layer name in DXF and, in lower case, its group id in SVG. The order of
the members is the drawing order of machine files: pen work, then cut-outs, outlines last. Pattern
lengths and pen widths are millimetres. Colour never carries meaning alone: lines differ by
pattern, points by their shape. The colours are Okabe and Ito's (Color Universal Design, 2008)
that reach a contrast of 3:1 on white, and black.
"""

from __future__ import annotations

from enum import StrEnum

from cutpaths.values import Value


class Role(StrEnum):
    """What an item of a drawing is for."""

    SCALE = "SCALE"
    LABEL = "LABEL"
    GRAIN = "GRAIN"
    MATCH = "MATCH"
    CENTER = "CENTER"
    OPENING = "OPENING"
    DOT = "DOT"
    FOLD = "FOLD"
    STITCH = "STITCH"
    BASTE = "BASTE"
    TRIM = "TRIM"
    TOPSTITCH = "TOPSTITCH"
    DIMENSION = "DIMENSION"
    CUTOUT = "CUTOUT"
    CUT = "CUT"


class MachineWork(StrEnum):
    """What a cutting machine does with a role."""

    CUT = "cut"
    DRAW = "draw"
    ASKED = "draw when asked"
    NEVER = "never"


class Machine(Value, kw_only=True):
    """What a machine's file has beside lines; it keeps the items in their order.

    Attributes:
        tools: number of the tool that does each role.
        filled: closed lines are areas in SVG, for machines that go round them.
    """

    tools: tuple[tuple[Role, int], ...]
    filled: bool = False


class RoleStyle(Value, kw_only=True):
    """How one role is drawn.

    Attributes:
        pattern: dash, gap, dash, gap ... in mm; empty for a solid line.
        width: pen width in mm.
        colour: red, green, blue, 0 to 255.
        work: what a cutting machine does with it.
        meaning: a few words for keys and labels.
    """

    pattern: tuple[float, ...]
    width: float
    colour: tuple[int, int, int]
    work: MachineWork
    meaning: str

    @property
    def hex(self) -> str:
        """The colour as `#rrggbb`."""
        return "#{:02x}{:02x}{:02x}".format(*self.colour)


_BLACK = (0, 0, 0)
_BLUE = (0x00, 0x72, 0xB2)
_VERMILLION = (0xD5, 0x5E, 0x00)
_GREEN = (0x00, 0x9E, 0x73)


def _style(
    meaning: str,
    work: MachineWork = MachineWork.DRAW,
    pattern: tuple[float, ...] = (),
    *,
    colour: tuple[int, int, int] = _BLACK,
    width: float = 0.35,
) -> RoleStyle:
    return RoleStyle(pattern=pattern, width=width, colour=colour, work=work, meaning=meaning)


STYLES: dict[Role, RoleStyle] = {
    Role.SCALE: _style("scale square", MachineWork.ASKED),
    Role.LABEL: _style("text", MachineWork.ASKED, width=0.3),
    Role.GRAIN: _style("grain line", MachineWork.ASKED, colour=_GREEN, width=0.3),
    Role.MATCH: _style("quarter marks and patch seams", colour=_GREEN),
    Role.CENTER: _style("center mark", colour=_VERMILLION, width=0.5),
    Role.OPENING: _style("end of the turning opening", colour=_VERMILLION, width=0.5),
    Role.DOT: _style("start and stop dot, back-tack sign", colour=_BLUE, width=0.5),
    Role.FOLD: _style("fold", MachineWork.DRAW, (1.0, 2.0), colour=_GREEN),
    Role.STITCH: _style("stitching line", MachineWork.DRAW, (6.0, 2.0), colour=_BLUE),
    Role.BASTE: _style("basting line", MachineWork.DRAW, (10.0, 6.0), colour=_GREEN),
    Role.TRIM: _style("trim line", MachineWork.DRAW, (8.0, 2.0, 1.5, 2.0), colour=_VERMILLION),
    Role.TOPSTITCH: _style("top stitching", MachineWork.NEVER, (3.0, 1.5), colour=_BLUE),
    Role.DIMENSION: _style("dimension", MachineWork.NEVER, width=0.2),
    Role.CUTOUT: _style("hole to cut", MachineWork.CUT),
    Role.CUT: _style("outline to cut", MachineWork.CUT, width=0.5),
}
