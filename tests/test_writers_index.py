"""The page of a folder: everything is on it, nothing runs in it, and it leads nowhere else."""

from __future__ import annotations

from functools import cache
from html.parser import HTMLParser
from pathlib import Path

import pytest
from sample_drawings import marked

from cutpaths.errors import DrawingError
from cutpaths.formats import render_checked
from cutpaths.pieces import Kit, build
from cutpaths.project import load
from cutpaths.proof import prove
from cutpaths.readback.index import check
from cutpaths.sheets.index import Filed, IndexDocument, index_document
from cutpaths.sheets.sheet import Output, Wishes
from cutpaths.sheets.uses import outputs
from cutpaths.values import replace
from cutpaths.writers.index import render

TIDEPOOL = Path(__file__).parent.parent / "fixtures" / "tidepool.toml"
HOSTILE = '</title><script>alert(1)</script><img src=x onerror=alert(2)> & "Q" \'{{digest}}'
VOID = {"meta", "path", "rect"}


@cache
def kit() -> Kit:
    """The example's kit."""
    return build(load(TIDEPOOL))


@cache
def page(title: str = "") -> IndexDocument:
    """The page of a folder with some files of the example, under any title."""
    named = replace(kit().project, title=title or kit().project.title)
    made = replace(kit(), project=named)
    wishes = Wishes(proof=prove(kit()), beside=TIDEPOOL.parent)
    found = outputs(made, ("labels", "pictures", "cad", "records"), wishes)
    return index_document(made, prove(kit()), list(_filed(found)), ("the rest is left out.",))


def _filed(made: tuple[Output, ...]) -> list[Filed]:
    suffix = {"pdf": "pdf", "csv": "csv", "svg": "svg", "dxf": "dxf", "json": "json"}
    suffix |= {"html": "html", "page": "html"}
    return [
        Filed(output=o, path=f"{o.folder}/{o.name}.{suffix[form]}", size=123_456)
        for o in made
        for form in o.formats
    ]


class _Strict(HTMLParser):
    """Every tag that opens closes in turn; the standard library's tokens, our own stack."""

    def __init__(self) -> None:
        super().__init__()
        self.open: list[str] = []
        self.faults: list[str] = []
        self.ids: list[str] = []
        self.levels: list[int] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if len({name for name, _ in attrs}) < len(attrs):
            self.faults.append(f"<{tag}> has an attribute twice")
        self.ids += [value or "" for name, value in attrs if name == "id"]
        if tag[0] == "h" and tag[1:].isdigit():
            self.levels.append(int(tag[1:]))
        if tag not in VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag not in VOID:
            self.faults.append(f"<{tag}/> is not void, with {attrs}")

    def handle_endtag(self, tag: str) -> None:
        if not self.open or self.open.pop() != tag:
            self.faults.append(f"</{tag}> closes another tag")


@pytest.mark.parametrize("title", ["", HOSTILE])
def test_the_page_is_well_formed(title: str) -> None:
    """Tags nest, ids are unique, headings go down one level at a time."""
    strict = _Strict()
    strict.feed(render_checked(page(title), "index").decode())
    strict.close()
    assert (strict.faults, strict.open) == ([], [])
    assert len(set(strict.ids)) == len(strict.ids)
    assert strict.levels[0] == 1
    assert strict.levels.count(1) == 1
    steps = [b - a for a, b in zip(strict.levels, strict.levels[1:], strict=False)]
    assert max(steps) == 1


def test_files_stand_in_groups_with_all_their_formats() -> None:
    """One card for a drawing in two formats, in the group of its folder."""
    groups = {group.shelf.title: group.cards for group in page().content.groups}
    assert list(groups) == [
        "On paper",
        "Pictures",
        "To check in a drawing program",
        "For the records",
    ]
    (pieces,) = groups["To check in a drawing program"]
    assert [file.path for file in pieces.files] == ["cad/cad-pieces.dxf", "cad/cad-pieces.svg"]
    assert [card.title for card in groups["Pictures"]] == [
        "front of the finished blanket",
        "back of the finished blanket",
        "layout chart",
    ]
    text = render(page()).decode()
    assert text.count('<a href="cad/cad-pieces.svg">SVG <span class="size">123 KB</span></a>') == 1


