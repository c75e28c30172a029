"""A total of those who had the event, typed as that of a level: "of 38 grafts lost, 13 were in women"."""

from __future__ import annotations

import re
from collections.abc import Sequence

from ...numerals.late import late
from ...printed.event_mentions import EventMention
from ...reading.report_model import Claim
from .counted_events import counted, counting
from .events import Judged
from .tie import Known, Stands, Ties

RULES: dict[str, str] = {
    "total-with-the-event": (
        "The total that the claim gives to a level counts those who had the event, of all levels together: 13 of "
        '"38 grafts lost, 13 in women" is how many of the losses were in women, and says nothing of how many women '
        "had one. Type the number of those in the level, or `total: not reported`."
    ),
}


def find_wholes_with_event(claim: Claim, pairs: Sequence[tuple[Stands, Stands]], ties: Ties, known: Known) -> None:
    """Every count of a level."""
    finding: _Finding | None = None
    for stands, total in pairs:
        if stands.row.level and total.token.value > stands.token.value and _may_have_noun(stands, total):
            finding = finding or _Finding(claim, ties, known)
            finding.find(stands, total)


def _may_have_noun(stands: Stands, total: Stands) -> bool:
    """Whether words for what a total counts may stand beside it, seen without reading the passage's events."""
    text, token = stands.reading.passage.text, total.token
    cell = stands.reading.cells()[stands.at]
    if cell is not None:
        return any(low <= token.start < high for low, high in cell.headings[:1])
    if token.start > stands.token.start:
        return _find_verb(text, token.end, token.end + _BEHIND) is not None
    begin = max(token.start - _BEFORE, 0)
    return _ends_in_of(text, begin, token.start) is not None or _ends_in_n(text, begin, token.start) is not None


class _Finding:
    """What the numbers of one claim count."""

    def __init__(self, claim: Claim, ties: Ties, known: Known) -> None:
        self.ties, self.counting = ties, counting(claim, known)
        self.blocks = self.counting.blocks(ties.scope.name)

    def find(self, stands: Stands, total: Stands) -> None:
        """Ask about one pair."""
        wanted = counted(stands, self.blocks)
        if wanted is None or not wanted.outcome or stands.row.id in self.ties.asked:
            return
        events = self.counting.events(stands.reading).of_counts
        if not events.mentions:
            return
        judged = Judged(stands, wanted, events, self.counting.words, self.counting.levels)
        mention = next((each for each in events.mentions if _is_noun_of(each, stands, total)), None)
        if mention is None or mention.is_denied or judged.against(mention) != "":
            return
        if any(each.start != mention.start and each.start > total.token.end for each in judged.said.own):
            return
        said = stands.printed((min(mention.start, total.token.start), max(mention.end, total.token.end)))
        self.ties.ask(
            stands, "total-with-the-event", f'counts those with the event there: "{said}"',
            f'the claim all of "{stands.row.level}"', "total: not reported",
        )  # fmt: skip


def _is_noun_of(mention: EventMention, stands: Stands, total: Stands) -> bool:
    """Whether a word for the event is what the total counts."""
    text, token = stands.reading.passage.text, total.token
    cell = stands.reading.cells()[stands.at]
    if cell is not None:  # a column "lost (n = 38)" over the rows of levels
        return any(
            low <= mention.start < high and low <= token.start < high and _is_n(text, mention.end, token.start)
            for low, high in cell.headings[:1]
        )
    if mention.end <= token.start:  # "Lost (n = 38): women 13"
        return token.start < stands.token.start and _is_n(text, mention.end, token.start) and (
            _is_n_equals(text, mention.end, token.start) is not None
        )  # fmt: skip
    if mention.start < token.end or _is_gap(text, token.end, mention.start) is None:
        return False
    if token.start < stands.token.start:
        return _ends_in_of(text, max(token.start - _BEFORE, 0), token.start) is not None
    is_plural = text[mention.end - 1] == "s" or _goes_on_to_unit(text, mention.end) is not None
    return is_plural and _goes_on(text, mention.end) is not None


def _is_n(text: str, low: int, high: int) -> bool:
    return _is_n_sign(text, low, high) is not None


_is_n_sign = late(r"[\s,(\[]*(?:[nN]\s*=?)?\s*").fullmatch
_is_n_equals = late(r"[\s,(\[]*[nN]\s*=\s*").fullmatch
_ends_in_n = late(r"\b[nN]\s*=\s*$").search
_find_verb = late(r"[a-z]\s+(?:were|was|occurred|arose|came|happened|fell|concerned|affected)\b").search
_is_gap = late(
    r"\s+(?:(?!(?:had|were|was|and|or|in|of|with|by|at|that|which|who)\b)[a-z-]+\s+){0,2}"
    r"(?:(?:that|which|who)\s+(?:were|was|had|had been)\s+)?",
    re.IGNORECASE,
).fullmatch
_ends_in_of = late(r"\b(?:of|among|amongst|out of)\s+(?:the|all|these|our|those)?\s*$", re.IGNORECASE).search
_goes_on_to_unit = late(r"\s+[a-z]+s\b").match
_goes_on = late(r"\s+(?:[a-z]+s\s+)?(?:were|was|occurred|arose|came|happened|fell|concerned|affected)\b").match
_BEFORE, _BEHIND = 16, 40
