"""None of so many, in other words: "no fractures occurred in 210 eyes", "never in the 46", "none (210 eyes)"."""

from __future__ import annotations

import re
from decimal import Decimal

from ..compiled_patterns import compiled
from .forms.wholes import is_of_whole
from .late import holds_any, late
from .printed import Numeral, Printed

_STEMS = ("no", "never", "nil")
_may = compiled(r"\b(?:no|never|none|nil)\b").search
_IS_BEFORE = r"(?<!with\s)(?<!had\s)(?<!having\s)(?<!has\s)(?<!have\s)(?<!without\s)(?<!or\s)"
_AMONG = (
    r"(?:in|of|among|amongst|out of|for|from|across|within)\s+(?:(?:any|all|of|the|these|those|our|a|total)\s+){0,4}"
)
_NUMBER_WORD = r"(?:ten|eleven|twelve|thir|four|fif|six|seven|eight|nine|twenty)"
_ZERO = late(
    rf"""{_IS_BEFORE}\b(?P<said>
        (?:no|never) (?:\s+[^\W\d_]+(?:-[^\W\d_]+)*){{0,7}}?
      | none | nil
    )(?:\s+(?:were|was)\s+(?:seen|found|recorded|noted|reported|observed))?
    (?:\s*,)?\s+ (?:{_AMONG}|[(\[]\s*(?:of\s+|out\s+of\s+|n\s*=\s*)?(?:the\s+)?) (?=(?P<total>\d|{_NUMBER_WORD}))
    """,
    re.VERBOSE,
)
_LISTED = late(
    r"(?:[,;:]\s+|\band\s+)(?:and\s+|but\s+)?(?P<said>no\s+[^\W\d_]+(?:-[^\W\d_]+)*(?:\s+[^\W\d_]+)?)"
    r"(?=\s*(?:[,;.)]|$|\band\b|\b(?:was|were|occurred)\b))"
)
""" "eight losses, three fractures and no swelling"."""
_find_no_event = late(
    r"\b(?:differen\w+|significan\w+|statistical\w*|evidence|effects?|associations?|correlations?|relation\w*|other"
    r"|others|more|less|fewer|longer|interactions?|adjust\w+|information|data|further|prior|previous|such|influence"
    r"|attempt|reason|trend|change|consensus|limits?|restrictions?)\b"
).search
"""Words with which "no" tells of no event: "no difference in 210 eyes"."""
_ZERO_VALUE = Decimal(0)


def read_zeros(printed: Printed) -> None:
    """Add the nought that words say of a number of units, or in a list of counts."""
    text = printed.text.lower()
    if len(text) != len(printed.text) or not _may_say_none(text):
        return
    by_start = {numeral.start: numeral for numeral in printed.numerals}
    said_of = {id(numeral.mate) for numeral in printed.said_of}
    for found in _ZERO.finditer(text):
        total = by_start.get(found.start("total"))
        if total is None or id(total) in said_of or not _may_be_total(printed, total) or found.start() in by_start:
            continue
        if _is_name(found["said"], total):
            continue
        if _find_no_event(found["said"]) is None:
            _add(printed, found.span("said"), total)
    for found in _LISTED.finditer(text):
        is_behind_count = any(
            numeral.start < found.start() and numeral.unit in printed.lexicon.counts and not numeral.decimals
            and _ENDS.search(text, numeral.end, found.start()) is None
            for numeral in printed.numerals
        )  # fmt: skip
        if is_behind_count and _find_no_event(found["said"]) is None:
            _add(printed, found.span("said"), None)


def _may_say_none(text: str) -> bool:
    return holds_any(text, _STEMS) and _may(text) is not None


_ENDS = compiled(r"[.!?](?=\s)|\n")


def _may_be_total(printed: Printed, total: Numeral) -> bool:
    is_count = total.unit in printed.lexicon.counts and total.unit not in ("study", "arm") and not total.decimals
    is_free = total.mate is None and not total.comparator and total.form in ("", "count")
    return is_count and is_free and not total.is_destroyed and "label" not in total.words


def _is_name(said: str, total: Numeral) -> bool:
    """ "No suture (n = 31)" are 31 without one."""
    return said.startswith("no ") and "n" in total.words


def _add(printed: Printed, span: tuple[int, int], total: Numeral | None) -> None:
    zero = Numeral(total.piece if total is not None else 0, 0, *span, _ZERO_VALUE, 0)
    zero.form = "count"
    if total is not None:
        zero.unit = total.unit
        if not is_of_whole(printed, total.words):
            zero.part, zero.mate = "events", total
    printed.said_of.append(zero)
