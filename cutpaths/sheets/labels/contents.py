"""What is in the kit of one blanket, thing by thing; every size is a text of the figures.

A bundle is all the pieces of one shape of one fabric, as they are cut and tied together.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from cutpaths.figures import figures_of
from cutpaths.figures.cloth import backing_waits
from cutpaths.figures.model import length
from cutpaths.figures.sizes import sizes
from cutpaths.geometry.assembly import Piece, PieceKind
from cutpaths.geometry.layouts.triangles import blanks_of
from cutpaths.geometry.patch_shapes import PatchKind
from cutpaths.pieces import Kit
from cutpaths.project.model import Fabric
from cutpaths.project.stock import Washed
from cutpaths.values import Value

SHORT = 8  # letters of the digest that are enough to tell two files apart
WIDEST = " at its widest"  # of what is no rectangle
LATER = "cut when the top is measured"
CARD = "card"
PAPER = "paper"

Texts = Mapping[str, str]

_WHAT = {
    PieceKind.TOP: "top",
    PieceKind.BACKING: "backing",
    PieceKind.PANEL: "panel of the backing",
    PieceKind.FILLING: "filling",
}
_WAITING = (PieceKind.BACKING, PieceKind.PANEL)


class Part(Value, kw_only=True):
    """One kind of thing in the kit.

    Attributes:
        key: key of its piece; empty for papers.
        what: what it is, in a few words, one of it.
        fabric: label of its fabric; else what it is made of.
        count: how many.
        size: cut size, as the figures print it; empty for papers.
        more: what else they are cut from or to; empty for most.
        bundle: its number among the bundles of cloth, from 1; 0 for what is no bundle.
        washed: what is known about washing its cloth; empty for nothing.
    """

    key: str
    what: str
    fabric: str
    count: int
    size: str = ""
    more: str = ""
    bundle: int = 0
    washed: str = ""

    @property
    def counted(self) -> str:
        """How many of what: `21 squares`, `1 backing`."""
        return f"{self.count} {self.what if self.count == 1 else _many(self.what)}"


class Contents(Value, kw_only=True):
    """A whole kit.

    Attributes:
        title: of the project, as the person wrote it.
        finished: finished size, as the figures print it.
        variant: which size and colorway it is, and which issue of the pattern; empty for plain.
        batch: of the kits, where the project file says it.
        file: the first letters of the project file's digest.
        parts: everything in it: cloth in the order of the fabrics, card, papers.
    """

    title: str
    finished: str
    variant: str
    batch: str
    file: str
    parts: tuple[Part, ...]

    @property
    def bundles(self) -> tuple[Part, ...]:
        """The parts of cloth."""
        return tuple(part for part in self.parts if part.bundle)

    @property
    def templates(self) -> tuple[Part, ...]:
        """The parts of card."""
        return tuple(part for part in self.parts if part.key and not part.bundle)

    @property
    def papers(self) -> tuple[Part, ...]:
        """The parts of paper."""
        return tuple(part for part in self.parts if not part.key)


def contents_of(kit: Kit) -> Contents:
    """Everything that a kit of one blanket holds."""
    texts = {f.key: f.text for group in figures_of(kit).groups for f in group.figures}
    project = kit.project
    return Contents(
        title=project.title,
        finished=_both(texts, "finished"),
        variant=_variant(kit),
        batch=project.pattern.batch,
        file=project.digest[:SHORT],
        parts=(*_cloth(kit, texts), *_card(kit, texts), *_papers()),
    )


def _variant(kit: Kit) -> str:
    project, pattern = kit.project, kit.project.pattern
    said = (
        f"Size {project.size}" if project.size else "",
        f"Colorway {project.colorway}" if project.colorway else "",
        f"Pattern version {pattern.version}" if pattern.version else "",
        pattern.date,
    )
    return ", ".join(filter(None, said))


def _cloth(kit: Kit, texts: Texts) -> Iterator[Part]:
    number = 0
    squares = _from_squares(kit, texts)
    for fabric in kit.project.fabrics:
        for piece in kit.cloth:
            if piece.fabric == fabric.name:
                number += 1
                waits = piece.kind in _WAITING and backing_waits(kit)
                yield Part(
                    key=piece.key,
                    what=_what(piece, waits=waits),
                    fabric=fabric.label,
                    count=piece.count,
                    size=_size(kit, piece, texts),
                    more=LATER if waits else squares.get(piece.key, ""),
                    bundle=number,
                    washed=_washed(fabric),
                )


def _what(piece: Piece, *, waits: bool) -> str:
    """What a piece is; of a backing that waits for the top, what it is cut from."""
    what = _WHAT.get(piece.kind) or _patch(piece)
    return f"length for {_ARTICLE[piece.kind]} {what}" if waits else what


_ARTICLE = {PieceKind.BACKING: "the", PieceKind.PANEL: "a"}


def _card(kit: Kit, texts: Texts) -> Iterator[Part]:
    for number, template in enumerate(kit.templates, 1):
        corners = ", ".join(template.corners)
        several = "s" if len(template.corners) > 1 else ""
        yield Part(
            key=template.piece.key,
            what=f"template for corner{several} {corners}",
            fabric=CARD,
            count=1,
            size=_card_size(texts, number),
        )


def _card_size(texts: Texts, number: int) -> str:
    """What a card is checked by: its longest edge, and the way between its holes."""
    key = f"corner.{number}.card"
    size = f"long edge {texts[f'{key}.edge']}"
    between = texts.get(f"{key}.holes")
    return f"{size}, hole to hole {between}" if between else size


def _papers() -> tuple[Part, ...]:
    return (
        Part(key="", what="booklet", fabric=PAPER, count=1),
        Part(key="", what="packing list", fabric=PAPER, count=1),
    )


def _patch(piece: Piece) -> str:
    return "patch" if piece.shape is None else piece.shape.name


def _size(kit: Kit, piece: Piece, texts: Texts) -> str:
    """The cut size; of a triangle, which is cut from a square, its finished edges."""
    key, shape = piece.key.lower(), piece.shape
    if piece.kind in (PieceKind.BACKING, PieceKind.TOP, PieceKind.FILLING):
        return _both(texts, key) + ("" if sizes(kit.project) else WIDEST)
    if shape is not None and shape.kind is not PatchKind.RECTANGLE:
        edges = "long edge" if shape.kind is PatchKind.QUARTER else "short edges"
        return f"finished {edges} {_both(texts, f'{key}.finished')}"
    if f"{key}.from" in texts or piece.key.removesuffix("-UNDER") != piece.key:
        return _box(kit, piece)
    return _both(texts, f"{key}.cut") or texts.get("patch.cut", "") or _box(kit, piece)


def _both(texts: Texts, key: str) -> str:
    """A figure that is one length, or a width and a height; empty where there is none."""
    if key in texts:
        return texts[key]
    pair = f"{key}.width", f"{key}.height"
    return " x ".join(texts[each] for each in pair) if pair[0] in texts else ""


def _box(kit: Kit, piece: Piece) -> str:
    """The box of a piece that has no figure of its own."""
    both = dict.fromkeys(length("", "", mm, kit.project.ruler).text for mm in piece.size)
    return " x ".join(both)


def _from_squares(kit: Kit, texts: Texts) -> dict[str, str]:
    """What triangles are cut from and squares of pairs are sewn to, by the key of the piece."""
    found = {}
    singly = [piece for piece in kit.cloth if piece.shape is not None]
    for blanks in blanks_of(singly, kit.project.allowance, kit.project.ruler.step):
        text = texts[f"{blanks.keys[0].lower()}.from"].partition("; exactly")[0]
        for key in blanks.keys:
            others = " and ".join(other for other in blanks.keys if other != key)
            found[key] = f"from {text}" + (f", with {others}" if others else "")
    for pair in kit.pairs:
        text = texts[f"{pair.marked.key.lower()}.from"].partition("; exactly")[0]
        found |= dict.fromkeys((pair.marked.key, pair.plain.key), text)
    return found


def _washed(fabric: Fabric) -> str:
    stock = fabric.stock
    if stock is None:
        return ""
    if stock.washed is Washed.BEFORE:
        return "washed before it was cut"
    return "not washed yet: it shrinks when first washed" if any(stock.shrinkage) else ""


def _many(what: str) -> str:
    """More than one of a thing: `square` makes `squares`, `panel of ...` `panels of ...`."""
    first, _, rest = what.partition(" ")
    if rest.startswith(("of ", "for ")):
        return f"{first}s {rest}"
    return f"{what}es" if what.endswith("patch") else f"{what}s"
