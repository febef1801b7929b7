"""A pieced top as its steps show it: which patches, in which parts, how far apart; mm."""

from __future__ import annotations

from collections.abc import Sequence

from cutpaths.geometry.assembly import Seam
from cutpaths.geometry.assembly import Stage as Sewing
from cutpaths.geometry.polygons import (
    Ring,
    box,
    cross,
    edges,
    sub,
    unit,
)
from cutpaths.shapes import Point, shift
from cutpaths.sheets.steps.cutting import Segment
from cutpaths.sheets.steps.exploded import (
    Lines,
    Patch,
    corner_of,
    moved_apart,
    parts,
    patches_of,
    sewn_edges,
    to_sewn_edges,
)
from cutpaths.sheets.steps.making import Making
from cutpaths.sheets.steps.picture import OUTLINE_MM, Picture
from cutpaths.sheets.steps.scenes import MANY_PATCHES
from cutpaths.sheets.steps.shades import shades_of
from cutpaths.sheets.steps.tints import OUTLINE, Cloth
from cutpaths.sheets.steps.view import Room, View, whole

FEW = 64  # patches that are drawn of a top of too many
ON_SEAM_MM = 0.05
SMALL_MM, FINE_MM = 8.0, 0.2  # smaller patches on the sheet have a finer outline
_ORDER = (Sewing.UNIT, Sewing.ROW, Sewing.TOP)


class Pieced:
    """The patches of a top and how they hang together stage by stage."""

    def __init__(self, making: Making) -> None:
        self.making = making
        every = patches_of(making.kit)
        self.count = len(every)
        self.patches = corner_of(every, FEW) if self.count > MANY_PATCHES else every
        self.whole = len(self.patches) == self.count
        found = making.kit.patchwork.all_seams()
        self.seams = found if self.whole else _seams_of(found, self.patches)
        self.stages = [s for s in _ORDER if any(seam.stage is s for seam in self.seams)]
        self.paints = shades_of(making.kit)
        self.shades = tuple(self.paints.values())
        sizes = (box(patch.raw) for patch in self.patches)
        self.small = min(min(b[2] - b[0], b[3] - b[1]) for b in sizes)

    def groups(self, until: int) -> tuple[tuple[int, ...], ...]:
        """Parts that hang together once the first so many stages are sewn."""
        sewn = self.stages[:until]
        return parts(self.patches, [s for s in self.seams if s.stage in sewn])

    def apart(self, groups: Sequence[Sequence[int]], until: int) -> dict[int, Point]:
        """How far each patch is moved so that parts which are not sewn yet stand apart."""
        sewn = self.stages[:until]
        open_seams = [seam for seam in self.seams if seam.stage not in sewn]
        allowance = float(self.making.kit.project.allowance)
        return moved_apart(self.patches, groups, open_seams, allowance)

    def layer(self, picture: Picture, view: View, i: int, move: Point) -> None:
        """A patch, right side up, raw; its finished outline is drawn over its neighbours later."""
        patch = self.patches[i]
        ring = shift(*move).ring(patch.raw)
        paint = self.paints[patch.fabric]
        width = FINE_MM if self.small * view.scale < SMALL_MM else OUTLINE_MM
        picture.layer(view, ring, Cloth.TOP_RIGHT, paint=paint, width=width)

    def explode(
        self, picture: Picture, view: View, groups: Sequence[Sequence[int]], moves: dict[int, Point]
    ) -> None:
        """All parts, each patch in its colour as far as its seams, with a raw edge all round."""
        picture.shades(self.shades)
        for group in groups:
            if len(group) == 1:
                self.layer(picture, view, group[0], moves[group[0]])
                continue
            sewn = sewn_edges(self.patches, group)
            for i in group:
                self._sewn_patch(picture, view, i, moves[i], sewn[i])

    def _sewn_patch(
        self, picture: Picture, view: View, i: int, move: Point, sewn: Sequence[bool]
    ) -> None:
        """A patch of a part: its sewn edges are thin, its raw edges as heavy as any."""
        patch = self.patches[i]
        place = shift(*move)
        ring = to_sewn_edges(patch, sewn)
        paint = self.paints[patch.fabric]
        picture.layer(view, place.ring(ring), Cloth.TOP_RIGHT, paint=paint, outlined=False)
        width = FINE_MM if self.small * view.scale < SMALL_MM else OUTLINE_MM
        seams = [e for e, is_sewn in zip(edges(patch.finished), sewn, strict=True) if is_sewn]
        for edge in edges(ring):
            on_seam = any(_beside(edge, seam) for seam in seams)
            ends = place.point(edge[0]), place.point(edge[1])
            picture.stroke(view, ends, OUTLINE, FINE_MM if on_seam else width)


def _beside(edge: Segment, seam: Segment) -> bool:
    """Whether an edge lies on the line of a seam."""
    way = unit(sub(seam[1], seam[0]))
    return all(abs(cross(way, sub(p, seam[0]))) < ON_SEAM_MM for p in edge)


def _seams_of(seams: Sequence[Seam], patches: Sequence[Patch]) -> tuple[Seam, ...]:
    """The seams that hold some patches of a larger top together."""
    lines = Lines(patches)
    return tuple(seam for seam in seams if len(set(lines.beside(seam.start, seam.end))) > 1)


def view_of(work: Pieced, moves: dict[int, Point], room: Room) -> View:
    """A view of all parts, each moved, as large as a room allows."""
    points = [shift(*moves[i]).point(p) for i, patch in enumerate(work.patches) for p in patch.raw]
    return whole(points, room)


def at_scale(work: Pieced, moves: dict[int, Point], room: Room, scale: float) -> View:
    """A view of a scale of its own, in the middle of a room."""
    points = [shift(*moves[i]).point(p) for i, patch in enumerate(work.patches) for p in patch.raw]
    left, foot, right, head = box(points)
    wide, high = (right - left) * scale, (head - foot) * scale
    inner = room.left + (room.width - wide) / 2, (room.height - high) / 2
    return whole(points, Room(*inner, wide, high))


def center_of(ring: Ring) -> Point:
    """The mean of the corners of a ring."""
    return sum(p[0] for p in ring) / len(ring), sum(p[1] for p in ring) / len(ring)


def part_only(picture: Picture, work: Pieced, view: View, moves: dict[int, Point]) -> None:
    """Says that a large top is not drawn to its end."""
    if not work.whole:
        points = [shift(*moves[i]).point(p) for i in moves for p in work.patches[i].raw]
        _, _, right, head = box(view.points(points))
        picture.name("and so on", (right, head), (0.7, 0.7))
