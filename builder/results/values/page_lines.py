"""The lines of a page by which it is found: what stands where, in words, without a number of the evidence."""

from __future__ import annotations

import re
from collections.abc import Iterator

from ...reading.page_kinds import PageKind
from ...reading.slugs import slug
from .document import (
    AdviceList,
    Block,
    Blocks,
    Details,
    Facts,
    Items,
    Page,
    Paragraph,
    RecallForm,
    Section,
    Sheet,
    Situation,
    Table,
    walk,
)
from .figures import Figure
from .line import Line, Marked, Span, plain_text

GAP = "…"
"""Stands in a line where its page has a figure, a reference or a place in one: what is read there, with its proof."""

LOOKED_THROUGH: tuple[PageKind, ...] = (
    "urgent", "question", "patient", "recall", "gaps", "methods", "factor", "over-time", "contribute", "source",
)  # fmt: skip
"""Kinds of page that are found by their lines, what is wanted first before what is wanted last. All others repeat these
or are for whoever writes, and are found by their titles."""

PageLine = tuple[str, str]
"""Anchor of the part of its page that a line stands in, "" above the first; and the line."""

# What leads elsewhere says nothing of its own, and what a passage says is found in its source.
_LEFT_OUT = frozenset({"reference", "locator", "passage"})
_SPANS_LEFT_OUT = frozenset({"invented", "in-each", "code"})
# Said of a list and not by it: who stands behind it, and where more is.
_KINDS_LEFT_OUT = frozenset({"basis", "more", "quiet"})

_BRACKET_WITH_GAP = re.compile(rf"\([^()]*{GAP}[^()]*\)")
_GAPS = re.compile(rf"{GAP}(?:[\s%,;:/–-]*(?:(?:of|to|and|or|CI|CI,)\s)?[\s(]*{GAP})+")
_BLANKS = re.compile(r"\s+")
_WORD = re.compile(r"[^\W\d_]{2,}")
_FEWEST_WORDS = 3
_FEWEST_BEHIND_A_GAP = 9


def page_lines(page: Page) -> tuple[PageLine, ...]:
    """Lines of a page in the order of reading, each once; none of a page of a kind that is found by its title alone.

    Numbers that are left are no evidence, and are marked on the page. Lists of studies, drawings, passages, workings
    and what is known for each answer of a situation are left out: they are figures, and have pages of their own.
    """
    if page.kind not in LOOKED_THROUGH:
        return ()
    first: dict[str, str] = {}
    for anchor, text in _looked_up(page.blocks) if page.kind == "contribute" else _lines(page.blocks, ""):
        # A name of a figure, and why nothing was put together, answer nobody's question.
        if not text.startswith("$") and ": not pooled:" not in text:
            first.setdefault(text, anchor)
    return tuple((anchor, text) for text, anchor in first.items())


def _looked_up(blocks: Blocks) -> Iterator[PageLine]:
    """What a contributor looks up by its name: rules and fields."""
    for block in walk(blocks):
        if isinstance(block, Details) and block.kind == "rule":
            yield block.anchor, block.summary
        elif isinstance(block, Facts) and block.kind == "names":
            yield from zip(block.anchors, (plain_text(name) for name, _ in block.rows), strict=True)


def _lines(blocks: Blocks, anchor: str) -> Iterator[PageLine]:
    for block in blocks:
        for at, text in _block(block, anchor):
            # What begins with something that is not told here tells little, unless it goes on.
            fewest = _FEWEST_BEHIND_A_GAP if text.startswith(GAP) else _FEWEST_WORDS
            if len(_WORD.findall(text)) >= fewest:
                yield at, text


def _block(block: Block, anchor: str) -> Iterator[PageLine]:
    if isinstance(block, Section):
        yield block.anchor, block.title
        yield from _lines(block.blocks, block.anchor)
    elif isinstance(block, Details):
        at = block.anchor or anchor
        yield at, block.summary
        yield from _lines(block.blocks, at)
    elif isinstance(block, Sheet):
        # As rendering names it. The sheets for the tray and the recall repeat their page.
        if block.kind in ("before", "chair", "afterwards"):
            yield from _lines(block.blocks, slug(block.title))
    elif isinstance(block, Situation):
        for field in (inner for each in block.fields for inner in (each, *each.follows)):
            labels = [choice.label for choice in field.choices if not choice.sets]
            yield f"ask-{field.field}", f"{field.ask} {'; '.join(labels)}"
    elif isinstance(block, RecallForm):
        yield from (("record", item) for item in block.record)
        yield from (("failing", item) for item in block.failing)
    elif isinstance(block, Items):
        for item in block.items:
            yield from _item(item, anchor)
    else:
        yield from ((anchor, _words(line)) for line in _own_lines(block))


def _item(item: Line | Blocks, anchor: str) -> Iterator[PageLine]:
    """An item of a list is one line, or holds blocks."""
    if any(isinstance(part, Block) for part in item):
        yield from _lines(tuple(part for part in item if isinstance(part, Block)), anchor)
    else:
        yield anchor, _words(item)  # type: ignore[arg-type]


def _own_lines(block: Block) -> Iterator[Line]:
    """The lines of a block that holds no others."""
    if isinstance(block, Paragraph) and _KINDS_LEFT_OUT.isdisjoint(block.kind.split()):
        yield block.line
    elif isinstance(block, AdviceList):
        for entry in block.entries:
            yield from (entry.words, entry.caution)
    elif isinstance(block, Facts):
        yield from (said for _, said in block.rows)
    elif isinstance(block, Table):
        yield from (cell for row in block.rows for cell in row)


def _words(line: Line) -> str:
    """A line up to what stands below it, with gaps for what is not told here."""
    text = _BRACKET_WITH_GAP.sub(GAP, "".join(_parts(line)))
    return _BLANKS.sub(" ", _GAPS.sub(GAP, text)).strip()


def _parts(line: Line) -> Iterator[str]:
    for part in line:
        if isinstance(part, str):
            yield part
        elif isinstance(part, Figure):
            yield GAP
        elif isinstance(part, Marked):
            yield GAP if part.kind in _LEFT_OUT else part.text
        elif isinstance(part, Span) and part.kind == "below":
            return
        elif not isinstance(part, Span) or part.kind not in _SPANS_LEFT_OUT:
            yield from _parts(part.line)
