"""The report of a run: what lies where, how long it takes, and what to take care of."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction
from itertools import pairwise

from cutpaths.geometry.assembly import Face
from cutpaths.lengths import INCH_MM, Unit, decimals
from cutpaths.machine.bed import Bed, Tool
from cutpaths.machine.cautions import FIRST, SPLIT, cautions, compensation
from cutpaths.machine.plan import BedWork, Group, Plan, TooLarge
from cutpaths.values import Value


class Effort(Value, kw_only=True):
    """What some work takes; lengths in mm.

    Attributes:
        cut, drawn: how far tools go while they work.
        travel, travel_before: how far while they are lifted; in order, and as listed.
        changes: of the tool.
        seconds: all together, by the bed file's speeds.
    """

    cut: float
    drawn: float
    travel: float
    travel_before: float
    changes: int
    seconds: float

    def __add__(self, other: Effort) -> Effort:
        return Effort(
            cut=self.cut + other.cut,
            drawn=self.drawn + other.drawn,
            travel=self.travel + other.travel,
            travel_before=self.travel_before + other.travel_before,
            changes=self.changes + other.changes,
            seconds=self.seconds + other.seconds,
        )


NONE = Effort(cut=0.0, drawn=0.0, travel=0.0, travel_before=0.0, changes=0, seconds=0.0)


def efforts(beds: Sequence[BedWork], bed: Bed) -> tuple[Effort, ...]:
    """What each bed takes; a tool left in from the bed before need not be changed."""
    held: Tool | None = None
    found = []
    for work in beds:
        found.append(_effort(work, bed, held))
        held = bed.roles[work.jobs[-1].role]
    return tuple(found)


def _effort(work: BedWork, bed: Bed, held: Tool | None) -> Effort:
    tools = [bed.roles[job.role] for job in work.jobs]
    changes = sum(a.name != b.name for a, b in pairwise((held or tools[0], *tools)))
    lengths = {tool.name: 0.0 for tool in tools}
    for job, tool in zip(work.jobs, tools, strict=True):
        lengths[tool.name] += job.length
    by_tool = [(tool, lengths[tool.name]) for tool in bed.tools if tool.name in lengths]
    seconds = sum(length / float(tool.speed) for tool, length in by_tool)
    return Effort(
        cut=sum(length for tool, length in by_tool if not tool.draws),
        drawn=sum(length for tool, length in by_tool if tool.draws),
        travel=work.travel,
        travel_before=work.travel_before,
        changes=changes,
        seconds=seconds + work.travel / float(bed.travel) + changes * bed.tool_change,
    )


def report(
    title: str,
    plan: Plan,
    bed: Bed,
    labels: dict[str, str],
    kits: int,
    cards: Sequence[str] = (),
) -> tuple[str, ...]:
    """The lines of the report.

    Args:
        title: of the project.
        plan: the run.
        bed: the machine.
        labels: what people call each fabric.
        kits: for how many blankets.
        cards: what to write on cards by hand.
    """
    done = efforts(plan.beds, bed)
    lines = [f"{title}: {_count(kits, 'kit')} on {bed.name}", "", "Take care"]
    lines += [
        f"- {line}" for line in (*cautions(bed.tools), FIRST, SPLIT, *compensation(bed.tools))
    ]
    lines += ["", "Beds"]
    for number, (work, effort) in enumerate(zip(plan.beds, done, strict=True), 1):
        lines += [
            f"{number}. {bed_name(work, labels)}",
            *(f"   {x}" for x in _work(work, effort, bed)),
        ]
    lines += ["", "Cards", *(f"- {line}" for line in cards)] if cards else []
    lines += [*_too_large(plan.left_out, bed), "", "The run"]
    lines += [f"- {_group(group, labels)}" for group in plan.groups]
    whole = sum(done, NONE)
    lines += [f"- {x}" for x in _sums(whole, bed)]
    lines += ["", "Tools"]
    lines += [f"- {line}" for line in _tools(bed)]
    return tuple(lines)


def bed_name(work: BedWork, labels: dict[str, str]) -> str:
    """What a bed is: its cloth, the face that is up, its pieces."""
    cloth = labels.get(work.cloth, work.cloth) or "card"
    pieces = ", ".join(f"{count} {key}" for key, count in work.pieces)
    face = "" if work.face is Face.EITHER else f", {work.face.value}"
    part = f", section {work.section[0]} of {work.section[1]}" if work.section else ""
    return f"{cloth}{face}: {pieces}{part}"


def left_out_lines(left_out: Iterable[TooLarge], bed: Bed) -> Iterator[str]:
    """What was too large, and the bed that would do."""
    for large in left_out:
        size = _by(large.size, bed.unit)
        needs = _by(large.needs, bed.unit)
        yield (
            f"{large.key} ({size}) is too large for the bed and left out, {large.count} of it: a "
            f"bed of {needs} with these margins would do."
        )


def _too_large(left_out: Sequence[TooLarge], bed: Bed) -> list[str]:
    lines = list(left_out_lines(left_out, bed))
    return ["", "Left out", *(f"- {line}" for line in lines)] if lines else []


def _work(work: BedWork, effort: Effort, bed: Bed) -> Iterator[str]:
    yield "; ".join(_sums(effort, bed))
    if work.section:
        yield "Feed one bed's length on and lay the stems of the alignment marks in line."


def _sums(effort: Effort, bed: Bed) -> list[str]:
    lengths = [f"cut {_long(effort.cut, bed.unit)}"]
    lengths += [f"drawn {_long(effort.drawn, bed.unit)}"] if effort.drawn else []
    travel = f"{_long(effort.travel, bed.unit)}, {_long(effort.travel_before, bed.unit)} unordered"
    return [
        *lengths,
        f"travel {travel}",
        f"{_count(effort.changes, 'tool change')}",
        f"about {_time(effort.seconds)}",
    ]


def _group(group: Group, labels: dict[str, str]) -> str:
    cloth = labels.get(group.cloth, group.cloth) or "card"
    face = "" if group.face is Face.EITHER else f", {group.face.value}"
    if group.beds == group.fewest:
        return f"{cloth}{face}: {_count(group.beds, 'bed')}, the fewest possible"
    return f"{cloth}{face}: {_count(group.beds, 'bed')}; fewer than {group.fewest} is impossible"


def _tools(bed: Bed) -> Iterator[str]:
    for tool in bed.tools:
        roles = ", ".join(r.value for r, t in bed.roles.items() if t.name == tool.name)
        yield f"{tool.number} {tool.name} ({tool.kind.value}): {roles}"


def _by(size: tuple[float, float], unit: Unit) -> str:
    return f"{_number(size[0], unit)} x {_number(size[1], unit)} {unit.value}"


def _number(mm: float, unit: Unit) -> str:
    """A size, rounded up to what a ruler shows, so that a bed of it would do."""
    places = 1 if unit is Unit.MILLIMETRE else 2
    step = Fraction(1, 10**places)
    steps = -((Fraction(mm) / unit.mm - Fraction(1, 10**6)) // -step)
    return decimals(steps * step, places)


def _long(mm: float, unit: Unit) -> str:
    if unit is Unit.INCH:
        return f"{mm / INCH_MM:.0f} in"
    return f"{mm / 1000:.2f} m"


def _time(seconds: float) -> str:
    minutes, rest = divmod(round(seconds), 60)
    return f"{minutes} min {rest} s" if minutes else f"{rest} s"


def _count(number: int, what: str) -> str:
    return f"{number} {what}" if number == 1 else f"{number} {what}s"
