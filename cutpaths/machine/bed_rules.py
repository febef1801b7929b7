"""Rules between the keys of a bed file; each finding names its key."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from cutpaths.lengths import Unit, exact_text, shown
from cutpaths.machine.bed import Feed, Shown, ToolKind
from cutpaths.machine.bed_shape import NONE, BedTable, MarginTable, ToolTable
from cutpaths.machine.plotter import range_problem
from cutpaths.machine.sections import LEAST_MARGIN
from cutpaths.project.flaws import Flaw
from cutpaths.project.words import word_flaws
from cutpaths.roles import STYLES, MachineWork, Role


def bed_flaws(file: BedTable) -> Iterator[Flaw]:
    """All that a bed file has wrong beside the shape of its tables."""
    yield from word_flaws(("name",), file.name)
    yield from _list_flaws(file)
    yield from _room_flaws(file)
    yield from _tool_flaws(file)
    yield from _role_flaws(file)
    yield from _spacing_flaws(file)
    yield from _section_flaws(file)
    yield from _shown_flaws(file)
    if "hpgl-old" in (file.formats or ()):
        problem, hint = range_problem(
            (file.bed.width, file.bed.height),
            middle=file.plotter.origin == "middle",
            unit=file.units,
        )
        if problem:
            yield Flaw(("formats",), problem, hint)


def margin_of(margin: MarginTable) -> tuple[Fraction, Fraction, Fraction, Fraction]:
    """Left, right, foot and head."""
    nought = Fraction(0)
    return (
        margin.left or nought,
        margin.right or nought,
        margin.foot or nought,
        margin.head or nought,
    )


def cutting_tool(file: BedTable, role: Role = Role.CUT) -> ToolTable | None:
    """The tool that cuts a role: the one that is asked for, else the first that is no pen."""
    asked = file.roles.get(role.lower())
    if asked is not None:
        return file.tool.get(asked)
    return next((t for t in file.tool.values() if t.kind is not ToolKind.PEN), None)


def _list_flaws(file: BedTable) -> Iterator[Flaw]:
    for path, names in ((("formats",), file.formats), (("bed", "pieces"), file.bed.pieces)):
        if names is not None and not names:
            yield Flaw(path, "must name at least one, got an empty list", "Leave it out for all")
        elif names is not None and len(set(names)) < len(names):
            twice = next(name for name in names if list(names).count(name) > 1)
            yield Flaw(path, f"must name each once, got {shown(twice)} again")


def _room_flaws(file: BedTable) -> Iterator[Flaw]:
    left, right, foot, head = margin_of(file.bed.margin)
    for key, size, taken in (
        ("width", file.bed.width, left + right),
        ("height", file.bed.height, foot + head),
    ):
        if size <= taken:
            rest = f"must be more than its margins, {exact_text(taken, file.units)}"
            yield Flaw(("bed", key), f"{rest}, got {exact_text(size, file.units)}")
    tool = cutting_tool(file)
    offset = (tool.blade_offset if tool else None) or Fraction(0)
    free = [left, right, foot, head]
    if file.bed.sections:  # the roll goes on where sections meet
        free = [left, right] if file.bed.feed is Feed.UP else [foot, head]
    if min(free) < offset:
        problem = (
            f"must be at least the blade offset, {exact_text(offset, file.units)}, on every edge"
        )
        yield Flaw(("bed", "margin"), problem, "A knife's axis runs past the corners")


def _tool_flaws(file: BedTable) -> Iterator[Flaw]:
    if not file.tool:
        hint = 'Write for example the table [tool.knife] with `kind = "drag-knife"`'
        yield Flaw(("tool",), "must have at least one tool", hint)
    numbers: dict[int, str] = {}
    for name, tool in file.tool.items():
        first = numbers.setdefault(tool.number, name)
        if first != name:
            problem = f"must be another than that of `{first}`, got {tool.number}"
            yield Flaw(("tool", name, "number"), problem)
        yield from _blade_flaws(name, tool, file.units)


def _blade_flaws(name: str, tool: ToolTable, unit: Unit) -> Iterator[Flaw]:
    if tool.kind is ToolKind.PEN:
        for key in ("kerf", "blade_offset", "overcut"):
            if getattr(tool, key):
                got = exact_text(getattr(tool, key), unit)
                yield Flaw(("tool", name, key), f"must be left out for a pen, got {got}")
    elif tool.blade_offset and tool.kind is not ToolKind.DRAG_KNIFE:
        problem = (
            f"must be left out for a {tool.kind.value}, got {exact_text(tool.blade_offset, unit)}"
        )
        yield Flaw(("tool", name, "blade_offset"), problem, "Only a drag knife trails its axis")


def _role_flaws(file: BedTable) -> Iterator[Flaw]:
    known = ", ".join([*sorted(file.tool), NONE])
    for role, name in file.roles.items():
        path = ("roles", role)
        if name != NONE and name not in file.tool:
            yield Flaw(path, f"must be one of {known}, got {shown(name)}")
        elif name != NONE and STYLES[Role(role.upper())].work is MachineWork.NEVER:
            yield Flaw(path, f"must be 'none' on a machine, got {shown(name)}")
        elif role == "cut" and name == NONE:
            yield Flaw(path, "must have a tool that cuts, got 'none'")
        elif role in ("cut", "cutout") and name != NONE and _is_pen(file, name):
            yield Flaw(path, f"must have a tool that cuts, got the pen {shown(name)}")
    if file.tool and "cut" not in file.roles and cutting_tool(file) is None:
        hint = 'Write for example the table [tool.knife] with `kind = "drag-knife"`'
        yield Flaw(("tool",), "must have a tool that cuts, all are pens", hint)


def _is_pen(file: BedTable, name: str) -> bool:
    return file.tool[name].kind is ToolKind.PEN


def _spacing_flaws(file: BedTable) -> Iterator[Flaw]:
    bed, unit = file.bed, file.units
    tool = cutting_tool(file)
    kerf = (tool.kerf if tool else None) or Fraction(0)
    spacing = bed.spacing or Fraction(0)
    if bed.common_cuts and bed.spacing:
        problem = f"must be left out where cuts are common, got {exact_text(spacing, unit)}"
        yield Flaw(("bed", "spacing"), problem, "Neighbours then lie a kerf apart")
    elif not bed.common_cuts and spacing <= kerf:
        least = f"the kerf, {exact_text(kerf, unit)}" if kerf else "0"
        problem = f"must be more than {least}, got {exact_text(spacing, unit)}"
        yield Flaw(("bed", "spacing"), problem, "Or write `common_cuts = true`")
    left, right, foot, head = margin_of(bed.margin)
    room = min(bed.width - left - right, bed.height - foot - head)
    if room > 0 and spacing >= room:
        problem = f"must be less than the room within the margins, {exact_text(room, unit)}"
        yield Flaw(("bed", "spacing"), f"{problem}, got {exact_text(spacing, unit)}")


def _shown_flaws(file: BedTable) -> Iterator[Flaw]:
    """Areas need closed lines."""
    tools = file.tool.values()
    open_lines = {
        "common_cuts": file.bed.common_cuts,
        "sections": file.bed.sections,
        "blade_offset": any(tool.blade_offset for tool in tools),
        "overcut": any(tool.overcut for tool in tools),
    }
    for key, there in open_lines.items():
        if there and file.shown is Shown.FILL:
            problem = f"must be 'stroke' beside `{key}`, which makes open lines, got 'fill'"
            yield Flaw(("shown",), problem)


def _section_flaws(file: BedTable) -> Iterator[Flaw]:
    bed = file.bed
    if not bed.sections:
        return
    path = ("bed", "sections")
    left, right, foot, head = margin_of(bed.margin)
    ends, sides = (foot, head), (left, right)
    if bed.feed is Feed.ACROSS:
        ends, sides = sides, ends
    if not bed.roll:
        yield Flaw(path, "must be left out where the machine has no roll", "Write `roll = true`")
    elif any(ends):
        names = ("foot", "head") if bed.feed is Feed.UP else ("left", "right")
        problem = f"must have no margin at {names[0]} and {names[1]}, where sections meet"
        yield Flaw(path, problem, "Name the margins of the other two edges alone")
    elif min(sides) < LEAST_MARGIN:
        least = exact_text(LEAST_MARGIN, file.units)
        problem = f"must leave {least} at the other two edges, for the alignment marks"
        yield Flaw(("bed", "margin"), problem)
    elif not _marks_tool(file):
        problem = "must have a tool for the role match, which draws the alignment marks"
        yield Flaw(path, problem, 'Write for example `match = "pen"` under [roles]')


def _marks_tool(file: BedTable) -> bool:
    """Whether something draws the marks by which one section is laid to the next."""
    name = file.roles.get("match", "")
    return name in file.tool if name else any(_is_pen(file, name) for name in file.tool)
