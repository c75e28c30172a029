"""Hand-written pages: Markdown in which every named figure becomes its number, and what it counts stands below it."""

from __future__ import annotations

import re

from ..reading.files import WRITTEN_DIR
from ..reading.prose import Reference, split_outside_code
from ..results.findings.findings import Catalogue
from ..results.values.guide import WrittenPage
from ..results.values.line import Line
from .sentences.prose import NamedResult, Teller


def written_pages(catalogue: Catalogue, named: NamedResult) -> tuple[WrittenPage, ...]:
    """Every hand-written page, by path."""
    pages = sorted(catalogue.evidence.pages, key=lambda page: page.file)
    return tuple(
        WrittenPage(page.file.removeprefix(f"{WRITTEN_DIR}/"), written_parts(page.text, catalogue, named))
        for page in pages
    )


# Where a paragraph, an item of a list or a row of a table ends (CommonMark, sections 4 and 5; tables as Python-Markdown
# reads them): what stands below its sentences has to stand before that.
_END = re.compile(r"\n(?=[ \t]*(?:\n|\Z|[-*+>#|]|\d+[.)][ \t]|```|~~~))")
_CELL_END = re.compile(r"[ \t]*(?=\|)|(?=\n)")


def written_parts(text: str, catalogue: Catalogue, named: NamedResult) -> tuple[str | Line, ...]:
    """Markdown as typed, and in place of each reference outside of code its line; "$$" is a dollar there.

    What the numbers of a paragraph, an item or a cell count follows at its end.
    """
    out: list[str | Line] = []
    teller = Teller(catalogue, named)
    is_waiting = False
    row = ""
    for part in split_outside_code(text):
        if isinstance(part, Reference):
            out.append(teller.refer(part))
            is_waiting = True
            continue
        teller.pass_over(part)
        end = (_CELL_END if row.lstrip().startswith("|") else _END).search(part) if is_waiting else None
        if end is None:
            out.append(part)
        else:
            out.extend(piece for piece in (part[: end.start()], teller.below(), part[end.start() :]) if piece)
            is_waiting = False
        row = (row + part).rpartition("\n")[2]
    below = teller.below()
    return (*out, below) if below else tuple(out)
