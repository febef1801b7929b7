"""The use `pages`: true-scale pages for a printer, as PDF.

One file holds what is printed at home: the corner templates, a practice corner for each different
corner, and the cut shapes that fit on a page. Backing, top, filling and panels have a file each, in
tiles to be joined; without asking only where the paper is so large that few pages do.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from cutpaths.drawing import Document, Drawing
from cutpaths.geometry.assembly import Piece, PieceKind
from cutpaths.geometry.marks import letter
from cutpaths.geometry.polygons import Ring, box
from cutpaths.lengths import as_fraction
from cutpaths.pieces import Kit
from cutpaths.shapes import Text
from cutpaths.sheets.cad import label_lines
from cutpaths.sheets.faces import face_said
from cutpaths.sheets.pages.blocks import Block, Filled, filled, names_said
from cutpaths.sheets.pages.cover import cover_items
from cutpaths.sheets.pages.cut_shapes import patch_blocks, template_blocks
from cutpaths.sheets.pages.page import page, room_of
from cutpaths.sheets.pages.paper import Paper, usual_paper
from cutpaths.sheets.pages.practice import practices
from cutpaths.sheets.pages.tiled import Large, outline_edges, tile_pages, tiled
from cutpaths.sheets.pages.tiling import Tiling, quick_count
from cutpaths.sheets.sheet import Output, Wishes
from cutpaths.sheets.signs import piece_items

FORMATS = ("pdf",)
# A piece that takes no more pages than this is tiled without asking.
UNASKED = 4
# A template or practice corner that is larger than a page is parted into as many at most.
PARTS_MOST = 6
# A roll's pages of small things are no longer than this.
_ROLL_LONG = 600.0
_COVER_LONG = 280.0


def page_sheets(kit: Kit, wishes: Wishes) -> tuple[Output, ...]:
    """The small things in one file, each large piece in one of its own.

    Raises:
        DrawingError: a large piece was asked for and takes too many pages.
    """
    paper = wishes.paper or usual_paper(kit.project.ruler.unit)
    large = [each for each in _large(kit) if wishes.whole or _is_few(each, paper)]
    tilings = [tiled(each, paper) for each in large]
    left_out = [each.name for each in _large(kit) if each.name not in {e.name for e in large}]
    small = Output(
        name="pages",
        document=Document("pages", _small(kit, paper, left_out, whole=wishes.whole)),
        formats=FORMATS,
    )
    tiles = (_tiles(kit, each, tiling) for each, tiling in zip(large, tilings, strict=True))
    return small, *tiles


def _tiles(kit: Kit, large: Large, tiling: Tiling) -> Output:
    name = f"pages-{large.name.lower()}"
    sheets = tile_pages(kit, large, tiling, name)
    return Output(name=name, document=Document(name, sheets), formats=FORMATS)


def _is_few(large: Large, paper: Paper) -> bool:
    return quick_count(large.ink(), paper) <= UNASKED


# --- large pieces


def _large(kit: Kit) -> tuple[Large, ...]:
    filling = () if kit.filling is None else (kit.filling,)
    panels = () if kit.panels is None else kit.panels.pieces()
    return tuple(_large_piece(kit, piece) for piece in (kit.backing, kit.top, *filling, *panels))


def _large_piece(kit: Kit, piece: Piece) -> Large:
    names = [f"side {letter(i)}, raw edge" for i in range(len(kit.project.borders))]
    ring = _sides(kit, piece)
    texts = outline_edges(ring, names) if ring else ()
    ruler = kit.project.ruler
    left, bottom, right, top = box(piece.outline)
    checks = (
        f"{ruler.both(as_fraction(right - left))} across",
        f"{ruler.both(as_fraction(top - bottom))} from foot to head",
    )
    return Large(
        name=piece.key,
        face=face_said(kit, piece),
        items=piece_items(piece),
        texts=texts,
        checks=checks,
        said=", ".join((*label_lines(kit, piece)[1:], *_grain(piece))),
    )


def _grain(piece: Piece) -> Iterator[str]:
    """How the threads run; the pages are never turned, so that the head is up."""
    if piece.grain is not None and piece.grain.way == (0.0, 1.0):
        yield "grain from foot to head" + (", the print upright" if piece.grain.headed else "")


def _sides(kit: Kit, piece: Piece) -> Ring:
    """The raw edges of backing and top, side A first, in the piece's frame; else nothing."""
    home = piece.places[0].inverse() if piece.places else None
    if home is None or piece.kind not in (PieceKind.BACKING, PieceKind.TOP):
        return ()
    backing = tuple(corner.backing_point for corner in kit.blanket.corners)
    ring = backing if piece.kind is PieceKind.BACKING else kit.blanket.top
    return tuple(home.point(p) for p in ring)


