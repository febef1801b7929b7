"""Cards of corner templates: each says what it is, inside its outline, and a machine draws it."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path as Folder

import pytest
from builders import folded_over, panel, project, regular
from machine_samples import SOUND
from shapely import Point as Place
from shapely import Polygon, box
from shapely.affinity import rotate, translate
from shapely.geometry.base import BaseGeometry
from shapely.ops import unary_union

from cutpaths.geometry.assembly import Piece
from cutpaths.machine.bed import Bed
from cutpaths.machine.bed_reading import load as load_bed
from cutpaths.machine.bed_reading import read
from cutpaths.pieces import Kit, build
from cutpaths.project import load
from cutpaths.roles import Role
from cutpaths.shapes import Circle, Text
from cutpaths.sheets.beds import bed_run
from cutpaths.sheets.card_texts import CLEAR, card_texts
from cutpaths.sheets.clear_places import text_box
from cutpaths.sheets.cutter import machine_items
from cutpaths.sheets.sheet import Wishes
from cutpaths.sheets.unmarked_cards import unmarked_cards

FIXTURES = sorted((Folder(__file__).parent.parent / "fixtures").glob("*.toml"))
HALF = Fraction(1, 2)
KITS = {path.stem: build(load(path)) for path in FIXTURES} | {
    "four borders": build(project(panel(20, 30), [2, 3, 4, 5])),
    "narrow": build(project(panel(20, 30), [HALF, 1, HALF, 1])),
    "steep": build(project(panel(20, 30), [1, 5, 1, 5])),
    "octagon": build(project(regular(8, 12), [1 + HALF, 2] * 4)),
    "triangle": build(project(regular(3, 30), [2] * 3)),
    "folded over": build(project(panel(20, 30), [1, 2, 1, 2], folded_over())),
}
BEDS = FIXTURES[0].parent / "beds"


def _cut(piece: Piece) -> BaseGeometry:
    """The card with its holes and slots."""
    holes = [
        Place(hole.center).buffer(hole.radius) if isinstance(hole, Circle) else Polygon(hole.points)
        for hole in piece.holes
    ]
    return Polygon(piece.outline).difference(unary_union(holes))


def _strings(kit: Kit, piece: Piece) -> list[str]:
    return [text.string for text in card_texts(kit, piece)]


@pytest.mark.parametrize("name", KITS)
def test_each_card_has_its_name_its_face_its_corners_and_its_ends(name: str) -> None:
    """Nothing of what tells one card from another, or one way of laying it, is left out."""
    kit = KITS[name]
    for template in kit.templates:
        *ends, _ = said = _strings(kit, template.piece)
        words = " ".join(said)
        assert template.piece.key in words
        assert all(corner in words for corner in template.corners)
        assert ("this face up" if template.raw_edges else "either face up") in words
        for number, edge in enumerate(template.raw_edges):
            assert ends[number] == f"{', '.join(edge.sides)} end"


@pytest.mark.parametrize("name", KITS)
def test_texts_stay_on_the_card(name: str) -> None:
    """Capitals of 2.5 mm at least, off the outline and all cut-outs, and off one another."""
    kit = KITS[name]
    for template in kit.templates:
        texts = card_texts(kit, template.piece)
        rooms = [Polygon(text_box(text, 0.0)) for text in texts]
        free = _cut(template.piece).buffer(-CLEAR * 0.9)
        assert min(text.height for text in texts) >= 2.5
        assert all(free.contains(room) for room in rooms)
        for n, room in enumerate(rooms):
            assert all(room.disjoint(other) for other in rooms[n + 1 :])


@pytest.mark.parametrize("name", ["four borders", "steep", "octagon", "doorway", "fjord"])
def test_an_end_is_named_beside_it(name: str) -> None:
    """The name of an end stands nearer to that end than to the other."""
    kit = KITS[name]
    for template in kit.templates:
        texts = card_texts(kit, template.piece)
        ends = [Polygon([edge.start, edge.end, edge.start]) for edge in template.raw_edges]
        for n in (0, 1):
            room = Polygon(text_box(texts[n], 0.0))
            assert room.distance(ends[n].boundary) < room.distance(ends[1 - n].boundary)


def test_text_boxes_of_this_test_follow_the_angle() -> None:
    """The box of a turned text is that of the level one, turned about its place."""
    level = Text(string="A end", at=(3.0, 4.0), height=3.0)
    turned = Text(string="A end", at=(3.0, 4.0), height=3.0, angle=30.0)
    wanted = rotate(Polygon(text_box(level, 0.0)), 30.0, origin=(3.0, 4.0))
    assert Polygon(text_box(turned, 0.0)).symmetric_difference(wanted).area < 1e-9
    moved = translate(box(0.0, 0.0, 1.0, 1.0), 3.0, 4.0)
    assert not moved.disjoint(Polygon(text_box(level, 0.0)))


@pytest.mark.parametrize("name", KITS)
def test_a_machine_draws_on_card_unasked_and_on_cloth_not(name: str) -> None:
    """Card is no cloth: nothing shows through."""
    kit = KITS[name]
    for template in kit.templates:
        items = machine_items(kit, template.piece, Wishes())
        drawn = [i.shape.string for i in items if isinstance(i.shape, Text)]
        assert drawn == _strings(kit, template.piece)
    for piece in kit.cloth:
        assert all(i.role is not Role.LABEL for i in machine_items(kit, piece, Wishes()))


def _labelled(kit: Kit, bed: Bed) -> set[str]:
    """Keys of the pieces that have text on some bed."""
    return {
        item.key
        for output in bed_run(kit, bed, 1).outputs
        if output.name.startswith("bed-") and "svg" in output.formats
        for item in output.document.sheets[0].items
        if item.role is Role.LABEL
    }


def test_on_a_bed_the_pen_names_cards_and_cloth_only_where_asked() -> None:
    """A bed file with a pen names every card; `label` names cloth too, or nothing at all."""
    kit = build(project(panel(8, 8), [2, 2, 2, 2]))
    cards = {template.piece.key.lower() for template in kit.templates}
    assert _labelled(kit, read(SOUND)) == cards
    asked = _labelled(kit, read(f'{SOUND}\n[roles]\nlabel = "pen"\n'))
    assert asked == cards | {"backing"}
    assert _labelled(kit, read(f'{SOUND}\n[roles]\nlabel = "none"\n')) == set()


def test_without_a_pen_the_report_says_what_to_write() -> None:
    """A laser alone: every card with an edge to know it by, and which end is which."""
    kit = KITS["four borders"]
    laser = load_bed(BEDS / "loft-laser.toml")
    first, *lines = unmarked_cards(kit, laser)
    assert first == (
        "Nothing is drawn on them here: write on each what it is, before you turn it over."
    )
    keys = [template.piece.key for template in kit.templates]
    assert [line.partition(",")[0] for line in lines] == keys
    for line, template in zip(lines, kit.templates, strict=True):
        for edge in template.raw_edges:
            assert f"in is the {edge.sides[0]} end" in line
        assert f"this face up for corner {template.corners[0]}" in line
    longest = [line.partition("longest edge ")[2].partition(":")[0] for line in lines]
    assert len(set(longest)) == len(lines)
    report = bed_run(kit, laser, 1).report
    assert report[report.index("Cards") + 1 :][: len(lines) + 1] == tuple(
        f"- {line}" for line in (first, *lines)
    )
    assert unmarked_cards(kit, read(SOUND)) == ()
    assert "Cards" not in bed_run(kit, read(SOUND), 1).report
