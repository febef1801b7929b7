"""Rules of the [border] table: which keys go together, what agrees, how narrow a border may be."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from cutpaths.project import sizes
from cutpaths.project.borders import Borders, Edge, Pair, borders_of, sizes_of
from cutpaths.project.flaws import Flaw
from cutpaths.project.seams import Seams
from cutpaths.project.shape import EVERY, BorderTable
from cutpaths.source import KeyPath


def border_flaws(border: BorderTable, edge: Edge) -> Iterator[Flaw]:
    """Every rule of the border; the later ones only where the earlier hold."""
    for rules in (_key_flaws, _agreement_flaws, _straight_flaws, _width_flaws, _fold_flaws):
        flaws = list(rules(border, edge))
        yield from flaws
        if flaws:
            return


def _key_flaws(border: BorderTable, edge: Edge) -> Iterator[Flaw]:
    """Which keys go together, and which letters there are."""
    by_size = {"backing": border.backing, "finished": border.finished}
    given = [name for name, size in by_size.items() if size is not None]
    for name in given if edge.raw is None else ():
        problem = "has no place round an outline, where only `border.width` settles the border"
        yield Flaw(("border", name), problem, "Leave it out")
    if border.width is None and not given:
        hint = "Write for example `width = 2`"
        yield Flaw(("border",), "must have `width`, `backing` or `finished`", hint)
    if edge.seams.folded_over and given == ["finished"] and border.width is None:
        problem = "does not settle the border of a folded-over blanket, which finishes as its top"
        yield Flaw(("border", "finished"), problem, "Give `width` or `backing`")
    if border.nearest is not None and (border.width is not None or not given):
        problem = "has a place only where `backing` or `finished` settles the border"
        yield Flaw(("border", "nearest"), problem, "Leave it out")
    if border.width is not None and EVERY not in border.width:
        yield from _letter_flaws(border.width, edge.letters)


def _letter_flaws(width: dict[str, Fraction], letters: str) -> Iterator[Flaw]:
    names = ", ".join(letters)
    missing = [letter for letter in letters if letter not in width]
    if missing:
        problem = f"must give a width for each of {names}, has none for {', '.join(missing)}"
        yield Flaw(("border", "width"), problem)
    for letter in width:
        if letter not in letters:
            problem = f"is not a side of this top, whose sides are {names}"
            yield Flaw(("border", "width", letter), problem)


def _agreement_flaws(border: BorderTable, edge: Edge) -> Iterator[Flaw]:
    """Every size beside the one that settles the border must follow from it exactly."""
    if edge.raw is None:
        return
    exactly = BorderTable(width=border.width, backing=border.backing, finished=border.finished)
    made = sizes_of(borders_of(exactly, edge), edge.raw, edge.seams)
    settler = "width" if border.width is not None else "backing" if border.backing else "finished"
    for name, size, due in (
        ("backing", border.backing, made[0]),
        ("finished", border.finished, made[1]),
    ):
        if size is None or name == settler or (size.width, size.height) == due:
            continue
        problem = (
            f"disagrees with `border.{settler}`, which makes it {edge.seams.by(due)}, "
            f"got {edge.seams.by((size.width, size.height))}"
        )
        yield Flaw(("border", name), problem, "Give only one of the two")


def _straight_flaws(border: BorderTable, edge: Edge) -> Iterator[Flaw]:
    """Written sides that make one straight side must have one border."""
    borders = borders_of(border, edge)
    for first, *others in edge.ring.sides if edge.ring else ():
        for other in others:
            if borders[other] != borders[first]:
                one, two = edge.letters[first], edge.letters[other]
                problem = (
                    f"must be as wide as {one}, since both lie on one line, "
                    f"{edge.seams.text(borders[first])}, got {edge.seams.text(borders[other])}"
                )
                yield Flaw(("border", "width", two), problem)


def _width_flaws(border: BorderTable, edge: Edge) -> Iterator[Flaw]:
    """How wide each border must be for its seams, its dots and its miters."""
    borders = borders_of(border, edge)
    if border.width is None:
        yield from _size_flaws(border, edge, (borders[1], borders[0]))
        return
    told: set[KeyPath] = set()
    for letter, width in zip(edge.letters, borders, strict=True):
        every = EVERY in border.width
        path: KeyPath = ("border", "width") if every else ("border", "width", letter)
        if path not in told and not _is_wide(width, edge.seams):
            told.add(path)
            rule = f"{_rule(edge.seams)} to hide {_hidden(edge.seams)}"
            problem = f"must be {rule}, got {edge.seams.text(width)}"
            yield Flaw(path, problem, _wider(edge.seams))


def _size_flaws(border: BorderTable, edge: Edge, borders: Pair) -> Iterator[Flaw]:
    """The same where a size settles the border: then the size is what is too small."""
    seams, raw = edge.seams, edge.raw or borders
    name, given = ("backing", border.backing) if border.backing else ("finished", border.finished)
    for axis, word in ((0, "wide"), (1, "high")):
        if given is None or _is_wide(borders[axis], seams):
            continue
        if border.nearest is not None:
            rule = f"{_rule(seams)} to hide {_hidden(seams)}"
            problem = f"must leave a border of {rule}, leaves {seams.text(borders[axis])}"
            yield Flaw(("border", "nearest"), problem, "Make the step smaller")
            return
        both = 2 * _least(seams)
        needed = (
            sizes.backing(raw[axis], both, seams.turn)
            if name == "backing"
            else sizes.finished(raw[axis], both, seams.allowance)
        )
        got = (given.width, given.height)[axis]
        more = "more than" if seams.folded_over else "at least"
        problem = (
            f"must be {more} {seams.text(needed)} {word} for a border of "
            f"{seams.text(_least(seams))} to hide {_hidden(seams)}, got {seams.text(got)}"
        )
        yield Flaw(("border", name), problem, _larger(seams))


def _least(seams: Seams) -> Fraction:
    """The narrowest border; a folded-over one must be wider still.

    Turned, the allowances of the border seam and of the miter lie under the border. Folded over,
    its first fold must cover the top's allowance.
    """
    if seams.folded_over:
        return seams.allowance
    return max(_folded_in(seams), seams.trim)


def _folded_in(seams: Seams) -> Fraction:
    """What the border's seam and its fold take; a folded-over border has no turn."""
    return seams.allowance + seams.turn / 2


