"""Every kind of page that the guide has: where it stands, and from which lists of pages it is reached."""

from __future__ import annotations

from typing import Literal

from ..records import NamedTuple

PageKind = Literal[
    "front", "question", "factor", "over-time", "patient", "recall", "conference", "source", "urgent", "gaps",
    "changes", "upkeep", "methods", "contribute", "data", "written",
]  # fmt: skip


class PageAt(NamedTuple):
    """A page of the guide, or many of one kind."""

    kind: PageKind
    address: str
    """From the root of the guide; an id stands in braces for one page each: "{question}/{factor}/"."""
    group: str = ""
    """The heading that it stands below on the page that finds things; "" for one that is not listed there."""
    is_main: bool = False
    """In the navigation beside the questions."""
    also_here: str = ""
    """What the front page calls it in its list of where else to go; "" for one that is not in it."""
    is_working: bool = False
    """A page that a contributor works with, which keeps the theme's own frame; all others stand in the light one."""


DESK = "contribute/desk/"
"""The desk and what it fetches: below the page for contributors, so that no id of a compendium is taken for it."""

LETTERS = f"{DESK}letters/"
"""Letters of contribution, one a report."""

_MORE, _ABOUT = "More pages", "About the guide"

PAGES = (
    PageAt("front", ""),
    PageAt("question", "{question}/", "Questions"),
    PageAt("factor", "{question}/{factor}/", "Factors"),
    PageAt("source", "sources/", "Sources", also_here="All reports"),
    PageAt("source", "sources/{key}/", "Sources"),
    PageAt("over-time", "{question}/over-time/", _MORE),
    PageAt("patient", "{question}/patient/", _MORE),
    PageAt("recall", "{question}/recall/", _MORE),
    PageAt("conference", "{question}/conference/", _MORE),
    PageAt("urgent", "urgent/", _ABOUT, is_main=True),
    PageAt("gaps", "gaps/", _ABOUT, is_main=True, also_here="Where nothing is known"),
    PageAt("changes", "changes/", _ABOUT, is_main=True, also_here="What changed"),
    PageAt("upkeep", "upkeep/", _ABOUT, is_main=True, also_here="What is overdue", is_working=True),
    PageAt("methods", "methods/", _ABOUT, is_main=True, also_here="How numbers are made"),
    PageAt("contribute", "contribute/", _ABOUT, is_main=True, also_here="Add a claim", is_working=True),
    PageAt("data", "data/", _ABOUT, is_main=True, also_here="Take the data along", is_working=True),
    PageAt("written", "search/", is_working=True),
)
"""All of them, in the order of the lists that they stand in. A page that a person wrote is of the last kind, wherever
it stands."""
