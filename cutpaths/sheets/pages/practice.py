"""The practice corner: a corner of backing and top on paper, to fold before cloth is cut.

True scale, mm. Each paper is what lies within reach of the corner: from the raw edges to past the
dots, or past the ends of the corner fold. Folded, both papers end together. Each carries the marks
of the cloth there, lies as the cloth is marked, wrong side up, and is cut out whole: its other
edges run through the cloth. There is one for each different corner; the words follow the corner's
type.
"""

from __future__ import annotations

from collections.abc import Iterator

from cutpaths.drawing import Item, move
from cutpaths.figures.corners import corner_check
from cutpaths.geometry.assembly import Piece
from cutpaths.geometry.blanket import Corner, CornerType
from cutpaths.geometry.clip import clipped
from cutpaths.geometry.marks import MarkKind, letter, select
from cutpaths.geometry.polygons import (
    Ring,
    along,
    box,
    cross,
    directions,
    dot,
    edges,
    meet,
    right_of,
    sub,
    unit,
)
from cutpaths.pieces import CornerTemplate, Kit
from cutpaths.project.model import Construction
from cutpaths.roles import Role
from cutpaths.shapes import Path, Point, Text, shift
from cutpaths.sheets.pages.blocks import Block, is_roomy
from cutpaths.sheets.pages.page import Room
from cutpaths.sheets.pages.text_places import beside_edge, bounds, placed_texts
from cutpaths.sheets.pages.window import in_window
from cutpaths.sheets.pages.words import line_key, paragraphs
from cutpaths.sheets.signs import piece_items
from cutpaths.values import Value, replace

# How far a paper may reach beyond its dots or the ends of its corner fold, the best first: the
# scale square must find a place beside it, or on its inner part.
PAST = (46.0, 56.0, 66.0, 36.0, 26.0)
FLAT_COSINE = 0.02  # of the angle beyond which a corner is flatter than a right one
DEEP = 1.5  # how far past the top's dot, at most, as a multiple of that
TEXT, WORDS = 3.0, 2.4
WORDS_WIDTH = 92.0
_ROLES = (Role.FOLD, Role.STITCH, Role.BASTE, Role.TRIM, Role.CUT)
_RAW_SINE = 1e-6


class Practice(Value):
    """The papers of one corner.

    Attributes:
        corners: names of the corners that it stands for.
        backing, top: outlines, each in the frame of its piece.
        blocks: both papers, then the words.
    """

    corners: tuple[str, ...]
    backing: Ring
    top: Ring
    blocks: tuple[Block, ...]


def practices(kit: Kit, room: Room) -> tuple[Practice, ...]:
    """The papers of each different corner, for pages with this room."""
    return tuple(_practice(kit, template, room) for template in kit.templates)


def _practice(kit: Kit, template: CornerTemplate, room: Room) -> Practice:
    at = template.corners[0]
    number = next(n for n, corner in enumerate(kit.blanket.corners) if corner.at == at)
    name = f"practice corner {', '.join(template.corners)}"
    past = _past(kit, number, room)
    backing = _outline(kit.backing, _reach_of_backing(kit, number, past))
    top = _outline(kit.top, _reach_of_top(kit, number, past))
    papers = (
        _as_it_lies(_paper(kit, kit.backing, backing, at, f"{name}: backing"), room),
        _as_it_lies(_paper(kit, kit.top, top, at, f"{name}: top"), room),
    )
    drawn = {item.role for paper in papers for item in paper.items}
    roles = [role for role in _ROLES if role in drawn]
    words = _words(kit, name, kit.blanket.corners[number], roles)
    return Practice(template.corners, backing, top, (*papers, words))


def _as_it_lies(paper: Block, room: Room) -> Block:
    """A paper as the pictures of the steps show its corner: turned only where it must be."""
    upright = replace(paper, turns=(0,))
    return upright if is_roomy(upright, room, alone=True) else paper


def _past(kit: Kit, number: int, room: Room) -> float:
    """How far the papers reach: so that the scale square has a place too, else so that they fit."""
    at = kit.blanket.corners[number].at
    fits = []
    for past in PAST:
        backing = _outline(kit.backing, _reach_of_backing(kit, number, past))
        paper = _as_it_lies(_paper(kit, kit.backing, backing, at, ""), room)
        if is_roomy(paper, room):
            return past
        if is_roomy(paper, room, alone=True):
            fits.append(past)
    return fits[0] if fits else PAST[-1]


# --- outlines


def _ways(kit: Kit, number: int) -> tuple[Point, Point]:
    """The ways from a corner along the side before it and the side after it; front view."""
    found = directions(kit.blanket.seam)
    return (-found[number - 1][0], -found[number - 1][1]), found[number]


def _reach_of_backing(kit: Kit, number: int, past: float) -> Ring:
    corner = kit.blanket.corners[number]
    return _reach(kit, number, corner.backing_point, corner.miter, past)


def _reach_of_top(kit: Kit, number: int, past: float) -> Ring:
    seam = kit.blanket.seam[number]
    return _reach(kit, number, kit.blanket.top[number], (seam, seam), past)


