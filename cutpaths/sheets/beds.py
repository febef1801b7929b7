"""Machine beds: pieces laid out on the bed a machine has, in the order of its work.

A sheet is a bed, its lower left corner at the origin; coordinates are final and lines solid. HP-GL
has sheets of its own, turned and counted from where the plotter does.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from cutpaths.drawing import About, Document, Drawing, Item, Pen, expand, move
from cutpaths.errors import Finding, InputError
from cutpaths.geometry.assembly import Piece, PieceKind
from cutpaths.lengths import Unit
from cutpaths.machine.bed import Bed, Shown, Tool
from cutpaths.machine.job import Job
from cutpaths.machine.parts import parts_of
from cutpaths.machine.plan import BedWork, Plan, planned
from cutpaths.machine.report import bed_name, left_out_lines, report
from cutpaths.pieces import Kit
from cutpaths.roles import Machine, Role
from cutpaths.shapes import Circle, Motion, Path, Text
from cutpaths.sheets.cutter import machine_items
from cutpaths.sheets.sheet import SCALE_MM, Output, Wishes, scale_square
from cutpaths.sheets.unmarked_cards import unmarked_cards
from cutpaths.values import Value

_PLOTTER_FORMATS = frozenset({"hpgl", "hpgl-old"})
_SCALE_ROOM = 2.0  # mm kept free round the scale squares, beside the margin


class BedRun(Value, kw_only=True):
    """What is written for a run.

    Attributes:
        outputs: a document for each bed, and the scale check.
        report: its lines.
        notes: what was left out.
    """

    outputs: tuple[Output, ...]
    report: tuple[str, ...]
    notes: tuple[str, ...]


def bed_run(kit: Kit, bed: Bed, kits: int) -> BedRun:
    """The beds of some kits.

    Raises:
        InputError: the kerf is larger than the smallest feature, or no piece fits the bed.
    """
    wishes = Wishes(text_on_cloth=True)  # a role that is given a tool is asked for

    def marks(piece: Piece) -> tuple[Job, ...]:
        return tuple(_marks(kit, piece, wishes, bed))

    plan = planned(parts_of(kit, bed, kits), bed, marks)
    notes = tuple(left_out_lines(plan.left_out, bed))
    if not plan.beds:
        hint = notes[0] if notes else "Name more kinds of pieces in `bed.pieces`"
        problem = "must have room for at least one piece"
        raise InputError(Finding(key="bed.width", problem=problem, hint=hint.rstrip(".")))
    labels = {fabric.name: fabric.label for fabric in kit.project.fabrics}
    return BedRun(
        outputs=(*_outputs(kit, plan, bed, labels), *_scale_check(kit, bed)),
        report=report(kit.project.title, plan, bed, labels, kits, unmarked_cards(kit, bed)),
        notes=notes,
    )


def _marks(kit: Kit, piece: Piece, wishes: Wishes, bed: Bed) -> Iterator[Job]:
    """What is drawn or cut on a piece beside its outline and its holes."""
    left = {Role.CUT, Role.CUTOUT}
    if piece.kind is not PieceKind.TEMPLATE and not bed.text_on_cloth:
        left.add(Role.LABEL)
    for item in machine_items(kit, piece, wishes):
        if item.role in bed.roles and item.role not in left:
            for part in expand(item):
                if isinstance(part.shape, Path | Circle):
                    yield Job(part.role, part.key, part.shape)


def _outputs(kit: Kit, plan: Plan, bed: Bed, labels: dict[str, str]) -> Iterator[Output]:
    for number, work in enumerate(plan.beds, 1):
        what = f"bed {number} of {len(plan.beds)}: {bed_name(work, labels)}"
        items = tuple(Item(job.role, job.key, job.shape) for job in work.jobs)
        name = f"bed-{number}-{work.cloth or 'card'}{_section(work)}"
        yield from _in_formats(name, items, _about(kit, what, work.face.value, bed.unit), bed)


def _section(work: BedWork) -> str:
    return f"-section-{work.section[0]}" if work.section else ""


def _scale_check(kit: Kit, bed: Bed) -> Iterator[Output]:
    """The scale squares, to draw on scrap, or to cut where the machine has no pen."""
    least = SCALE_MM + _SCALE_ROOM
    if min(float(side) for side in bed.room) < least:
        return
    tool = next((tool for tool in bed.tools if tool.draws), bed.roles[Role.CUT])
    corner = float(bed.margin.left) + _SCALE_ROOM / 2, float(bed.margin.foot) + _SCALE_ROOM / 2
    items = tuple(
        item for item in scale_square(corner) if tool.draws or not isinstance(item.shape, Text)
    )
    about = _about(kit, "scale check: 100 mm and 3 in", "", bed.unit)
    yield from _in_formats("scale-check", items, about, bed, scale=tool)


def _in_formats(
    name: str, items: tuple[Item, ...], about: About, bed: Bed, scale: Tool | None = None
) -> Iterator[Output]:
    """One bed in all formats asked for."""
    size = float(bed.width), float(bed.height)
    by_role = {**bed.roles} if scale is None else {**bed.roles, Role.SCALE: scale}
    pen = Pen(
        patterned=False,
        inks=tuple((role, tool.colour) for role, tool in by_role.items()),
        machine=Machine(
            tools=tuple((role, tool.number) for role, tool in by_role.items()),
            filled=bed.shown is Shown.FILL,
        ),
    )
    plain = tuple(form for form in bed.formats if form not in _PLOTTER_FORMATS)
    plotter = tuple(form for form in bed.formats if form in _PLOTTER_FORMATS)
    if plain:
        drawing = Drawing(name=name, size=size, about=about, items=items, pen=pen)
        yield Output(name=name, document=Document(name, (drawing,)), formats=plain)
    if plotter:
        turned, motion = _to_plotter(size, bed)
        moved = tuple(move(motion, item) for item in items)
        drawing = Drawing(name=name, size=turned, about=about, items=moved, pen=pen)
        yield Output(name=name, document=Document(name, (drawing,)), formats=plotter)


def _to_plotter(size: tuple[float, float], bed: Bed) -> tuple[tuple[float, float], Motion]:
    """The bed as the plotter counts it: its size, and the motion that takes it there."""
    width, height = size
    shifts = ((0.0, 0.0), (height, 0.0), (width, height), (0.0, width))
    dx, dy = shifts[bed.plotter_turn]
    turned = size if bed.plotter_turn % 2 == 0 else (height, width)
    if bed.plotter_middle:
        dx, dy = dx - turned[0] / 2, dy - turned[1] / 2
    return turned, Motion.quarters(bed.plotter_turn, dx, dy)


def _about(kit: Kit, what: str, face: str, unit: Unit) -> About:
    return About(
        project=kit.project.title, digest=kit.project.digest, piece=what, face=face, unit=unit
    )


def files_of(outputs: Iterable[Output]) -> list[tuple[Output, str]]:
    """Each document with each of its formats."""
    return [(output, name) for output in outputs for name in output.formats]
