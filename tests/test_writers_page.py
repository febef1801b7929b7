"""The page as a file: it keeps to itself, holds what it should, and no text of a person runs."""

from __future__ import annotations

import ast
import json
import re
from collections.abc import Iterable
from html.parser import HTMLParser
from pathlib import Path

import pytest
import rigs
from sample_drawings import marked

from cutpaths.drawing import Item
from cutpaths.errors import DrawingError
from cutpaths.pieces import build
from cutpaths.project import load, read
from cutpaths.projector.report import CAUTIONS
from cutpaths.readback import page as readback
from cutpaths.shapes import Text
from cutpaths.sheets.page import PageDocument
from cutpaths.sheets.rig_target import PIXEL_MM, target
from cutpaths.sheets.sheet import Output, Wishes
from cutpaths.sheets.uses import outputs
from cutpaths.writers.html import Markup, data_block, filled
from cutpaths.writers.page import MODULES, joined, page_file, render

FIXTURES = Path(__file__).parent.parent / "fixtures"
HOSTILE = '</script><script>alert("1")</script><img src=x onerror=alert(2)> & {{data}}'
TAPED = rigs.measured(rigs.rig(), rigs.CAMERAS["tilted"], rigs.NINE, noise=0.5)


def projector(title: str = "", wishes: Wishes = Wishes()) -> tuple[Output, ...]:  # noqa: B008
    """What the projector gets of the tide pool, under another title where one is given."""
    path = FIXTURES / "tidepool.toml"
    if not title:
        return outputs(build(load(path)), ["projector"], wishes)
    text = path.read_text().replace('"Tide pool"', json.dumps(title))
    return outputs(build(read(text)), ["projector"], wishes)


def page(title: str = "", wishes: Wishes = Wishes()) -> PageDocument:  # noqa: B008
    """The page among them."""
    (document,) = (o.document for o in projector(title, wishes) if o.formats == ("html",))
    assert isinstance(document, PageDocument)
    return document


