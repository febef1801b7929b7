"""The page of a whole folder: one HTML file that needs nothing beside itself.

HTML 5 without scripts. Its style stands in the file and is named by its SHA-256 in the page's
Content-Security-Policy (CSP Level 3, 2.3.1 hash sources), which forbids all else. Links are
relative and lead to the files beside the page; pictures are SVG inside it.

Left out: scripts, fonts, pictures of other files, links that lead anywhere else.
"""

from __future__ import annotations

from base64 import b64encode
from collections.abc import Iterable, Iterator
from hashlib import sha256
from importlib.resources import files

from cutpaths.drawing import Document
from cutpaths.errors import DrawingError
from cutpaths.figures.model import Figure
from cutpaths.figures.model import Group as FigureGroup
from cutpaths.proof.check import Check, Proof
from cutpaths.sheets.index import (
    CAUTIONS,
    FRONT,
    MAIN,
    Card,
    Filed,
    Group,
    IndexContent,
    IndexDocument,
)
from cutpaths.writers.html import Markup, filled
from cutpaths.writers.thumbnail import thumbnail

ROOM = 1_000_000  # letters for all pictures together
ROOM_EACH = 24_000
KB, MB = 1_000, 1_000_000

_GROUP = """\
<section id="{{id}}" aria-labelledby="{{id}}-head">
<h2 id="{{id}}-head">{{title}}</h2>
<p class="says">{{says}}</p>
<ul class="cards">
{{cards}}
</ul>
</section>"""
_CARD = """\
<li class="card">
<div class="picture">{{picture}}</div>
<h3>{{title}}</h3>
<p class="says">{{says}}</p>
<p class="links">{{links}}</p>
</li>"""
_KIND = '<span class="kind" aria-hidden="true">{{kind}}</span>'
_FRONT = '<div class="front">{{picture}}</div>'
_LINK = '<a href="{{path}}">{{kind}} <span class="size">{{size}}</span></a>'
_PART = '<li><a href="#{{id}}">{{title}}</a></li>'
_FIGURE = '<tr><th scope="row">{{label}}</th><td>{{text}}</td></tr>'
_FIGURES = '<table class="figures"><tbody>\n{{rows}}\n</tbody></table>'
_MORE = "<details>\n<summary>{{title}}</summary>\n{{figures}}\n</details>"
_CHECK = """\
<tr><th scope="row">{{name}}{{at}}</th>
<td>{{expected}}</td><td>{{found}}</td><td>{{holds}}</td></tr>
<tr><td class="claim" colspan="4">{{claim}}</td></tr>"""
_AT = ' <span class="at">at {{at}}</span>'
_LINE = "<li>{{line}}</li>"
_LISTED = """\
<section id="{{id}}" class="{{id}}" aria-labelledby="{{id}}-head">
<h2 id="{{id}}-head">{{title}}</h2>
<ul>
{{lines}}
</ul>
</section>"""


def render(document: Document) -> bytes:
    """The bytes of the page.

    Raises:
        DrawingError: the document is no page of a folder.
    """
    if not isinstance(document, IndexDocument):
        raise DrawingError(f"this HTML holds the page of a folder, and {document.name} is none")
    content, style = document.content, _part("index.css")
    digest = b64encode(sha256(style.encode()).digest()).decode()
    policy = f"default-src 'none'; style-src 'sha256-{digest}'; base-uri 'none'; form-action 'none'"
    values = {
        "policy": policy,
        "style": Markup(style),
        "title": content.title,
        "variant": content.variant,
        "digest": content.digest,
        "proof_state": _state(content.proof),
        "proof_words": _words(content.proof),
        "contents": _joined(_contents(content)),
        "figures": _joined(_figures(content.figures)),
        "front": _front(content),
        "groups": _joined(_groups(content.groups)),
        "checks": _joined(map(_check, content.proof.checks)),
        "notes": _listed("notes", "Notes", content.notes),
        "left_out": _listed("left-out", "Left out", content.left_out),
        "cautions": _joined(filled(_LINE, {"line": line}) for line in CAUTIONS),
    }
    return filled(_part("index.html"), values).encode()


