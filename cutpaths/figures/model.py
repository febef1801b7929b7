"""What a figure is; lengths in mm, exact where the project settles them."""

from __future__ import annotations

from fractions import Fraction

from cutpaths.lengths import INCH, Ruler, Unit, as_fraction, decimals
from cutpaths.values import Value


class Figure(Value, kw_only=True):
    """One line of the figures.

    Attributes:
        key: stable name for programs, dotted: `backing.width`.
        label: the same for people.
        text: as printed, with its unit.
        value: the number: mm for a length, mm² for an area, degrees, or a count.
        unit: `mm`, `mm2`, `degrees`, `count` or `text` (then the value is None).
        on_step: whether a length falls on a mark of the ruler.
    """

    key: str
    label: str
    text: str
    value: Fraction | None
    unit: str
    on_step: bool = True


class Group(Value):
    """Figures that belong together, under a heading."""

    title: str
    figures: tuple[Figure, ...]


class Figures(Value, kw_only=True):
    """All figures of a project, and what a person should know beside them."""

    project: str
    digest: str
    groups: tuple[Group, ...]
    notes: tuple[str, ...]


def length(key: str, label: str, mm: Fraction | float, ruler: Ruler) -> Figure:
    """A length on the ruler and in the other system."""
    value = as_fraction(mm)
    return Figure(
        key=key,
        label=label,
        text=ruler.both(value),
        value=value,
        unit="mm",
        on_step=ruler.on_step(value),
    )


def size(
    key: str, label: str, width: Fraction | float, height: Fraction | float, ruler: Ruler
) -> tuple[Figure, Figure]:
    """A width and a height."""
    return (
        length(f"{key}.width", f"{label}, across", width, ruler),
        length(f"{key}.height", f"{label}, down", height, ruler),
    )


def widest(key: str, label: str, width: float, height: float, ruler: Ruler) -> tuple[Figure, ...]:
    """A width and a height of what is no rectangle: those of the box round it."""
    return (
        length(f"{key}.width", f"{label}, across, at its widest", width, ruler),
        length(f"{key}.height", f"{label}, down, at its longest", height, ruler),
    )


def area(key: str, label: str, mm2: float, ruler: Ruler) -> Figure:
    """An area in square inches and square centimetres, the project's own first."""
    inches = f"{decimals(Fraction(mm2) / INCH**2, 2)} sq in"
    metric = f"{decimals(Fraction(mm2) / 100, 1)} cm²"
    first, beside = (inches, metric) if ruler.unit is Unit.INCH else (metric, inches)
    text = f"{first} ({beside})"
    return Figure(key=key, label=label, text=text, value=Fraction(mm2), unit="mm2")


def angle(key: str, label: str, degrees: float) -> Figure:
    """An angle to a hundredth of a degree."""
    text = f"{decimals(Fraction(degrees), 2)}°"
    return Figure(key=key, label=label, text=text, value=Fraction(degrees), unit="degrees")


def count(key: str, label: str, number: int, of: str) -> Figure:
    """A count of things."""
    return Figure(key=key, label=label, text=f"{number} {of}", value=Fraction(number), unit="count")


def words(key: str, label: str, text: str) -> Figure:
    """A line of words."""
    return Figure(key=key, label=label, text=text, value=None, unit="text")
