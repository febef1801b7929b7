"""The project as checked, frozen values.

Lengths are exact `Fraction` millimetres. Everything is seen from the front of the finished blanket:
side A is the foot and letters run counter-clockwise (a rectangle: A foot, B right, C head, D left).
Per-side tuples are in the order of the letters.
"""

from __future__ import annotations

from enum import StrEnum
from fractions import Fraction
from string import ascii_uppercase

from cutpaths.lengths import Ruler
from cutpaths.project.measured import Measured as Measured
from cutpaths.project.measured import Remedy
from cutpaths.project.patchwork import Patchwork as Patchwork
from cutpaths.project.patchwork import Pressing, finished_size
from cutpaths.project.patchwork import Squares as Squares
from cutpaths.project.prints import ArrangeRules
from cutpaths.project.stock import Join, Stock
from cutpaths.values import Value

SIDES_MOST = len(ascii_uppercase)


class Construction(StrEnum):
    """How top and backing are joined; the two are never mixed."""

    TURNED = "turned"
    FOLDED_OVER = "folded-over"


class BackingCorners(StrEnum):
    """Whether the backing's corners are cut off before sewing."""

    LEFT_ON = "left-on"
    TRIMMED = "trimmed"


class Swatch(Value):
    """A picture of a cloth: its file beside the project, and the width of cloth that it shows."""

    file: str
    width: Fraction


class Fabric(Value, kw_only=True):
    """One cloth.

    Attributes:
        name: how the project asks for it.
        label: its name on labels.
        directional: whether its print or nap has an up.
        colour: `#rrggbb`; None leaves the choice to the pictures.
        swatch: a picture of it.
        stock: how it is bought; None where the file does not say.
    """

    name: str
    label: str
    directional: bool
    colour: str | None = None
    swatch: Swatch | None = None
    stock: Stock | None = None


class Pattern(Value, kw_only=True):
    """What a pattern says of itself, each in one line; empty where its file does not say.

    Attributes:
        version: which issue of it this is.
        date: when it was issued.
        author: who made it.
        contact: where to write when something is wrong.
        licence: what may be done with it.
        skill: for whom it is.
        batch: which batch of kits or cloth it goes with.
    """

    version: str = ""
    date: str = ""
    author: str = ""
    contact: str = ""
    licence: str = ""
    skill: str = ""
    batch: str = ""


SILENT = Pattern()


class Panel(Value, kw_only=True):
    """One rectangle of cloth; width and height are finished (seam line to seam line)."""

    width: Fraction
    height: Fraction
    fabric: str


class Outline(Value, kw_only=True):
    """A convex polygon of one cloth, by its points, counter-clockwise.

    Attributes:
        points: corners; side A runs from the first to the second.
        outset: how far the points lie outside the seam line (0, or the allowance if cut size).
    """

    points: tuple[tuple[Fraction, Fraction], ...]
    outset: Fraction
    fabric: str


class Regular(Value, kw_only=True):
    """A regular polygon of one cloth; `side` is the finished side length, side A at the foot."""

    sides: int
    side: Fraction
    fabric: str


Top = Patchwork | Panel | Outline | Regular


def seen_of(top: Top) -> tuple[Fraction, Fraction] | None:
    """Width and height between the stitching lines as designed; None for an outline."""
    match top:
        case Panel(width=width, height=height):
            return width, height
        case Outline() | Regular():
            return None
        case patchwork:
            return finished_size(patchwork)


class Opening(Value, kw_only=True):
    """The turning opening as asked for; None leaves the choice to the geometry.

    Attributes:
        length: length of the opening.
        side: index of the side that has it.
        start: distance of its first end from the dot where the side starts.
    """

    length: Fraction | None
    side: int | None
    start: Fraction | None


class Filling(Value):
    """A layer between top and backing; `less` is how much smaller it is cut on every side."""

    fabric: str
    less: Fraction


class Project(Value, kw_only=True):
    """One blanket, settled: any one of border, backing or finished size has given the others.

    Attributes:
        title: as the person wrote it.
        digest: SHA-256 of the project file's bytes, with those of its included files.
        ruler: how lengths are printed.
        fabrics: every fabric that the project declares, in order of the file.
        allowance: seam allowance s.
        basting: distance of the basting line from the top's raw edge.
        trim: miter trim t.
        borders: finished border width of each side.
        turn_of_cloth: c, what the cloth's thickness eats at the fold; 0 when folded over.
        opening: None when folded over.
        notes: what a person should know and that is no error.
        pressing: how seam allowances of the patchwork are pressed.
        blunted: whether sharp tips of triangles are cut off.
        pairs: whether squares of two triangles are sewn before they are cut.
        size, colorway: names of the overrides that made it; empty for the file as it stands.
        arrange: rules for laying out the prints of the top; None where the file has none.
        join: how the backing is joined of panels; None for one of one cloth.
        filling: what lies between the layers; None for nothing.
        pattern: what the pattern says of itself.
    """

    title: str
    digest: str
    ruler: Ruler
    construction: Construction
    top: Top
    measured: Measured | None
    fabrics: tuple[Fabric, ...]
    backing_fabric: str
    corners: BackingCorners
    allowance: Fraction
    basting: Fraction
    trim: Fraction
    borders: tuple[Fraction, ...]
    turn_of_cloth: Fraction
    opening: Opening | None
    notes: tuple[str, ...]
    pressing: Pressing = Pressing.OPEN
    blunted: bool = False
    pairs: bool = False
    size: str = ""
    colorway: str = ""
    arrange: ArrangeRules | None = None
    join: Join | None = None
    filling: Filling | None = None
    pattern: Pattern = SILENT

    @property
    def finished_top(self) -> tuple[Fraction, Fraction] | None:
        """Width and height of the top seam line to seam line as designed; None for outlines."""
        return seen_of(self.top)

    @property
    def sewn_top(self) -> tuple[Fraction, Fraction] | None:
        """Width and height that backing, dots and miters follow: as measured where it was.

        None for outlines, and for a top to which the backing is cut to fit.
        """
        if self.measured is None or self.measured.remedy is Remedy.AS_DESIGNED:
            return self.finished_top
        raw, both = self.measured.raw, 2 * self.allowance
        return None if raw is None else (raw[0] - both, raw[1] - both)
