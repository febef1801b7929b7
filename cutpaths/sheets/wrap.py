"""Text broken into lines that fit a width; mm."""

from __future__ import annotations

from cutpaths.strokes import text_width


def wrapped(text: str, height: float, width: float) -> tuple[str, ...]:
    """Lines no wider than `width`, broken between words, and inside a word that is too long.

    >>> wrapped("all pieces of one blanket", 10, 90)
    ('all pieces', 'of one', 'blanket')
    """
    lines: list[str] = []
    for word in text.split():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and text_width(longer, height) <= width:
            lines[-1] = longer
        else:
            lines += _broken(word, height, width)
    return tuple(lines)


def _broken(word: str, height: float, width: float) -> list[str]:
    """A word in as many parts as it needs."""
    parts = [""]
    for letter in word:
        if parts[-1] and text_width(parts[-1] + letter, height) > width:
            parts.append("")
        parts[-1] += letter
    return parts