def _hidden(seams: Seams) -> str:
    """What the narrowest border has just room for."""
    if not seams.folded_over and seams.trim > _folded_in(seams):
        return "the miter's allowance"
    return "the seam allowance and half the turn of cloth" if seams.turn else "the seam allowance"


def _wider(seams: Seams) -> str:
    other = _too_large(seams)
    return f"Make the border wider or {other} smaller" if other else "Make the border wider"


def _larger(seams: Seams) -> str:
    other = _too_large(seams)
    more = f", or the top or {other} smaller" if other else " or the top smaller"
    return f"Make it larger{more}"


def _too_large(seams: Seams) -> str:
    """What alone keeps a border from being narrower; empty where two things do."""
    if seams.folded_over or _folded_in(seams) > seams.trim:
        return "the seam allowance"
    return "the miter" if seams.trim > _folded_in(seams) else ""


def _is_wide(width: Fraction, seams: Seams) -> bool:
    return width > _least(seams) if seams.folded_over else width >= _least(seams)


def _rule(seams: Seams) -> str:
    return f"{'more than' if seams.folded_over else 'at least'} {seams.text(_least(seams))}"


def _fold_flaws(border: BorderTable, edge: Edge) -> Iterator[Flaw]:
    """A folded-over corner must hide the trim of its tip."""
    borders: Borders = borders_of(border, edge) if edge.seams.folded_over else ()
    for index, first in enumerate(borders):
        following = (index + 1) % len(borders)
        second = borders[following]
        if not sizes.trim_fits(edge.seams.trim, first, second):
            most = 2 * float(first * second) / float(first**2 + second**2) ** 0.5
            corner = edge.letters[index] + edge.letters[following]
            problem = (
                f"must fit under the borders at corner {corner}, which hide "
                f"{edge.seams.text(Fraction(most))}, got {edge.seams.text(edge.seams.trim)}"
            )
            yield Flaw(("seams", "miter"), problem, "Make it smaller or the border wider")
            return
