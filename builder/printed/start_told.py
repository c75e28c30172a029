"""What places a number before the treatment without a word of time: a title over all, and why people came."""

from __future__ import annotations

from collections.abc import Sequence

from ..numerals import Token
from .clauses import Span
from .start_words import CAME, CAME_LATER, LATER, OF_WHOM, WHEN, heads_the_start


def title_of_start(text: str, at: int, part: Span) -> Span | None:
    """The title of a passage that tells of the start, where the number's own part of a sentence names no later time.

    at: where the number stands. part: from where and up to where its part goes.
    """
    title = heads_the_start(text)
    if title is None or at < title.end() or LATER.search(text, *part) is not None:
        return None
    return title.start(), title.start() + len(title[0].rstrip(" |"))


def title_over_table(text: str, at: int) -> Span | None:
    """The same of a number in a table, whose own part is what stands before it in its row."""
    return title_of_start(text, at, (text.rfind("\n", 0, at) + 1, at))


def bracket_of_start(text: str, end: int, start: int) -> Span | None:
    """What follows in the brackets in which words of the start stand: "12 of 40 (baseline: 31 of 40)".

    end: of the number before. start: of the words.
    """
    if ")" in text[end:start] or "(" not in text[end:start]:
        return None
    close = text.find(")", start)
    return (start, close) if close >= 0 else None


def is_timed(text: str, tokens: Sequence[Token], start: int, end: int) -> bool:
    """Whether a length of time stands there that says when: "after 1 week"."""
    return any(
        start <= each.start < end
        and each.kind == "length"
        and (WHEN.search(text[max(0, each.start - 20) : each.start]) or text[: each.start].rstrip()[-1:] in ";,")
        for each in tokens
    )


def came_with(text: str, behind: int, part: Span, stop: int) -> Span | None:
    """ "26 of 32 patients came because of pain".

    behind: where the number ends. part: as above; stop: where its sentence ends, in which no visit may be told of.
    """
    found = CAME.search(text, behind, part[1])
    if found is None or CAME_LATER.search(text, part[0], stop) is not None:
        return None
    return found.span() if OF_WHOM.search(text, behind, found.start()) is None else None
