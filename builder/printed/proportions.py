"""Shares printed as proportions: "the proportion healed was 0.84", and survival of 0.93 in a column so called."""

from __future__ import annotations

import re
from collections.abc import Sequence

from ..compiled_patterns import compiled
from ..numerals import Token
from ..numerals.late import late
from ..synthesis.rounding import is_share_of
from .tables import InCell

_SHARE = (
    r"proportions?|probabilit(?:y|ies)|fractions?|surviv(?:al|ed|ing)|success(?:es|ful)?|healed|healing|rates?|incidence|"
    r"prevalence|shares?"
)
_NO_SHARE = (
    r"ratios?|odds|relative|hazards?|kappa|agreement|correlat\w+|coefficients?|deviations?|errors?|differences?|mean|"
    r"median|auc|area|sensitivity|specificity|beta|weights?|tau|scores?|index|ind(?:ex|ices)|log-?rank|tests?|chi|"
    r"widths?|sd|se|sem|rr|hr|ahr|aor|arr|irr|md|rd|icc|ppv|npv|power|alpha|adjusted|per"
)
_find_cues = late(rf"\b(?:(?P<share>{_SHARE})|{_NO_SHARE})\b|κ|χ|β|α|τ", re.IGNORECASE).finditer
_find_names = late(r"\bOR\b|\b[rptFzI]\b(?!-)").search
"""Names of statistics in the case in which papers print them."""
_SENTENCE_END = compiled(r"[.;!?]\s|\n\s*\n")


def proportions_in(text: str, tokens: Sequence[Token], cells: Sequence[InCell | None]) -> frozenset[int]:
    """Places of the numbers of 0 to 1 with two decimals or more that are said to be a share.

    The word for a share stands before them, in their sentence, cell, row or heading, and no word for a ratio, an error
    or another statistic between.
    """
    found: set[int] = set()
    for at, token in enumerate(tokens):
        if _may_be(token) and (
            _is_of_counts(text, at, tokens)
            or _is_share(text, token, cells[at])
            or _is_beside_a_share(text, at, tokens, cells, found)
        ):
            found.add(at)
    return frozenset(found)


def _is_of_counts(text: str, at: int, tokens: Sequence[Token]) -> bool:
    """ "0.76 (38/50)" and "38/50 (0.76)": the share of the counts beside it."""
    share = tokens[at]
    behind, before = tokens[at + 1] if at + 1 < len(tokens) else None, tokens[at - 1] if at else None
    for other, begins in ((behind, share.end), (before, before.end if before is not None else 0)):
        if other is None or other.pair < 0 or other.part not in ("events", "total"):
            continue
        events, total = (other, tokens[other.pair])[:: 1 if other.part == "events" else -1]
        gap = text[begins : (other if other is behind else share).start]
        is_its = is_share_of(100 * share.value, share.decimals - 2, events.value, total.value)
        if gap.strip(" ~") == "(" and is_its:
            return True
    return False


def _is_beside_a_share(
    text: str, at: int, tokens: Sequence[Token], cells: Sequence[InCell | None], found: set[int]
) -> bool:
    """ "0.94 | 0.89-0.99", the second column headed "95% CI": the interval of the share to its left."""
    cell, before = cells[at], max(found, default=-1)
    if tokens[at].part not in ("low", "high") or before < 0:
        return False
    if cell is None:
        return _is_its_interval(text[tokens[before].end : tokens[at].start], tokens[before : at + 1])
    beside = cells[before]
    is_headed = any(_find_interval(text, *heading) for heading in cell.headings)
    return is_headed and beside is not None and beside.row == cell.row and cell.column - beside.column <= 1


def _is_its_interval(between: str, tokens: Sequence[Token]) -> bool:
    """ "0.83 of all (39 of 47; 95% CI 0.69 to 0.92)": the interval of the share before it, with counts between."""
    share, *others = tokens
    if share.part in ("low", "high"):  # the upper end
        return not others[1:] and others[0].part == "high"
    is_said = _find_interval(between) is not None and re.search(r"[.!?]\s", between) is None
    return is_said and not any(token.decimals for token in others[:-1] if token.kind != "confidence")


_find_interval = compiled(r"\bCI\b|confidence", re.IGNORECASE).search


def _may_be(token: Token) -> bool:
    is_bare = token.unit == "none" and not token.measure and not token.comparator
    return is_bare and token.kind in ("number", "interval") and token.decimals >= 2 and 0 <= token.value <= 1


def _is_share(text: str, token: Token, cell: InCell | None) -> bool:
    if _match_of_whom(text, token.end) and token.kind == "number":
        return True
    if cell is None:
        return _is_share_in_prose(text, token)
    said = [text[cell.cell[0] : token.start]]
    said += [text[start:end] for start, end in (*cell.headings, *cell.others, *cell.above) if end <= token.start]
    for words in said:
        cue = _last_cue(words)
        if cue is not None:
            return cue
    return False


def _is_share_in_prose(text: str, token: Token) -> bool:
    """By the words of its clause, or of one before in the same list: "survival: 0.95 at 2 years; 0.81 at 5 years"."""
    end = token.start
    for found in reversed(list(_SENTENCE_END.finditer(text, 0, token.start))):
        cue = _last_cue(text[found.end() : end])
        if cue is not None or found[0][0] != ";":
            return bool(cue)
        end = found.start()
    return bool(_last_cue(text[:end]))


_match_of_whom = late(r"\s+of\s+(?:the|all|these|those)\s+[^\W\d]", re.IGNORECASE).match
""" "noted by 0.38 of the respondents"."""


def _last_cue(words: str) -> bool | None:
    """True where the last word for a statistic in some words is one for a share, None where there is none."""
    last = None
    for last in _find_cues(words):  # noqa: B007
        pass
    name = _find_names(words, last.end() if last is not None else 0)
    if last is None:
        return None if name is None else False
    return last["share"] is not None and name is None
