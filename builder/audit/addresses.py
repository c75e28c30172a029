"""Addresses of the site: a hand-written file never takes the place of what the guide puts there itself."""

from __future__ import annotations

from collections.abc import Iterator

from ..problems import Position, Problem, error
from ..reading.fdi_chart import CHART_FACTORS
from ..reading.files import WRITTEN_DIR
from ..reading.model import Evidence
from ..reading.names import PAGES_OF_A_QUESTION, PAGES_OF_THE_GUIDE
from ..reading.page_kinds import DESK
from ..reading.published import published_path

RULES = {
    "address-taken": (
        "A hand-written file would stand at an address that the guide keeps for a page or a download of its own, and "
        "one would hide the other. Give the file another name. Kept are the front page, the pages in the navigation, "
        "one for each question, for each of its factors and for each source, and the folders data, search, "
        "stylesheets, javascripts, contribute/desk and talk below each question. Basis: the format of this guide; "
        "common practice, no source."
    ),
}

# Files and whole folders that the guide publishes beside its pages.
_FILES = frozenset(
    ("404.html", "feed.xml", "manifest.webmanifest", "service-worker.js", "sitemap.xml", "sitemap.xml.gz")
)
_FOLDERS = frozenset(("data", "search", "stylesheets", "javascripts"))
_MARK = "assets/mark"
_TALK = "talk"
"""What one takes along to present a case, below its question."""


def find_in_pages(evidence: Evidence) -> Iterator[Problem]:
    """Hand-written pages, and the files beside them, that stand where the guide has something of its own."""
    questions = {name.casefold() for name in evidence.questions}
    below = {name.casefold() for name in (*evidence.vocabulary.factors, *CHART_FACTORS, *PAGES_OF_A_QUESTION)}
    sources = {key.casefold() for key in evidence.sources}
    for file in sorted([*(page.file for page in evidence.pages), *evidence.files_beside_pages]):
        path = published_path(file.removeprefix(f"{WRITTEN_DIR}/"))
        if _is_kept(path.casefold(), questions, below, sources):
            yield taken(file, path)


def _is_kept(path: str, questions: set[str], below: set[str], sources: set[str]) -> bool:
    """path: as published, casefolded like the names, since some hosts do not tell "Urgent" from "urgent"."""
    if path in _FILES or path.startswith((_MARK, DESK)):
        return True
    *steps, name = path.split("/")
    if steps and (steps[0] in _FOLDERS or (steps[0] in questions and steps[1:] == [_TALK])):
        return True
    if name != "index.html":
        return False
    match steps:
        case []:
            return True
        case [one]:
            return one in PAGES_OF_THE_GUIDE or one in questions
        case ["sources", key]:
            return key in sources
        case [question, page]:
            return question in questions and page in below
    return False


def taken(file: str, path: str) -> Problem:
    """A file of somebody that would hide something of the guide. path: where both are published."""
    address = "/" + path.removesuffix("index.html")
    message = f"this file would stand at {address}, where the guide has a page or a download of its own"
    return error(Position(file, 1, 1), "address-taken", message, "give the file another name")
