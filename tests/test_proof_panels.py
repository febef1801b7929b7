"""A joined backing: its panels, where its seams lie, and what the proof finds of a spoiled one."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from cloths import kit as made_kit

from cutpaths.errors import InputError
from cutpaths.geometry.assembly import Grain, Piece
from cutpaths.geometry.marks import MarkKind
from cutpaths.lengths import INCH
from cutpaths.pieces import Kit
from cutpaths.proof import prove
from cutpaths.proof.panels import panels
from cutpaths.shapes import Motion, shift
from cutpaths.values import Value, replace

IN = float(INCH)


def joined(join: str = 'join = { seams = 1, run = "down" }', columns: int = 10) -> Kit:
    """Ten squares across: a backing of 53 1/2 in, joined."""
    return made_kit(columns=columns, backing=join)


def spoiled(kit: Kit, change: Callable[[Piece], Piece], number: int = 1) -> Kit:
    """The kit with one of its panels changed."""
    assert kit.panels is not None
    parts = [
        change(part) if isinstance(part, Piece) and part.key == f"PANEL-{number}" else part
        for part in kit.panels.parts
    ]
    return replace(kit, panels=replace(kit.panels, parts=tuple(parts)))


def _shifted(kit: Kit, mm: float) -> Kit:
    """The joining seam elsewhere: one panel wider, the other as much narrower."""
    assert kit.panels is not None

    def grow(piece: Piece) -> Piece:
        right = max(x for x, _ in piece.outline)
        ring = tuple((x + (mm if x == right else 0.0), y) for x, y in piece.outline)
        marks = tuple(
            replace(m, points=tuple((x + mm, y) for x, y in m.points))
            if m.kind is MarkKind.STITCH
            else m
            for m in piece.marks
        )
        return replace(piece, outline=ring, marks=marks)

    def shrink(piece: Piece) -> Piece:
        right = max(x for x, _ in piece.outline)
        ring = tuple((x - (mm if x == right else 0.0), y) for x, y in piece.outline)
        return replace(
            piece, outline=ring, places=tuple(p.then(shift(mm, 0.0)) for p in piece.places)
        )

    return spoiled(spoiled(kit, grow), shrink, 2)


def _without_seam(piece: Piece) -> Piece:
    return replace(piece, marks=tuple(m for m in piece.marks if m.kind is not MarkKind.STITCH))


def _wider(piece: Piece) -> Piece:
    """Cut a quarter inch wider at its outer edge."""
    return replace(piece, outline=tuple((x - 6.35 if x == 0.0 else x, y) for x, y in piece.outline))


def _less_allowance(piece: Piece) -> Piece:
    right = max(x for x, _ in piece.outline)
    ring = tuple((x - 3.0 if x == right else x, y) for x, y in piece.outline)
    return replace(piece, outline=ring)


class Case(Value):
    """What is spoiled, and the checks that must fail."""

    name: str
    damage: Callable[[Kit], Kit]
    checks: frozenset[str]


CASES = (
    Case("seam left out", lambda k: spoiled(k, _without_seam), frozenset({"panels-mated"})),
    Case(
        "place beside its neighbour's seam",
        lambda k: spoiled(
            k, lambda p: replace(p, places=tuple(x.then(shift(2.0, 0.0)) for x in p.places)), 2
        ),
        frozenset({"panels-placed"}),
    ),
    Case("cut too wide", lambda k: spoiled(k, _wider), frozenset({"panels-tile"})),
    Case(
        "allowance shaved",
        lambda k: spoiled(k, _less_allowance),
        frozenset({"panels-allowance"}),
    ),
    Case(
        "nap the other way",
        lambda k: spoiled(k, lambda p: replace(p, grain=Grain((0.0, -1.0), headed=True))),
        frozenset({"panels-one-way"}),
    ),
    Case("seam on a center", lambda k: _shifted(k, IN / 2), frozenset({"panels-clear"})),
)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_damage_is_found(case: Case) -> None:
    """The check meant to find a damage fails, and no other one of the panels."""
    assert {c.name for c in panels(case.damage(joined())) if not c.passed} == case.checks


def test_every_check_is_damaged() -> None:
    """No check of the panels is without a damage that makes it fail."""
    assert {c.name for c in panels(joined())} == set().union(*(case.checks for case in CASES))


@pytest.mark.parametrize("seams", [1, 2])
@pytest.mark.parametrize("run", ["down", "across"])
def test_chosen_joins_are_sound(seams: int, run: str) -> None:
    """One or two seams, down or across: the whole proof holds."""
    kit = joined(f'join = {{ seams = {seams}, run = "{run}" }}')
    assert prove(kit).failed == ()
    assert kit.panels is not None
    assert len(kit.panels.parts) == seams + 1


def test_panels_take_the_place_of_the_backing() -> None:
    """A joined kit cuts panels: together as wide as the backing and an inch for the seam."""
    kit = joined()
    panels_cut = [p for p in kit.cloth if p.key.startswith("PANEL")]
    assert [p.key for p in panels_cut] == ["PANEL-1", "PANEL-2"]
    assert sum(p.size[0] for p in panels_cut) == pytest.approx(kit.backing.size[0] + IN, abs=1e-9)
    assert kit.backing not in kit.cloth


def test_the_middle_is_kept_clear() -> None:
    """A seam would like the middle, where the centers are: it lies half an inch beside it."""
    kit = joined()
    assert kit.panels is not None
    x = kit.panels.seams[0].start[0]
    assert x == pytest.approx(kit.backing.size[0] / 2 - IN / 2, abs=IN / 8)


def test_no_panels_no_checks() -> None:
    """A backing in one has no checks of panels."""
    assert panels(made_kit()) == ()


@pytest.mark.parametrize(
    ("at", "told"),
    [("27", "a center mark"), ("3", "a miter"), ("4", "a dot")],
)
def test_a_place_asked_for_must_be_clear(at: str, told: str) -> None:
    """A seam on a mark is refused, with the mark and the place."""
    with pytest.raises(InputError) as caught:
        joined(f'join = {{ seams = 1, run = "down", at = [{at}] }}')
    assert str(caught.value) == (
        f"`backing.join.at` must keep off {told}, got {at} in. Leave `at` out to have it chosen, "
        "or try 2 seams"
    )


def test_rigid() -> None:
    """A panel's place turns nothing."""
    kit = joined()
    assert kit.panels is not None
    assert all(
        replace(place, dx=0.0, dy=0.0) == Motion()
        for p in kit.panels.pieces()
        for place in p.places
    )
