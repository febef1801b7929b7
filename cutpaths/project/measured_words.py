"""What is done about a top that was measured, and why, in words."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from cutpaths.lengths import Unit, decimals, exact_text
from cutpaths.project.measured import EASED_UNDER, TOLERANCE, Difference, Measured, Remedy

MOST_PLACES = 6  # decimals of a percentage: less is below what drawings hold


def why(measured: Measured, unit: Unit) -> str:
    """What is done, whether it was asked for, and what speaks for it.

    >>> from cutpaths.lengths import INCH
    >>> why(Measured(width=30 * INCH, height=36 * INCH), Unit.INCH)
    'ease: the backing is cut to the width and height through the middle'
    """
    chosen = f"{measured.remedy}{', as asked for' if measured.asked else ''}"
    match measured.remedy:
        case Remedy.AS_DESIGNED if not measured.asked:
            return f"{chosen}: nothing is over {exact_text(TOLERANCE, unit)} off the design"
        case Remedy.AS_DESIGNED:
            return f"{chosen}: the backing is cut as designed and the top eased onto it"
        case Remedy.EASE if not measured.sides:
            return f"{chosen}: the backing is cut to the width and height through the middle"
        case Remedy.EASE:
            reason = "" if measured.asked and _hard(measured) else f"; {_furthest(measured)}"
            return f"{chosen}: the backing is cut to the average{reason}"
        case Remedy.CUT_TO_FIT:
            against = measured.asked and not _hard(measured)
            reason = "" if against else f"{_furthest(measured)}; "
            return f"{chosen}: {reason}the backing gets the top's corners and sides"
        case Remedy.TRIM_TOP if not measured.asked:
            rule = "and a folded-over backing needs right angles"
            return f"{chosen}: {_furthest(measured)}, {rule}"
        case Remedy.TRIM_TOP:
            return f"{chosen}: the top is cut down to the largest true rectangle"


def measured_notes(measured: Measured | None) -> Iterator[str]:
    """What must not be overlooked: cloth that is cut otherwise than designed."""
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


def easing_notes(eased: Sequence[Difference]) -> Iterator[str]:
    """A caution where the most that is eased, by its part, is more than can be.

    Args:
        eased: each length of the top beside that of the backing onto which it is eased.
    """
    worst = max(eased, key=lambda each: each.part, default=None)
    if worst is not None and worst.part >= EASED_UNDER:
        yield f"Easing may pucker: {_off(worst)} on the backing, {_beside_limit(worst)}."


def percent(difference: Difference) -> str:
    """How far a length is off, in percent; with the decimals that tell it from the limit and 0.

    >>> percent(Difference("side A", Fraction(1018), Fraction(1000)))
    '1.8 %'
    >>> percent(Difference("side A", Fraction(100996), Fraction(100000)))
    '0.996 %'
    """
    hundred = difference.part * 100
    limits = [limit for limit in (Fraction(0), EASED_UNDER * 100) if limit != hundred]
    written = (decimals(hundred, places) for places in range(1, MOST_PLACES))
    told = (text for text in written if text not in [decimals(limit, 1) for limit in limits])
    return f"{next(told, decimals(hundred, MOST_PLACES))} %"


def _furthest(measured: Measured) -> str:
    """The length that is furthest from the average rectangle, and whether it can be eased."""
    worst = measured.worst(measured.average)
    return f"{_off(worst)} the average, {_beside_limit(worst)}"


def _hard(measured: Measured) -> bool:
    """Whether the average is further off than can be eased, as far as that was measured."""
    return measured.worst(measured.average).part >= EASED_UNDER


def _beside_limit(worst: Difference) -> str:
    limit = EASED_UNDER
    side = "at" if worst.part == limit else "over" if worst.part > limit else "under"
    return f"{side} the {decimals(limit * 100, 1)} % that can be eased"


def _off(worst: Difference) -> str:
    longer = "longer" if worst.amount >= 0 else "shorter"
    return f"{worst.what} is {percent(worst)} {longer} than"