class _Tags(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.found: list[tuple[str, dict[str, str | None]]] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.found.append((tag, dict(attrs)))


def tags(data: bytes) -> list[tuple[str, dict[str, str | None]]]:
    """Every tag of a page with its attributes."""
    reader = _Tags()
    reader.feed(data.decode())
    return reader.found


@pytest.mark.parametrize("wishes", [Wishes(), Wishes(rig=TAPED)], ids=["bare", "rig"])
def test_a_page_reads_back_whole(wishes: Wishes) -> None:
    """Title, data and policy are as they should be, with a rig and without."""
    document = page(wishes=wishes)
    assert readback.check(document, render(document)) == ()
    assert render(document) == render(document)


def test_a_hostile_title_stays_text() -> None:
    """What looks like markup in a title makes no tag, no handler and no early end of the data."""
    document = page(HOSTILE)
    data = render(document)
    plain = render(page())
    assert [tag for tag, _ in tags(data)] == [tag for tag, _ in tags(plain)]
    assert readback.check(document, data) == ()
    assert data.count(b"</script>") == plain.count(b"</script>") == 2


@pytest.mark.parametrize(
    ("old", "new", "difference"),
    [
        (b"default-src &#x27;none&#x27;; ", b"", "the policy is"),
        (b"base-uri &#x27;none&#x27;", b"base-uri *", "the policy is"),
        (b'"use strict";', b'"use strict" ;', "the policy is"),
        (b"<main ", b'<main onclick="x()" ', "<main> has a handler or a style of its own"),
        (b"<main ", b'<img src="http://a.example/"><main ', "<img> reaches out of the page"),
        (b'"format":1', b'"format":2', "the data differs in format"),
        (b'"key":"BACKING"', b'"key":"BACK"', "the data differs in pieces"),
        (b": marks by light", b": marks", "the title is"),
    ],
)
def test_a_broken_copy_is_caught(old: bytes, new: bytes, difference: str) -> None:
    """Each way to harm the page is seen when it is read back."""
    document = page()
    data = render(document)
    assert old in data
    found = readback.check(document, data.replace(old, new, 1))
    assert any(line.startswith(difference) for line in found), found


def test_other_documents_are_no_page() -> None:
    """A drawing is refused by the writer and by the reader."""
    with pytest.raises(DrawingError, match=r"^HTML holds the projector's page, and "):
        render(marked())
    assert readback.check(marked(), b"") == ("a page was expected to have the projector's content",)


def test_modules_import_only_from_those_before_them() -> None:
    """The joined script has each name before it is used, and no name twice."""
    for n, name in enumerate(MODULES):
        wanted = re.findall(r'from "\./([a-z_]+\.js)"', page_file(name))
        assert set(wanted) <= set(MODULES[:n]), name
    names = re.findall(
        r"^(?:async )?(?:function|const|let|class) ([A-Za-z_]+)", joined(), re.MULTILINE
    )
    assert len(names) == len(set(names))
    assert not re.search(r"^(import|export) ", joined(), re.MULTILINE)


def test_modules_are_small_and_all_joined() -> None:
    """Every module is in the page, opens with what it holds, and has under 250 lines."""
    folder = Path(__file__).parent.parent / "cutpaths" / "projector" / "page"
    assert {path.name for path in folder.glob("*.js")} == set(MODULES)
    for name in MODULES:
        text = page_file(name)
        assert text.startswith("/**")
        assert text.count("\n") < 250
        for banned in ("innerHTML", "eval(", "document.write", "fetch(", "XMLHttpRequest"):
            assert banned not in text


def test_templates_escape_by_default() -> None:
    """Text is escaped, markup of our own is not, and a place that does not match is refused."""
    assert filled("<p>{{a}}</p>", {"a": "<&\">'"}) == "<p>&lt;&amp;&quot;&gt;&#x27;</p>"
    assert filled("<p>{{a}}</p>", {"a": Markup("<b>")}) == "<p><b></p>"
    assert filled("{{a}}", {"a": "{{b}}"}) == "{{b}}"
    with pytest.raises(DrawingError, match=r"^a template has places \['a'\], got \['b'\]$"):
        filled("{{a}}", {"b": ""})


def test_data_comes_back_as_it_was() -> None:
    """JSON in the page is the same value, whatever is in its texts."""
    value = {"text": HOSTILE + "\u2028", "number": [1.5, -0.25]}
    block = data_block(value)
    assert json.loads(block) == value
    assert "<" not in block
    assert ast.literal_eval(repr(str(block))) == block


def test_frames_of_a_rig_are_pictures_in_its_pixels() -> None:
    """One SVG for each placement, as large as the picture, all lines within it."""
    made = projector(wishes=Wishes(rig=TAPED))
    frames = [o.document.only_sheet("SVG") for o in made if o.name.startswith("frame-")]
    assert len(frames) == 4
    for sheet in frames:
        assert sheet.size == (1920 * 25.4 / 96, 1080 * 25.4 / 96)
        assert sheet.about.face.startswith(("Lay ", "Slide ", "Turn ", "Leave "))
        roles = {item.role.value for item in sheet.items}
        assert {"CUT", "STITCH", "DOT", "CENTER"} <= roles
        for caution in CAUTIONS:
            assert caution.removesuffix(".") in sheet.about.face
        assert _said(sheet.items).count("Do not look into the lens.") == 1


def test_the_target_warns_of_the_lens() -> None:
    """Between its crosses it says so to whoever stands in the light."""
    sheet = target(TAPED).only_sheet("SVG")
    assert _said(sheet.items) == [*(str(n) for n in range(1, 13)), "Do not look into the lens."]
    (caution,) = (item.shape for item in sheet.items if item.key == "caution")
    assert isinstance(caution, Text)
    rows = sorted({y for _, y in TAPED.crosses})
    down = sheet.size[1] - caution.at[1]
    assert rows[0] < down / PIXEL_MM < rows[1]


def _said(items: Iterable[Item]) -> list[str]:
    """The texts of a drawing."""
    return [item.shape.string for item in items if isinstance(item.shape, Text)]


def test_the_summary_says_how_few() -> None:
    """Placements, their bound, frames and the error that is to be expected."""
    summary = page(wishes=Wishes(rig=TAPED)).content.summary
    assert [re.sub(r"\d+\.\d", "N", line) for line in summary] == [
        "BACKING: 2 placements (no fewer will do), 2 frames; a mark may be off by up to N mm",
        "TOP: 2 placements (no fewer will do), 2 frames; a mark may be off by up to N mm",
    ]
