"""The patches: how many of which shape, what they are cut from, and the seams between them."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import TYPE_CHECKING

from cutpaths.figures.model import Figure, count, length, size, words
from cutpaths.geometry.assembly import Piece, Stage
from cutpaths.geometry.patch_shapes import PatchKind
from cutpaths.later import Later
from cutpaths.lengths import Ruler, exact_text
from cutpaths.pieces import Kit
from cutpaths.pieces.pairs import cut_singly
from cutpaths.project.model import Squares
from cutpaths.project.sizes import raw_top

if TYPE_CHECKING:
    from cutpaths.geometry.layouts import triangles
    from cutpaths.geometry.layouts.pairs import SewnPair
    from cutpaths.geometry.layouts.triangles import Blanks
else:
    triangles = Later("cutpaths.geometry.layouts.triangles")


def patches(kit: Kit) -> tuple[Figure, ...]:
    """Count and sizes of each patch, and the trade's way to cut its triangles."""
    if not kit.pieced:
        return ()
    pieces = kit.patchwork.pieces()
    if isinstance(kit.project.top, Squares):
        return (*(_count(kit, piece, "", "to cut") for piece in pieces), *_square(kit))
    singly = cut_singly(kit.patchwork, kit.pairs)
    alone = {piece.key for piece in singly}
    found = [
        figure
        for piece in pieces
        for figure in _patch(kit, piece, "to cut" if piece.key in alone else "from pairs")
    ]
    step = kit.project.ruler.step
    blanks = triangles.blanks_of(singly, kit.project.allowance, step)
    found += [_blanks(each, kit.project.ruler) for each in blanks]
    found += [_pair(kit, pair) for pair in kit.pairs]
    return tuple(found)


def patch_seams(kit: Kit) -> tuple[Figure, ...]:
    """How many patch seams each stage of sewing has, and how long they are together."""
    if not kit.pieced:
        return ()
    seams = kit.patchwork.all_seams()
    staged = [(stage, [s.length for s in seams if s.stage is stage]) for stage in Stage]
    found: list[Figure] = []
    for number, (stage, lengths) in enumerate((each for each in staged if each[1]), 1):
        key, label = f"seams.{stage.name.lower()}", f"{number}. {stage}"
        of = "seam" if len(lengths) == 1 else "seams"
        found.append(count(f"{key}.count", label, len(lengths), of))
        found.append(
            length(f"{key}.length", f"{label}, all together", sum(lengths), kit.project.ruler)
        )
    if found:
        found.append(words("seams.pressing", "allowances pressed", str(kit.project.pressing)))
    return tuple(found)


def seam_notes(kit: Kit) -> Iterator[str]:
    """What to know of seams that cannot be sewn right through."""
    if any(seam.partial for seam in kit.patchwork.all_seams()):
        yield (
            "Some units of the patchwork lie round each other like the arms of a windmill: sew "
            "the first seam only half way, the others round, and close the first one last."
        )


def _labels(kit: Kit) -> dict[str, str]:
    return {fabric.name: fabric.label for fabric in kit.project.fabrics}


def _count(kit: Kit, piece: Piece, shape: str, how: str) -> Figure:
    label = f"{piece.key} ({_labels(kit).get(piece.fabric, piece.fabric)}){shape}"
    return count(f"{piece.key.lower()}.count", label, piece.count, how)


def _square(kit: Kit) -> tuple[Figure, ...]:
    """The one size of a top of squares."""
    if not isinstance(kit.project.top, Squares):
        return ()
    finished, ruler = kit.project.top.finished, kit.project.ruler
    cut = raw_top(finished, kit.project.allowance)
    return (
        length("patch.cut", "each square, cut", cut, ruler),
        length("patch.finished", "each square, finished", finished, ruler),
    )


def _patch(kit: Kit, piece: Piece, how: str) -> Iterator[Figure]:
    shape = piece.shape
    if shape is None:
        return
    yield _count(kit, piece, f", {shape.name}", how)
    key, ruler = piece.key.lower(), kit.project.ruler
    if shape.kind is PatchKind.RECTANGLE:
        sizes = [raw_top(each, kit.project.allowance) for each in (shape.width, shape.height)]
        yield from _sizes(f"{key}.cut", f"{piece.key}, cut", (sizes[0], sizes[1]), ruler)
        seen = shape.width, shape.height
        yield from _sizes(f"{key}.finished", f"{piece.key}, finished", seen, ruler)
    elif shape.kind is PatchKind.QUARTER:
        label = f"{piece.key}, finished long edge"
        yield length(f"{key}.finished", label, shape.width, ruler)
    else:
        legs = shape.width, shape.height
        yield from _sizes(f"{key}.finished", f"{piece.key}, finished short edges", legs, ruler)


def _sizes(
    key: str, label: str, sizes: tuple[Fraction, Fraction], ruler: Ruler
) -> tuple[Figure, ...]:
    if sizes[0] == sizes[1]:
        return (length(key, label, sizes[0], ruler),)
    return size(key, label, *sizes, ruler)


def _blanks(blanks: Blanks, ruler: Ruler) -> Figure:
    """What triangles are cut from, rounded up, and the size that leaves nothing over."""
    size_of = " x ".join(exact_text(each, ruler.unit) for each in dict.fromkeys(blanks.blank.exact))
    return Figure(
        key=f"{blanks.keys[0].lower()}.from",
        label=f"{', '.join(blanks.keys)}, cut from",
        text=f"{blanks.blank.words(ruler, blanks.count)}; exactly {size_of}",
        value=blanks.blank.exact[0],
        unit="mm",
    )


def _pair(kit: Kit, pair: SewnPair) -> Figure:
    names, ruler = _labels(kit), kit.project.ruler
    fabrics = pair.marked.fabric, pair.plain.fabric
    each = " on ".join(names.get(name, name) for name in fabrics)
    return Figure(
        key=f"{pair.marked.key.lower()}.from",
        label=f"{pair.marked.key} ({each}), {pair.units} units",
        text=f"{pair.words(ruler)}; exactly {exact_text(pair.exact, ruler.unit)}",
        value=pair.exact,
        unit="mm",
    )
