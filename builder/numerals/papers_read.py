"""Whether a sentence counts what was read about, and not who was seen: "we reviewed 53 eyes treated in one clinic"."""

from __future__ import annotations

import re

from .forms.times import TIME_UNITS
from .kinds import Kind
from .late import late
from .printed import Numeral, Printed

_READ = frozenset({"reviewed", "examined", "evaluated", "assessed", "screened"})
_READERS = frozenset({"we", "authors", "investigators", "retrospectively"})
_ends_in_records = late(
    r"\b(?:records?|charts?|files|notes|radiographs|films) (?:of|from|for) (?:the |all |only )?$", re.IGNORECASE
).search
_RECORDS = 40
"""Characters before a number in which the word for papers may stand."""


def papers_were_read(printed: Printed, last: Numeral | None, word: str, place: int) -> bool:
    """ "We reviewed 53 eyes treated between 1999 and 2009", "the records of 53 were reviewed": papers were.

    last: the number of the clause before the word, which stands at this place among the pieces.
    """
    if word not in _READ or _has_a_time(printed, place):
        return False
    if word == "reviewed" and printed.word(place - 1) in _READERS:
        return True
    if last is None:
        return False
    start = printed.spans[last.piece][0]
    return _ends_in_records(printed.text[max(start - _RECORDS, 0) : start]) is not None


def _has_a_time(printed: Printed, place: int) -> bool:
    """Whether a time stands behind a word in its clause: "we reviewed 53 eyes after 2 years"."""
    for at in range(place + 1, len(printed.kinds)):
        kind = printed.kinds[at]
        if kind in (Kind.STOP, Kind.SEMICOLON):
            return False
        if kind == Kind.NUMBER and printed.at[at].unit in TIME_UNITS:
            return True
    return False
