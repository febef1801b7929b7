"""The docs say what is true: what is made is current, and every example does what it shows."""

from __future__ import annotations

import importlib
import math
import re
import shlex
import shutil
import subprocess
import sys
import tomllib
from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path
from types import ModuleType

import pytest

from cutpaths.drawing import Document, Item, expand, flatten
from cutpaths.errors import InputError
from cutpaths.geometry.polygons import Ring, box
from cutpaths.pieces import build
from cutpaths.project import load
from cutpaths.project.patchwork import Squares
from cutpaths.project.reading import load_variants
from cutpaths.shapes import Motion, Point, Text, shift
from cutpaths.shapes import Path as Line
from cutpaths.values import Value, replace

ROOT = Path(__file__).parent.parent
DOCS = ROOT / "docs"
PAGES = sorted(DOCS.glob("*.md"))

# The project that a partial example adds to or changes, by the keys at the head of the file.
BASE = {
    "format": "format = 1",
    "title": 'title = "Example"',
    "top": '[top]\nlayout = "squares"\npatch = 5\ncolumns = 6\nrows = 7',
    "border": "[border]\nwidth = 2",
}
HEADS = ("format", "title")
_BLOCK = re.compile(
    r"^```(?P<kind>\w+)(?P<more>[^\n]*)\n(?P<text>.*?)^```$", re.MULTILINE | re.DOTALL
)
_NAMED = re.compile(r"# (\S+\.toml)\n")  # a first line that says the example is a file of its own
_LINK = re.compile(r"\[[^\]]*\]\((?P<target>[^)\s]+)\)")
_HEADING = re.compile(r"^#+ (.+)$", re.MULTILINE)


class Block(Value):
    """A fenced block of a page: where it starts, its kind, words after that, its text."""

    page: str
    line: int
    kind: str
    more: str
    text: str

    def __str__(self) -> str:
        return f"{self.page}:{self.line}"


def _blocks(page: Path) -> list[Block]:
    text = page.read_text(encoding="utf-8")
    return [
        Block(
            page.name,
            text.count("\n", 0, found.start()) + 1,
            found["kind"],
            found["more"].strip(),
            found["text"],
        )
        for found in _BLOCK.finditer(text)
    ]


ALL = [block for page in PAGES for block in _blocks(page)]
NAMED = {block: found[1] for block in ALL if (found := _NAMED.match(block.text))}
EXAMPLES = [b for b in ALL if b.kind == "toml" and not b.more and b not in NAMED]
MISTAKES = [
    (block, answer)
    for block, answer in pairwise(ALL)
    if (block.kind, block.more) == ("toml", "mistake")
]
SESSIONS = [block for block in ALL if block.kind == "console"]


@pytest.fixture(scope="module")
def make() -> Iterator[ModuleType]:
    """The script that makes what is generated."""
    sys.path.insert(0, str(DOCS))
    yield importlib.import_module("make")
    sys.path.remove(str(DOCS))


@pytest.fixture(scope="module")
def documents(make: ModuleType) -> list[Document]:
    """Every picture as it is before it is written."""
    return [picture() for picture in make.PICTURES]


def whole(text: str) -> str:
    """An example as a whole project: what it does not have comes from the base."""
    try:
        own = set(tomllib.loads(text))
    except tomllib.TOMLDecodeError:
        own = set(re.findall(r"^\[(\w+)", text, re.MULTILINE))
    heads = [BASE[key] for key in HEADS if key not in own]
    tables = [BASE[key] for key in BASE if key not in HEADS and key not in own]
    return "\n".join([*heads, text, *tables])


def _save(block: Block, folder: Path) -> Path:
    path = folder / "blanket.toml"
    path.write_text(whole(block.text), encoding="utf-8")
    return path


def _shared(folder: Path, page: str) -> None:
    """Writes the examples of a page that are files of their own."""
    for block, name in NAMED.items():
        if block.page == page:
            (folder / name).write_text(block.text, encoding="utf-8")


