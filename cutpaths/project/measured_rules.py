"""Rules of [measured]: what must be taped, that it can be true, and what can be done about it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from math import hypot, sqrt

from cutpaths.project import outlines
from cutpaths.project.flaws import Flaw
from cutpaths.project.measured import (
    AGREE_WITHIN,
    DIAGONAL_NAMES,
    SIDE_NAMES,
    Measured,
    Pair,
    Remedy,
    remedy_for,
)
from cutpaths.project.model import Top, seen_of
from cutpaths.project.roots import root
from cutpaths.project.seams import Seams
from cutpaths.project.shape import EVERY, FileTable, MeasuredTable
from cutpaths.project.sizes import raw_top
from cutpaths.source import KeyPath
from cutpaths.values import replace

# More than this part of the design, or so many degrees, is a slip of the tape, not of the seams
# (common practice, no source).
SIZE_SLACK = Fraction(1, 10)
CORNER_SLACK_DEGREES = 10

_AGAIN = "Measure again from raw edge to raw edge"


def measured_flaws(file: FileTable, top: Top, seams: Seams) -> Iterator[Flaw]:
    """Every rule of [measured]; the later ones only where the earlier hold."""
    table, designed = file.measured, designed_raw(top, seams)
    if table is None:
        return
    if designed is None:
        problem = "has a place only beside a rectangular top"
        yield Flaw(("measured",), problem, "Leave it out")
        return
    flaws = list(_key_flaws(table, seams))
    if not flaws:
        taped = _taped(table)
        flaws += _shape_flaws(taped, table, seams)
        told = {flaw.path for flaw in flaws}
        flaws += (f for f in _size_flaws(taped, table, designed, seams) if f.path not in told)
    if not flaws:
        flaws += _agreement_flaws(taped, table, seams)
    yield from flaws or _border_flaws(file, _settled(table, designed, seams))


def measured_of(file: FileTable, top: Top, seams: Seams) -> Measured | None:
    """The top as it was sewn; None where nothing is taped, or something is taped wrongly."""
    designed = designed_raw(top, seams)
    if file.measured is None or designed is None or any(measured_flaws(file, top, seams)):
        return None
    return _settled(file.measured, designed, seams)


def designed_raw(top: Top, seams: Seams) -> Pair | None:
    """Raw size of a rectangular top as designed; None for an outline."""
    seen = seen_of(top)
    if seen is None:
        return None
    return raw_top(seen[0], seams.allowance), raw_top(seen[1], seams.allowance)


def _settled(table: MeasuredTable, designed: Pair, seams: Seams) -> Measured:
    """What is taped, with what is asked for or else chosen."""
    taped = _taped(table)
    chosen = table.remedy or remedy_for(taped, designed, folded_over=seams.folded_over)
    return replace(taped, remedy=chosen, asked=table.remedy is not None)


def _taped(table: MeasuredTable) -> Measured:
    sides, diagonals = table.sides or {}, table.diagonals or {}
    rising, falling = (diagonals.get(name, diagonals.get(EVERY)) for name in DIAGONAL_NAMES)
    return Measured(
        width=table.width,
        height=table.height,
        sides=tuple(sides[EVERY if EVERY in sides else name] for name in SIDE_NAMES if sides),
        diagonals=(rising, falling),
    )


def _key_flaws(table: MeasuredTable, seams: Seams) -> Iterator[Flaw]:
    """Which lengths must be taped together."""
    if table.sides is not None:
        yield from _letter_flaws(table.sides)
        if not table.diagonals:
            hint = "Write for example `diagonals = { DA-BC = 46 }`"
            problem = "is missing: four sides alone can lean either way"
            yield Flaw(("measured", "diagonals"), problem, hint)
    elif table.diagonals:
        hint = 'Write for example `sides = { A = 30, B = 35, C = "30 1/4", D = 35 }`'
        yield Flaw(("measured", "sides"), "is missing beside the diagonals", hint)
    elif table.width is None and table.height is None:
        hint = "Give both, or `sides` and `diagonals`"
        yield Flaw(("measured",), "must have `width` and `height`", hint)
    else:
        for name, given, example in (
            ("width", table.width, 'width = "30 1/8"'),
            ("height", table.height, 'height = "35 3/8"'),
        ):
            if given is None:
                yield Flaw(("measured", name), "is missing", f"Write for example `{example}`")
    if table.remedy in (Remedy.CUT_TO_FIT, Remedy.TRIM_TOP) and not table.sides:
        problem = f"cannot be {table.remedy} where only the middle is taped"
        yield Flaw(("measured", "remedy"), problem, "Give `sides` and `diagonals` too")
    if table.remedy is Remedy.CUT_TO_FIT and seams.folded_over:
        problem = "cannot be cut-to-fit in a folded-over blanket, which needs right angles"
        yield Flaw(("measured", "remedy"), problem, "Write `ease` or `trim-top`")


def _letter_flaws(sides: dict[str, Fraction]) -> Iterator[Flaw]:
    names = ", ".join(SIDE_NAMES)
    missing = [name for name in SIDE_NAMES if name not in sides and EVERY not in sides]
    if missing:
        problem = f"must give a length for each of {names}, has none for {', '.join(missing)}"
        yield Flaw(("measured", "sides"), problem)
    for name in sides:
        if name not in (*SIDE_NAMES, EVERY):
            problem = f"is not a side of this top, whose sides are {names}"
            yield Flaw(("measured", "sides", name), problem)


def _shape_flaws(taped: Measured, table: MeasuredTable, seams: Seams) -> Iterator[Flaw]:
    """Whether four sides close, and two of them with a diagonal."""
    for i, side in enumerate(taped.sides):
        others = sum(taped.sides) - side
        if side >= others:
            problem = (
                "cannot close the top: it must be shorter than the other three sides together, "
                f"{seams.text(others)}, got {seams.text(side)}"
            )
            yield Flaw(_path("sides", SIDE_NAMES[i], table.sides), problem, _AGAIN)
    for n, diagonal in enumerate(taped.diagonals):
        if diagonal is None:
            continue
        for i, j in ((n, n + 1), (n + 2, (n + 3) % 4)):
            first, second = taped.sides[i], taped.sides[j]
            pair = f"{SIDE_NAMES[i]} and {SIDE_NAMES[j]}"
            if diagonal >= first + second:
                rule = f"shorter than sides {pair} together, {seams.text(first + second)}"
            elif diagonal <= abs(first - second):
                rule = f"longer than sides {pair} differ, {seams.text(abs(first - second))}"
            else:
                continue
            problem = f"cannot make a triangle: it must be {rule}, got {seams.text(diagonal)}"
            yield Flaw(_path("diagonals", DIAGONAL_NAMES[n], table.diagonals), problem, _AGAIN)


def _size_flaws(
    taped: Measured, table: MeasuredTable, designed: Pair, seams: Seams
) -> Iterator[Flaw]:
    """No length of a sewn top is a tenth off."""
    diagonal = root(designed[0] ** 2 + designed[1] ** 2)
    judged: list[tuple[KeyPath, Fraction | None, Fraction]] = [
        (_path("sides", name, table.sides), side, designed[i % 2])
        for i, (name, side) in enumerate(zip(SIDE_NAMES, taped.sides, strict=False))
    ]
    judged += [
        (_path("diagonals", name, table.diagonals), length, diagonal)
        for name, length in zip(DIAGONAL_NAMES, taped.diagonals, strict=True)
    ]
    judged += [
        (("measured", "width"), taped.width, designed[0]),
        (("measured", "height"), taped.height, designed[1]),
    ]
    told: set[KeyPath] = set()
    for path, length, due in judged:
        if length is None or path in told or abs(length - due) <= due * SIZE_SLACK:
            continue
        told.add(path)
        problem = (
            f"must be within 10 % of the raw top as designed, {seams.text(due)}, "
            f"got {seams.text(length)}"
        )
        yield Flaw(path, problem, _AGAIN)


def _agreement_flaws(taped: Measured, table: MeasuredTable, seams: Seams) -> Iterator[Flaw]:
    """Four sides and a diagonal settle the rest: corners near right angles, other lengths near."""
    if not taped.sides:
        return
    n, settler = next((n, d) for n, d in enumerate(taped.diagonals) if d is not None)
    ring = _ring(taped.sides, settler, n)
    path = _path("diagonals", DIAGONAL_NAMES[n], table.diagonals)
    angles = outlines.corners([(Fraction(x), Fraction(y)) for x, y in ring])
    i, corner = max(enumerate(angles), key=lambda each: abs(each[1] - 90))
    if abs(corner - 90) > CORNER_SLACK_DEGREES:
        name = SIDE_NAMES[i - 1] + SIDE_NAMES[i]
        problem = f"must leave corners of 80 to 100 degrees, makes {name} one of {corner:.1f}"
        yield Flaw(path, problem, "Measure again from corner to corner")
        return
    da, ab, bc, cd = ring
    right, head, left, foot = (_middle(p, q) for p, q in ((ab, bc), (bc, cd), (cd, da), (da, ab)))
    for found, length, made in (
        (_path("diagonals", DIAGONAL_NAMES[1], table.diagonals), taped.diagonals[1], (ab, cd)),
        (("measured", "width"), taped.width, (left, right)),
        (("measured", "height"), taped.height, (foot, head)),
    ):
        # To the millionth of a millimetre that drawings hold.
        due = Fraction(f"{hypot(made[1][0] - made[0][0], made[1][1] - made[0][1]):.6f}")
        if length is None or abs(length - due) <= due * AGREE_WITHIN:
            continue
        problem = (
            f"must agree with the sides and diagonal {DIAGONAL_NAMES[n]}, which make it "
            f"{seams.text(due)}, got {seams.text(length)}"
        )
        yield Flaw(found, problem, "Measure all of them again")


def _ring(sides: Sequence[Fraction], diagonal: Fraction, first: int) -> list[tuple[float, float]]:
    """Corners DA, AB, BC, CD from four sides and the diagonal that starts at corner `first`.

    It lies along x; each corner beside it is the tip of a triangle with known sides (the law of
    cosines).
    """
    a, b, c, d = (float(sides[(first + k) % 4]) for k in range(4))
    e = float(diagonal)
    x, u = (a * a - b * b + e * e) / (2 * e), (d * d - c * c + e * e) / (2 * e)
    below, above = -sqrt(max(a * a - x * x, 0.0)), sqrt(max(d * d - u * u, 0.0))
    found = [(0.0, 0.0), (x, below), (e, 0.0), (u, above)]
    return [found[(k - first) % 4] for k in range(4)]


def _middle(p: tuple[float, float], q: tuple[float, float]) -> tuple[float, float]:
    return (p[0] + q[0]) / 2, (p[1] + q[1]) / 2


def _path(key: str, name: str, given: dict[str, Fraction] | None) -> KeyPath:
    """The key of one side or diagonal; one length may stand for all."""
    return ("measured", key) if EVERY in (given or {}) else ("measured", key, name)


def _border_flaws(file: FileTable, measured: Measured) -> Iterator[Flaw]:
    """Only a rectangle that is known can settle the border from a size."""
    reasons = {
        Remedy.CUT_TO_FIT: "where the backing is cut to fit the top as measured",
        Remedy.TRIM_TOP: "where the top as measured is still to be trimmed",
    }
    if measured.remedy not in reasons:
        return
    hint = "Give `width`" if measured.asked else 'Give `width`, or `remedy = "ease"` in [measured]'
    for name, given in (("backing", file.border.backing), ("finished", file.border.finished)):
        if given is not None:
            problem = f"cannot settle the border {reasons[measured.remedy]}"
            yield Flaw(("border", name), problem, hint)
