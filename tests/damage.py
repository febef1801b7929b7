"""Ways to spoil one piece of a kit, as a slip of the scissors or of the program would."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from cutpaths.geometry.assembly import Assembly, Piece
from cutpaths.geometry.layouts.pairs import SewnPair
from cutpaths.geometry.marks import Mark, MarkKind
from cutpaths.geometry.polygons import Ring, along
from cutpaths.pieces import CornerTemplate, Kit
from cutpaths.shapes import Circle, Motion, Path, Point, shift
from cutpaths.values import replace

Damage = Callable[[Kit], Kit]
PieceDamage = Callable[[Piece], Piece]


def top(change: PieceDamage) -> Damage:
    """Spoils the top as sewn, which is all of a patchwork of one cloth."""

    def spoil(kit: Kit) -> Kit:
        spoiled = change(kit.top)
        whole = kit.patchwork if kit.pieced else replace(kit.patchwork, parts=(spoiled,))
        return replace(kit, top=spoiled, patchwork=whole)

    return spoil


def backing(change: PieceDamage) -> Damage:
    """Spoils the backing."""
    return lambda kit: replace(kit, backing=change(kit.backing))


def patch(change: PieceDamage, index: int = 0) -> Damage:
    """Spoils one kind of patch."""

    def spoil(kit: Kit) -> Kit:
        parts = list(kit.patchwork.parts)
        found = parts[index]
        assert isinstance(found, Piece)
        parts[index] = change(found)
        return replace(kit, patchwork=replace(kit.patchwork, parts=tuple(parts)))

    return spoil


def patchwork(change: Callable[[Assembly], Assembly]) -> Damage:
    """Spoils the patchwork as a whole."""
    return lambda kit: replace(kit, patchwork=change(kit.patchwork))


def waste(at: str, change: Callable[[Piece], Piece | None]) -> Damage:
    """Spoils the waste of a corner, or loses it."""

    def spoil(kit: Kit) -> Kit:
        found = ((w, change(w) if w.key == f"WASTE-{at}" else w) for w in kit.waste)
        return replace(kit, waste=tuple(after for _, after in found if after is not None))

    return spoil


def template(change: PieceDamage) -> Damage:
    """Spoils the first template."""

    def spoil(kit: Kit) -> Kit:
        first, *rest = kit.templates
        return replace(kit, templates=(CornerTemplate(change(first.piece), first.corners), *rest))

    return spoil


def pair(change: Callable[[SewnPair], SewnPair]) -> Damage:
    """Spoils the first squares that are sewn in pairs."""

    def spoil(kit: Kit) -> Kit:
        first, *rest = kit.pairs
        return replace(kit, pairs=(change(first), *rest))

    return spoil


def regrained(way: Point) -> PieceDamage:
    """Cuts a piece with its threads another way, and marks its grain line so."""

    def spoil(piece: Piece) -> Piece:
        assert piece.grain is not None
        lines = (
            replace(mark, points=(mark.points[0], along(mark.points[0], way, 20.0)))
            if mark.kind is MarkKind.GRAIN
            else mark
            for mark in piece.marks
        )
        return replace(piece, grain=replace(piece.grain, way=way), marks=tuple(lines))

    return spoil


def all_of(*damages: Damage) -> Damage:
    """Several damages at once."""

    def spoil(kit: Kit) -> Kit:
        for damage in damages:
            kit = damage(kit)
        return kit

    return spoil


def both(*changes: PieceDamage) -> Damage:
    """Spoils top and backing in the same ways, so that they still agree with one another."""
    return all_of(*(piece(change) for piece in (top, backing) for change in changes))


def marks(
    kind: MarkKind, at: str, change: Callable[[Mark], Mark | None], number: int | None = None
) -> PieceDamage:
    """Changes or loses the marks of a kind at a place, or only the one with a number."""

    def spoil(piece: Piece) -> Piece:
        chosen = [m for m in piece.marks if m.kind is kind and m.at == at]
        assert chosen, f"{piece.key} has no {kind} at {at!r}"
        spoiled = chosen if number is None else [chosen[number]]
        after = (change(m) if any(m is s for s in spoiled) else m for m in piece.marks)
        return replace(piece, marks=tuple(m for m in after if m is not None))

    return spoil


def move(dx: float, dy: float, only: int | None = None) -> Callable[[Mark], Mark]:
    """Moves a mark, or only one of its points."""

    def moved(mark: Mark) -> Mark:
        points = [
            (x + dx, y + dy) if only in (None, n) else (x, y)
            for n, (x, y) in enumerate(mark.points)
        ]
        return replace(mark, points=tuple(points))

    return moved


def lose(_mark: object) -> None:
    """Loses a mark or a piece."""


def outline(change: Callable[[Ring], Sequence[Point]]) -> PieceDamage:
    """Cuts a piece otherwise."""
    return lambda piece: replace(piece, outline=tuple(change(piece.outline)))


def places(change: Callable[[tuple[Motion, ...]], Sequence[Motion]]) -> PieceDamage:
    """Sets a piece down otherwise."""
    return lambda piece: replace(piece, places=tuple(change(piece.places)))


def moved_by(dx: float, dy: float) -> PieceDamage:
    """Sets a piece down beside its places."""
    return places(lambda old: [place.then(shift(dx, dy)) for place in old])


def holes(number: int, change: Callable[[Path | Circle], Path | Circle]) -> PieceDamage:
    """Changes one cut-out."""

    def spoil(piece: Piece) -> Piece:
        after = tuple(change(h) if n == number else h for n, h in enumerate(piece.holes))
        return replace(piece, holes=after)

    return spoil


def hole_moved(dx: float, dy: float) -> Callable[[Path | Circle], Path | Circle]:
    """Moves a cut-out."""
    return shift(dx, dy).line


def renamed(names: dict[str, str]) -> PieceDamage:
    """Gives the sides of a piece other letters, on all its marks and mates.

    Corners get the name that the proof knows, if their new sides are neighbours.
    """

    def name(at: str) -> str:
        first, colon, rest = "".join(names.get(letter, letter) for letter in at).partition(":")
        known = {"AD": "DA", "BA": "AB", "CB": "BC", "DC": "CD"}
        return known.get(first, first) + colon + rest

    def spoil(piece: Piece) -> Piece:
        found = (
            replace(
                mark,
                at=name(mark.at),
                mates=tuple(replace(mate, at=name(mate.at)) for mate in mark.mates),
            )
            for mark in piece.marks
        )
        return replace(piece, marks=tuple(found))

    return spoil


def mirrored(piece: Piece) -> Piece:
    """The piece cut and marked as its own mirror image, as if its other face had been up."""
    width = piece.size[0]
    over = Motion.quarters(0, width, 0.0, mirrored=True)
    return replace(
        piece,
        outline=over.ring(piece.outline),
        marks=tuple(mark.moved(over) for mark in piece.marks),
    )
