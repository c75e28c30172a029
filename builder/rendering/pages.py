"""Each page of the guide as one Markdown file: a few lines of front matter and one block of HTML."""

from __future__ import annotations

import datetime
import json
import re
from collections.abc import Callable
from html import escape
from pathlib import PurePosixPath

from ..reading.page_kinds import PAGES
from ..results.values.document import Page, Section, WorkingsSection
from ..results.values.guide import Guide, WrittenPage
from .blocks import Setting, blocks_html
from .inline import Place, line_html, typed_html

_WORKING_KINDS = frozenset(page.kind for page in PAGES if page.is_working)


def page_path(page: Page) -> str:
    """Path of the page's Markdown file: "some-question/size/index.md"."""
    return f"{page.address}index.md"


def page_markdown(page: Page, guide: Guide, decode: Callable[[str], str]) -> str:
    """The page as Markdown.

    The text is one element, so that nothing a clinician typed is ever read as Markdown; Markdown passes HTML through.
    """
    place = Place(page.address)
    setting = Setting(place, guide.is_demonstration, decode, guide.units)
    body = _words_first(blocks_html(page.blocks, setting))
    text = f'<div class="guide" data-search-exclude>\n{_heading(page, setting)}\n{body}\n</div>'
    return f"{front_matter(page, guide)}{text}\n{_found_by(page, body)}"


def front_matter(page: Page, guide: Guide) -> str:
    """The first lines of a page's file, up to its text; they need the head of the page alone."""
    front = {
        "title": page.title,
        "kind": page.kind,
        "template": "main.html" if page.kind in _WORKING_KINDS else "reading.html",
    }
    if page.description:
        front["description"] = page.description
    review_due = page.review_due or _review_above(page, guide)
    if review_due:
        front["review_due"] = review_due.isoformat()
    if page.touched_by:
        front["touched_by"] = " ".join(page.touched_by)
    above = page.address.partition("/")[0]
    doors = next((question.doors for question in guide.questions if question.id == above), ())
    front.update({"doors": " ".join(doors)} if doors else {})
    # JSON is YAML, and it quotes whatever a title holds.
    lines = "\n".join(f"{name}: {json.dumps(value, ensure_ascii=False)}" for name, value in front.items())
    return f"---\n{lines}\n---\n\n"


def _review_above(page: Page, guide: Guide) -> datetime.date | None:
    """What stands below a question is reviewed with it."""
    above = guide.pages.heads.get(page.trail[0][0]) if page.trail else None
    return above.review_due if above is not None else None


LOOK = "<!--look-->"
"""Where a reading page asks for its style sheet, unless it is short: then in its head."""

# About what a phone shows at once, in characters of HTML.
_FIRST_SCREEN = 1500


def _words_first(body: str) -> str:
    """The page with the place of its style sheet behind the first screen.

    A sheet in the head holds back every word until it has come, a whole way to the host and back on bad wi-fi; what
    stands before one in the body is shown at once (HTML Standard, section 4.2.4: rel=stylesheet is allowed in a body).
    """
    end = re.compile(r"</(?:p|section|article|details)>\n").search(body, _FIRST_SCREEN)
    return body if end is None else f"{body[: end.end()]}{LOOK}{body[end.end() :]}"


# Read in a hurry: what stands below the title is seen before anything is done.
_MARKED_ABOVE = frozenset({"front", "question", "urgent"})


def _heading(page: Page, setting: Setting) -> str:
    title = f"<h1>{typed_html(page.title)}</h1>"
    if page.kind in _MARKED_ABOVE:
        title += setting.invented_line()
    if not page.trail:
        return title
    links = " ".join(
        f'<a href="{setting.place.to_root}{address}">{typed_html(name)}</a>' for address, name in page.trail
    )
    return f'<nav class="trail" aria-label="Where this page stands">{links}</nav>\n{title}'


def _found_by(page: Page, body: str) -> str:
    """What the search finds the page by, as far as it holds a number: the index only repeats what a page marks.

    body: the text of the page; what stands in it as it is need not stand here again.
    """
    texts = [" ".join(text.split()) for text in page.search]
    missing = [text for text in texts if re.search(r"\d", text) and f">{escape(text, quote=False)}<" not in body]
    words = "".join(f"<li>{typed_html(text)}</li>" for text in missing)
    if not words:
        return ""
    return f'\n<div class="found-by" hidden>\n<ul>{words}</ul>\n</div>\n'


def written_title(text: str, path: str) -> str:
    """What a hand-written page calls itself: the title of its front matter, its first heading, else its name."""
    match = re.search(r"^(?:title:|#)[ \t]+(.+)$", text, re.MULTILINE)
    return match[1].strip().strip("\"'") if match else PurePosixPath(path).stem.replace("-", " ").capitalize()


def written_markdown(page: WrittenPage, guide: Guide) -> str:
    """A hand-written page with its references to figures put in."""
    address = re.sub(r"(^|/)index\.md$", r"\1", page.path)
    place = Place(re.sub(r"\.md$", "/", address) if address.endswith(".md") else address)
    text = "".join(part if isinstance(part, str) else line_html(part, place) for part in page.parts)
    if not page.workings:
        return text
    section = Section("Workings", "workings", (WorkingsSection(page.workings),))
    inner = blocks_html((section,), Setting(place, guide.is_demonstration, lambda words: words, guide.units))
    return f'{text.rstrip()}\n\n<div class="guide">\n{inner}\n</div>\n'
