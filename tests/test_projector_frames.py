"""Frames: as few as can be, each lined up, alike ones shared, errors that do not add up."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
import rigs
from builders import panel, project, squares

from cutpaths.errors import InputError
from cutpaths.geometry.assembly import Piece
from cutpaths.geometry.marks import Mark, MarkKind, select
from cutpaths.geometry.polygons import box
from cutpaths.lengths import INCH, Ruler, Unit
from cutpaths.pieces import build
from cutpaths.project import load
from cutpaths.projector.cover import bound, fits, holds
from cutpaths.projector.frame_words import words_of
from cutpaths.projector.frames import Plan, Room, plan, room_of
from cutpaths.projector.lining_up import Hold
from cutpaths.projector.needs import Wanted, needs_of
from cutpaths.projector.view import view_of
from cutpaths.shapes import Motion
from cutpaths.sheets.stations import planned, unplanned
from cutpaths.values import replace

FIXTURES = Path(__file__).parent.parent / "fixtures"
# The picture of 40 x 22 in on a blanket of 46 in.
ROOM = Room(40 * 25.4, 22 * 25.4, Motion())
SMALL = Room(500.0, 300.0, Motion())
INCHES = Ruler(Unit.INCH, INCH / 8)
ALL, CORNERS = Wanted.ALL, Wanted.CORNERS


def square_backing() -> Piece:
    """A backing of 46 in: top 36 in raw, borders 2 1/2 in."""
    return build(project(squares(8, 8), (2.5,) * 4)).backing  # type: ignore[arg-type]


@pytest.mark.parametrize("wanted", list(Wanted))
@pytest.mark.parametrize("room", [ROOM, SMALL], ids=["large", "small"])
@pytest.mark.parametrize("name", ["tidepool", "beehive"])
def test_every_mark_is_in_some_frame(name: str, room: Room, wanted: Wanted) -> None:
    """Each thing wanted lies whole in a placement's window, and the window in the room."""
    kit = build(load(FIXTURES / f"{name}.toml"))
    for piece in (kit.backing, kit.top):
        made = plan(piece, room, wanted, 0.5)
        windows = [placement.window.box for placement in made.placements]
        for need in needs_of(piece, wanted, min(room.width, room.height)):
            assert any(holds(window, need.box) for window in windows), need
        for placement in made.placements:
            left, bottom, right, top = box(
                [placement.motion.point(p) for p in _corners(placement.window.box)]
            )
            assert min(left, bottom) > -1e-6
            assert right < room.width + 1e-6
            assert top < room.height + 1e-6
        assert made.least <= len(made.placements)


def _corners(window: tuple[float, float, float, float]) -> tuple[tuple[float, float], ...]:
    return (window[0], window[1]), (window[2], window[3])


@pytest.mark.parametrize(
    ("name", "wanted", "count", "frames"),
    [("tidepool", CORNERS, 2, 1), ("tidepool", ALL, 2, 2), ("boathouse", CORNERS, 4, 2)],
)
def test_known_counts(name: str, wanted: Wanted, count: int, frames: int) -> None:
    """Counts that were found by hand; the bound shows that no fewer will do."""
    room = Room(1100.0, 620.0, Motion()) if name == "tidepool" else ROOM
    made = plan(build(load(FIXTURES / f"{name}.toml")).backing, room, wanted, 0.5)
    assert (len(made.placements), made.frames, made.least) == (count, frames, count)


def test_alike_corners_share_one_frame() -> None:
    """A square blanket of 46 in: four placements, quarter turns of the cloth, one picture."""
    made = plan(square_backing(), ROOM, CORNERS, 0.5)
    assert (len(made.placements), made.frames, made.least) == (4, 1, 4)
    turns = {round(placement.motion.degrees / 90) % 4 for placement in made.placements}
    assert turns == {0, 1, 2, 3}


def test_unlike_corners_do_not_share() -> None:
    """Four different borders: no two corners look alike, and none shares a frame."""
    backing = build(project(panel(36, 36), (2, 3, 4, 5))).backing
    made = plan(backing, SMALL, CORNERS, 0.5)
    assert made.frames == len(made.placements)


def test_raw_edges_come_first() -> None:
    """A corner is laid on its two raw edges; earlier marks serve only where one edge is in view."""
    made = plan(square_backing(), SMALL, CORNERS, 0.5)
    assert [placement.lining_up.hold for placement in made.placements[:4]] == [Hold.CORNER] * 4
    for placement in made.placements[4:]:
        assert placement.lining_up.hold in (Hold.EDGE_AND_MARK, Hold.EDGE_AND_PIN)
        assert len(placement.lining_up.edges) == 1