def _reach(kit: Kit, number: int, raw: Point, dots: tuple[Point, Point], past: float) -> Ring:
    """From a raw corner along both sides to past their dots, square to them; front view.

    Flat corners would reach far into the blanket: there it is cut off square to the middle.
    """
    back, on = _ways(kit, number)
    ends = [
        along(raw, way, dot(sub(place, raw), way) + past)
        for place, way in zip(dots, (back, on), strict=True)
    ]
    inward = right_of(back), right_of((-on[0], -on[1]))
    inmost = meet(ends[0], inward[0], ends[1], inward[1])
    seam = kit.blanket.seam[number]
    middle = unit((back[0] + on[0], back[1] + on[1]))
    deep = DEEP * past
    place, across = along(seam, middle, deep), right_of(middle)
    cuts = [meet(end, way, place, across) for end, way in zip(ends, inward, strict=True)]
    depths = [dot(sub(c, end), way) for c, end, way in zip(cuts, ends, inward, strict=True)]
    flat = dot(back, on) < -FLAT_COSINE and dot(sub(inmost, seam), middle) > deep
    if flat and min(depths) > 0.0:
        return raw, ends[1], cuts[1], cuts[0], ends[0]
    return raw, ends[1], inmost, ends[0]


def _outline(piece: Piece, reach: Ring) -> Ring:
    """What a piece has within reach, in its own frame."""
    return clipped(piece.outline, piece.places[0].inverse().ring(reach))


# --- papers


def _paper(kit: Kit, piece: Piece, outline: Ring, at: str, name: str) -> Block:
    key = f"practice-{piece.key.lower()}"
    marks = [item for item in piece_items(piece) if item.role not in (Role.CUT, Role.GRAIN)]
    inner = in_window(marks, outline)
    lines = (Item(Role.CUT, key, Path(outline, closed=True)), *inner)
    fixed = (*lines, _title(piece, outline, key))
    texts = placed_texts(_edge_texts(kit, piece, outline, at), fixed, Role.LABEL, key)
    return Block(name=name, items=(*fixed, *texts), needed=True)


def _edge_texts(kit: Kit, piece: Piece, outline: Ring, at: str) -> Iterator[Iterator[Text]]:
    """Along each raw edge, whose side it is."""
    blanket = kit.blanket
    ring = blanket.top if piece is kit.top else tuple(c.backing_point for c in blanket.corners)
    home = piece.places[0].inverse()
    sides = {letter(i): edge for i, edge in enumerate(edges(tuple(map(home.point, ring))))}
    for edge in edges(outline):
        for side in at:
            if _on(edge, sides[side]):
                words = f"side {side}, raw edge", f"side {side}"
                yield beside_edge(edge, words, (1.0, -1.0), TEXT)


def _on(edge: tuple[Point, Point], line: tuple[Point, Point]) -> bool:
    """Whether an edge lies on a line."""
    way = unit(sub(line[1], line[0]))
    return all(abs(cross(way, sub(p, line[0]))) < _RAW_SINE for p in edge)


def _title(piece: Piece, outline: Ring, key: str) -> Item:
    """What the paper is, over it."""
    left, _, _, top = box(outline)
    text = f"{piece.key}, {piece.face.value}"
    return Item(Role.LABEL, key, Text(string=text, at=(left, top + TEXT), height=TEXT))


# --- words


def _words(kit: Kit, name: str, corner: Corner, roles: list[Role]) -> Block:
    heading = name[0].upper() + name[1:]
    folded = kit.project.construction is Construction.FOLDED_OVER
    steps = _folded_steps(kit, corner) if folded else _turned_steps(kit, corner)
    numbered = [f"{n}. {text}" for n, text in enumerate(steps, start=1)]
    body = paragraphs(numbered, WORDS, WORDS_WIDTH, hang=4.0)
    parts = [paragraphs((heading,), TEXT, WORDS_WIDTH), body, line_key(roles, WORDS)]
    return Block(name=f"{name}: how to fold it", items=tuple(_below_one_another(parts)), turns=(0,))


def _below_one_another(parts: list[tuple[Item, ...]]) -> Iterator[Item]:
    """Parts that each hang from the origin, with room between them."""
    y = 0.0
    for part in parts:
        yield from (move(shift(0.0, y), item) for item in part)
        y += bounds(part)[1] - 2 * WORDS


def _turned_steps(kit: Kit, corner: Corner) -> Iterator[str]:
    before, after = corner.at[0], corner.at[1]
    yield "Cut out both papers. Their printed faces are the wrong sides."
    yield (
        f"Backing: fold it plain face to plain face, dot {before} on dot {after}, with the crease "
        "on the marked fold; it goes on straight across the paper. "
        f"Check: {corner_check(corner, folded=False)}."
    )
    yield "Tape both layers along the miter stitching line, from the dots to the fold point."
    if select(kit.backing.marks, MarkKind.MITER_TRIM, corner.at):
        yield "Cut along the trim line."
    yield (
        "Open the rest. Crease each border fold and turn the borders over to the printed face: "
        "they show their plain side, and the corner comes to a point."
    )
    yield (
        "Slide the top under the borders, printed face down, its dot at theirs and its stitching "
        "lines on theirs. Tape it there."
    )
    yield "The miter runs straight, from the blanket's corner to the corner of the top's seam."


def _folded_steps(kit: Kit, corner: Corner) -> Iterator[str]:
    yield "Cut out both papers. Their printed faces are the wrong sides."
    yield (
        "Lay the top on the printed face of the backing, its own printed face down, its raw edges "
        "on the second folds: the corner fold runs through its corner."
    )
    if select(kit.backing.marks, MarkKind.TIP_TRIM, corner.at):
        yield "Cut the tip off along its trim line: the waste is a triangle."
    stands = "stands" if corner.kind is CornerType.RIGHT_EQUAL else "does not stand"
    yield (
        "Fold the tip over the top's corner on the corner fold, which "
        f"{stands} at 45 degrees to the raw edges."
    )
    yield "Fold each side on the first fold, then on the second, over the top. Tape it there."
    yield "Check: the borders meet in a miter, from the blanket's corner to the top's own."
