"""Frames of a calibrated rig: the page's stations, and pictures in the projector's own pixels."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from cutpaths.drawing import Document, Item
from cutpaths.pieces import Kit
from cutpaths.projector.calibrate import Calibration, calibrate
from cutpaths.projector.frames import Plan, plan, room_of
from cutpaths.projector.lens import on_cloth
from cutpaths.projector.lining_up import clipped
from cutpaths.projector.needs import Wanted
from cutpaths.projector.report import CAUTIONS
from cutpaths.projector.rig import Rig
from cutpaths.projector.view import View
from cutpaths.roles import Role
from cutpaths.shapes import Anchor, Path, Point, Text
from cutpaths.sheets.light import Ray, rays
from cutpaths.sheets.rig_target import PIXEL_MM, caution, picture, pixel
from cutpaths.sheets.sheet import Output, about
from cutpaths.sheets.stations import Station, planned
from cutpaths.values import Value

TITLE_HEIGHT = 10.0  # pixels for each 1000 of the picture's width


class Thrown(Value, kw_only=True):
    """A calibrated rig with the plans of the pieces.

    Attributes:
        calibration: of the table.
        view: of the cloth's face.
        plans: for the backing and the top.
    """

    calibration: Calibration
    view: View
    plans: tuple[Plan, ...]

    @property
    def summary(self) -> tuple[str, ...]:
        """For each piece how many placements and frames there are, and how well they hold."""
        return tuple(_summary(each) for each in self.plans)


def _summary(each: Plan) -> str:
    count, frames = len(each.placements), each.frames
    worst = max(placement.error for placement in each.placements)
    bound = "no fewer will do" if count == each.least else f"{each.least} at least are needed"
    return (
        f"{each.piece.key}: {_many(count, 'placement')} ({bound}), {_many(frames, 'frame')}; "
        f"a mark may be off by up to {worst:.1f} mm"
    )


def _many(count: int, name: str) -> str:
    return f"{count} {name}" if count == 1 else f"{count} {name}s"


def thrown(kit: Kit, rig: Rig, wanted: Wanted) -> Thrown:
    """The plans of backing and top on a rig.

    Raises:
        InputError: the rig is not calibrated, or its picture cannot hold a mark.
    """
    found = calibrate(rig)
    view = on_cloth(found.view, rig)
    room = room_of(view, float(rig.margin))
    plans = tuple(plan(piece, room, wanted, found.usual) for piece in (kit.backing, kit.top))
    return Thrown(calibration=found, view=view, plans=plans)


def frame_pictures(kit: Kit, found: Thrown, wanted: Wanted, *, pixels: bool) -> tuple[Output, ...]:
    """An SVG for each placement, light on black, a pixel for a pixel; a PNG of it where asked."""
    formats = ("svg", "png") if pixels else ("svg",)
    width = found.calibration.rig.width
    return tuple(
        Output(name=document.name, document=document, formats=formats, pixels=width)
        for each in found.plans
        for document in _documents(kit, found, each, wanted)
    )


def _documents(kit: Kit, found: Thrown, each: Plan, wanted: Wanted) -> Iterator[Document]:
    rig = found.calibration.rig
    key = each.piece.key.lower()
    light = rays(each.piece, wanted)
    stations = planned(each, wanted, kit.project.ruler)
    for number, station in enumerate(stations, 1):
        words = " ".join((*station.words, *CAUTIONS)).removesuffix(".")
        says = about(kit, f"{each.piece.key}, placement {number}", words)
        lines = [*_warped(found, station, (*light, *station.extra), key), _title(rig, station)]
        lines.append(caution(rig, rig.height / 2 + 2 * TITLE_HEIGHT * rig.width / 1000))
        yield picture(f"frame-{key}-{number}", rig, lines, says)


def _warped(found: Thrown, station: Station, light: tuple[Ray, ...], key: str) -> Iterator[Item]:
    """What of the lines is in the picture, in its pixels."""
    rig, place = found.calibration.rig, station.home.then(station.room)
    edge = (0.0, 0.0, float(rig.width), float(rig.height))
    near = _near(found.view)
    for ray in light:
        points = ray.path.points + (ray.path.points[:1] if ray.path.closed else ())
        spots = [place.point(p) for p in points]
        for start, end in pairwise(spots):
            part = clipped(start, end, near)
            if part is None:
                continue
            seen = clipped(found.view.pixel(part[0]), found.view.pixel(part[1]), edge)
            if seen is not None and seen[0] != seen[1]:
                line = Path((pixel(rig, seen[0]), pixel(rig, seen[1])))
                yield Item(ray.role, key, line)


def _near(view: View) -> tuple[float, float, float, float]:
    """A box round the picture on the table: what lies far beyond may be past the horizon."""
    xs, ys = [x for x, _ in view.outline], [y for _, y in view.outline]
    return min(xs) - 1.0, min(ys) - 1.0, max(xs) + 1.0, max(ys) + 1.0


def _title(rig: Rig, station: Station) -> Item:
    """A line of text in the middle of the picture, where a blanket has no marks."""
    height = TITLE_HEIGHT * rig.width / 1000
    at: Point = rig.width / 2, rig.height / 2
    text = Text(
        string=station.title, at=pixel(rig, at), height=height * PIXEL_MM, anchor=Anchor.MIDDLE
    )
    return Item(Role.LABEL, "title", text)
