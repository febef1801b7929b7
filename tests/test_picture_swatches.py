"""What is taken for a swatch, and what is not; said in one line."""

from __future__ import annotations

import io
import struct
import zlib
from collections.abc import Callable
from pathlib import Path

import pytest
from pictures import made
from PIL import Image

from cutpaths.errors import InputError
from cutpaths.sheets.fabric_paint import cloths_of
from cutpaths.sheets.swatches import BYTES_MOST, SIDE_MOST

INCH = 25.4
RED, GREEN, GOLD = (200, 30, 30), (30, 140, 60), (230, 190, 40)
SHADES = 12


def _near(one: object, other: tuple[int, ...]) -> bool:
    return isinstance(one, tuple) and max(map(abs, map(int.__sub__, one, other))) <= SHADES


def _panel(swatch: str) -> str:
    return (
        'top = { layout = "panel", cut = { width = 20, height = 20 } }\nborder = { width = 2 }\n'
        f'fabric = {{ a = {{ swatch = {{ file = "{swatch}", width = 3 }} }} }}'
    )


def _fabric(name: str, folder: Path) -> str:
    """What is said of a swatch of that name."""
    kit = made(_panel(name))
    with pytest.raises(InputError) as caught:
        cloths_of(kit.project.fabrics, folder)
    return str(caught.value)


def _header(width: int, height: int) -> bytes:
    """A PNG that says how large it is and holds next to nothing."""

    def chunk(name: bytes, body: bytes) -> bytes:
        check = zlib.crc32(name + body)
        return struct.pack(">I", len(body)) + name + body + struct.pack(">I", check)

    size = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    data = zlib.compress(b"\0" * 1000)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", size) + chunk(b"IDAT", data) + chunk(b"IEND", b"")


def _gif(path: Path) -> None:
    Image.new("RGB", (9, 9)).save(path, "GIF")


@pytest.mark.parametrize(
    ("make", "told"),
    [
        (
            Path.exists,
            "names 'a.png', which is not there. Put the picture beside the project file",
        ),
        (
            lambda path: path.mkdir(),
            "names 'a.png', which is not there. Put the picture beside the project file",
        ),
        (
            lambda path: path.write_text("no picture"),
            "must be a picture, 'a.png' is not a sound one. Give a PNG or JPEG file",
        ),
        (
            lambda path: path.write_bytes(b""),
            "must be a picture, 'a.png' is not a sound one. Give a PNG or JPEG file",
        ),
        (_gif, "must be a picture, 'a.png' is not a sound one. Give a PNG or JPEG file"),
        (
            lambda path: path.write_bytes(_header(40, 40)),
            "must be a picture, 'a.png' is not a sound one. Give a PNG or JPEG file",
        ),
        (
            lambda path: path.write_bytes(_header(30000, 30000)),
            "must have at most 50 million pixels, 'a.png' has more. Choose a smaller picture",
        ),
        (
            lambda path: path.write_bytes(_header(9000, 7000)),
            "must have at most 50 million pixels, 'a.png' has more. Choose a smaller picture",
        ),
        (
            lambda path: path.write_bytes(_header(3, 400)),
            "must be less than 100 times longer than wide, 'a.png' is 3 x 400 pixels. "
            "Cut the picture",
        ),
        (
            lambda path: path.write_bytes(b"\0" * (BYTES_MOST + 10**6)),
            "must be at most 20 MB, 'a.png' has 21 MB. Choose a smaller picture",
        ),
    ],
)
def test_what_is_no_swatch_is_said_in_one_line(
    tmp_path: Path, make: Callable[[Path], object], told: str
) -> None:
    """Missing, no picture, broken or enormous: the key, what is wrong, what would be right."""
    make(tmp_path / "a.png")
    assert _fabric("a.png", tmp_path) == f"`fabric.a.swatch.file` {told}"


def test_a_photograph_is_turned_upright_and_stripped(tmp_path: Path) -> None:
    """EXIF orientation 6 (JEITA CP-3451): row 0 is at the right. Nothing else of it is kept."""
    image = Image.new("RGB", (400, 200), RED)
    image.paste(GREEN, (200, 0, 400, 200))
    exif = image.getexif()
    exif[0x0112] = 6
    exif[0x010E] = "a secret"
    image.save(tmp_path / "a.jpg", exif=exif, quality=95)
    kit = made(_panel("a.jpg"))
    found = cloths_of(kit.project.fabrics, tmp_path)["a"].print
    assert found is not None
    assert (found.width, found.height) == pytest.approx((3 * INCH, 6 * INCH))
    assert b"secret" not in found.data
    with Image.open(io.BytesIO(found.data)) as upright:
        assert upright.size == (200, 400)
        head, foot = upright.getpixel((100, 50)), upright.getpixel((100, 350))
    assert _near(head, RED)
    assert _near(foot, GREEN)


def test_a_large_swatch_is_made_smaller(tmp_path: Path) -> None:
    """No more pixels are kept than can be seen; the true size stays."""
    Image.new("RGB", (3000, 1500), GOLD).save(tmp_path / "b.png")
    cloth = cloths_of(made(_panel("b.png")).project.fabrics, tmp_path)["a"]
    assert cloth.print is not None
    assert cloth.colour == GOLD
    with Image.open(io.BytesIO(cloth.print.data)) as image:
        assert image.size == (SIDE_MOST, SIDE_MOST // 2)
    assert (cloth.print.width, cloth.print.height) == pytest.approx((3 * INCH, 1.5 * INCH))
