"""What each fabric is painted with."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path

from cutpaths.paint import Colour, Paint, Print, mixed
from cutpaths.project.model import Fabric
from cutpaths.shapes import IDENTITY, Motion, shift
from cutpaths.sheets.palette import colours_of
from cutpaths.values import Value, replace

BLACK, WHITE = (0, 0, 0), (255, 255, 255)
EDGE_PART = 0.4
DARK = 0.08  # luminance of cloths on which no darker line is seen
TINT_LEAST = 0.55  # luminance on which black text and lines are read with ease
# Neighbouring patches are not cut from the same place of a print: in turn from one of eight.
PLACES = 8
_NEXT = 5  # has no divisor with PLACES, so that all of them come in turn


class Cloth(Value):
    """A fabric's colour and its print, where it has one."""

    colour: Colour
    print: Print | None = None

    def paint(self, lie: Motion = IDENTITY, number: int = 0) -> Paint:
        """The paint of the n-th part of this cloth, whose cloth lies by a motion."""
        if self.print is None:
            return Paint(colour=self.colour, edge=self.edge)
        place = number * _NEXT % PLACES
        width, height = self.print.width, self.print.height
        cut = shift(width * place / PLACES, height * (place * 3 % PLACES) / PLACES)
        return Paint(colour=self.colour, edge=self.edge, print=self.print.moved(cut.then(lie)))

    @property
    def edge(self) -> Colour:
        """The colour of the line round it: darker than the cloth, or lighter than a dark one."""
        if luminance(self.colour) < DARK:
            return mixed(self.colour, WHITE, EDGE_PART)
        return mixed(self.colour, BLACK, EDGE_PART)

    @property
    def tint(self) -> Paint:
        """A pale colour to write on."""
        colour, part = self.colour, 0.0
        while luminance(colour) < TINT_LEAST:
            part += 0.02
            colour = mixed(self.colour, WHITE, part)
        return Paint(colour=colour, edge=mixed(self.colour, BLACK, EDGE_PART))


def cloths_of(fabrics: Sequence[Fabric], folder: Path | None = None) -> dict[str, Cloth]:
    """The cloth of each fabric, by name.

    Args:
        fabrics: all fabrics of a project.
        folder: the folder of the project, where its swatches are; None leaves them out.

    Raises:
        InputError: a swatch is missing, no picture, or enormous.
        DrawingError: there is a swatch, and the extra `pictures` is not installed.
    """
    cloths = {name: Cloth(colour) for name, colour in colours_of(fabrics).items()}
    if folder is None or all(fabric.swatch is None for fabric in fabrics):
        return cloths
    from cutpaths.sheets.swatches import samples_of

    by_name: Mapping[str, Fabric] = {fabric.name: fabric for fabric in fabrics}
    for name, sample in samples_of(by_name, folder).items():
        own = by_name[name].colour is not None
        colour = cloths[name].colour if own else sample.colour
        cloths[name] = replace(cloths[name], colour=colour, print=sample.print)
    return cloths


def luminance(colour: Colour) -> float:
    """Relative luminance, 0 to 1 (W3C WCAG 2.1)."""
    parts = [level / 255 for level in colour]
    red, green, blue = (c / 12.92 if c <= 0.03928 else ((c + 0.055) / 1.055) ** 2.4 for c in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue
