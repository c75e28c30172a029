"""What places a number before the treatment without a word of time: a title over all, and why people came."""

from __future__ import annotations

from .clauses import Span
from .start_words import CAME, CAME_LATER, LATER, OF_WHOM, heads_the_start


def title_of_start(text: str, at: int, part: Span) -> Span | None:
    """The title of a passage that tells of the start, where the number's own part of a sentence names no later time.

    at: where the number stands. part: from where and up to where its part goes.
    """
    title = heads_the_start(text)
    if title is None or at < title.end() or LATER.search(text, *part) is not None:
        return None
    return title.span()


def came_with(text: str, behind: int, part: Span, stop: int) -> Span | None:
    """ "26 of 32 patients came because of pain".

    behind: where the number ends. part: as above; stop: where its sentence ends, in which no visit may be told of.
    """
    found = CAME.search(text, behind, part[1])
    if found is None or CAME_LATER.search(text, part[0], stop) is not None:
        return None
    return found.span() if OF_WHOM.search(text, behind, found.start()) is None else None
