"""Rules between the keys of a rig file; each finding names its key."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from cutpaths.lengths import exact_text
from cutpaths.project.flaws import Flaw
from cutpaths.project.words import word_flaws
from cutpaths.projector.rig import usual_inset
from cutpaths.projector.rig_shape import RigTable

TAPE_MOST = Fraction(50)  # mm; what is read no better than this calibrates nothing
USUAL_WITHIN = Fraction(1)  # mm; common practice, no source
USUAL_MARGIN = Fraction(15)  # mm
_TWICE = 4  # readings of one distance agree within this many standard deviations


def rig_flaws(file: RigTable) -> Iterator[Flaw]:
    """All that a rig file has wrong beside the shape of its tables."""
    yield from word_flaws(("name",), file.name)
    yield from _picture_flaws(file)
    yield from _distance_flaws(file)
    yield from _position_flaws(file)
    yield from _lens_flaws(file)
    within = file.tape.within
    if within is not None and within > TAPE_MOST:
        got = exact_text(within, file.units)
        yield Flaw(
            ("tape", "within"), f"must be at most {exact_text(TAPE_MOST, file.units)}, got {got}"
        )


def within_of(file: RigTable) -> Fraction:
    """What a reading is usually off by."""
    return file.tape.within or USUAL_WITHIN


def pair_of(name: str) -> tuple[int, int]:
    """The crosses that a key of [distances] names, the lower number first."""
    first, second = sorted(int(part) for part in name.split("-"))
    return first, second


def _picture_flaws(file: RigTable) -> Iterator[Flaw]:
    picture = file.picture
    inset = picture.inset or usual_inset(picture.width, picture.height)
    most = min(picture.width, picture.height) // 4
    if inset > most:
        yield Flaw(("picture", "inset"), f"must be at most {most} pixels, got {inset}")


def _distance_flaws(file: RigTable) -> Iterator[Flaw]:
    last = file.picture.columns * file.picture.rows
    seen: dict[tuple[int, int], str] = {}
    slack = _TWICE * within_of(file)
    for name, mm in file.distances.items():
        path, pair = ("distances", name), pair_of(name)
        if pair[0] == pair[1]:
            yield Flaw(path, "must be between two different crosses")
        elif pair[1] > last:
            yield Flaw(path, f"must name crosses from 1 to {last}, got {pair[1]}")
        first = seen.setdefault(pair, name)
        if first != name and abs(mm - file.distances[first]) > slack:
            both = (
                f"{exact_text(mm, file.units)} and {exact_text(file.distances[first], file.units)}"
            )
            problem = f"must agree with `{first}`, the same distance: got {both}"
            yield Flaw(path, problem, "Measure it again and keep one")


def _position_flaws(file: RigTable) -> Iterator[Flaw]:
    last = file.picture.columns * file.picture.rows
    seen: dict[tuple[Fraction, Fraction], str] = {}
    for name, place in file.positions.items():
        if int(name) > last:
            yield Flaw(("positions", name), f"must name a cross from 1 to {last}, got {name}")
        first = seen.setdefault(place, name)
        if first != name:
            yield Flaw(("positions", name), f"must not be the place of cross {first}")


def _lens_flaws(file: RigTable) -> Iterator[Flaw]:
    thickness = file.cloth.thickness or Fraction(0)
    if file.lens is None:
        if thickness:
            hint = "Write [lens] with `height = 1800`, or calibrate on a scrap and leave it out"
            yield Flaw(("cloth", "thickness"), "needs the height of the lens", hint)
        return
    last, height = file.picture.columns * file.picture.rows, file.lens.height
    if height <= 10 * thickness:
        problem = f"must be over ten times the cloth, got {exact_text(height, file.units)}"
        yield Flaw(("lens", "height"), problem)
    for name, mm in file.lens.distances.items():
        if int(name) > last:
            path = ("lens", "distances", name)
            yield Flaw(path, f"must name a cross from 1 to {last}, got {name}")
        elif mm < height:
            short, down = exact_text(mm, file.units), exact_text(height, file.units)
            got = f"{short}, less than the {down} straight down"
            yield Flaw(("lens", "distances", name), f"must be measured from the lens, got {got}")
    if 0 < len(file.lens.distances) < 3:
        problem = f"must be given to three crosses at least, got {len(file.lens.distances)}"
        yield Flaw(("lens", "distances"), problem, "Leave them all out for a lens over the middle")