def _part(name: str) -> str:
    return (files("cutpaths.writers") / "index_page" / name).read_text(encoding="utf-8")


def _joined(parts: Iterable[str]) -> Markup:
    """Parts that are HTML already, line by line."""
    return Markup("\n".join(parts))


def _state(proof: Proof) -> str:
    total, failed = len(proof.checks), len(proof.failed)
    return f"{failed} of {total} checks fail" if failed else f"Proved: all {total} checks hold"


def _words(proof: Proof) -> str:
    return (
        f"The pieces were sewn up on paper from their own coordinates before anything was written. "
        f"{_state(proof)}."
    )


def _contents(content: IndexContent) -> Iterator[str]:
    parts = [("figures", "Main figures")]
    parts += [(_id(number), group.shelf.title) for number, group in enumerate(content.groups, 1)]
    parts += [("proof", "The proof"), ("cautions", "Take care")]
    for place, title in parts:
        yield filled(_PART, {"id": place, "title": title})


def _id(number: int) -> str:
    return f"files-{number}"


def _figures(groups: tuple[FigureGroup, ...]) -> Iterator[str]:
    """The main group open, the others to be opened."""
    for group in groups:
        rows = _joined(map(_figure, group.figures))
        table = Markup(filled(_FIGURES, {"rows": rows}))
        if group.title == MAIN:
            yield table
        else:
            yield filled(_MORE, {"title": group.title, "figures": table})


def _front(content: IndexContent) -> Markup:
    """The first picture, larger than on its card."""
    cards = [card for group in content.groups for card in group.cards]
    for card in cards:
        if card.drawing is not None and card.files[0].output.name == FRONT:
            picture = thumbnail(card.drawing, f"Picture of the {card.title}", ROOM_EACH)
            return Markup(filled(_FRONT, {"picture": picture}))
    return Markup("")


def _figure(figure: Figure) -> str:
    return filled(_FIGURE, {"label": figure.label, "text": figure.text})


def _groups(groups: tuple[Group, ...]) -> Iterator[str]:
    drawn = sum(card.drawing is not None for group in groups for card in group.cards)
    room = min(ROOM_EACH, ROOM // max(1, drawn))
    for number, group in enumerate(groups, 1):
        yield filled(
            _GROUP,
            {
                "id": _id(number),
                "title": group.shelf.title,
                "says": group.shelf.says,
                "cards": _joined(_card(card, room) for card in group.cards),
            },
        )


def _card(card: Card, room: int) -> str:
    if card.drawing is None:
        picture = Markup(filled(_KIND, {"kind": _kind(card.files[0])}))
    else:
        picture = thumbnail(card.drawing, f"Picture of {card.title}", room)
    return filled(
        _CARD,
        {
            "picture": picture,
            "title": card.title,
            "says": card.says,
            "links": _joined(map(_link, card.files)),
        },
    )


def _link(file: Filed) -> str:
    return filled(_LINK, {"path": file.path, "kind": _kind(file), "size": _size(file.size)})


def _kind(file: Filed) -> str:
    """A format as people call it."""
    return file.path.rpartition(".")[2].upper()


def _size(size: int) -> str:
    if size < KB:
        return f"{size} bytes"
    return f"{size / MB:.1f} MB" if size >= MB else f"{round(size / KB)} KB"


def _check(check: Check) -> str:
    at = Markup(filled(_AT, {"at": check.at}) if check.at else "")
    return filled(
        _CHECK,
        {
            "name": check.name,
            "at": at,
            "expected": check.expected,
            "found": check.found,
            "holds": "yes" if check.passed else "no",
            "claim": check.claim,
        },
    )


def _listed(place: str, title: str, lines: tuple[str, ...]) -> Markup:
    """A list under a heading; nothing where there is nothing to say."""
    if not lines:
        return Markup("")
    items = _joined(filled(_LINE, {"line": line}) for line in lines)
    return Markup(filled(_LISTED, {"id": place, "title": title, "lines": items}))
