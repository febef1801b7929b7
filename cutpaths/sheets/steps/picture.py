"""One step picture as it grows: layers of cloth, lines, signs, labels, and the key below; mm.

The sheet is `WIDTH` wide and as high as it must be. Layers are painted in the order in which they
come, each over those before; lines and dashes lie over all layers, so what is hidden is left out
by whoever draws them.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise

from cutpaths.drawing import Drawing, Item, Pen, move
from cutpaths.geometry.clip import clipped
from cutpaths.geometry.polygons import (
    Ring,
    box,
    distance,
    edges,
    middle,
    signed_area,
)
from cutpaths.paint import Paint, from_hex
from cutpaths.pieces import Kit
from cutpaths.roles import Role
from cutpaths.shapes import Anchor, Path, Point, Text, shift
from cutpaths.sheets.sheet import about
from cutpaths.sheets.steps.cutting import part_inside, parts_outside
from cutpaths.sheets.steps.ink import (
    ARROW,
    BELOW,
    DOT,
    Painted,
    arrow,
    curve,
    disc,
    stroke,
)
from cutpaths.sheets.steps.key import Entry, key_items
from cutpaths.sheets.steps.labels import HEIGHT, PAD, Ground, Name, placed
from cutpaths.sheets.steps.lines import (
    HIDDEN,
    MITER_MARKED,
    dashes,
    double,
    entry_of_double,
    entry_of_hidden,
)
from cutpaths.sheets.steps.rings import (
    DENT_MM2,
    covers,
    is_convex,
    lies_in,
    points_apart,
    striped,
    uncovered,
)
from cutpaths.sheets.steps.tints import OUTLINE, TINTS, Cloth, ink
from cutpaths.sheets.steps.view import View, frame
from cutpaths.strokes import text_width
from cutpaths.values import State, field

WIDTH = 140.0
MARGIN = 3.0
ROUND = 14.0  # how far above and below what is drawn a label may stand
OUTLINE_MM = 0.4
SEAM_MM = 0.22
DOT_MM = 1.0
LETTER = 3.6
LETTER_DISC = 3.1
PEN = Pen(
    scale=1.0,
    stretch=0.36,
    inks=(
        (Role.STITCH, ink("#0b2545")),
        (Role.TOPSTITCH, ink("#a0104a")),
        (Role.BASTE, ink("#6a1b9a")),
        (Role.FOLD, ink("#00563f")),
        (Role.TRIM, ink("#8a2d00")),
        (Role.CENTER, ink("#111111")),
        (Role.MATCH, ink("#3a3a3a")),
        (Role.OPENING, ink("#8a2d00")),
        (Role.DIMENSION, ink("#333333")),
        (Role.LABEL, ink("#111111")),
    ),
)
DIMENSION = Paint(colour=from_hex("#333333"))
_PAPER = Paint(colour=(255, 255, 255))
_TAG = Paint(colour=(255, 255, 255), edge=from_hex("#c9c9c9"))
_LETTER = Paint(colour=(255, 255, 255), edge=from_hex("#111111"))


class Picture(State, kw_only=True):
    """A picture as it grows.

    Attributes:
        kit: what is made.
        key: the step's key.
        shows: what the picture shows, for its file.
    """

    kit: Kit
    key: str
    shows: str
    _layers: list[Item] = field(default_factory=list)
    _signs: list[Item] = field(default_factory=list)
    _lines: dict[tuple[Role, tuple[Point, ...]], Item] = field(default_factory=dict)
    _texts: list[Text] = field(default_factory=list)
    _names: list[Name] = field(default_factory=list)
    _edges: list[tuple[Point, Point]] = field(default_factory=list)
    _cloths: list[tuple[Cloth | None, Ring]] = field(default_factory=list)
    _entries: dict[str, Entry] = field(default_factory=dict)
    _count: int = 0
    _shades: tuple[Paint, ...] = ()

    def layer(
        self,
        view: View,
        ring: Ring,
        cloth: Cloth,
        *,
        paint: Paint | None = None,
        outlined: bool = True,
        width: float = OUTLINE_MM,
    ) -> None:
        """Lays a piece of cloth of the front view on what is there.

        Args:
            view: where it is seen.
            ring: its outline; with a dent only where nothing cuts the dent off.
            cloth: its face.
            paint: a shade in place of the face's own.
            outlined: whether its edge is drawn.
            width: of the line of its edge.
        """
        self._layer(view.ring(ring), view.window, cloth, paint)
        if outlined:
            self._outline(view.ring(ring), view.window, width)

    def _layer(self, ring: Ring, window: Ring, cloth: Cloth, paint: Paint | None) -> None:
        """Paints what a window shows of a piece of cloth, with the stripes of its face."""
        seen = points_apart(clipped(ring, window))
        if len(seen) < 3 or abs(signed_area(seen)) < DENT_MM2:
            return
        key = self._next("layer")
        tint = TINTS[cloth]
        self._paint(key, seen, paint or tint.paint)
        if tint.stripes is not None:
            for stripe in striped(seen, tint.slope):
                self._paint(key, stripe, tint.stripes)
        self._cloths.append((cloth, seen))

    def _outline(self, ring: Ring, window: Ring, width: float) -> None:
        key = self._layers[-1].key if self._layers else self._next("layer")
        for start, end in edges(ring):
            part = part_inside(start, end, window)
            if part is not None and distance(*part) > width:
                self._paint(key, stroke(*part, width), OUTLINE)
                self._edges.append(part)

    def _paint(self, key: str, ring: Ring, paint: Paint) -> None:
        clean = points_apart(ring)
        if len(clean) > 2:
            self._layers.append(Item(Role.LABEL, key, Path(clean, closed=True), paint))

    def _next(self, kind: str) -> str:
        self._count += 1
        return f"{kind}-{self._count}"

    def background(self, ring: Ring, paint: Paint) -> None:
        """A plain ground on the sheet, such as that of a detail."""
        self._paint(self._next("layer"), ring, paint)
        self._cloths.append((None, ring))

    def seam(self, view: View, points: Sequence[Point]) -> None:
        """A finished seam of patches: a thin line, over which labels may lie."""
        self.stroke(view, points, OUTLINE, SEAM_MM)

    def stroke(self, view: View, points: Sequence[Point], paint: Paint, width: float) -> None:
        """A line of the front view in the last layer, which layers above it hide."""
        key = self._layers[-1].key if self._layers else self._next("layer")
        for start, end in pairwise(view.points(points)):
            part = part_inside(start, end, view.window)
            if part is not None and distance(*part) > width:
                self._paint(key, stroke(*part, width), paint)

    def line(
        self,
        view: View,
        points: Sequence[Point],
        role: Role,
        *,
        under: Iterable[Ring] = (),
        closed: bool = False,
        meaning: str | None = None,
    ) -> None:
        """A line of the front view, without what lies under some convex rings of it."""
        covers = [view.ring(ring) for ring in under]
        on_sheet = view.points(points)
        pairs = edges(on_sheet) if closed else tuple(pairwise(on_sheet))
        for start, end in pairs:
            part = part_inside(start, end, view.window)
            if part is not None:
                for free in parts_outside(*part, covers):
                    self.sheet_line(free, role)
        if meaning is not None:
            self._entries.setdefault(meaning, Entry.of_line(role, meaning))

    def miter(self, view: View, start: Point, end: Point) -> None:
        """A marked miter line of the front view, not sewn yet."""
        part = part_inside(view.point(start), view.point(end), view.window)
        if part is not None:
            for line in double(*part):
                self.sheet_line(line, Role.MATCH)
        self._entries.setdefault(MITER_MARKED, entry_of_double())

    def hidden(self, view: View, points: Sequence[Point], *, closed: bool = False) -> None:
        """A raw edge of the front view that lies below what is seen."""
        on_sheet = view.points(points)
        for start, end in edges(on_sheet) if closed else tuple(pairwise(on_sheet)):
            part = part_inside(start, end, view.window)
            if part is not None:
                key = self._next("layer")
                for ring, paint in dashes(*part):
                    self._paint(key, ring, paint)
        self._entries.setdefault(HIDDEN, entry_of_hidden())

    def sheet_line(self, points: Sequence[Point], role: Role) -> None:
        """A line that is given on the sheet."""
        path = tuple(points)
        self._lines.setdefault((role, path), Item(role, "picture", Path(path)))

    def dot(self, view: View, point: Point) -> None:
        """A start or stop dot."""
        place = view.point(point)
        if lies_in(place, view.window):
            self.signs(((disc(place, DOT_MM), DOT),))
            self._entries.setdefault("dot", Entry.of_dot())

    def signs(self, painted: Iterable[Painted]) -> None:
        """Signs on the sheet, over all cloth."""
        for ring, paint in painted:
            key = self._next("sign")
            self._signs.append(Item(Role.LABEL, key, Path(ring, closed=True), paint))

    def move_arrow(self, start: Point, end: Point, bulge: float = 0.0, width: float = 1.0) -> None:
        """An arrow of a motion on the sheet."""
        self.signs(((arrow(curve(start, end, bulge), width), ARROW),))

    def below_arrow(self, start: Point, end: Point, bulge: float = 0.0, width: float = 1.2) -> None:
        """A hollow arrow of a motion that runs below the cloth, on the sheet."""
        self.signs(((arrow(curve(start, end, bulge), width), BELOW),))
        self.entry(Entry.of_arrow_below())

    def shades(self, paints: Sequence[Paint]) -> None:
        """The shades in which the right side of a top of several fabrics is painted."""
        self._shades = tuple(paints)

    def number(self, string: str, center: Point) -> None:
        """A number of an order in a square, its center on the sheet."""
        x, y = center
        half = LETTER_DISC * 0.86
        self.signs(((frame(x - half, y - half, x + half, y + half), _LETTER),))
        self.text(string, (x, y - HEIGHT / 2))

    def letter(self, string: str, center: Point) -> None:
        """The letter of a side in a ring, its center on the sheet."""
        self.signs(((disc(center, LETTER_DISC), _LETTER),))
        x, y = center
        self.text(string, (x, y - LETTER / 2), LETTER)

    def text(
        self, string: str, at: Point, height: float = HEIGHT, anchor: Anchor = Anchor.MIDDLE
    ) -> None:
        """A text at its place on the sheet."""
        self._texts.append(Text(string=string, at=at, height=height, anchor=anchor))

    def caption(self, string: str, at: Point) -> None:
        """A text on a tag, its middle at a place of the sheet."""
        half = text_width(string, HEIGHT) / 2 + PAD
        x, y = at
        tag = frame(x - half, y - HEIGHT / 2 - PAD - 0.4, x + half, y + HEIGHT / 2 + PAD)
        self._tag(tag)
        self.text(string, (x, y - HEIGHT / 2))

    def name(
        self,
        string: str,
        at: Point,
        toward: Point | None = None,
        *,
        bare: bool = False,
        within: tuple[float, float] | None = None,
    ) -> None:
        """A label for a place of the sheet; where it stands is found when all is drawn."""
        self._names.append(Name(string=string, at=at, toward=toward, bare=bare, within=within))

    def arrow_both(self, start: Point, end: Point) -> None:
        """A thin arrow between two places of the sheet, with a head at both."""
        center = middle(start, end)
        for tip in (start, end):
            self.signs(((arrow((center, tip), 0.5), DIMENSION),))

    def measure(self, start: Point, end: Point, string: str) -> None:
        """A length between two places of the sheet, level or upright, with its text on it."""
        self.arrow_both(start, end)
        x, y = middle(start, end)
        if abs(end[0] - start[0]) > abs(end[1] - start[1]):
            self.caption(string, (x, y))
            return
        deep = HEIGHT / 2 + PAD
        half = text_width(string, HEIGHT) / 2 + PAD
        self._tag(frame(x - deep, y - half, x + deep, y + half))
        at = x + HEIGHT / 2, y
        self._texts.append(
            Text(string=string, at=at, height=HEIGHT, angle=90.0, anchor=Anchor.MIDDLE)
        )

    def entry(self, entry: Entry) -> None:
        """A line of the key for something that is drawn."""
        self._entries.setdefault(entry.text, entry)

    def _tag(self, ring: Ring) -> None:
        self._signs.append(Item(Role.LABEL, self._next("tag"), Path(ring, closed=True), _TAG))

    def drawing(self) -> Drawing:
        """The finished sheet."""
        self._write_names()
        items = [*uncovered([*self._layers, *self._signs]), *self._lines.values()]
        items += [Item(Role.LABEL, "text", text) for text in self._texts]
        _, foot, _, head = box(list(_points(items)))
        entries = (*map(self._cloth_entry, self._seen_cloths()), *self._entries.values())
        below, depth = key_items(entries, WIDTH - 2 * MARGIN)
        high = head - foot + depth + 3 * MARGIN
        raised = shift(0.0, high - MARGIN - head)
        laid = shift(MARGIN, MARGIN + depth)
        paper = Item(Role.LABEL, "paper", Path(frame(0.0, 0.0, WIDTH, high), closed=True), _PAPER)
        return Drawing(
            name=f"step-{self.key}",
            size=(WIDTH, high),
            about=about(self.kit, self.shows, ""),
            items=(
                paper,
                *(move(raised, item) for item in items),
                *(move(laid, item) for item in below),
            ),
            pen=PEN,
        )

    def _cloth_entry(self, cloth: Cloth) -> Entry:
        """A face of cloth, in all its shades where it has several."""
        if cloth is Cloth.TOP_RIGHT and len(self._shades) > 1:
            return Entry.of_shades(self._shades)
        return Entry.of_cloth(cloth)

    def _seen_cloths(self) -> tuple[Cloth, ...]:
        """The faces of which something is seen, in the order of their first layer."""
        found = {cloth: False for cloth, _ in self._cloths if cloth is not None}
        # The last layers are the least likely to be covered.
        for i in range(len(self._cloths) - 1, -1, -1):
            cloth, ring = self._cloths[i]
            if cloth is None or found[cloth]:
                continue
            later = (cover for _, cover in self._cloths[i + 1 :])
            found[cloth] = not any(is_convex(cover) and covers(cover, ring) for cover in later)
        return tuple(cloth for cloth, seen in found.items() if seen)

    def _write_names(self) -> None:
        """Places the labels and draws their leaders."""
        drawn = [*self._layers, *self._signs, *self._lines.values()]
        _, foot, _, head = box(list(_points(drawn)))
        ground = Ground(
            bounds=(MARGIN, foot - ROUND, WIDTH - MARGIN, head + ROUND),
            tags=[_text_frame(text) for text in self._texts],
            signs=[i.shape.points for i in self._signs if isinstance(i.shape, Path)],
            lines=[s for i in self._lines.values() for s in _segments(i)],
            edges=self._edges,
            leaders=[],
        )
        for name in placed(self._names, ground):
            self._tag(name.tag)
            self._texts.append(name.text)
            if name.leader is not None:
                self.sheet_line(name.leader, Role.DIMENSION)


def _text_frame(text: Text) -> Ring:
    half = text_width(text.string, text.height) / 2
    if text.angle:
        x, y = text.at
        return frame(x - text.height - 0.5, y - half - 0.5, x + text.height * 0.34, y + half + 0.5)
    x = {Anchor.START: half, Anchor.MIDDLE: 0.0, Anchor.END: -half}[text.anchor] + text.at[0]
    y = text.at[1]
    return frame(x - half - 0.5, y - text.height * 0.34, x + half + 0.5, y + text.height + 0.5)


def _segments(item: Item) -> tuple[tuple[Point, Point], ...]:
    return tuple(pairwise(item.shape.points)) if isinstance(item.shape, Path) else ()


def _points(items: Iterable[Item]) -> Iterator[Point]:
    for item in items:
        match item.shape:
            case Path(points):
                yield from points
            case Text() as text:
                yield from _text_frame(text)
