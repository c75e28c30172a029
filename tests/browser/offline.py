"""A first visit that keeps the guide on the device, and copies of sites that a test may change."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

from playwright.sync_api import Page
from waiting import wait_until


def visited(page: Page, url: str) -> None:
    """A first visit that lasts until the worker has kept what it keeps."""
    page.goto(url, wait_until="load")
    page.evaluate("navigator.serviceWorker.ready.then(() => true)")
    wait_until(page, "navigator.serviceWorker.controller !== null")


def copied(site: Path, to: Path) -> Path:
    """A copy of a built site; gives its folder."""
    shutil.copytree(site, to, dirs_exist_ok=True)
    return to


def withdraw(site: Path, key: str, day: str) -> None:
    """The newest standing as it is published once a report was retracted; the pages stay those of before."""
    path = site / "data" / "standing.json"
    standing = json.loads(path.read_text("utf-8"))
    standing["withdrawn"][key] = day
    path.write_text(json.dumps(standing), "utf-8")
