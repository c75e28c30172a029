"""What a footnote says of a number that bears its mark: "3/88 (b)", and below "(b) Per protocol"."""

from __future__ import annotations

import re

from ..compiled_patterns import compiled
from ..numerals.late import late
from .clauses import Span

_mark = late(
    r"[\s~]?%?[\s~]*(?:[(\[](?P<letter>[a-z]|[*†‡§¶#]{1,2})[)\]]|(?P<sign>[*†‡§¶#]{1,2}|[ᵃᵇᶜᵈᵉᶠ])|\$?\^\{?(?P<raised>[a-z*†‡])\}?\$?)"
).match
_next_note = compiled(r"\n|\s[*†‡§¶ᵃᵇᶜᵈᵉᶠ]|[.;][\s|]*[(\[]?(?:[a-z][)\].:]|[*†‡§¶#])").search


def note_of(text: str, end: int) -> Span | None:
    """Where the words of its footnote stand; None where the number bears no mark, or no note begins with it.

    end: of the number as printed, with the other half of its pair.
    """
    found = _mark(text, end)
    mark = next(filter(None, found.groups()), "") if found is not None else ""
    if found is None or not mark:
        return None
    is_letter = mark.isascii() and mark.isalpha()
    closed = r"[)\].:=]\s*" if is_letter else r"[)\].:=]?\s*"
    begins = r"[\n.;]" if is_letter else r"[\n.;]|(?<=\s)"  # "*by intention to treat †per protocol"
    note = re.compile(rf"(?:^|{begins})[\s|]*[(\[]?{re.escape(mark)}{closed}").search(text, found.end())
    if note is None:
        return None
    ended = _next_note(text, note.end())
    return note.end(), ended.start() if ended is not None else len(text)
