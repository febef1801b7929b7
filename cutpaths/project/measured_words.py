"""What is done about a top that was measured, and why, in words."""

from __future__ import annotations

from collections.abc import Iterator

from cutpaths.lengths import Unit, decimals, exact
from cutpaths.project.measured import EASED_UNDER, TOLERANCE, Difference, Measured, Remedy


def why(measured: Measured, unit: Unit) -> str:
    """What is done, whether it was asked for, and what speaks for it.

    >>> from cutpaths.lengths import INCH
    >>> why(Measured(width=30 * INCH, height=36 * INCH), Unit.INCH)
    'ease: the backing is cut to the width and height through the middle'
    """
    chosen = f"{measured.remedy}{', as asked for' if measured.asked else ''}"
    match measured.remedy:
        case Remedy.AS_DESIGNED if not measured.asked:
            return f"{chosen}: nothing is over {exact(TOLERANCE, unit)} off the design"
        case Remedy.AS_DESIGNED:
            return f"{chosen}: the backing is cut as designed and the top eased onto it"
        case Remedy.EASE if not measured.sides:
            return f"{chosen}: the backing is cut to the width and height through the middle"
        case Remedy.EASE:
            return f"{chosen}: the backing is cut to the average; {_furthest(measured)}"
        case Remedy.CUT_TO_FIT:
            return f"{chosen}: {_furthest(measured)}; the backing gets the top's corners and sides"
        case Remedy.TRIM_TOP if not measured.asked:
            rule = "and a folded-over backing needs right angles"
            return f"{chosen}: {_furthest(measured)}, {rule}"
        case Remedy.TRIM_TOP:
            return f"{chosen}: the top is cut down to the largest true rectangle"


def measured_notes(measured: Measured | None) -> Iterator[str]:
    """What must not be overlooked: cloth cut otherwise than designed, and easing that puckers."""
    if measured is None:
        return
    match measured.remedy:
        case Remedy.CUT_TO_FIT if not measured.asked:
            yield (
                f"The backing is cut to fit the top as measured, since {_furthest(measured)}; "
                "`remedy` in [measured] can ask for something else."
            )
        case Remedy.TRIM_TOP:
            yield "Trim the top to its true rectangle before anything is marked on it."
        case Remedy.EASE:
            if measured.worst(measured.average).part >= EASED_UNDER:
                yield f"Easing may pucker: {_furthest(measured)}."


def percent(difference: Difference) -> str:
    """How far a length is off, in percent."""
    return f"{decimals(difference.part * 100, 1)} %"


def _furthest(measured: Measured) -> str:
    """The length that is furthest from the average rectangle, and whether it can be eased."""
    worst = measured.worst(measured.average)
    side = "over" if worst.part >= EASED_UNDER else "under"
    return f"{_off(worst)} the average, {side} the {_limit()} that can be eased"


def _off(worst: Difference) -> str:
    longer = "longer" if worst.amount >= 0 else "shorter"
    return f"{worst.what} is {percent(worst)} {longer} than"


def _limit() -> str:
    return f"{decimals(EASED_UNDER * 100, 1)} %"
