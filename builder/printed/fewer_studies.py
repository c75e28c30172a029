"""Which figures of a review are of some of its studies only: "the subgroup of 5 trials gave 79%"."""

from __future__ import annotations

import re
from collections.abc import Sequence

from ..compiled_patterns import compiled
from ..numerals import Token
from ..numerals.late import holds_any, late
from ..numerals.words import NUMBER_WORDS
from .belonging import owners_among
from .clauses import Span, sentences
from .tables import Table
from .wordings import Mention

_STEMS = ("sub", "sensitiv", "restrict", "limit", "confin", "leav", "exclu", "omi", "without", "only", "the ", "remain")
_SOME = late(
    r"\b(?:sub-?(?:group|set|sample)s?|sensitivity|(?:restrict|limit|confin)\w+|leaving out|leave-one-out|exclu\w+|"
    r"omi(?:tting|ssion)|without|only|remaining)\b",
    re.IGNORECASE,
).search
_ends_with_the = compiled(r"\b(?:the|those)\s+(?:only\s+|other\s+|remaining\s+|[a-z-]+\s+)?$", re.IGNORECASE).search
_match_which = compiled(
    r"[\s~]*(?:with|at|of|that|which|whose|who|using|judged|rated|in which|done|conducted|published|from)\b"
    r"(?P<more>[^.;,\d]*)",
    re.IGNORECASE,
).match
_tells_of_outcome = compiled(
    r"\b(?:report|measur|assess|record|provid|contribut)(?:ed|ing|s)?\b|\bdata\b|\bgave\b|\bgiving\b|\bavail|\bfollow",
    re.IGNORECASE,
).search
""" "The 5 trials that reported pain": all that there are of these."""
_tells_how_long = compiled(
    r"follow-?up[\s~]+(?:of[\s~]+)?(?:over|beyond|longer|more|at[\s~]+least|exceeding|above|under|below|less|shorter)\b",
    re.IGNORECASE,
).search
""" "The 5 trials with a follow-up over two years"."""
_REACH = 70


def of_fewer_studies(text: str, tokens: Sequence[Token], table: Table, counted: frozenset[str]) -> dict[int, Span]:
    """By the place of each share or ratio that is of fewer studies than the passage has: the words for these.

    counted: what is counted, and what is said of it: "eyes", "healed".
    """
    small = text.lower()
    if not (holds_any(small, STUDIES) and holds_any(small, _STEMS)):
        return {}
    mentions = [Mention(*found.span(), _value(found["count"])) for found in _find_studies(text)]
    most = max((int(each.key) for each in mentions), default=0)
    some = {
        each.key: span for each in mentions
        if int(each.key) < most and (span := _some(text, each)) is not None
    }  # fmt: skip
    if not some:
        return {}
    owners = owners_among(text, tokens, mentions, table, counted, is_complete=False)
    return {
        at: some[owner.key]
        for at, owner in enumerate(owners)
        if owner is not None and owner.is_sure and owner.key in some and _is_figure(tokens[at])
    }


STUDIES = ("trial", "stud", "report", "article")
"""Stems of which one stands in whatever passage `of_fewer_studies` finds something in."""
_find_studies = late(
    rf"\b(?P<count>\d{{1,3}}|{'|'.join(NUMBER_WORDS)})[\s~]+(?:(?!(?:of|and|or|to|in)\b)[a-z-]+[\s~]+){{0,2}}"
    r"(?:stud(?:y|ies)|trials?|reports?|articles?)\b",
    re.IGNORECASE,
).finditer


def _value(count: str) -> str:
    return str(NUMBER_WORDS.get(count.lower(), count))


def _is_figure(token: Token) -> bool:
    return token.part == "" and (token.kind in ("percent", "ratio") or (token.kind == "number" and token.decimals > 0))


def _some(text: str, mention: Mention) -> Span | None:
    """The words that say that only some studies are meant, with their number; None where none do."""
    low = next((low for low, high in sentences(text, 0, len(text)) if low <= mention.start < high), 0)
    low = max(low, mention.start - _REACH)
    before = text[low : mention.start]
    cut = max(before.rfind(sign) for sign in ";:,") + 1
    found = _SOME(before, cut)
    if found is not None:
        return low + found.start(), mention.end
    the, which = _ends_with_the(before), _match_which(text, mention.end)
    if the is None or which is None or (_tells_of_outcome(which["more"]) and not _tells_how_long(which["more"])):
        return None
    return low + the.start(), mention.end
