"""The whole run: what is laid on which bed and worked in which order; float mm.

Parts are laid by cloth and by the face that is up, since one cloth lies one way. What the tool
takes away is in the outlines from the start; what its blade needs comes last.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Callable, Iterator, Sequence

from cutpaths.geometry.assembly import Face, Piece
from cutpaths.geometry.polygons import box
from cutpaths.machine.bed import Bed, Feed
from cutpaths.machine.blade import knife_way
from cutpaths.machine.boxes import Laid
from cutpaths.machine.common_cuts import shared
from cutpaths.machine.job import Job, travel
from cutpaths.machine.order import in_order
from cutpaths.machine.parts import Part
from cutpaths.machine.placement import Placement, placed, too_large
from cutpaths.machine.sections import sections
from cutpaths.roles import Role
from cutpaths.shapes import Path, shift
from cutpaths.values import Value

Marks = Callable[[Piece], tuple[Job, ...]]


class BedWork(Value, kw_only=True):
    """One bed, or one section of a long piece.

    Attributes:
        cloth: name of its fabric; empty for card.
        face: which face of it is up.
        pieces: keys of the pieces on it and how many of each.
        section: its number and that of all sections of a long piece; None for a whole bed.
        jobs: in the order of work.
        travel_before: travel without an order, role by role as the pieces are listed.
    """

    cloth: str
    face: Face
    pieces: tuple[tuple[str, int], ...]
    section: tuple[int, int] | None
    jobs: tuple[Job, ...]
    travel_before: float

    @property
    def travel(self) -> float:
        """Travel of the lifted tools, from the bed's lower left corner."""
        return travel(self.jobs)


class TooLarge(Value):
    """A piece that fits no bed, how many of it, and the smallest bed that would do."""

    key: str
    count: int
    size: tuple[float, float]
    needs: tuple[float, float]


class Group(Value, kw_only=True):
    """One cloth, one face up: its number of beds and the fewest there must be."""

    cloth: str
    face: Face
    beds: int
    fewest: int


class Plan(Value):
    """All beds of a run, by cloth, and the pieces left out."""

    beds: tuple[BedWork, ...]
    groups: tuple[Group, ...]
    left_out: tuple[TooLarge, ...]


def planned(parts: Sequence[Part], bed: Bed, marks: Marks) -> Plan:
    """Lays and orders all parts.

    Args:
        parts: what to cut.
        bed: the machine.
        marks: what is drawn or cut on a piece beside outline and holes, in its frame.
    """
    beds: list[BedWork] = []
    groups: list[Group] = []
    left_out: list[TooLarge] = []
    room = float(bed.room[0]), float(bed.room[1])
    for (cloth, face), alike in _groups(parts).items():
        large = [alike[n] for n in too_large(alike, room)]
        fitting = [part for part in alike if part not in large]
        gap = float(bed.spacing - bed.kerf)
        found = placed(fitting, room, gap)
        made = [_bed_work(fitting, laid, bed, marks) for laid in found.beds]
        for part in large:
            in_sections = tuple(_in_sections(part, bed, marks))
            made += in_sections
            if not in_sections:
                left_out.append(_too_large(part, bed))
        beds += made
        if made:
            groups.append(_group(cloth, face, len(made), found))
    return Plan(tuple(beds), tuple(groups), tuple(left_out))


def _group(cloth: str, face: Face, beds: int, found: Placement) -> Group:
    return Group(cloth=cloth, face=face, beds=beds, fewest=found.fewest + beds - len(found.beds))


def _groups(parts: Sequence[Part]) -> dict[tuple[str, Face], list[Part]]:
    """Parts by cloth and face, card last."""
    found: dict[tuple[str, Face], list[Part]] = {}
    for part in parts:
        found.setdefault((part.piece.fabric, part.piece.face), []).append(part)
    return {key: found[key] for key in sorted(found, key=lambda k: (not k[0], k))}


def _bed_work(parts: Sequence[Part], laid: Sequence[Laid], bed: Bed, marks: Marks) -> BedWork:
    jobs = [job for each in laid for job in _jobs(parts[each.part], each, bed, marks)]
    counts = Counter(parts[each.part].piece.key for each in laid)
    first = parts[laid[0].part].piece
    return _worked(first, tuple(sorted(counts.items(), key=_by_number)), None, jobs, bed)


def _by_number(counted: tuple[str, int]) -> tuple[int, str]:
    return len(counted[0]), counted[0]


def _jobs(part: Part, laid: Laid, bed: Bed, marks: Marks) -> Iterator[Job]:
    """All work on one part, where it lies."""
    motion = laid.motion.then(shift(float(bed.free.left), float(bed.free.foot)))
    key = part.piece.key.lower()
    own = [Job(Role.CUT, key, Path(part.outline, closed=True))]
    own += [Job(Role.CUTOUT, key, hole) for hole in part.holes]
    for job in (*marks(part.piece), *own):
        if job.role in bed.roles:
            yield Job(job.role, job.key, motion.line(job.shape))


def _worked(
    piece: Piece,
    pieces: tuple[tuple[str, int], ...],
    section: tuple[int, int] | None,
    jobs: Sequence[Job],
    bed: Bed,
) -> BedWork:
    """Jobs on a bed, in order, as the tools must go."""
    cut = shared(jobs) if bed.common_cuts else tuple(jobs)
    roles = list(Role)
    listed = sorted(cut, key=lambda job: roles.index(job.role))
    return BedWork(
        cloth=piece.fabric,
        face=piece.face,
        pieces=pieces,
        section=section,
        jobs=tuple(_with_blade(job, bed) for job in in_order(cut, bed)),
        travel_before=travel(listed),
    )


def _with_blade(job: Job, bed: Bed) -> Job:
    tool = bed.roles[job.role]
    way = knife_way(job.shape, float(tool.blade_offset), float(tool.overcut))
    return Job(job.role, job.key, way)


def _in_sections(part: Part, bed: Bed, marks: Marks) -> Iterator[BedWork]:
    """A part that is too long, each copy in feed lengths; nothing where that does not help."""
    axis = 1 if bed.feed is Feed.UP else 0
    reach = float(bed.height if axis else bed.width)
    free = bed.free
    low, high = (free.left, free.right) if axis else (free.foot, free.head)
    across = float(bed.width if axis else bed.height)
    sides = float(low) / 2, across - float(high) / 2
    for turn in part.turns if bed.sections else ():
        size = box(turn.ring(part.outline))[2:]
        if size[1 - axis] > across - float(low + high):
            continue
        ends = (free.foot, free.head) if axis else (free.left, free.right)
        count = math.ceil((size[axis] + float(sum(ends))) / reach - 1e-9)
        jobs = tuple(_jobs(part, Laid(0, turn), bed, marks))
        parts = sections(jobs, count, reach, sides, axis)
        for _ in range(part.count):
            for n, each in enumerate(parts, 1):
                yield _worked(part.piece, ((part.piece.key, 1),), (n, count), each, bed)
        return


def _too_large(part: Part, bed: Bed) -> TooLarge:
    free = bed.free
    sizes = [box(turn.ring(part.outline))[2:] for turn in part.turns]
    width, height = min(
        sizes, key=lambda s: max(s[0] - bed.room[0], 0) + max(s[1] - bed.room[1], 0)
    )
    needs = width + float(free.left + free.right), height + float(free.foot + free.head)
    return TooLarge(part.piece.key, part.count, (width, height), needs)
