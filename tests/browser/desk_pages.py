"""The desk in a browser: a site that has it, and what a person does there."""

from __future__ import annotations

import json
import shutil
from pathlib import Path
from typing import Any

from passageproof.build import build_files
from passageproof.desk.shipped import RUNTIME
from passageproof.publishing import publish
from playwright.sync_api import Page, expect

ROOT = Path(__file__).parents[2]
PATIENCE = 180_000
"""Milliseconds for Python to be there on a machine that has much to do."""


EXPORT = """
PMID- 99999991
OWN - NLM
VI  - 12
IP  - 3
DP  - 2021 Mar
TI  - Repair of holes in an invented clinic: a cohort.
PG  - 101-109
LID - 10.5555/inv.2021.101 [doi]
AB  - Invented for a test.
FAU - Example, Anna B
AU  - Example AB
LA  - eng
PT  - Journal Article
JT  - Journal of invented cases
"""


def with_desk(evidence: Path, folder: Path, *beside: Path) -> Path:
    """A built site whose folder of evidence has Python for browsers beside it."""
    shutil.copytree(evidence, folder / "root" / "evidence")
    for path in beside:
        (shutil.copytree if path.is_dir() else shutil.copy)(path, folder / "root" / path.name)
    runtime = folder / "root" / RUNTIME
    runtime.parent.mkdir(parents=True)
    assert (ROOT / RUNTIME / "pyodide.asm.wasm").is_file(), "Python for browsers is missing: type `make desk`"
    runtime.symlink_to(ROOT / RUNTIME)
    publish(folder / "root", folder / "site", build_files(folder / "root"))
    return folder


def open_desk(page: Page, url: str) -> Page:
    page.goto(f"{url}contribute/desk/", wait_until="load")
    page.get_by_role("button", name="Open the desk").click()
    expect(page.locator("[data-sheet]")).to_be_visible(timeout=PATIENCE)
    return page


def field(page: Page, *path: str | int) -> Any:
    return page.locator(f"[data-path='{json.dumps(path, separators=(',', ':'))}']")


def fill(page: Page, path: tuple[str | int, ...], value: str) -> None:
    control = field(page, *path).locator("input, select").last
    if control.evaluate("(box) => box.localName") == "select":
        control.select_option(value)
    else:
        control.fill(value)
    control.blur()


def fill_all(page: Page, start: tuple[str | int, ...], values: dict[str, str]) -> None:
    for name, value in values.items():
        fill(page, (*start, *name.split("/")), value)
