"""Hand-written pages: Markdown in which every named figure becomes the line it stands for."""

from __future__ import annotations

from ..reading.files import WRITTEN_DIR
from ..reading.prose import Reference, split_outside_code
from .findings.findings import Catalogue
from .sentences.prose import NamedResult, prose
from .values.document import Line
from .values.guide import WrittenPage


def written_pages(catalogue: Catalogue, named: NamedResult) -> tuple[WrittenPage, ...]:
    """Every hand-written page, by path."""
    pages = sorted(catalogue.evidence.pages, key=lambda page: page.file)
    return tuple(
        WrittenPage(page.file.removeprefix(f"{WRITTEN_DIR}/"), written_parts(page.text, catalogue, named))
        for page in pages
    )


def written_parts(text: str, catalogue: Catalogue, named: NamedResult) -> tuple[str | Line, ...]:
    """Markdown as typed, and in place of each reference outside of code its line; "$$" is a dollar there."""
    return tuple(
        prose(f"${part.text}", catalogue, named) if isinstance(part, Reference) else part
        for part in split_outside_code(text)
    )
