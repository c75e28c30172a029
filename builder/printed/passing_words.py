"""Where words for events tell nothing of what was counted: among what was adjusted for, and in the name of a ratio."""

from __future__ import annotations

import re

from ..compiled_patterns import compiled
from ..numerals.late import in_small, late
from .clauses import Span

_ADJUSTED = in_small(
    r"\b(?:(?:adjust(?:ed|ing|ments?)|controll(?:ed|ing)|allow(?:ed|ing|ance)|account(?:ed|ing)|correct(?:ed|ing|ion)|"
    r"standardi[sz](?:ed|ing|ation))\s+(?:(?:was|were|is|made|being)\s+){0,2}for|independent(?:ly)?\s+of|"
    r"(?:taking|holding)(?=[^.;:()|]{1,90}\b(?:account|constant)\b)|"
    r"\bmodel[\s~]*,?[\s~]+(?:(?:which|that)[\s~]+(?:also[\s~]+)?(?:held|included|contained|comprised|had)|with|"
    r"of(?=[^.;:()|\n]{1,90}(?:,|\band\b))|including|"  # "model of treatment failure" names what it foretells
    r"containing)|(?:with|including|entering)(?=[^.;:()|]{1,90}\bin(?:to)?[\s~]+the[\s~]+(?:[a-z]+[\s~]+)?model\b))\s+",
    holds=("adjust", "control", "allow", "account", "correct", "independent", "constant", "standardi", "model"),
)
_RATIO = (
    r"(?:\b(?:odds|hazards?)\b|\b(?:relative|risk|rate|incidence) (?:risk|ratio|hazard)s?\b|"
    r"(?-i:\b[ACac]?(?:ORs?|HRs?|RRs?)\b))"
)
_VERBS = (
    r"\b(?:was|were|is|are|had|has|have|did|does|do|remained|showed|gave|became|increased|decreased|rose|fell|reached|"
    r"predicted|favou?red|reduced|doubled|halved|yielded|resulted)\b"
)
_LIST_END = late(
    rf"(?:\b(?:the|an?|its?|this)\s+)?(?:(?:adjusted|pooled|overall|crude)\s+)?{_RATIO}|(?P<verb>{_VERBS})|[.;:()|=\d]|"
    r"\b(?:account|constant)\b|\bin(?:to)?[\s~]+the[\s~]+(?:[a-z]+[\s~]+)?model\b",
    re.IGNORECASE,
)
_is_in_front = late(
    r"(?:^|[.;:(|]|\b(?:after|when|on|by|with|once|upon|following|and|while)\b)\s*$", re.IGNORECASE
).search
_taking = late(r"(?:tak|hold|includ|enter)ing|with\b", re.IGNORECASE).match

_may_be_ratio = compiled(r"odds|hazard|ratio|relative risk|\b[ACac]?(?:ORs?|HRs?|RRs?)\b").search
_OF_RATIO = late(
    rf"{_RATIO}(?:\s+ratios?\b)?\s*(?:\([^()\d]*\)\s*)?(?:for|of)\s+(?P<event>[^.,;:()|\d=]+?)(?=\s*(?:[.,;:()|\d=]|$|\b(?:with|in|"
    rf"among|between|compared|against|versus|vs|when|by)\b|{_VERBS}))|"
    rf"(?P<before>\b[\w-]+)\s+{_RATIO}(?!(?:\s+ratios?)?\s*(?:\([^()\d]*\)\s*)?(?:for|of)\b)",
    re.IGNORECASE,
)


def adjusters_in(text: str) -> list[Span]:
    """Where a passage lists what it adjusted for: "age, sex and operator"."""
    return [
        (
            cue.end(),
            _end_of_list(text, cue.end(), _taking(cue[0]) is None and _is_in_front(text[: cue.start()]) is not None),
        )
        for cue in _ADJUSTED.finditer(text)
    ]


def _end_of_list(text: str, start: int, is_in_front: bool) -> int:
    end = _LIST_END.search(text, start)
    if end is None:
        return len(text)
    listed = text[start : end.start()]
    if end["verb"] and is_in_front and "," in listed:
        # "After adjusting for age and size, success was ...": behind the last comma the clause itself begins.
        cut = listed.rindex(",")
        joined = re.search(r"\b(?:and|or)\b", listed[cut:])
        return start + cut + (joined.end() if joined is not None else 0)
    return end.start()


def ratio_events_in(text: str) -> list[Span]:
    """Where a passage says of which event a ratio is: "failure" of "crude OR for failure 2.10"."""
    if _may_be_ratio(text) is None:
        return []
    return [found.span("event" if found["event"] else "before") for found in _OF_RATIO.finditer(text)]
