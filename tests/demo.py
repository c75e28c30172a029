"""This project's own site, for tests: built once a process by its build alone, so that a fault in it is told there.

A build makes a page or a file anew whenever somebody asks for it, and holds none. Tests ask for the same ones again
and again: here each is kept as it was made first. `guide/test_compose.py` compares it with those made anew.
"""

from __future__ import annotations

import copy
from collections.abc import Iterable
from functools import cache
from pathlib import Path

from passageproof.build import Before, Built, build_files
from passageproof.problems import as_text
from passageproof.reading.model import Evidence
from passageproof.rendering.site import SiteFiles
from passageproof.results.values.document import Page
from passageproof.results.values.figures import Figure, Working
from passageproof.results.values.guide import Pages
from passageproof.results.values.page_lines import PageLine

ROOT = Path(__file__).parent.parent


def demo_evidence(root: Path = ROOT) -> Evidence:
    """What the last build of a root read; fails with the lines that `check` prints where it was refused."""
    before, built = _built(root)
    return before.evidence or _refused(built)


def before_demo(root: Path = ROOT) -> Before:
    """What a build remembers of a root."""
    return _built(root)[0]


@cache
def demo_built() -> Built:
    """The guide and its files; fails as above."""
    built = _built(ROOT)[1]
    if built.guide is None:
        _refused(built)
    return Built(built.guide._replace(pages=_KeptPages(built.guide.pages)), _KeptFiles(built.files), built.problems)


@cache
def _built(root: Path) -> tuple[Before, Built]:
    before = Before()
    if root != ROOT:
        # A copy of the demonstration with something changed: reports that say the same are proved already.
        before.read.files = before_demo().read.files
        before.proved = copy.copy(before_demo().proved)
    return before, build_files(root, before)


def _refused(built: Built) -> Evidence:
    raise AssertionError("\n".join(as_text(problem) for problem in built.problems if problem.is_open))


class _KeptPages(Pages):
    """Pages of which each is composed once."""

    def __init__(self, pages: Pages) -> None:
        self._pages = pages
        self._held: dict[str, Page] = {}
        self.heads = pages.heads

    def __getitem__(self, address: str) -> Page:
        if address not in self._held:
            self._held[address] = self._pages[address]
        return self._held[address]

    def figures(self, address: str) -> Iterable[Figure]:
        return self._pages.figures(address)

    def workings(self, address: str) -> tuple[Working, ...]:
        return self._pages.workings(address)

    def lines(self, address: str) -> tuple[PageLine, ...]:
        return self._pages.lines(address)


class _KeptFiles(SiteFiles):
    """Files of which each is written once."""

    def __init__(self, files: SiteFiles) -> None:
        super().__init__(files._writers)
        self._texts: dict[str, str] = {}

    def __getitem__(self, path: str) -> str:
        if path not in self._texts:
            self._texts[path] = super().__getitem__(path)
        return self._texts[path]
