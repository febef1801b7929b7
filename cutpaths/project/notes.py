"""What a person should know about a project that is no error, one sentence each."""

from __future__ import annotations

from collections.abc import Iterator
from string import ascii_uppercase

from cutpaths.lengths import INCH
from cutpaths.project.borders import Borders, Edge, borders_of, found, sizes_of
from cutpaths.project.layout_notes import layout_notes
from cutpaths.project.measured_words import measured_notes
from cutpaths.project.model import BackingCorners, Patchwork, Top
from cutpaths.project.seams import Seams
from cutpaths.project.shape import FileTable

NARROW = INCH / 2  # narrower borders are hard to turn and to press (common practice, no source)


def notes_of(file: FileTable, top: Top, edge: Edge) -> Iterator[str]:
    """Every note, in the order of the file's tables."""
    yield from _outline_notes(edge)
    borders = borders_of(file.border, edge)
    yield from _narrow_notes(borders, edge)
    yield from measured_notes(edge.measured)
    if file.border.width is None:
        yield from _found_notes(file, borders, edge)
    yield from layout_notes(file, top)
    trimmed = file.backing.corners is BackingCorners.TRIMMED
    if trimmed and isinstance(top, Patchwork) and file.measured is None:
        yield (
            "The backing's corners are trimmed beforehand, but a pieced top seldom comes out "
            "exact: measure it and give [measured], or leave the corners on."
        )
    if file.filling is not None:
        yield from _filling_notes(edge.seams)


def _filling_notes(seams: Seams) -> Iterator[str]:
    """How a filling goes in (common practice, no source), and what its thickness takes."""
    if seams.folded_over:
        yield (
            "The filling is laid between backing and top before the backing's edge is folded; the "
            "stitching of the border holds it."
        )
        return
    yield (
        "The filling goes in once the blanket is turned: slide it through the opening and smooth "
        "it out to the folds all round; stitching along the border's seam holds it."
    )
    if not seams.turn:
        yield "A thick filling makes the blanket smaller: `turn_of_cloth` allows for it."


def _outline_notes(edge: Edge) -> Iterator[str]:
    """How the sides are lettered where that is not as written."""
    if edge.ring is None:
        return
    new = {
        edge.letters[written]: ascii_uppercase[index]
        for index, sides in enumerate(edge.ring.sides)
        for written in sides
    }
    if edge.ring.turned:
        yield "The outline's points run clockwise; its sides are lettered counter-clockwise."
    if len(edge.ring.points) < edge.sides:
        yield "The outline has points in the middle of straight sides; they are left out."
    moved = [f"{old} of the file is {now}" for old, now in sorted(new.items()) if old != now]
    if moved:
        yield f"Sides are lettered anew, each with its own border: {', '.join(moved)}."


def _narrow_notes(borders: Borders, edge: Edge) -> Iterator[str]:
    narrow = [letter for letter, b in zip(edge.letters, borders, strict=True) if b < NARROW]
    if narrow:
        least = edge.seams.text(min(borders))
        sides = "all round" if len(narrow) == len(borders) else f"at side {', '.join(narrow)}"
        yield (
            f"The border is narrow {sides} ({least}): under {edge.seams.text(NARROW)} it is hard "
            "to turn and to press."
        )


def _found_notes(file: FileTable, borders: Borders, edge: Edge) -> Iterator[str]:
    """What a backing or a finished size has made of the border."""
    seams: Seams = edge.seams
    down, across = borders[:2]
    if across != down:
        yield (
            f"The border is {seams.text(across)} at left and right and {seams.text(down)} at head "
            "and foot."
        )
    before = found(file.border, edge) or (across, down)
    if (across, down) != before and edge.raw is not None:
        backing, finished = sizes_of(borders, edge.raw, seams)
        yield (
            f"The border is rounded from {seams.by(before)} to {seams.by((across, down))} "
            f"(left and right x head and foot): the backing is {seams.by(backing)}, "
            f"the blanket {seams.by(finished)}."
        )
