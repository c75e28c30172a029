"""The whole guide as files: path below the documents' folder and text."""

from __future__ import annotations

from collections.abc import Callable

from ..guide.values.guide import Guide
from .downloads import downloads
from .frame import manifest
from .pages import page_markdown, page_path, written_markdown
from .search import search_markdown


def rendered(guide: Guide, decode: Callable[[str], str]) -> dict[str, str]:
    """Every file of the guide but the ledger and the theme's, sorted by path.

    decode: turns BibTeX's own notation into readable text; nothing here knows BibTeX.
    """
    due = {page.address: page.review_due for page in guide.pages if page.review_due}
    files = {}
    for page in guide.pages:
        if page.review_due is None and page.trail:
            # What stands below a question is reviewed with it.
            page = page._replace(review_due=due.get(page.trail[0][0]))
        files[page_path(page)] = page_markdown(page, guide, decode)
    files.update({page.path: written_markdown(page, guide) for page in guide.written})
    files["search/index.md"] = search_markdown(guide)
    files["manifest.webmanifest"] = manifest(guide)
    files.update(downloads(guide))
    return dict(sorted(files.items()))
