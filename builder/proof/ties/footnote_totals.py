"""A number of which its footnote says that it is of fewer: "17*", and below "* Counted in the 57 that came back"."""

from __future__ import annotations

import re
from collections.abc import Sequence

from ...numerals import Token
from ...numerals.late import late
from ...printed.clauses import Span
from ...printed.footnotes import note_of
from ..proving.printed_passage import Reading
from .tie import Stands, Ties

RULES: dict[str, str] = {
    "total-in-footnote": (
        "The number bears the mark of a footnote, which says of how many it was counted, and the claim gives it "
        'another total: 17 of 60 for "17*" under "n = 60", where "* in 57 patients" stands below. Type the total of '
        "the footnote."
    ),
}
_says_of_how_many = late(
    r"(?:\b[nN]\s*=\s*|\b(?:of|in|among|for|from|on|only|leaving)\s+(?:only\s+|the\s+|all\s+|a total of\s+)*)$",
    re.IGNORECASE,
).search
_remain = late(
    r"\s*(?:[a-z]+\s+)?(?:remain\w*|left|analy[sz]ed|evaluated|examined|available|counted|seen)\b", re.IGNORECASE
).match
_NEAR = 24


def find_footnote_totals(pairs: Sequence[tuple[Stands, Stands]], ties: Ties) -> None:
    """Every count that bears a mark and stands apart from its total."""
    for events, total in pairs:
        token, reading = events.token, events.reading
        note = note_of(reading.passage.text, max(token.end, token.outer_end)) if token.pair < 0 else None
        if note is None:
            continue
        said = [each for each in reading.tokens if token.value <= each.value and _is_total_of(note, each, reading)]
        if len(said) == 1 and said[0].value != total.token.value:
            ties.ask(
                events, "total-in-footnote", f'counts it by its footnote in {said[0].text} ("{events.printed(note)}")',
                f"the claim in {total.row.typed}", f"total: {said[0].text}",
            )  # fmt: skip


def _is_total_of(note: Span, token: Token, reading: Reading) -> bool:
    """Whether a number of a footnote says of how many: "n = 57", "in the 57 who came back", "57 remaining"."""
    if not note[0] <= token.start < note[1] or token.kind not in ("count", "number") or token.decimals:
        return False
    text, low = reading.passage.text, max(token.start - _NEAR, note[0] - 1)
    return _says_of_how_many(text, low, token.start) is not None or _remain(text, token.end) is not None
