"""What stands around every page: who publishes, how old the evidence is, whom to call; a preview's page of faults."""

from __future__ import annotations

import json
import re
from collections.abc import Iterable
from html import escape

from ..guide.sections.contact import NO_CONTACT
from ..problems import Problem, as_texts, counted
from ..records import NamedTuple
from ..results.values.guide import Guide
from .inline import marked_html, typed_html

MENDING = "What has to be mended"
"""Title of the page that a preview shows instead of the guide."""

FRESH_DAYS = 14
"""House rule: a copy kept on a device longer than this asks to be refreshed before anybody relies on it."""


NO_DOORS = ("", "", "")

PLACES = ("Do now", "My case", "Call")
"""What the bar of every page has behind its urgent door."""


class Frame(NamedTuple):
    """The frame of every page; the fields that end in `_html` are ready to print."""

    title: str
    title_html: str
    evidence_date: str
    """ISO 8601; "" before there is a guide."""
    is_demonstration: bool
    has_urgent: bool
    contact_html: str
    origin_html: str
    """Programme, evidence date and release, and the day on which the standing of reports was checked."""
    licences_html: str
    release: str = ""
    withdrawn: str = ""
    """Keys of the reports that this publication knows to be retracted, with blanks between."""
    fresh_days: int = FRESH_DAYS
    fresh_html: str = ""
    """How long a kept copy is good for."""
    questions: str = ""
    """Ids of all questions, with blanks between: where the bar of a page that belongs to none may lead back to."""
    doors: tuple[str, ...] = NO_DOORS
    """Anchors of the front page that a bar leads to for what to do now, the case in hand and whom to call; "" where it
    has none."""
    at: str = ""
    """Where the guide stands below the site: "evidence/" as a guest."""
    host_html: str = ""
    """What the site around calls itself, where the guide is its guest."""


def frame_of(guide: Guide | None, *, is_shown: bool = True) -> Frame:
    """The frame of a guide; a bare one while a preview has nothing to show yet.

    is_shown: False while a preview says what has to be mended: that stands in place of the front page and its parts.
    """
    if guide is None:
        return Frame("Evidence", "Evidence", "", False, False, NO_CONTACT, "", "")
    day = guide.evidence_date.isoformat()
    checked = "not checked"
    if guide.status_checked is not None:
        checked = f"status checked on {marked_html('date', guide.status_checked.isoformat())}"
    # Whom to call instead stands where a call is asked for: the foot of a page only says who was named.
    contact = NO_CONTACT
    if guide.contact:
        contact = f"Call here: {typed_html(guide.contact, 'identifier')}"
    return Frame(
        title=guide.title,
        title_html=typed_html(guide.title),
        evidence_date=day,
        is_demonstration=guide.is_demonstration,
        has_urgent="urgent/" in guide.pages.heads,
        contact_html=contact,
        origin_html=(
            f"{typed_html(guide.programme)}. Evidence of {marked_html('date', day)}, "
            f"release {marked_html('identifier', guide.release)}. "
            f"Retractions and corrections: {checked}."
        ),
        licences_html=f"Text: {_licence(guide.licence_text)}. Data: {_licence(guide.licence_data)}.",
        release=guide.release,
        withdrawn=" ".join(key for key, _ in guide.withdrawn),
        questions=" ".join(question.id for question in guide.questions),
        doors=(guide.doors if is_shown else ()) or NO_DOORS,
        fresh_html=f"A copy kept on this device asks to be refreshed after {marked_html('convention', _DAYS)}.",
    )


_DAYS = f"{FRESH_DAYS} days"


def body_attributes(kind: str, to_root: str, frame: Frame) -> str:
    """What scripts read from every page of the theme: kind, way to the root, age, what is known to be withdrawn."""
    return (
        f'data-page="{escape(kind)}" data-root="{to_root or "./"}" data-evidence="{frame.evidence_date}" '
        f'data-release="{escape(frame.release)}" data-withdrawn="{escape(frame.withdrawn)}" '
        f'data-fresh-days="{frame.fresh_days}"'
    )


def _licence(name: str) -> str:
    return marked_html("identifier", name) if name else "no licence given"


def manifest(guide: Guide) -> str:
    """What a phone needs to keep the guide on its home screen; every address is relative, since sites share origins."""
    icons = [
        {"src": "assets/mark-192.png", "sizes": "192x192", "type": "image/png"},
        {"src": "assets/mark-512.png", "sizes": "512x512", "type": "image/png"},
        {"src": "assets/mark-maskable.png", "sizes": "512x512", "type": "image/png", "purpose": "maskable"},
    ]
    answer = {
        "name": guide.title,
        "short_name": guide.title[:24].rsplit(" ", 1)[0] if len(guide.title) > 24 else guide.title,
        "start_url": "./",
        "scope": "./",
        "display": "minimal-ui",
        "background_color": "#fbfaf5",
        "theme_color": "#76204b",
        "icons": icons,
    }
    return json.dumps(answer, ensure_ascii=False, indent=1) + "\n"


def problem_pages(problems: Iterable[Problem], shown: Iterable[str]) -> dict[str, str]:
    """For the live preview: every page of the guide that was good, and the front page, says what is wrong now.

    shown: paths of what was published.
    """
    text = problems_markdown(problems)
    return {path: text for path in ("index.md", *shown) if path.endswith(".md")}


def problems_markdown(problems: Iterable[Problem]) -> str:
    """A page for the live preview: everything that has to be mended, instead of the guide."""
    open_ones = [problem for problem in problems if problem.is_open]
    rows = "\n".join(f"<li><pre>{escape(text)}</pre></li>" for text in as_texts(open_ones))
    return (
        f'---\ntitle: "{MENDING}"\nkind: upkeep\ntemplate: reading.html\n---\n\n'
        f'<div class="guide" data-search-exclude>\n<h1>{MENDING}</h1>\n'
        f"<p>The guide comes back when nothing here is left: {escape(counted(open_ones))}.</p>\n"
        f"<ul>\n{rows}\n</ul>\n</div>\n"
    )


def with_urgent_bar(output: str, kind: str, frame: Frame, url: str) -> str:
    """A page of the theme with its kind, and with the bar of every page before everything else.

    output: the whole page. url: its address from the root of the site.
    """
    to_root = "../" * sum(1 for step in url.split("/")[:-1] if step not in ("", "."))
    ways = zip(PLACES, frame.doors, strict=True)
    bar = "".join(f'<a href="{to_root or "./"}{door}">{said}</a>' for said, door in ways)
    if frame.has_urgent:
        bar = f'<a class="urgent-link" href="{to_root}urgent/">something worse is happening</a>{bar}'
    bar = f'<nav class="urgent" aria-label="Urgent">{bar}</nav>'
    # A skip link that is not the very first one has to stand in a landmark.
    skip = '<div data-md-component="skip"'
    output = output.replace(skip, skip.replace("<div", '<div role="navigation" aria-label="Skip"'))
    attributes = body_attributes(kind, to_root, frame)
    return re.sub(r"<body\b([^>]*)>", rf"<body {attributes}\1>\n{bar}", output, count=1)
