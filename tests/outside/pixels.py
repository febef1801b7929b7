"""SVG as pixels, by resvg, at 254 dots per inch: one pixel is 0.1 mm."""

from __future__ import annotations

import struct
import zlib
from collections.abc import Iterator

import resvg_py

DPI = 254
PIXEL_MM = 25.4 / DPI

Rows = list[bytes]


def picture(data: bytes) -> Rows:
    """The red values of a picture on white, row by row from the top."""
    png = bytes(resvg_py.svg_to_bytes(svg_string=data.decode(), dpi=float(DPI), background="white"))
    return [row[::4] for row in _rows(png)]


def dark_box(rows: Rows) -> tuple[int, int, int, int]:
    """Left, top, right and bottom of all that is dark, in pixels; right and bottom exclusive."""
    dark = [(x, y) for y, row in enumerate(rows) for x, level in enumerate(row) if level < 128]
    xs, ys = [x for x, _ in dark], [y for _, y in dark]
    return min(xs), min(ys), max(xs) + 1, max(ys) + 1


def _chunks(png: bytes) -> Iterator[tuple[bytes, bytes]]:
    at = 8
    while at < len(png):
        (length,) = struct.unpack_from(">I", png, at)
        yield png[at + 4 : at + 8], png[at + 8 : at + 8 + length]
        at += 12 + length


def _rows(png: bytes) -> Iterator[bytes]:
    """The rows of a picture of 8 bits and 4 channels (W3C PNG, 9 Filtering)."""
    chunks = list(_chunks(png))
    width, height, bits, colour, _, _, interlaced = struct.unpack(">IIBBBBB", chunks[0][1])
    assert (bits, colour, interlaced) == (8, 6, 0)
    data = zlib.decompress(b"".join(body for name, body in chunks if name == b"IDAT"))
    step = 4 * width
    above = bytes(step)
    for y in range(height):
        start = y * (step + 1)
        above = _unfiltered(data[start], data[start + 1 : start + 1 + step], above)
        yield above


def _unfiltered(kind: int, line: bytes, above: bytes) -> bytes:
    row = bytearray(4)  # what stands left of the first pixel
    for index, value in enumerate(line):
        left, up = row[index], above[index]
        corner = above[index - 4] if index >= 4 else 0
        row.append((value + _guess(kind, left, up, corner)) % 256)
    return bytes(row[4:])


def _guess(kind: int, left: int, up: int, corner: int) -> int:
    if kind == 4:
        near = left + up - corner
        return min((left, up, corner), key=lambda level: abs(near - level))
    return (0, left, up, (left + up) // 2)[kind]
