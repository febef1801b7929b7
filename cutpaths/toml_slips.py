"""What a person may have meant by a line that is not TOML: lengths that lack their quotes."""

from __future__ import annotations

import re

# Texts in quotes, then a comment: what stands in them is no slip.
_QUIET = re.compile(r"\"(?:[^\"\\]|\\.)*\"|'[^']*'|#.*")
_GAP = r"[ \t]"
_NUMBER = r"(?<![\w.])[0-9]{1,9}"
_FRACTION = re.compile(
    rf"(?:{_NUMBER}(?:{_GAP}+|{_GAP}*-{_GAP}*)(?=[0-9]))?(?<![\w.])[0-9]{{1,9}}{_GAP}*[/⁄]{_GAP}*[0-9]{{1,9}}"
    rf"|(?:{_NUMBER}{_GAP}*)?[½⅓⅔¼¾⅛⅜⅝⅞]"
)
_COMMA = re.compile(rf"={_GAP}*(?P<whole>[0-9]{{1,9}}),(?P<part>[0-9]{{1,9}}){_GAP}*$")
_WORD = r"(?:mm|cm|m|inches|inch|in|yards|yard|yd)\b"
_UNIT = re.compile(rf"{_NUMBER}(?:\.[0-9]{{1,9}})?{_GAP}*{_WORD}")


def slip_hint(line: str) -> str:
    """A hint for a line that is not TOML; empty where it looks like no known slip.

    >>> slip_hint("patch = 14 1/2  # cut")
    'Put fractions in quotes: "14 1/2"'
    >>> slip_hint("patch = 4,5"), slip_hint("patch = 57 mm"), slip_hint('patch = "4 1/2')
    ('Write 4.5', 'Put lengths with a unit in quotes: "57 mm"', '')
    """
    bare = _QUIET.sub("", line)
    if '"' in bare.rstrip().rstrip('"') or "'" in bare:
        return ""  # a quote is not closed: that is the slip
    bare = bare.rstrip().rstrip('"')
    if found := _FRACTION.search(bare):
        unit = re.match(rf"{_GAP}*{_WORD}", bare[found.end() :])
        return f'Put fractions in quotes: "{found[0]}{unit[0] if unit else ""}"'
    if found := _COMMA.search(bare):
        return f"Write {found['whole']}.{found['part']}"
    if found := _UNIT.search(bare):
        return f'Put lengths with a unit in quotes: "{found[0]}"'
    return ""