def test_what_is_made_is_current(make: ModuleType) -> None:
    """Pictures, commands, tables and schema are what `python docs/make.py` makes now."""
    stale = [
        name
        for name, data in make.generated().items()
        if not (DOCS / name).exists() or (DOCS / name).read_bytes() != data
    ]
    assert stale == []


def test_every_picture_is_made_and_shown(documents: list[Document]) -> None:
    """No picture is left over from before, and each is shown on a page or in the README."""
    made = {f"{document.name}.svg" for document in documents}
    assert {path.name for path in (DOCS / "pictures").iterdir()} == made
    pages = "".join(page.read_text(encoding="utf-8") for page in [*PAGES, ROOT / "README.md"])
    assert {name for name in made if f"pictures/{name}" not in pages} == set()


def test_every_table_of_the_project_file_is_on_its_page(make: ModuleType) -> None:
    """Each table that a project file may hold has its keys listed, once."""
    page = (DOCS / "project-file.md").read_text(encoding="utf-8")
    assert sorted(re.findall(r"<!-- made: keys (\w+) -->", page)) == sorted(make.tables())


@pytest.mark.parametrize("block", EXAMPLES, ids=str)
def test_every_example_is_a_project(block: Block, tmp_path: Path) -> None:
    """Each TOML example, completed where it is partial, can be made in all sizes and colorways."""
    _shared(tmp_path, block.page)
    for project in load_variants(_save(block, tmp_path)):
        assert build(project).backing.count == 1


@pytest.mark.parametrize("block", [b for b in EXAMPLES if "[arrange]" in b.text], ids=str)
def test_every_example_to_arrange_is_laid_out(block: Block, tmp_path: Path) -> None:
    """Each example with prints to lay out can be laid out, and made with its layout included."""
    project = _save(block, tmp_path)
    said = _run(f"cutpaths arrange {project.name} -o laid.toml --seconds 1", tmp_path)
    assert "laid.toml" in said, said
    text = project.read_text(encoding="utf-8")
    project.write_text(f'include = ["laid.toml"]\n{text}', encoding="utf-8")
    chart = tomllib.loads((tmp_path / "laid.toml").read_text(encoding="utf-8"))["top"]["chart"]
    top = load(project).top
    assert isinstance(top, Squares)
    assert top.chart == tuple(tuple(row.split()) for row in chart)


@pytest.mark.parametrize(("block", "answer"), MISTAKES, ids=str)
def test_every_mistake_is_told_as_shown(block: Block, answer: Block, tmp_path: Path) -> None:
    """Each mistake gives the very lines that stand under it, but for file and line."""
    with pytest.raises(InputError) as caught:
        build(load(_save(block, tmp_path)))
    told = [str(replace(finding, file="", line=0)) for finding in caught.value.findings]
    assert told == answer.text.splitlines()


def _run(command: str, folder: Path) -> list[str]:
    """The lines that a `cutpaths` command prints, talk and all."""
    program, *arguments = shlex.split(command)
    assert program == "cutpaths", command
    run = subprocess.run(
        [sys.executable, "-m", "cutpaths", *arguments],
        cwd=folder,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
        encoding="utf-8",
        check=False,
    )
    return run.stdout.splitlines()


def _shown(text: str) -> Iterator[tuple[str, list[str]]]:
    """Each command of a session with the lines under it."""
    command, lines = "", list[str]()
    for line in text.splitlines():
        if line.startswith("$ "):
            if command:
                yield command, lines
            command, lines = line.removeprefix("$ "), []
        else:
            lines.append(line)
    yield command, lines


def _words(lines: list[str]) -> list[str]:
    """Lines without their columns, whose widths change with what else is printed."""
    return [" ".join(line.split()) for line in lines]


