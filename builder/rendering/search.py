"""The page that finds things: a box for a script, and without one every page of the guide by its name."""

from __future__ import annotations

from html import escape
from itertools import groupby

from ..guide.values.document import Page
from ..guide.values.guide import Guide
from ..reading.page_kinds import PAGES
from ..reading.published import published_address
from .inline import Place, href, typed_html
from .pages import written_title

PLACE = Place("search/")

_GROUPS = {page.kind: page.group for page in PAGES if page.group}


def search_markdown(guide: Guide) -> str:
    """The page as Markdown, in one block of HTML like every other; left out of the index itself."""
    heads = guide.pages.heads.values()
    questions = {page.address: page.title for page in heads if page.kind == "question"}
    parts = []
    for title in dict.fromkeys(_GROUPS.values()):
        pages = [page for page in heads if _GROUPS.get(page.kind) == title]
        if pages:
            anchor = title.lower().replace(" ", "-")
            parts.append(f'<h2 id="{anchor}">{title}</h2>\n<ul>\n{_rows(pages, questions)}\n</ul>')
    lists = "\n".join(parts)
    return (
        '---\ntitle: "Search"\nkind: "written"\ntemplate: "reading.html"\nsearch:\n  exclude: true\n---\n\n'
        '<div class="guide" data-search-exclude>\n<h1>Search</h1>\n'
        '<div role="search" data-search hidden><p><label for="find">A question, factor, author or outcome</label></p>\n'
        '<input id="find" type="search" autocomplete="off" spellcheck="false">\n'
        '<div class="results" aria-live="polite"></div></div>\n'
        f"{lists}\n</div>\n"
    )


def search_entries(guide: Guide) -> list[dict[str, str]]:
    """What the search knows: titles, authors, answers and synonyms, one entry a page, and nothing else of it."""
    entries = []
    for page in guide.pages.heads.values():
        text = "; ".join(" ".join(words.split()) for words in page.search if words != page.title)
        entries.append({"location": page.address, "title": page.title, "text": text})
    for written in guide.written:
        typed = "".join(part for part in written.parts if isinstance(part, str))
        entries.append(
            {"location": published_address(written.path), "title": written_title(typed, written.path), "text": ""}
        )
    return entries


def _rows(pages: list[Page], questions: dict[str, str]) -> str:
    """Pages by their names; those below a question stand together under its name."""
    out = []
    for above, group in groupby(pages, lambda page: page.trail[0][0] if page.trail else ""):
        rows = "\n".join(
            f'<li><a href="{escape(href(page.address, PLACE))}">{typed_html(page.title)}</a></li>' for page in group
        )
        title = questions.get(above)
        out.append(rows if title is None else f"<li>{typed_html(title)}<ul>\n{rows}\n</ul></li>")
    return "\n".join(out)
