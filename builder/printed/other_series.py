"""Numbers of another series that stands beside the own: in a row of its own, or of controls of an earlier time."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence

from ..compiled_patterns import compiled
from ..numerals import Token
from ..numerals.late import late
from .belonging import owners_among
from .clauses import Span
from .other_works import NAME, OWN, goes_on
from .tables import Table
from .whose_words import NOT_NAMES
from .wordings import Mention

_SERIES = late(
    r"\b(?:histor(?:ical|ic)|archival)[\s~-]+(?:[a-z-]+[\s~]+)?"
    r"(?:controls?|cohorts?|series|comparators?|(?:comparison|control)[\s~]+(?:group|series|cohort)s?|group|patients|data)\b"
    r"|\b(?:controls?|comparators?|control[\s~]+(?:group|patients|cases))\b[\s~]+(?:[a-z]+[\s~]+){0,3}?"
    r"(?:from|in)[\s~]+(?:[a-z]+[\s~]+){0,3}?(?:archives?|files|records|past|earlier[\s~]+(?:years|period))\b"
    r"|\barchived[\s~]+(?:controls?|cases|series)\b",
    re.IGNORECASE,
    holds=("historic", "archiv", "files", "records", "past", "earlier"),
)
_COMPARED = late(
    r"\b(?:compared[\s~]+(?:with|to)|against|versus|vs|than(?:[\s~]+in)?)[\s~]+(?:(?:an?|the|those|that|of)[\s~]+){0,3}"
    r"(?P<series>(?:retrospective|earlier|previous|past|preceding|older)[\s~]+(?:[a-z-]+[\s~]+)?"
    r"(?:series|controls?|cohort|group|cases|patients|sample)\b(?:[^.;,\d()]*(?=\())?)",
    re.IGNORECASE,
    holds=("retrospective", "earlier", "previous", "past", "preceding", "older"),
)
""" "Were compared with a retrospective series of cases (30 of 45)"."""
_ends_in_latter = late(
    r"[,(–-][\s~]*(?:the[\s~]+latter|these|who|which)(?:[\s~]+(?:being|were|was|as|served|formed|all))*[\s~]+"
    r"(?:an?[\s~]+|the[\s~]+)?$",
    re.IGNORECASE,
).search
_OTHERS_ROW = late(
    r"\b(?:earlier|previous|prior|published|former|historical|historic|archival|other)\b(?=[^|\n]*\b(?:series|"
    r"stud(?:y|ies)|cohorts?|reports?|trials?|controls?|data|material|work)\b)|\bliterature\b|\bet[\s~]+al\b",
    re.IGNORECASE,
    holds=("earlier", "previous", "prior", "published", "former", "historic", "archival", "literature", "other", "al"),
)
_NAMED_ROW = late(
    rf"\W*(?P<name>{NAME})(?:(?:, | and | & |, and ){NAME})*"
    r"(?:,? et al\.?|,? and (?:colleagues|co-?workers|associates))?,?"
    r"(?:,? ?[(\[]?(?:19|20)\d\d[a-z]?[)\]]?|[\s~]?[(\[]\d{1,3}[)\]])+\W*"
).fullmatch
_OWN_WORK = late(
    r"\b(?:present|this|current|our|own)\s+(?:study|series|trial|cohort|report|work|material|data|results?|patients|"
    r"investigation|clinic)\b|\bours\b",
    re.IGNORECASE,
)
_OWN_ROW = late(r"\b(?:present|this|current|our|own|ours)\b", re.IGNORECASE)
_two_in_bracket = late(
    r"[\s~]*\([^()]*?\d[^()]*?\b(?:versus|vs|against|and|compared with)\b(?P<other>[^()]*)\)", re.IGNORECASE
).match
_clause_end = compiled(r"[;]|[.](?=\s|$)").search
_is_compared = late(
    r"\b(?:than|versus|vs|against|compared[\s~]+(?:with|to))[\s~]+(?:in|among|for|with)?[\s~]*(?:the[\s~]+)?$",
    re.IGNORECASE,
).search


def series_of_others(text: str, tokens: Sequence[Token], table: Table, counted: frozenset[str]) -> dict[int, Span]:
    """By the place of each number that stands in the row of another series, or is of historical controls, the words.

    counted: what is counted, and what is said of it: "eyes", "healed".
    """
    if table.has_cells:
        return dict(_in_rows(text, table))
    found = [each.span() for each in _SERIES.finditer(text)]
    found += [each.span("series") for each in _COMPARED.finditer(text)]
    if not found:
        return {}
    own = [
        Mention(*each.span(), "own")
        for each in OWN.finditer(text)
        if each[0].lower() != "us" and not any(low <= each.start() < high for low, high in found)
    ]
    mentions = sorted([*own, *(Mention(*span, "others") for span in found)])
    owners = owners_among(text, tokens, mentions, table, counted, is_complete=False)
    out = {
        at: owner.words[0]
        for at, owner in enumerate(owners)
        if owner is not None and owner.key == "others" and owner.is_sure
    }
    for span in found:
        out.update(dict.fromkeys(_before_latter(text, tokens, span), span))
        _take_behind(span, text, tokens, out)
    return out


def _take_behind(span: Span, text: str, tokens: Sequence[Token], out: dict[int, Span]) -> None:
    """Numbers that the name of a series leads to, or of which its bracket has the second."""
    if goes_on(text, span[1]):
        ended = _clause_end(text, span[1])
        end = ended.start() if ended is not None else len(text)
        out.update({at: span for at, token in enumerate(tokens) if span[1] <= token.start < end})
    listed = _two_in_bracket(text, span[1])
    if listed is not None and _is_compared(text[max(span[0] - _NEAR, 0) : span[0]]):
        low, high = listed.span("other")
        out.update({at: span for at, token in enumerate(tokens) if low <= token.start < high})
        for at, token in enumerate(tokens):
            if listed.start() <= token.start < low:
                out.pop(at, None)


def _before_latter(text: str, tokens: Sequence[Token], span: Span) -> list[int]:
    """ "39 of 47 with A and 30 of 45 with B, the latter historical controls": the last pair before."""
    led = _ends_in_latter(text[max(span[0] - _NEAR, 0) : span[0]])
    if led is None:
        return []
    before = [at for at, token in enumerate(tokens) if token.end <= span[0] and token.part in ("events", "total")]
    return before[-2:]


def _in_rows(text: str, table: Table) -> Iterator[tuple[int, Span]]:
    """The numbers below or beside the name of a series of others, where the own has a row or column too."""
    rows = {at: (line.cells[0].start, line.cells[0].end) for at, line in enumerate(table.lines) if line.cells}
    columns = {place.column: place.headings[-1] for place in table.places if place is not None and place.headings}
    for heads, is_row in ((rows, True), (columns, False)):
        own = {at for at, span in heads.items() if _OWN_ROW.search(text, *span) is not None}
        others = set(_rows_of_others(text, heads, own)) if own else ()
        for at, place in enumerate(table.places) if others else ():
            line = -1 if place is None else place.row if is_row else place.column
            if place is not None and line in others and place.cell != heads[line]:
                yield at, heads[line]


def _rows_of_others(text: str, heads: Mapping[int, Span], own: set[int]) -> Iterator[int]:
    is_work = any(_OWN_WORK.search(text, *heads[at]) is not None for at in own)
    for at, span in heads.items():
        is_others = _OTHERS_ROW.search(text, *span) is not None or (is_work and _is_of_authors(text[slice(*span)]))
        if at not in own and is_others:
            yield at


def _is_of_authors(head: str) -> bool:
    """ "Dremmel 2008", "Dremmel and Oast [12]"."""
    named = _NAMED_ROW(head)
    return named is not None and named["name"] not in NOT_NAMES


_NEAR = 40
"""Characters before a name in which words compare something with it."""
