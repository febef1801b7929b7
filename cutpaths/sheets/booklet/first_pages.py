"""What stands before the work: the contents, how the booklet is read, and the cautions."""

from __future__ import annotations

from collections.abc import Iterator

from cutpaths.lengths import Unit
from cutpaths.project.model import Patchwork
from cutpaths.sheets.booklet.blocks import (
    Beside,
    Block,
    Caution,
    Chapter,
    Contents,
    Paragraph,
    Picture,
    Section,
    Terms,
)
from cutpaths.sheets.booklet.facts import Facts
from cutpaths.sheets.booklet.imprint import imprint
from cutpaths.sheets.booklet.plain import sides_picture

BABIES = (
    "No blankets or other soft bedding in the sleep space of a child under 1 (American Academy of "
    "Pediatrics, 2022 recommendations, Pediatrics 150(1) e2022057990). A baby blanket is for play "
    "on the floor or for a lap, with someone watching. Pass this on with the blanket."
)
ROTARY = (
    "Rotary cutter: close the blade whenever you are not cutting, cut away from yourself on a mat, "
    "keep it away from children, and stay beside anyone young who uses one (after North Dakota "
    "State University Extension, CB111)."
)
IRON = (
    "Iron: it is hot long after it is switched off. Set it for the most delicate cloth, stand it "
    "safely, do not leave it alone, and keep its cable out of the way."
)
PINS = (
    "Pins and needles: count them before you start, and again before the blanket is closed and "
    "when it is done. Take pins out before the needle reaches them, and switch the machine off to "
    "change a needle."
)
FIRST = (
    "These are reminders, not instructions. What the makers of your tools say, your local rules "
    "and a qualified person come first."
)


def how_to_read(facts: Facts) -> Chapter:
    """Contents, how the blanket is made, what letters and signs mean, and who made the pattern."""
    blocks: tuple[Block, ...] = (
        Contents(),
        Section("How it is made"),
        Paragraph(_in_short(facts)),
        Section("Letters and sizes"),
        Beside(
            picture=Picture(
                drawing=sides_picture(facts),
                alt=f"The finished blanket from the front with its sides: {facts.text('sides')}.",
                height=47.0,
            ),
            blocks=(Terms(tuple(_signs(facts))),),
        ),
        *imprint(facts),
    )
    return Chapter(title="About this booklet", blocks=blocks, fresh=True)


def take_care() -> Chapter:
    """The cautions, before any work."""
    caution = Caution("Please read this first", (ROTARY, IRON, PINS, BABIES))
    return Chapter(title="Take care", blocks=(caution, Paragraph(FIRST)))


def _in_short(facts: Facts) -> str:
    top = "The patches are sewn to a top" if facts.kit.pieced else "The top is one piece of cloth"
    if facts.folded_over:
        return (
            f"{top}. It lies on the middle of a larger backing, wrong sides together. The corners "
            "of the backing are folded in, then each of its edges is folded twice, onto the top, "
            "where it becomes a border with mitered corners. No binding strip is needed."
        )
    return (
        f"{top}. It is sewn to a larger backing, right sides together, one side at a time from dot "
        "to dot. The corners of the backing are mitered and trimmed. Turned right side out, the "
        "backing comes round to the front on every side and becomes the border. No binding strip "
        "is needed."
    )


def _signs(facts: Facts) -> Iterator[tuple[str, str]]:
    kit, ruler = facts.kit, facts.ruler
    sides = kit.blanket.corners
    corner = f"corner {sides[1].at} is where side {sides[0].at[1]} ends"
    yield "A, B, C ...", f"sides, from the front: {facts.text('sides')}; {corner}"
    if isinstance(kit.project.top, Patchwork):
        yield "a, b, c ...", "fabrics, as in the fabric key and the layout chart"
        yield "PATCH-1 ...", "patches cut alike; the chart has their number"
    if ruler.unit is Unit.INCH:
        yield "in, yd", "inches and yards; millimetres (mm) and metres (m) beside them"
    else:
        yield f"{ruler.unit.value}, m", "as usual; inches (in) and yards (yd) beside them"
    yield "~", f"between two marks of a ruler with steps of {ruler.text(ruler.step)}: the nearest"


def caution_of_cutting() -> Caution:
    """What belongs beside the cutting."""
    return Caution("Sharp blade", (ROTARY, FIRST))


def caution_of_pressing() -> Caution:
    """What belongs beside the sewing and pressing."""
    return Caution("Hot and sharp", (IRON, PINS))


def caution_of_babies() -> Caution:
    """What belongs to every blanket."""
    return Caution(
        "Blankets and babies", (BABIES, "Your local health service knows the advice where you are.")
    )