def test_the_proof_and_the_figures_are_on_it() -> None:
    """The state, the number of checks and a size, as the figures print it."""
    text = render(page()).decode()
    checks = len(prove(kit()).checks)
    assert f"Proved: all {checks} checks hold" in text
    assert '<th scope="row">finished blanket, across</th><td>32 in (812.8 mm)</td>' in text
    assert "sleep space of a child under 1" in text


def test_same_input_same_bytes_and_small() -> None:
    """No clock in it, and far under the two megabytes that a page may have."""
    assert render(page()) == render(page())
    assert len(render(page())) < 400_000


def test_a_hostile_title_is_text() -> None:
    """It stands on the page as it is written, and no tag comes of it."""
    text = render_checked(page(HOSTILE), "index").decode()
    assert "<script" not in text
    assert "<img" not in text
    assert text.count("&lt;script&gt;alert(1)&lt;/script&gt;") >= 2
    assert "{{digest}}" in text


def test_what_is_no_folder_is_refused() -> None:
    """A drawing is no page of a folder."""
    with pytest.raises(DrawingError, match="this HTML holds the page of a folder"):
        render(marked())


@pytest.mark.parametrize(
    ("good", "bad", "told"),
    [
        ("<h1>Tide pool", "<h1>Tide pond", "'Tide pool' is not on the page"),
        ("pool: all files", "pond: all files", "the title is ['Tide pond: all files']"),
        ("<td>32 in (812.8 mm)", "<td>23 in (812.8 mm)", "figures or checks differ"),
        ("<td>yes</td>", "<td>no</td>", "figures or checks differ"),
        ('href="cad/cad-pieces.svg"', 'href="cad/none.svg"', "links differ: ['cad/cad-pieces.svg'"),
        ('href="cad/cad-pieces.svg"', 'href="http://x.example/"', "links differ"),
        ('href="#figures"', 'href="#nowhere"', "links lead to no place: ['#nowhere']"),
        ("default-src &#x27;none&#x27;", "default-src *", "the policy is"),
        ("font: 1rem", "font: 2rem", "the policy is"),
        ("<footer>", "<footer><img src='https://x.example/a'>", "<img> reaches out of the page"),
        ("<footer>", "<footer><script>1</script>", "<script> has no place on the page"),
        ("<footer>", "<footer onclick='x()'>", "<footer> has a handler or a style of its own"),
        ("<svg ", "<svg><use xlink:href='#a'/></svg><svg ", "<use> has no place on the page"),
        ("the rest is left out.", "", "'the rest is left out.' is not on the page"),
    ],
)
def test_a_damaged_page_is_found_out(good: str, bad: str, told: str) -> None:
    """The reader, which shares no code with the writer, says what is wrong."""
    text = render(page()).decode()
    assert check(page(), text.encode()) == ()
    assert good in text
    found = check(page(), text.replace(good, bad).encode())
    assert any(line.startswith(told) for line in found), found


@pytest.mark.parametrize("name", ["tidepool", "harbor"])
def test_no_two_cards_have_one_title(name: str) -> None:
    """A mirrored twin says so, and drawings of one fabric are numbered."""
    path = TIDEPOOL.with_name(f"{name}.toml")
    made = build(load(path))
    wishes = Wishes(proof=prove(made), beside=path.parent)
    found = outputs(made, ("cloth", "cad", "cutter", "projector"), wishes)
    content = index_document(made, prove(made), list(_filed(found)), ()).content
    titles = [card.title for group in content.groups for card in group.cards]
    assert sorted(set(titles)) == sorted(titles)
    assert {"BACKING", "BACKING, mirrored", "TOP", "TOP, mirrored"} <= set(titles)
    dusk = [title for title in titles if title.startswith("cutting plan, Dusk")]
    numbered = [f"cutting plan, Dusk blue flannel, {count}" for count in (1, 2, 3)]
    assert dusk == (numbered if name == "harbor" else [])


def test_titles_that_names_do_not_number_get_the_whole_name() -> None:
    """Two outputs of one title and no number are told apart all the same."""
    one, other = (replace(_filed(_cad())[0], output=each) for each in _two(_cad()[0]))
    content = index_document(kit(), prove(kit()), [one, other], ()).content
    assert [card.title for card in content.groups[0].cards] == [
        "all pieces (cad-pieces)",
        "all pieces (cad-again)",
    ]


@cache
def _cad() -> tuple[Output, ...]:
    return outputs(kit(), ("cad",), Wishes(proof=prove(kit()), beside=TIDEPOOL.parent))


def _two(output: Output) -> tuple[Output, Output]:
    return output, replace(output, name="cad-again")