def _follows(lines: list[str], shown: list[str]) -> bool:
    """Whether lines are those shown, where a line `...` stands for any lines, or none."""
    if "..." not in shown:
        return lines == shown
    at = shown.index("...")
    head, rest = shown[:at], shown[at + 1 :]
    starts = range(len(lines) - len(head) + 1)
    return lines[:at] == head and any(_follows(lines[at + n :], rest) for n in starts)


@pytest.mark.parametrize("block", SESSIONS, ids=str)
def test_every_session_prints_what_is_shown(block: Block, tmp_path: Path) -> None:
    """Each command of a console example prints the lines under it; `...` leaves some out."""
    shutil.copytree(ROOT / "fixtures", tmp_path / "fixtures")
    for command, shown in _shown(block.text):
        lines = _run(command, tmp_path)
        assert _follows(_words(lines), _words(shown)), "\n".join([command, *lines])


def _anchors(page: Path) -> set[str]:
    """The anchors of a page's headings, as they are made for pages of this kind."""
    text = _BLOCK.sub("", page.read_text(encoding="utf-8"))
    words = (re.sub(r"[^\w\- ]", "", heading.lower()) for heading in _HEADING.findall(text))
    return {word.replace(" ", "-") for word in words}


@pytest.mark.parametrize("page", [*PAGES, ROOT / "README.md"], ids=lambda page: page.name)
def test_every_link_resolves(page: Path) -> None:
    """Each link inside the project leads to a file that is there, and to a heading on it."""
    broken = []
    for found in _LINK.finditer(_BLOCK.sub("", page.read_text(encoding="utf-8"))):
        name, _, anchor = found["target"].partition("#")
        if "://" in found["target"]:
            continue
        target = page.parent / name if name else page
        if not target.exists() or (anchor and anchor not in _anchors(target)):
            broken.append(found["target"])
    assert broken == []


# A picture is seen 700 px wide; capitals of 10 px are those of 14 px text (common practice).
SEEN_PX, LEAST_PX = 700.0, 10.0


def _parts(document: Document) -> list[Item]:
    """A picture as lines, circles and texts."""
    return [part for item in document.sheets[0].items for part in flatten(item)]


def _strokes(part: Item) -> list[tuple[Point, Point]]:
    """Every straight stroke of a line or a text."""
    found = []
    for each in expand(part):
        if isinstance(each.shape, Line):
            points = each.shape.points
            found += [*pairwise(points), *([(points[-1], points[0])] if each.shape.closed else [])]
    return found


def _room(part: Item, text: Text) -> Ring:
    """The rectangle that the strokes of a text fill, turned as the text is."""
    upright = replace(part, shape=replace(text, angle=0.0))
    left, bottom, right, top = box([p for stroke in _strokes(upright) for p in stroke])
    (x, y), way = text.at, math.radians(text.angle)
    turn = shift(-x, -y).then(Motion(math.cos(way), math.sin(way), x, y))
    return turn.ring(((left, bottom), (right, bottom), (right, top), (left, top)))


def test_texts_of_pictures_can_be_read(make: ModuleType, documents: list[Document]) -> None:
    """Every text of a picture is large enough, on the sheet, and no other stroke runs into it."""
    for document in documents:
        if document.name == "tidepool-fold":
            continue  # labels of a step lie on white over lines, and have tests of their own
        width, height = document.sheets[0].size
        parts = _parts(document)
        strokes = [(part, stroke) for part in parts for stroke in _strokes(part)]
        for part in parts:
            if not isinstance(part.shape, Text):
                continue
            room = _room(part, part.shape)
            left, bottom, right, top = box(room)
            # What `cutpaths picture` draws has its own test of legibility.
            if document.name != "tidepool-front":
                seen = part.shape.height * SEEN_PX / width
                assert seen >= LEAST_PX, (document.name, part)
            assert min(left, bottom, width - right, height - top) >= 0, (document.name, part)
            for other, stroke in strokes:
                clear = other is part or make.part_inside(*stroke, room) is None
                assert clear, (document.name, part, other)
