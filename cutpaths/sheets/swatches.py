"""A person's pictures of cloth: read, judged, and made into prints at true scale.

Pillow reads them; it is in the extra `pictures` and is loaded only for a project with swatches. A
picture is turned upright as its camera says, loses all else that its file says of it, and is made
smaller where it has more pixels than can be seen.
"""

from __future__ import annotations

import io
import warnings
from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING

from cutpaths.errors import DrawingError, Finding, InputError, install_words
from cutpaths.paint import Colour, Print
from cutpaths.project.model import Fabric, Swatch
from cutpaths.values import Value

if TYPE_CHECKING:
    from PIL.Image import Image

BYTES_MOST = 20_000_000
PIXELS_MOST = 50_000_000  # what a file says of its size is judged before it is unpacked
SIDE_MOST = 512  # pixels that are kept of its longer side
ASPECT_MOST = 100  # times longer than wide; more is a slip


class Sample(Value):
    """A print, and the colour that it has from afar."""

    print: Print
    colour: Colour


def samples_of(fabrics: Mapping[str, Fabric], folder: Path) -> dict[str, Sample]:
    """The swatches of some fabrics, by the fabrics' names.

    Raises:
        InputError: a swatch is missing, no picture, or enormous; one finding for each.
        DrawingError: there is a swatch, and Pillow is missing.
    """
    found: dict[str, Sample] = {}
    findings = []
    for name, fabric in fabrics.items():
        if fabric.swatch is None:
            continue
        try:
            found[name] = _sample(folder, fabric.swatch)
        except _UnfitError as error:
            key = f"fabric.{name}.swatch.file"
            findings.append(Finding(key=key, problem=str(error), hint=error.hint))
    if findings:
        raise InputError(*findings)
    return found


class _UnfitError(ValueError):
    """Why a file is no swatch, and what would put it right."""

    def __init__(self, problem: str, hint: str) -> None:
        super().__init__(problem)
        self.hint = hint


def _sample(folder: Path, swatch: Swatch) -> Sample:
    image = _image(_bytes(folder / swatch.file), swatch.file)
    width = float(swatch.width)
    height = width * image.height / image.width
    data = io.BytesIO()
    image.save(data, "PNG")
    return Sample(Print(data=data.getvalue(), width=width, height=height), _average(image))


def _bytes(path: Path) -> bytes:
    choose = "Choose a smaller picture"
    try:
        if not path.is_file():
            hint = "Put the picture beside the project file"
            raise _UnfitError(f"names {path.name!r}, which is not there", hint)
        if path.stat().st_size > BYTES_MOST:
            size = path.stat().st_size / 1e6
            problem = f"must be at most {BYTES_MOST // 10**6} MB, {path.name!r} has {size:.0f} MB"
            raise _UnfitError(problem, choose)
        return path.read_bytes()
    except OSError as error:
        reason = (error.strerror or str(error)).lower()
        raise _UnfitError(f"names {path.name!r}, which cannot be read: {reason}", "") from error


def _image(data: bytes, name: str) -> Image:
    """A small, upright picture of red, green and blue."""
    try:
        from PIL import Image, ImageOps
    except ImportError as error:
        raise DrawingError(
            f"swatches need the extra `pictures`: {install_words('pictures')}"
        ) from error
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("error")  # Pillow warns of pictures that are too large to unpack
            with Image.open(io.BytesIO(data), formats=("PNG", "JPEG")) as opened:
                _require_size(opened.size, name)
                upright = ImageOps.exif_transpose(opened)
                image = Image.new("RGB", upright.size, "white")
                full = upright.convert("RGBA")
                image.paste(full, mask=full)
    except _UnfitError:
        raise
    except (Image.DecompressionBombWarning, Image.DecompressionBombError) as error:
        raise _too_large(name) from error
    except (OSError, SyntaxError, ValueError, Warning) as error:
        hint = "Give a PNG or JPEG file"
        raise _UnfitError(f"must be a picture, {name!r} is not a sound one", hint) from error
    image.thumbnail((SIDE_MOST, SIDE_MOST))
    return image


def _require_size(size: tuple[int, int], name: str) -> None:
    if size[0] * size[1] > PIXELS_MOST:
        raise _too_large(name)
    if max(size) > ASPECT_MOST * min(size):
        problem = f"must be less than {ASPECT_MOST} times longer than wide, {name!r} is"
        raise _UnfitError(f"{problem} {size[0]} x {size[1]} pixels", "Cut the picture")


def _too_large(name: str) -> _UnfitError:
    most = PIXELS_MOST // 10**6
    return _UnfitError(
        f"must have at most {most} million pixels, {name!r} has more", "Choose a smaller picture"
    )


def _average(image: Image) -> Colour:
    found = image.resize((1, 1)).getpixel((0, 0))
    if not isinstance(found, tuple):
        raise TypeError("a picture of red, green and blue has three levels")
    red, green, blue = found[:3]
    return int(red), int(green), int(blue)
