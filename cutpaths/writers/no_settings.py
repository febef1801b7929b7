"""Loads the CAD library without anybody's settings: none are read, none are written.

As it is imported ezdxf reads `ezdxf.ini` of the home folder and of this one, looks for fonts, and
writes a list of them below the home folder. A drawing of ours needs none of that, and a home that
cannot be read, or a setting for another program, must not spoil it.
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from configparser import ConfigParser
from contextlib import contextmanager
from pathlib import Path

_FONTS = Path(__file__).parent / "no_fonts"  # holds a list without fonts, where ezdxf looks for it
_OWN = "EZDXF_"


def _read_nothing(*_given: object, **_named: object) -> list[str]:
    return []


@contextmanager
def no_settings() -> Iterator[None]:
    """While it lasts no settings file is found, and the list of fonts is an empty one of ours."""
    before, read = dict(os.environ), ConfigParser.read
    for name in before:
        if name.startswith(_OWN):
            del os.environ[name]
    os.environ |= {"XDG_CONFIG_HOME": os.devnull, "XDG_CACHE_HOME": str(_FONTS)}
    ConfigParser.read = _read_nothing  # type: ignore[method-assign,assignment] # put back below
    try:
        yield
    finally:
        ConfigParser.read = read  # type: ignore[method-assign]
        os.environ.clear()
        os.environ |= before
