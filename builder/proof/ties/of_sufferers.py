"""A total of those who had another event, typed as one of all: 11 of "26 losses among 210 grafts, 11 by trauma"."""

from __future__ import annotations

import re
from collections.abc import Sequence

from ...numerals.late import late
from ...printed.clauses import Span
from ...printed.event_mentions import EventMention
from ...printed.events import Events
from ...reading.report_model import Claim
from ..proving.printed_passage import surroundings_in
from .counted_events import counted, counting
from .events import Judged
from .groups import is_of_everybody
from .of_fewer import may_count
from .pinned import is_pinned_away
from .tie import Known, Stands, Ties

RULES: dict[str, str] = {
    "total-of-sufferers": (
        "The total of the claim counts those to whom something else had happened, and the claim is about all: 11 of "
        '"26 losses among 210 grafts, 11 by trauma" is a share of the losses, by reason, and says nothing of how many '
        "grafts had a trauma. Type the number of all, or say in `given` whose the figure is."
    ),
}


def find_totals_of_sufferers(claim: Claim, pairs: Sequence[tuple[Stands, Stands]], ties: Ties, known: Known) -> None:
    """Every count of a claim about all that its study holds."""
    if claim.within or claim.factor is not None or claim.levels or not is_of_everybody(claim, known.lexicon):
        return
    for stands, total in pairs:
        if stands.row.id in ties.asked or not _has_more(total):
            continue
        said = _because(stands) or _of_those_with_another(stands, total, claim, ties, known)
        if said is None or is_pinned_away(stands, said):
            continue
        ties.ask(
            stands, "total-of-sufferers", f'counts those to whom something else had happened: "{stands.printed(said)}"',
            "the claim all that were studied", "type the number of all, or add to the claim whose it is:\ngiven: WHOSE",
        )  # fmt: skip


def _has_more(total: Stands) -> bool:
    """Whether the passage counts more than the total somewhere."""
    units = total.reading.lexicon.units
    return any(
        may_count(each) and each.value > total.token.value and (each.unit == "none" or each.unit in units)
        for each in total.reading.tokens
    )


def _because(stands: Stands) -> Span | None:
    """ "Reasons for loss: trauma 11 of 26"."""
    low, high = stands.reading.told(surroundings_in).sentence(stands.token.start)
    text = stands.reading.passage.text
    found = _find_reasons(text, low, high)
    line = text.rfind("\n", 0, low)
    found = found or (_find_reasons(text, text.rfind("\n", 0, max(line, 0)) + 1, low) if line >= 0 else None)
    return found.span() if found is not None else None


_find_reasons = late(
    r"\b(?:reasons?|causes?|grounds)\s+(?:given\s+)?(?:for|of|why|behind)\s+(?:the\s+)?(?:[\w-]+\s+){0,3}?"
    r"(?:loss(?:es)?|lost|failures?|failed|extract\w*|remov\w*|replac\w*|withdraw\w*|deaths?|re-?operat\w*|retreat\w*)\b",
    re.IGNORECASE,
    holds=("reason", "cause", "grounds"),
).search


def _of_those_with_another(stands: Stands, total: Stands, claim: Claim, ties: Ties, known: Known) -> Span | None:
    reading = stands.reading
    counts = counting(claim, known)
    wanted = counted(stands, counts.blocks(ties.scope.name))
    if wanted is None or not wanted.outcome:
        return None
    events: Events = counts.events(reading).of_counts
    if not events.mentions:
        return None
    judged = Judged(stands, wanted, events, counts.words, counts.levels)
    token = total.token
    for mention in events.mentions:
        if mention.side != "bad" or not (judged.against(mention) and _is_of_total(mention, total, events)):
            continue
        return min(mention.start, token.start), max(mention.end, token.end)
    return None


def _is_of_total(mention: EventMention, total: Stands, events: Events) -> bool:
    """Whether words for an event say what the total counts: "26 losses", "26 of 210 were lost", "lost (n = 26)"."""
    text, token = total.reading.passage.text, total.token
    if token.part == "events" and total.reading.tokens[token.pair].value > token.value:
        return mention in events.said_of(total.at).own
    if mention.start >= token.end:
        return _is_gap(text, token.end, mention.start) is not None
    return _is_n(text, mention.end, token.start) is not None


_is_gap = late(
    r"\s+(?:(?!(?:had|were|was|and|or|in|of|with|by|at|that|which|who)\b)[a-z-]+\s+){0,2}"
    r"(?:(?:that|which|who)\s+)?(?:(?:were|was|had|had been|have been)\s+)?",
    re.IGNORECASE,
).fullmatch
_is_n = late(r"[\s,(\[]*[nN]\s*=\s*").fullmatch
