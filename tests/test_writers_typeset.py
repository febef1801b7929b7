"""Setting pages: the same bytes everywhere, our own fonts, nothing from outside."""

from __future__ import annotations

import hashlib
import io
import os
import subprocess
import sys
from pathlib import Path

import pikepdf
import pytest

from cutpaths.errors import DrawingError
from cutpaths.writers.typeset import typeset

SVG = (
    b'<svg xmlns="http://www.w3.org/2000/svg" width="20mm" height="10mm" viewBox="0 0 20 10">'
    b'<path d="M 1 1 L 19 1 L 19 9 Z" fill="none" stroke="#000000" stroke-width="0.5"/></svg>'
)
PAGE = '#set page(width: 100mm, height: 50mm)\n= Heading\nText ½\n#image("a.svg", alt: "three")\n'


def _made(source: str = PAGE) -> pikepdf.Pdf:
    return pikepdf.open(io.BytesIO(typeset(source, {"a.svg": SVG})))


def test_a_page_has_its_size_and_its_tags() -> None:
    """The size is exact, the file is tagged, and a picture has its text."""
    made = _made()
    width, height = (float(side) * 25.4 / 72 for side in list(made.pages[0].mediabox)[2:])
    assert abs(width - 100) < 1e-5
    assert abs(height - 50) < 1e-5
    assert bool(made.Root.MarkInfo.Marked)
    kinds = {}
    for item in made.objects:
        if isinstance(item, pikepdf.Dictionary) and item.get("/Type") == "/StructElem":
            kinds[str(item.S)] = str(item.get("/Alt", ""))
    assert kinds["/Figure"] == "three"
    assert "/H1" in kinds


def test_all_fonts_are_ours_and_embedded() -> None:
    """Every font is Inter, inside the file."""
    made = _made()
    fonts = made.pages[0].Resources.Font
    for name in fonts.keys():  # noqa: SIM118 - pikepdf's dictionary iterates otherwise
        inner = fonts[name].DescendantFonts[0]
        assert "Inter" in str(inner.BaseFont)
        assert "/FontFile3" in inner.FontDescriptor


def test_a_font_of_the_system_is_not_taken() -> None:
    """A font that the machine has is unknown here, which is an error."""
    with pytest.raises(DrawingError, match="unknown font family: dejavu sans"):
        typeset('#set text(font: "DejaVu Sans")\nText', {})


def test_there_is_no_date() -> None:
    """Nothing in the file says when it was made."""
    made = _made()
    assert "/CreationDate" not in made.docinfo
    assert "/ModDate" not in made.docinfo
    assert b"CreateDate" not in made.Root.Metadata.read_bytes()


def test_the_same_bytes_whatever_the_hash_seed() -> None:
    """Fresh interpreters with other hash seeds, time zones and folders make the same file."""
    program = (
        "import hashlib, sys\n"
        "from cutpaths.writers.typeset import typeset\n"
        f"data = typeset({PAGE!r}, {{'a.svg': {SVG!r}}})\n"
        "print(hashlib.sha256(data).hexdigest())"
    )
    found = {hashlib.sha256(typeset(PAGE, {"a.svg": SVG})).hexdigest()}
    for seed in range(4):
        environment = {**os.environ, "PYTHONHASHSEED": str(seed), "TZ": f"UTC+{seed}"}
        done = subprocess.run(
            [sys.executable, "-c", program],
            capture_output=True,
            text=True,
            check=True,
            env=environment,
            cwd="/",
        )
        found.add(done.stdout.strip())
    assert len(found) == 1


@pytest.mark.parametrize(
    ("source", "line"),
    [
        ("#nothing", "the pages cannot be set: unknown variable: nothing"),
        (
            '#import "@preview/x:0.1.0": y',
            "the markup imports a package, which would have to be downloaded",
        ),
        (
            '#include("@local/x:0.1.0")',
            "the markup imports a package, which would have to be downloaded",
        ),
    ],
)
def test_markup_that_is_wrong_is_one_line(source: str, line: str) -> None:
    """A mistake and a package are refused in one line."""
    with pytest.raises(DrawingError) as caught:
        typeset(source, {"a.svg": SVG})
    assert str(caught.value) == line


def test_a_package_in_another_file_is_refused() -> None:
    """Markup beside the main one is looked at as well."""
    with pytest.raises(DrawingError, match=r"inner.typ imports a package"):
        typeset('#include "inner.typ"', {"inner.typ": b'#import "@preview/x:0.1.0": y'})


def test_a_file_of_the_disk_cannot_be_read(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Only the files that are handed in are there, whatever lies in the working folder."""
    (tmp_path / "b.svg").write_bytes(SVG)
    monkeypatch.chdir(tmp_path)
    for source in ('#image("b.svg")', f'#read("{tmp_path}/b.svg")', '#read("../typeset.py")'):
        with pytest.raises(DrawingError, match="the pages cannot be set: "):
            typeset(source, {"a.svg": SVG})
    (tmp_path / "a.svg").write_bytes(b"not a picture")
    assert typeset(PAGE, {"a.svg": SVG}).startswith(b"%PDF")
    with pytest.raises(DrawingError, match=r"cannot be called main.typ"):
        typeset("x", {"main.typ": b""})
