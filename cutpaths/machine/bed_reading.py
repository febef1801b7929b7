"""From a bed file to a checked `Bed`, in the stages of a project file: text, shape, rules."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from cutpaths.geometry.assembly import PieceKind
from cutpaths.machine.bed import Bed, Margin, Tool
from cutpaths.machine.bed_rules import bed_flaws, margin_of
from cutpaths.machine.bed_shape import NONE, BedTable, ToolTable
from cutpaths.project.file_reader import FileReader
from cutpaths.roles import STYLES, MachineWork, Role

DEFAULT_FORMATS = ("svg", "dxf")
# A backing that is joined is cut as its panels.
PIECES = {
    "patches": (PieceKind.PATCH,),
    "top": (PieceKind.TOP,),
    "backing": (PieceKind.BACKING, PieceKind.PANEL),
    "filling": (PieceKind.FILLING,),
    "templates": (PieceKind.TEMPLATE,),
}


def _settled(file: BedTable, digest: str) -> Bed:
    tools = {name: _tool(name, tool) for name, tool in file.tool.items()}
    roles = dict(_roles(file, tools))
    kerf = roles[Role.CUT].kerf
    place = file.bed
    left, right, foot, head = margin_of(place.margin)
    return Bed(
        name=file.name,
        digest=digest,
        unit=file.units,
        width=place.width,
        height=place.height,
        margin=Margin(left=left, right=right, foot=foot, head=head),
        spacing=kerf if place.common_cuts else place.spacing or Fraction(0),
        feed=place.feed,
        pieces=frozenset(kind for name in place.pieces or PIECES for kind in PIECES[name]),
        common_cuts=place.common_cuts,
        roll=place.roll,
        sections=place.sections,
        tools=_in_order(tools, roles),
        roles=roles,
        text_on_cloth=file.roles.get("label", NONE) != NONE,
        travel=file.travel.speed,
        tool_change=file.travel.tool_change,
        formats=tuple(file.formats or DEFAULT_FORMATS),
        shown=file.shown,
        plotter_middle=file.plotter.origin == "middle",
        plotter_turn=file.plotter.turn // 90,
    )


def _tool(name: str, tool: ToolTable) -> Tool:
    nought = Fraction(0)
    return Tool(
        name=name,
        kind=tool.kind,
        number=tool.number,
        colour=_colour(tool),
        speed=tool.speed,
        kerf=tool.kerf or nought,
        blade_offset=tool.blade_offset or nought,
        overcut=tool.overcut or nought,
    )


def _colour(tool: ToolTable) -> tuple[int, int, int]:
    """The colour asked for, else that of drawn or of cut lines on every sheet."""
    if tool.colour is None:
        return STYLES[Role.STITCH if tool.kind == "pen" else Role.CUT].colour
    red, green, blue = bytes.fromhex(tool.colour[1:])
    return red, green, blue


def _roles(file: BedTable, tools: dict[str, Tool]) -> Iterator[tuple[Role, Tool]]:
    """The tool of each role: as asked, else by what a machine does with it."""
    pen = next((tool for tool in tools.values() if tool.draws), None)
    blade = next((tool for tool in tools.values() if not tool.draws), None)
    usual = {MachineWork.CUT: blade, MachineWork.DRAW: pen}
    for role in Role:
        asked = file.roles.get(role.lower())
        # Text on card; on cloth only where the file names a tool for it.
        tool = pen if role is Role.LABEL else usual.get(STYLES[role].work)
        if asked is not None:
            tool = None if asked == NONE else tools[asked]
        if tool is not None:
            yield role, tool


def _in_order(tools: dict[str, Tool], roles: dict[Role, Tool]) -> tuple[Tool, ...]:
    """The tools that have work: pens, then those that cut no outline, then that of outlines."""
    last = roles[Role.CUT].name
    used = [tool for tool in tools.values() if tool in roles.values()]
    return tuple(sorted(used, key=lambda t: (not t.draws, t.name == last, t.number)))


_FILE = FileReader(BedTable, bed_flaws, _settled, "bed")
load = _FILE.load
read = _FILE.read
