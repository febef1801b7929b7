"""The top as it was sewn: its true shape, how far it is off, and what is done about it; mm."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from cutpaths.figures.model import Figure, angle, length, words
from cutpaths.geometry.marks import corner_name, letter
from cutpaths.geometry.polygons import corner_angle
from cutpaths.geometry.quadrilateral import DIAGONALS, SIDES, Span, misfits
from cutpaths.geometry.quadrilateral import length as span_length
from cutpaths.lengths import Ruler, as_fraction
from cutpaths.pieces import Kit
from cutpaths.pieces.sewn import taped, to_ease, to_trim, true_shape
from cutpaths.project.measured import Difference, Measured, Remedy
from cutpaths.project.measured_words import percent, why
from cutpaths.project.sizes import raw_top
from cutpaths.values import replace

_NAMES = {
    **{span: f"side {span}" for span in SIDES},
    **{span: f"diagonal {span}" for span in DIAGONALS},
    Span.WIDTH: "width through the middle",
    Span.HEIGHT: "height through the middle",
}


def measured(kit: Kit) -> tuple[Figure, ...]:
    """Every figure of a measured top; none where it was not measured."""
    top, designed = kit.project.measured, kit.project.finished_top
    if top is None or designed is None:
        return ()
    ruler, allowance = kit.project.ruler, kit.project.allowance
    raw = raw_top(designed[0], allowance), raw_top(designed[1], allowance)
    return (
        *(_true_figures(top, ruler) if top.sides else ()),
        *_beside_design(top, raw, ruler),
        words("measured.remedy", "what is done, and why", why(top, ruler.unit)),
        *_amounts(kit, top),
    )


def sewn_words(top: Measured | None) -> str:
    """What the label of the top's raw size says of it, after a comma."""
    if top is None:
        return ""
    words_of = {
        Remedy.AS_DESIGNED: ", as designed",
        Remedy.EASE: ", as measured",
        Remedy.TRIM_TOP: ", once trimmed",
    }
    return words_of.get(top.remedy, "")


def _true_figures(top: Measured, ruler: Ruler) -> Iterator[Figure]:
    """Lengths and corners of the true shape, with what is left between it and the tape."""
    ring, read = true_shape(top), taped(top)
    left = misfits(ring, read)
    for span in (*SIDES, *DIAGONALS, *(s for s in read if s not in (*SIDES, *DIAGONALS))):
        key = f"measured.{span.lower()}"
        true = length(key, f"{_NAMES[span]}, true", span_length(ring, span), ruler)
        yield replace(true, text=f"{true.text}{_misfit(left.get(span), ruler)}")
    corners = [corner_angle(ring, i) for i in range(4)]
    for i, degrees in enumerate(corners):
        name = corner_name(i, 4)
        yield angle(f"measured.corner.{name.lower()}", f"corner {name}, true", degrees)
    off = max(abs(degrees - 90.0) for degrees in corners)
    yield angle("measured.out-of-square", "out of square, at most", off)
    rising, falling = (span_length(ring, span) for span in DIAGONALS)
    label = "out of square, between the diagonals"
    if not nothing(as_fraction(rising - falling), ruler):
        yield length("measured.diagonals-differ", label, abs(rising - falling), ruler)


def _misfit(mm: float | None, ruler: Ruler) -> str:
    """What is left between the fit and the tape; nothing where the ruler cannot tell it."""
    if mm is None:
        return ", not taped"
    if nothing(as_fraction(mm), ruler):
        return ""
    longer = "more" if mm > 0 else "less"
    return f", {ruler.text(as_fraction(abs(mm)))} {longer} than taped"


def nothing(mm: Fraction, ruler: Ruler) -> bool:
    """Whether a length, of either sign, is less than half a step: the ruler would show 0."""
    return abs(mm) < ruler.step / 2


def _beside_design(top: Measured, raw: tuple[Fraction, Fraction], ruler: Ruler) -> Iterator[Figure]:
    """The average rectangle beside the design, with the sign of what is too large."""
    for name, label, got, due in zip(
        ("width", "height"), ("across", "down"), top.average, raw, strict=True
    ):
        off = Difference(label, got, due)
        figure = length(f"measured.off.{name}", f"off the design, {label}", off.amount, ruler)
        yield replace(figure, text=_off(off, ruler))


def _off(off: Difference, ruler: Ruler) -> str:
    """In percent, and an amount without its sign; which way it goes."""
    if nothing(off.amount, ruler):
        return "nothing"
    way = "large" if off.amount > 0 else "small"
    return f"{percent(off)}, {ruler.both(abs(off.amount))} {way}"


def _amounts(kit: Kit, top: Measured) -> Iterator[Figure]:
    """How much to ease on each side, or how much comes off it; what the ruler can tell."""
    ruler = kit.project.ruler
    if top.remedy is Remedy.TRIM_TOP:
        yield from _trims(top, ruler)
    for off in to_ease(kit.project, kit.blanket.seam):
        if not nothing(off.amount, ruler):
            yield _ease(off, ruler)


def _ease(off: Difference, ruler: Ruler) -> Figure:
    """What is longer is eased: the top where it is larger than its backing, else the backing."""
    key = f"measured.ease.{off.what.split()[-1].lower()}"
    figure = length(key, f"to ease, {off.what}", off.amount, ruler)
    longer = "top" if off.amount > 0 else "backing"
    amount = ruler.text(abs(off.amount))
    return replace(figure, text=f"ease in {amount} of the {longer}'s edge ({percent(off)})")


def _trims(top: Measured, ruler: Ruler) -> Iterator[Figure]:
    """What comes off each side, at the corner where it starts and where it ends."""
    for i, ends in enumerate(to_trim(top).comes_off):
        side = letter(i)
        for corner, mm in zip((corner_name(i, 4), corner_name(i + 1, 4)), ends, strict=True):
            if nothing(as_fraction(mm), ruler):
                continue
            key = f"measured.trim.{side.lower()}.{corner.lower()}"
            yield length(key, f"comes off side {side} at corner {corner}", mm, ruler)
