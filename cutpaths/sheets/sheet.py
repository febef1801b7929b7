"""What all sheets share: how items become a drawing, and what a sheet says of itself; mm."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

from cutpaths.drawing import About, Document, Drawing, Item, Pen, flatten, move, text_paths
from cutpaths.lengths import INCH_MM
from cutpaths.pieces import Kit
from cutpaths.projector.needs import Wanted
from cutpaths.projector.rig import Rig
from cutpaths.roles import Role
from cutpaths.shapes import Anchor, Circle, Motion, Path, Point, Text, shift
from cutpaths.sheets.pages.paper import Paper
from cutpaths.strokes import missing_letters
from cutpaths.values import Value

if TYPE_CHECKING:
    from pathlib import Path as FolderPath

    from cutpaths.proof.check import Proof

MARGIN = 15.0
# The scale square, and the square inside it; two lengths no one takes for one another.
SCALE_MM = 100.0
SCALE_INCHES = 3


class Output(Value, kw_only=True):
    """One document to write.

    Attributes:
        name: what its files are called after the project's name: `cutter-backing`.
        document: the document.
        formats: names of the formats to write it in.
        pixels: width of its picture where it has its own, such as a projector's; 0 where not.
        says: what it is for, in one line; empty where its drawing says enough.
        folder: the folder inside the project's that it belongs to; empty for the project's own.
        notes: what a person should know beside it.
    """

    name: str
    document: Document
    formats: tuple[str, ...]
    pixels: int = 0
    says: str = ""
    folder: str = ""
    notes: tuple[str, ...] = ()


class Wishes(Value, kw_only=True):
    """What a person may ask of the sheets.

    Attributes:
        text_on_cloth: lets machines draw text and grain lines.
        rig: the projector for which frames are planned.
        frame_marks: which marks the frames show.
        frame_pixels: whether each frame is also written as a picture of pixels.
        paper: what pages are printed on; None for the usual one of the project's unit.
        whole: whether pages also hold the large pieces, in tiles to be joined.
        large_print: whether the booklet has large letters.
        left_handed: whether the booklet shows scissors, needle and ruler for the left hand.
        beside: the folder of the project file, where its pictures of cloth are.
        proof: of the kit, where it has been made already.
    """

    text_on_cloth: bool = False
    rig: Rig | None = None
    frame_marks: Wanted = Wanted.ALL
    frame_pixels: bool = False
    paper: Paper | None = None
    whole: bool = False
    large_print: bool = False
    left_handed: bool = False
    beside: FolderPath | None = None
    proof: Proof | None = None


def about(kit: Kit, piece: str, face: str) -> About:
    """What a sheet of this kit says of itself."""
    project = kit.project
    return About(
        project=project.title,
        digest=project.digest,
        piece=piece,
        face=face,
        unit=project.ruler.unit,
        author=project.pattern.author,
    )


def fit(name: str, items: Iterable[Item], says: About, pen: Pen, margin: float = MARGIN) -> Drawing:
    """A drawing that just holds its items, shifted so that a margin is left all round."""
    laid = tuple(items)
    left, bottom, right, top = extent(laid)
    home = shift(margin - left, margin - bottom)
    return Drawing(
        name=name,
        size=(right - left + 2 * margin, top - bottom + 2 * margin),
        about=says,
        items=tuple(move(home, item) for item in laid),
        pen=pen,
    )


def extent(items: Sequence[Item]) -> tuple[float, float, float, float]:
    """Left, bottom, right and top of the geometry of some items; strokes have no width here."""
    points = [p for item in items for part in flatten(item) for p in _reach(part)]
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return min(xs), min(ys), max(xs), max(ys)


def _reach(item: Item) -> tuple[Point, ...]:
    match item.shape:
        case Path(points):
            return points
        case Circle((x, y), r):
            return (x - r, y - r), (x + r, y + r)
        case Text() as text:
            return tuple([p for path in text_paths(text) for p in path.points])
        case shape:
            raise TypeError(f"a flat item is a path, a circle or a text, got {shape!r}")


def label(key: str, string: str, at: Point, height: float, anchor: Anchor = Anchor.START) -> Item:
    """A line of text."""
    return Item(Role.LABEL, key, Text(string=string, at=at, height=height, anchor=anchor))


def scale_square(at: Point) -> tuple[Item, ...]:
    """Two squares, 100 mm and inside it 3 in, each labelled; `at` is the lower left corner."""
    motion = Motion(1.0, 0.0, *at)
    inner = SCALE_INCHES * INCH_MM
    inset = (SCALE_MM - inner) / 2
    shapes = (
        Path(_square(0.0, SCALE_MM), closed=True),
        Path(_square(inset, inner), closed=True),
        Text(string="100 mm", at=(SCALE_MM / 2, 2.9), height=6.0, anchor=Anchor.MIDDLE),
        Text(
            string=f"{SCALE_INCHES} in",
            at=(SCALE_MM / 2, inset + 2.9),
            height=6.0,
            anchor=Anchor.MIDDLE,
        ),
    )
    return tuple(move(motion, Item(Role.SCALE, "scale", s)) for s in shapes)


def _square(low: float, side: float) -> tuple[Point, ...]:
    high = low + side
    return (low, low), (high, low), (high, high), (low, high)


def unknown_letters(outputs: Iterable[Output]) -> tuple[str, ...]:
    """Letters of drawn texts that the single-line font lacks, in order of first use."""
    strings = (
        item.shape.string
        for output in outputs
        for drawing in output.document.sheets
        for item in drawing.items
        if isinstance(item.shape, Text)
    )
    return missing_letters("".join(strings))
