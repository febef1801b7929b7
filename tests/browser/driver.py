"""Starts the distribution's Chromium, away from any network, and reads what it draws."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from playwright.sync_api import BrowserContext

CHROMIUM = Path("/usr/bin/chromium")
ARGUMENTS = (
    "--no-sandbox",
    "--headless",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--force-device-scale-factor=1",
    "--hide-scrollbars",
)


@contextmanager
def browser(width: int, height: int) -> Iterator[BrowserContext]:
    """A browser with a new, empty profile and a window of a size in pixels."""
    from playwright.sync_api import sync_playwright

    with TemporaryDirectory() as profile, sync_playwright() as play:
        context = play.chromium.launch_persistent_context(
            profile,
            executable_path=str(CHROMIUM),
            args=list(ARGUMENTS),
            viewport={"width": width, "height": height},
            accept_downloads=True,
        )
        try:
            yield context
        finally:
            context.close()
