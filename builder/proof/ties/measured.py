"""On which side of no difference a measured outcome lies, by words such as "faster" and "shortened by"."""

from __future__ import annotations

import re
from collections.abc import Callable

from ...compiled_patterns import compiled
from ...numerals.late import late
from ...printed.changes import Change, changes
from ...printed.comparisons import Compared, Region
from ...reading.contrasts import RATIOS
from ...reading.report_model import Claim, Contrast
from .tie import Known

MEASURED = "mean difference"
_TIME = late(r"(?:s|secs?|seconds?|mins?|minutes?|h|hrs?|hours?|days?|weeks?|months?|years?)\b(?!\s?/)", re.I)
_LENGTH = late(r"(?:mm|cm|µm|μm|um|millimet\w+|centimet\w+|micromet\w+)\b(?!\s?/)", re.I)
_SPEED = compiled(r"/|\bper\b")
_of_another = late(
    r"\b(?:efficien|effective|speed|accura|safe|comfort|quality|productiv|predictab|convenien|reduc|decreas|drop|fall|"
    r"shrink|gain|improv|relie|likel|often|frequen)",
    re.I,
).search
"""What there may be more of where a measure is less."""
_of_the_measure = late(r"\b(?:times?|scores?|points?|duration|seconds?|minutes?|hours?|days?|mm)\b", re.I).search
_is_said_of_all = late(r"\s*(?:(?:than|by|in|with|for|after|on)\b|[,.;:(]|$)", re.I).match
_ends_in_amount = late(r"(?:\b(?:was|were|is|are)|[\d.]+\s*(?:[a-zµμ%]+\.?)?)\s+(?:\w+ly\s+)?$", re.I)
_minus = compiled(r"\bminus\b|\bless the\b|\s[-\u2212\u2013]\s", re.I).search
_is_better = compiled(r"\b(?:outperformed|surpassed|superior|better)\b", re.I).search
_NEXT = late(r"(?:[\s-]+[a-z]+){0,3}", re.I)


def is_difference(contrast: Contrast) -> bool:
    """Whether a contrast is a difference, which may be printed without its sign."""
    return contrast.measure.text not in RATIOS


def turned_by_change(
    text: str, compared: Compared, region: Region, is_above_none: bool, is_more: Callable[[Change], bool | None]
) -> Compared | None:
    """ "compared with B, A was shortened by 6.5" is B against A. None where the words tell no sign.

    is_more: whether a word says that the subject has more of what the difference is of.
    """
    spans = compared.words
    if any(_minus(text, start, end) for start, end in spans):
        return compared
    if is_above_none and _is_better(text, *spans[0]):
        return None
    told = {is_more(change) for change in changes(text, region.start, region.end)}
    if not told:
        return None if compared.is_by_side else compared
    if len(told) > 1 or None in told:
        return None
    if told == {is_above_none}:
        return Compared(compared.level, compared.reference, spans)
    return Compared(compared.reference, compared.level, spans)


def is_more_of(change: Change, text: str, contrast: Contrast, claim: Claim, known: Known) -> bool | None:
    """Whether a word says that there is more of a measured outcome; None where that is not sure."""
    unit = contrast.unit.text if contrast.unit is not None else ""
    if change.kind == "speed":
        if _SPEED.search(unit):
            return change.is_more
        return not change.is_more if _TIME.match(unit) else None
    if change.kind == "length":
        return change.is_more if _TIME.match(unit) or _LENGTH.match(unit) else None
    outcome = known.outcomes.get(claim.outcome.text)
    titles = " ".join(words.text for words in (outcome.title, *outcome.synonyms)).lower() if outcome is not None else ""
    return change.is_more if _is_of_outcome(change, text, titles) else None


def _is_of_outcome(change: Change, text: str, titles: str) -> bool:
    """Whether there was more of the outcome itself: of "less time", not of "more efficient". titles: its names."""
    if change.kind == "verb" and _of_another(titles):
        return False
    behind = _NEXT.match(text, change.end)
    words = behind[0] if behind is not None else ""
    if any(word.lower()[:5] in titles for word in re.findall(r"[A-Za-z]{4,}", words)):
        return True
    if change.kind != "much":
        return _of_another(words) is None
    before = text[max(change.start - 24, 0) : change.start]
    is_amount = _is_said_of_all(text, change.end) is not None and _ends_in_amount.search(before) is not None
    return is_amount or _of_the_measure(words) is not None
