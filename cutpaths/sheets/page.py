"""What the projector's page holds: the marks of each piece, how to lay it, and the rig.

Millimetres in the frame of each piece; a station's `home` and `room` carry them to the table.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from cutpaths.drawing import DECIMALS, Document
from cutpaths.geometry.assembly import Piece
from cutpaths.geometry.marks import MarkKind, letter, select
from cutpaths.lengths import INCH
from cutpaths.paint import hex_of
from cutpaths.pieces import Kit
from cutpaths.projector.needs import Wanted
from cutpaths.projector.report import CAUTIONS
from cutpaths.projector.rig import Rig
from cutpaths.projector.rig_text import rig_text
from cutpaths.roles import STYLES, Role
from cutpaths.shapes import Motion, Point
from cutpaths.sheets.light import Ray, rays
from cutpaths.sheets.rig_target import LIGHT
from cutpaths.sheets.stations import Station
from cutpaths.values import Value

LETTER_GAP = 25.0
SCALE_SQUARES = ((100.0, "100 mm"), (float(3 * INCH), "3 in"))


class Laid(Value):
    """A piece and its stations."""

    piece: Piece
    stations: tuple[Station, ...]


class PageContent(Value, kw_only=True):
    """Everything on the page.

    Attributes:
        title: of the project.
        digest: SHA-256 of the project file.
        unit: of what is shown.
        order: letters of the sides in sewing order.
        laid: the pieces.
        wanted: which marks are shown.
        rig: None where the page calibrates from nothing; the page holds it as a rig file's text.
        summary: of the plans, line by line.
    """

    title: str
    digest: str
    unit: str
    order: str
    laid: tuple[Laid, ...]
    wanted: Wanted
    rig: Rig | None
    summary: tuple[str, ...]

    def as_data(self) -> Mapping[str, Any]:
        """As plain values for JSON."""
        roles = {ray.role for each in self.laid for ray in rays(each.piece, self.wanted)}
        return {
            "format": 1,
            "title": self.title,
            "digest": self.digest,
            "unit": self.unit,
            "cautions": list(CAUTIONS),
            "summary": list(self.summary),
            "scale": [[_round(size), text] for size, text in SCALE_SQUARES],
            "rig": None if self.rig is None else rig_text(self.rig),
            "roles": [_role(role) for role in Role if role in roles | {Role.SCALE}],
            "pieces": [self._piece(each) for each in self.laid],
        }

    def _piece(self, laid: Laid) -> Mapping[str, Any]:
        return {
            "key": laid.piece.key,
            "lines": [_ray(ray) for ray in rays(laid.piece, self.wanted)],
            "letters": [
                {"text": f"{name} {self.order.index(name) + 1}", "at": _point(at)}
                for name, at in _letters(laid.piece)
            ],
            "stations": [_station(station) for station in laid.stations],
        }


class PageDocument(Document):
    """A document that is a page: it has no sheets."""

    content: PageContent


def sewing_order(kit: Kit) -> str:
    """Letters of the sides in sewing order."""
    return "".join(letter(side) for side in kit.order)


def _letters(piece: Piece) -> list[tuple[str, Point]]:
    """Each side's letter, outside the raw edge at its center mark."""
    found = []
    for mark in select(piece.marks, MarkKind.CENTER):
        (x0, y0), (x1, y1) = mark.points
        length = ((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5
        if length:
            part = LETTER_GAP / length
            found.append((mark.at, (x1 + (x1 - x0) * part, y1 + (y1 - y0) * part)))
        else:
            found.append((mark.at, (x1, y1)))
    return found


def _role(role: Role) -> Mapping[str, Any]:
    style = STYLES[role]
    return {
        "key": role.value,
        "meaning": style.meaning,
        "light": hex_of(dict(LIGHT)[role]),
        "dark": style.hex,
        "pattern": list(style.pattern),
    }


def _ray(ray: Ray) -> Mapping[str, Any]:
    return {
        "role": ray.role.value,
        "step": ray.step,
        "points": [_point(p) for p in ray.path.points],
        "closed": ray.path.closed,
    }


def _station(station: Station) -> Mapping[str, Any]:
    return {
        "title": station.title,
        "words": list(station.words),
        "home": _motion(station.home),
        "room": _motion(station.room),
        "steps": list(station.steps),
        "error": None if station.error is None else round(station.error, 1),
        "extra": [_ray(ray) for ray in station.extra],
    }


def _motion(motion: Motion) -> list[float]:
    """Cosine, sine and shift; what is laid is never mirrored here."""
    return [motion.cos, motion.sin, _round(motion.dx), _round(motion.dy)]


def _point(p: Point) -> list[float]:
    return [_round(p[0]), _round(p[1])]


def _round(mm: float) -> float:
    return round(mm, DECIMALS) + 0.0
