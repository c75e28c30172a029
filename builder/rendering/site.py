"""The whole guide as files: path below the documents' folder, and what writes it when somebody asks for it."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from functools import partial

from ..reading.slide_template import SlideTemplate
from ..results.values.guide import Guide
from ..results.values.talk import slides_path
from .downloads import downloads
from .drawings.files import drawings
from .feed import FEED, feed
from .frame import manifest
from .handout.pdf import sheets
from .pages import page_markdown, page_path, written_markdown
from .search import LINES, search_lines, search_markdown

Writer = Callable[[], Iterator[str] | Iterator[bytes]]
"""Gives a file's text in pieces, or the bytes of what is no text."""

Pieces = Callable[[], Iterator[bytes]]
"""Gives what is written of a file, in pieces."""


class SiteFiles(Mapping[str, str]):
    """Every file by its path, sorted; its text is made whenever it is asked for, and nothing of it is kept."""

    def __init__(self, writers: Mapping[str, Writer]) -> None:
        self._writers = dict(sorted(writers.items()))

    def __getitem__(self, path: str) -> str:
        # Bytes that are no text come through, and go back into a file as they were.
        return b"".join(self.pieces(path)).decode("utf-8", errors="surrogateescape")

    def __contains__(self, path: object) -> bool:
        # A mapping's own way to answer is to make the file.
        return path in self._writers

    def __iter__(self) -> Iterator[str]:
        return iter(self._writers)

    def __len__(self) -> int:
        return len(self._writers)

    def __or__(self, others: Mapping[str, str]) -> SiteFiles:
        """These files, with others in the place of those at the same path."""
        return SiteFiles({**self._writers, **{path: partial(_once, text) for path, text in others.items()}})

    def pieces(self, path: str) -> Iterator[bytes]:
        """One file as it is written, piece by piece: the largest are many times what a page is."""
        return (piece if isinstance(piece, bytes) else piece.encode("utf-8") for piece in self._writers[path]())

    def text_or_pieces(self, path: str) -> str | Pieces:
        """The text of a page; of any other file what makes its pieces, once it is written."""
        return self[path] if path.endswith(".md") else partial(self.pieces, path)


def _once(text: str) -> Iterator[str]:
    yield text


def writers(guide: Guide, decode: Callable[[str], str], template: SlideTemplate | None = None) -> dict[str, Writer]:
    """What writes each file of the guide but the ledger and the theme's.

    decode: turns BibTeX's own notation into readable text; nothing here knows BibTeX.
    """

    def of_page(address: str) -> Iterator[str]:
        yield page_markdown(guide.pages[address], guide, decode)

    out: dict[str, Writer] = {page_path(head): partial(of_page, address) for address, head in guide.pages.heads.items()}
    for page in guide.written:
        out[page.path] = partial(made, partial(written_markdown, page, guide))
    out["search/index.md"] = partial(made, partial(search_markdown, guide))
    out[LINES] = partial(made, partial(search_lines, guide))
    out[FEED] = partial(made, partial(feed, guide))
    out["manifest.webmanifest"] = partial(made, partial(manifest, guide))
    slides: dict[str, Writer] = {slides_path(name): partial(_slides, guide, name, template) for name in guide.talks}
    return {**out, **downloads(guide), **drawings(guide), **sheets(guide), **slides}


def _slides(guide: Guide, question: str, template: SlideTemplate | None) -> Iterator[bytes]:
    # Loaded when the first is written: whoever waits for a page does without.
    from .slides.deck import deck

    yield deck(guide, question, template=template)


def made(make: Callable[[], str]) -> Iterator[str]:
    """A file that is one piece, made when it is written."""
    yield make()