# --- small things


def _small(kit: Kit, paper: Paper, left_out: Sequence[str], *, whole: bool) -> tuple[Drawing, ...]:
    """The cover and the pages of templates, practice corners and cut shapes."""
    room = room_of(paper, long=_ROLL_LONG)
    corners = zip(template_blocks(kit, room), practices(kit, room), strict=True)
    groups = (
        *((template, *practice.blocks) for template, practice in corners),
        patch_blocks(kit),
    )
    pages, too_large = filled(groups, room)
    tried = (_parted(block, paper, whole=whole) for block in too_large)
    parted = [found for found in tried if found is not None]
    in_parts = {large.name for large, _ in parted}
    unfit = [block.name for block in too_large if block.name not in in_parts]
    count = 1 + len(pages) + sum(_count(tiling) for _, tiling in parted)
    contents = (*_contents(pages, parted), *_not_here((*unfit, *left_out)))
    first = room_of(paper, long=_COVER_LONG)
    sheets = [
        page(
            kit,
            first,
            cover_items(kit, first, contents),
            name="pages-1",
            what="how to print",
            number=(1, count),
        )
    ]
    for number, each in enumerate(pages, start=2):
        what = names_said(each.names)
        sheets.append(
            page(kit, room, each.items, name=f"pages-{number}", what=what, number=(number, count))
        )
    for large, tiling in parted:
        sheets += tile_pages(kit, large, tiling, "pages", len(sheets) + 1, count)
    return tuple(sheets)


def _parted(block: Block, paper: Paper, *, whole: bool) -> tuple[Large, Tiling] | None:
    """What is larger than a page, in tiles: a template or a practice corner where few pages do.

    Asked for whole pieces, patches too, and on any number of pages.

    Raises:
        DrawingError: asked for, it takes too many pages.
    """
    strings = (item.shape.string for item in block.items if isinstance(item.shape, Text))
    large = Large(name=block.name, face="", items=block.items, said=", ".join(strings))
    few = block.needed and quick_count(large.ink(), paper) <= PARTS_MOST
    return (large, tiled(large, paper)) if few or whole else None


def _count(tiling: Tiling) -> int:
    """How many pages it takes, with the plan."""
    return len(tiling.filled) + (1 if len(tiling.filled) > 1 else 0)


def _contents(pages: Sequence[Filled], parted: Sequence[tuple[Large, Tiling]]) -> Iterator[str]:
    """What is on each page."""
    for number, each in enumerate(pages, start=2):
        yield f"Page {number}: {names_said(each.names)}"
    first = len(pages) + 2
    for large, tiling in parted:
        last = first + _count(tiling) - 1
        if first == last:
            yield f"Page {first}: {large.name}"
        else:
            yield f"Pages {first} to {last}: {large.name}, to be joined"
        first = last + 1


def _not_here(names: Sequence[str]) -> Iterator[str]:
    """What is too large for these pages, and what to do about it."""
    if names:
        yield (
            f"Not here, too large for this paper: {', '.join(names)}. Measure them on the cloth, "
            "ask for whole pieces in tiles, or for larger paper."
        )