def test_errors_do_not_add_up_on_edges() -> None:
    """Placements on two raw edges are all alike sure; one on an earlier mark carries its error."""
    made = plan(square_backing(), SMALL, ALL, 0.5)
    corner = [p.error for p in made.placements if p.lining_up.hold is Hold.CORNER]
    marked = [p.error for p in made.placements if p.lining_up.hold is Hold.EDGE_AND_MARK]
    assert max(corner) < 1.5
    assert min(marked) > min(corner)
    assert max(marked) < 4.0


def test_words_say_how_to_move() -> None:
    """Each placement says how to get there and what to lay on what."""
    made = plan(square_backing(), ROOM, CORNERS, 0.5)
    first, second, *_ = words_of(made, INCHES)
    assert first[0].startswith("Lay the backing wrong side up, side ")
    assert first[1].startswith("Lay raw edges ")
    assert second[0].startswith("Turn the cloth ")
    pattern = r"side ([A-D]) toward the picture's foot"
    sides = [found[1] for move, _ in (first, second) for found in re.finditer(pattern, move)]
    assert len(set(sides)) == 2


def test_each_frame_names_the_side_at_its_foot() -> None:
    """Four quarter turns of a square: each side comes to the foot once, and the title says which.

    The side at the foot is the one whose raw edge lies lowest on the table.
    """
    piece = square_backing()
    made = plan(piece, ROOM, CORNERS, 0.5)
    stations = planned(made, CORNERS, INCHES)
    found = []
    for station, placement in zip(stations, made.placements, strict=True):
        ring = [placement.motion.point(p) for p in piece.outline]
        lowest = min(range(4), key=lambda n: ring[n][1] + ring[(n + 1) % 4][1])
        assert station.title.endswith(f", side {'ABCD'[lowest]} toward the picture's foot")
        found.append("ABCD"[lowest])
    assert sorted(found) == ["A", "B", "C", "D"]
    alone = unplanned(piece, CORNERS)
    assert {station.words[0] for station in alone} == {
        "Lay the backing wrong side up, side A toward the picture's foot."
    }


def test_bound_of_boxes_apart() -> None:
    """Boxes of which no two fit into one window need one window each."""
    spots = [(0.0, 0.0), (900.0, 0.0), (900.0, 900.0), (0.0, 900.0), (10.0, 10.0)]
    boxes = [(x, y, x + 20.0, y + 20.0) for x, y in spots]
    assert bound((500.0, 300.0), boxes, 2) == 4
    assert not fits((500.0, 300.0), (0.0, 0.0, 400.0, 400.0))
    assert fits((500.0, 300.0), (0.0, 0.0, 300.0, 500.0))


def told(piece: Piece, room: Room, wanted: Wanted) -> str:
    """The one line about frames that cannot be."""
    with pytest.raises(InputError) as caught:
        plan(piece, room, wanted, 0.5)
    return str(caught.value)


def test_a_mark_that_no_frame_holds() -> None:
    """A corner larger than the picture is named with both sizes."""
    assert told(square_backing(), Room(120.0, 90.0, Motion()), CORNERS) == (
        "`picture` holds 120 x 90 mm, and corner DA of the BACKING needs 139 x 139 mm. "
        "Raise the projector"
    )


def test_a_frame_that_nothing_lines_up() -> None:
    """A line far from every raw edge and mark, in a small picture: the line says what to do."""
    backing = square_backing()
    lonely = Mark(MarkKind.STITCH, "A", ((560.0, 580.0), (600.0, 580.0)))
    bare = replace(backing, marks=(*select(backing.marks, MarkKind.CENTER), lonely))
    line = told(bare, SMALL, ALL)
    assert line.startswith("`picture` shows neither a raw edge nor two earlier marks beside ")


@pytest.mark.parametrize("name", sorted(rigs.CAMERAS))
def test_the_room_is_in_the_picture(name: str) -> None:
    """Every corner of the frames' rectangle is in the picture, a margin from its edges."""
    view = view_of(1920, 1080, rigs.CAMERAS[name])
    room = room_of(view, 15.0)
    size = room.width, room.height
    for corner in ((0.0, 0.0), (size[0], 0.0), size, (0.0, size[1])):
        x, y = view.pixel(room.motion.point(corner))
        assert 0 < x < 1920
        assert 0 < y < 1080
    assert room.width * room.height > 250_000


def test_a_margin_that_leaves_nothing() -> None:
    """A margin of half the picture is refused."""
    view = view_of(1920, 1080, rigs.CAMERAS["straight"])
    with pytest.raises(InputError, match=r"^`cloth.margin` leaves nothing of the picture"):
        room_of(view, 400.0)


def test_a_plan_counts_its_frames() -> None:
    """Frames are counted once, however many placements show them."""
    made: Plan = plan(square_backing(), ROOM, CORNERS, 0.5)
    assert {placement.frame for placement in made.placements} == {1}
