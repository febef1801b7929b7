"""What several steps say of the sides: their lengths, their marks, and their letters in titles."""

from __future__ import annotations

from collections.abc import Sequence

from cutpaths.geometry.marks import MarkKind, corner_name, letter
from cutpaths.sheets.steps.making import Making, belongs_to

NO_BREAK = "\u00a0"  # a space at which no line ends, so that no letter stands alone on the next


def side_title(i: int) -> str:
    """A side as a title names it, its letter kept on the line."""
    return f"side{NO_BREAK}{letter(i)}"


def sides_title(sides: Sequence[int]) -> str:
    """Some sides as a title names them, their first and last letter kept on the line."""
    *rest, last = [letter(i) for i in sides]
    if not rest:
        return side_title(sides[0])
    return f"sides{NO_BREAK}{', '.join(rest)} and{NO_BREAK}{last}"


def side_list(sides: Sequence[int]) -> str:
    """Some sides as a sentence names them: `side A`, `sides A and C`."""
    return sides_title(sides).replace(NO_BREAK, " ")


def lengths_words(making: Making) -> str:
    """What to measure from dot to dot."""
    numbers = making.numbers
    alike: dict[str, list[str]] = {}
    for i in range(making.sides):
        alike.setdefault(numbers.side(i), []).append(letter(i))
    if len(alike) == 1:
        return f"From dot to dot each side measures {numbers.side(0)}."
    parts = [f"{' and '.join(names)} {text}" for text, names in alike.items()]
    return f"From dot to dot: {'; '.join(parts)}."


def quartered(making: Making) -> tuple[int, ...]:
    """The sides that have quarter marks."""
    every = range(making.sides)
    return tuple(i for i in every if making.top_marks(MarkKind.QUARTER, belongs_to(i)))


def quarter_words(making: Making) -> tuple[str, ...]:
    """Where quarter marks stand, on the sides that have them; nothing where none has."""
    sides = quartered(making)
    if not sides:
        return ()
    where = "" if len(sides) == making.sides else f"On {side_list(sides)} "
    start = f"{where}draw" if where else "Draw"
    return (f"{start} the quarter marks half way between each dot and the center.",)


def opening_corner(making: Making) -> str:
    """The corner from whose dot the opening is measured; empty without one."""
    opening = making.kit.opening
    return "" if opening is None else corner_name(opening.side, making.sides)


def opening_words(making: Making) -> tuple[str, ...]:
    """Where both ends of the opening are marked; nothing without one."""
    opening, numbers = making.kit.opening, making.numbers
    if opening is None:
        return ()
    return (
        f"On side {letter(opening.side)} mark both ends of the opening,"
        f" {numbers['opening.start']} and {numbers['opening.end']} from the dot at corner"
        f" {opening_corner(making)}.",
    )


def border_words(making: Making) -> str:
    """The border's width, or that of each side."""
    numbers = making.numbers
    if numbers.get("border"):
        return f"{numbers['border']} wide on every side"
    found = (
        f"{numbers[f'border.{letter(i).lower()}']} on side {letter(i)}" for i in range(making.sides)
    )
    return ", ".join(found)
