"""PNG: drawn by resvg from our SVG, read back by Pillow; what is broken is found out."""

from __future__ import annotations

import io
import subprocess
import sys
from collections.abc import Callable

import pytest
from pictures import kit, sheets
from PIL import Image, ImageOps

from cutpaths.drawing import Document
from cutpaths.errors import DrawingError
from cutpaths.readback import png as reader
from cutpaths.writers import png

WIDTH = 500


def _document() -> Document:
    return Document("picture-front", (sheets(kit("doorway"))["front"],))


def _changed(change: Callable[[Image.Image], Image.Image]) -> bytes:
    data = io.BytesIO()
    with Image.open(io.BytesIO(png.render(_document(), WIDTH))) as image:
        change(image.convert("RGB")).save(data, "PNG")
    return data.getvalue()


@pytest.mark.parametrize("width", [200, 800, 1601])
def test_a_picture_is_as_wide_as_asked(width: int) -> None:
    """Pixels across; as high as the sheet's proportions ask, to the pixels of both roundings."""
    document = _document()
    wide, high = document.sheets[0].size
    with Image.open(io.BytesIO(png.render(document, width))) as image:
        assert image.format == "PNG"
        assert image.size[0] == width
        assert abs(image.size[1] - width * high / wide) <= 2
        assert image.convert("RGB").getpixel((1, 1)) == (255, 255, 255)


def test_a_sound_picture_reads_back() -> None:
    """Nothing is said of a picture that is as it was drawn."""
    assert reader.check(_document(), png.render(_document(), WIDTH)) == ()


@pytest.mark.parametrize(
    ("change", "told"),
    [
        (ImageOps.flip, "painted shape"),
        (lambda image: Image.new("RGB", image.size, "white"), "painted shape"),
        (ImageOps.invert, "painted shape"),
        (lambda image: image.crop((0, 0, WIDTH, 300)), "500 pixels wide, it must be"),
        (lambda image: image.resize((image.width * 2, image.height)), "1000 pixels wide, it"),
    ],
    ids=["mirrored", "blank", "other colours", "cut off", "stretched"],
)
def test_a_broken_picture_is_found_out(
    change: Callable[[Image.Image], Image.Image], told: str
) -> None:
    """Mirrored, blank, of other colours, cut off or stretched."""
    found = reader.check(_document(), _changed(change))
    assert found[0].startswith(told)
    assert len(found) <= reader.SHOWN + 1


@pytest.mark.parametrize("keep", [0, 7, 500, -20])
def test_what_is_cut_short_is_no_picture(keep: int) -> None:
    """A file that ends early is said to be no PNG."""
    data = png.render(_document(), WIDTH)[:keep]
    (told,) = reader.check(_document(), data)
    assert told.startswith("not a PNG picture: ")


def test_another_format_is_no_picture() -> None:
    """What Pillow could read as something else is still no PNG."""
    data = io.BytesIO()
    Image.new("RGB", (500, 600)).save(data, "JPEG")
    (told,) = reader.check(_document(), data.getvalue())
    assert told.startswith("not a PNG picture: ")


MISSING = (
    "PNG needs the extra `pictures`: run .venv/bin/pip install '.[pictures]' in the folder of "
    "cutpaths, or ask for SVG alone"
)


def test_a_missing_writer_says_what_to_install(monkeypatch: pytest.MonkeyPatch) -> None:
    """Without resvg, one line."""
    monkeypatch.setitem(sys.modules, "resvg_py", None)
    with pytest.raises(DrawingError) as caught:
        png.render(_document(), 200)
    assert str(caught.value) == MISSING


def test_a_missing_reader_says_what_to_install(monkeypatch: pytest.MonkeyPatch) -> None:
    """Without Pillow, the same line."""
    data = png.render(_document(), 200)
    monkeypatch.setitem(sys.modules, "PIL", None)
    with pytest.raises(DrawingError) as caught:
        reader.check(_document(), data)
    assert str(caught.value) == MISSING


def test_same_document_same_bytes() -> None:
    """In fresh processes with other hash seeds, without fonts, clock or machine."""
    program = (
        "import hashlib, sys; sys.path.insert(0, 'tests')\n"
        "from pictures import kit, sheets\n"
        "from cutpaths.drawing import Document\n"
        "from cutpaths.writers import png\n"
        "sheet = sheets(kit('doorway'))['chart']\n"
        "print(hashlib.sha256(png.render(Document('c', (sheet,)), 500)).hexdigest())"
    )
    found = {
        subprocess.run(
            [sys.executable, "-c", program],
            capture_output=True,
            text=True,
            check=True,
            env={"PYTHONHASHSEED": seed, "HOME": "/nonexistent"},
        ).stdout
        for seed in ("1", "2", "3")
    }
    assert len(found) == 1
