"""What a passage says of the facts of a study: who treated, with what, which kind of people, by which design."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from functools import lru_cache

from ..numerals.late import holds_any, in_small, late
from .clauses import Span

# Words of a fact

_denied_before = late(
    r"\b(?:no|not|without|nor|neither|never|none|exclud\w+|except(?:ing)?|other than|rather than|instead of|lacked|"
    r"unavailable)\b[^.;:,]{0,40}$",
    re.IGNORECASE,
).search
_denied_behind = late(
    r"[^.;:,]{0,30}?\b(?:(?:was|were|is|are|had been|being)\s+"
    r"(?:not|never|no longer|excluded|unavailable|ineligible|left out)|"
    r"(?:did|could|had)\s+not)\b",
    re.IGNORECASE,
).match
_before_itself = late(r"\b(?:not only|no fewer|no less|not just)\b[^.;,]{0,30}$", re.IGNORECASE).search
_NEAR = 60
"""Characters on either side of a word in which it is denied."""


def mentions_in(text: str, words: str) -> list[Span]:
    """Where a passage has the words of a fact, in the singular or the plural."""
    if not may_mention(text.lower(), words):  # most passages name no fact, and need no pattern of their own
        return []
    return [found.span() for found in _names_of(words).finditer(text)]


def may_mention(small: str, words: str) -> bool:
    """Whether a text of small letters, one passage or several, may have them: False tells that none has."""
    for stem in _stems_of(words):  # noqa: SIM110 (half the time of `all`)
        if stem not in small:
            return False
    return True


@lru_cache(maxsize=512)
def _stems_of(words: str) -> tuple[str, ...]:
    return tuple(word.removesuffix("s") for word in words.lower().split())


@lru_cache(maxsize=512)
def _names_of(words: str) -> re.Pattern[str]:
    between = r"[\s-]+".join(re.escape(word.removesuffix("s")) + "s?" for word in words.split())
    return re.compile(rf"(?<![\w-]){between}(?![\w-])", re.IGNORECASE)


def is_denied(text: str, span: Span) -> bool:
    """ "Without a microscope", "a microscope was not at hand", "private patients were excluded"."""
    before = text[max(span[0] - _NEAR, 0) : span[0]]
    if _denied_before(before) is not None:
        return _before_itself(before) is None
    return _denied_behind(text, span[1], span[1] + _NEAR) is not None


# Who treated

_TREAT = (
    r"(?:treat(?:ed|ing|ments?)?|perform(?:ed|ing)?|operat(?:ed|ing|ions?)|repair(?:ed|ing|s)?|plac(?:ed|ing)|"
    r"carr(?:ied|ying) out|"
    r"provid(?:ed|ing)|undertook|undertaken|did|done|inserted)"
)
_LOOK = (
    r"(?:supervis\w+|assist\w+|read|assess\w*|evaluat\w+|examin\w+|scor(?:ed|ing)|review\w*|wrote|written|judg\w+|interview\w*|"
    r"taught|guid(?:ed|ing)|overs(?:een|aw)|check\w*|record(?:ed|ing)|randomi[sz]\w+|grad(?:ed|ing)|measur\w+|referr?\w*)"
)
_by_before = late(
    rf"\b(?P<verb>{_TREAT}|{_LOOK})\b(?:(?!\b(?:{_TREAT}|{_LOOK})\b)[^.;:])"
    + r"{0,30}?\bby\s+(?:(?!by\b)[\w-]+[\s,]+){0,4}$",
    re.IGNORECASE,
).search
_verb_behind = late(
    rf"(?:\s+(?:who|that|all|then|also|had|have|from|in|of|at|the|one|clinic|programme|department)\b){{0,5}}\s+(?P<verb>{_TREAT}|{_LOOK})\b",
    re.IGNORECASE,
).match
_is_treat = late(_TREAT, re.IGNORECASE).fullmatch
_TREATED_ALL = r"(?:treated|performed|did|operated on|carried out|placed|repaired)\s+(?:the|all|every|each)\b"
_says_who_treated = late(rf"\b{_TREAT}\b[^.;:]{{0,24}}\bby\s+|\b{_TREATED_ALL}", re.IGNORECASE).search


def only_looked(text: str, span: Span) -> bool:
    """Whether somebody named there is said to have read films or supervised, and not to have treated."""
    before = text[max(span[0] - 90, 0) : span[0]]
    cut = max(before.rfind(". "), before.rfind("; ")) + 1
    did = _by_before(before[cut:]) or _verb_behind(text, span[1], span[1] + 70)
    return did is not None and _is_treat(did["verb"]) is None


def says_who_treated(text: str) -> bool:
    """ "All repairs were done by ...", "... treated all patients"."""
    return _says_who_treated(text) is not None


_CLASSES = (
    late(r"\b(?:students?|undergraduates?)\b", re.IGNORECASE).search,
    late(r"\b(?:residents?|postgraduates?|trainees?|registrars?|interns?)\b", re.IGNORECASE).search,
    late(r"\b(?:specialists?|consultants?)\b", re.IGNORECASE).search,
    late(r"\b(?:(?:general|family) (?:practitioners?|doctors?|physicians?)|generalists?)\b", re.IGNORECASE).search,
)
"""Classes of those who treat, by how far they are trained; common practice, no source."""
_OF_CLASSES = (
    "student", "undergraduate", "resident", "postgraduate", "trainee", "registrar", "intern", "specialist",
    "consultant", "practitioner", "doctor", "physician", "generalist",
)  # fmt: skip
"""Stems of their words."""
_treated_by = late(
    rf"\b{_TREAT}\b[^.;:]{{0,24}}?\bby\s+(?P<who>[^.;:,()]{{3,60}})|(?P<whom>\b[^.;:,()]{{3,60}})\s+{_TREATED_ALL}",
    re.IGNORECASE,
).finditer


def may_tell_who_treats(small: str) -> bool:
    """Whether a text of small letters, one passage or several, may name a class of those who treat."""
    return holds_any(small, _OF_CLASSES)


def treated_by_others(text: str, typed: str) -> Span | None:
    """ "All treatment was carried out by students", where specialists are typed; None where nothing says so."""
    own = _class_of(typed)
    if own is None or _CLASSES[own](text) is not None or not any(search(text) for search in _CLASSES):
        return None
    for found in _treated_by(text):
        group = found.lastgroup or ""
        if any(search(found[group]) for search in _CLASSES):
            return found.span(group)
    return None


@lru_cache(maxsize=512)
def _class_of(typed: str) -> int | None:
    own = [search(typed) is not None for search in _CLASSES]
    return own.index(True) if own.count(True) == 1 else None


_unaided = late(
    r"\b(?:without|no)\s+(?:\w+\s+)?magnification\b|\b(?:naked|unaided) eyes?\b",
    re.IGNORECASE,
    holds=("magnification", "naked", "unaided"),
).search


def unaided(text: str) -> Span | None:
    """ "Without magnification"."""
    found = _unaided(text)
    return found.span() if found is not None else None


# Words that exclude one another

_CENTRES = r"(?:two|three|four|five|six|seven|eight|nine|ten|several|\d+) (?:centres|centers)|multi-?cent(?:re|er)"
_OPPOSITES: tuple[tuple[str, str], ...] = (
    ("permanent", r"deciduous|"
                  r"primary(?!\s+(?:treatment|outcome|end|care|closure|healing|objective|aim|analys|"
                  r"repair|cause|reason|endpoint|dressing|study|data|measure|failure|success|surgery))"),
    ("primary", r"permanent"),
    ("deciduous", r"permanent"),
    ("mature", r"immature"),
    ("immature", r"(?<!im)mature"),
    ("initial", r"re-?treatments?|revisions?|repeat(?:ed)? (?:treatment|surgery|operation)s?"),
    ("retreatment", r"(?:initial|first|primary) (?:treatment|operation|surgery|repair)s?"),
    ("university", r"private practices?|general practices?"),
    ("hospital", r"private practices?|general practices?"),
    ("private practice", r"university|teaching hospital"),
    ("one centre", _CENTRES),
    ("single centre", _CENTRES),
    ("adults", r"children|adolescents"),
    ("children", r"adults"),
)  # fmt: skip
"""Kinds of people, of what is treated and of places; common practice, no source."""
_opposites = tuple(
    (late(rf"\b{word}s?\b", re.IGNORECASE).search, in_small(rf"\b(?:{other})\b").finditer) for word, other in _OPPOSITES
)


def opposite_in(text: str, words: str) -> Span | None:
    """Where a passage names what excludes the words of a fact, and does not deny it; None where it does not."""
    found = (each.span() for others in _opposites_of(words) for each in others(text))
    return next((span for span in found if not is_denied(text, span)), None)


@lru_cache(maxsize=512)
def _opposites_of(words: str) -> tuple[Callable[[str], Iterable[re.Match[str]]], ...]:
    """What finds the words that exclude a fact; nothing for one of several: "initial and repeated treatment"."""
    if _names_several(words) is not None:
        return ()
    return tuple(others for is_word, others in _opposites if is_word(words) is not None)


_names_several = late(r"\b(?:and|or|both|mixed|with)\b|[,;/]", re.IGNORECASE).search

# Designs

_OF_CHANCE = ("random", "toss of", "drawing", "envelopes")
_OF_NO_CHANCE = ("random", "altern", "turn", "by d", "by o", "by r", "cho", "prefer")
_OF_RECORDS = ("retrospect", "charts", "records", "files", "notes")
_OF_DESIGNS = ("case", "cross-sectional", "cohort", "survey", "systematic review")
_TELL_DESIGN = tuple(dict.fromkeys((*_OF_CHANCE, *_OF_NO_CHANCE, *_OF_RECORDS, *_OF_DESIGNS)))
"""Stems of all words that tell a design."""
_randomised = late(
    r"\b(?:randomly|at random)\s+(?:\w+\s+)?(?:allocat|assign|allott|divid|distribut)\w*|"
    r"\b(?:allocat|assign|allott|divid|distribut)\w*\s+(?:\w+\s+){0,3}(?:randomly|at random)\b|"
    r"\b(?:were|was)\s+randomi[sz]ed\b|\brandomi[sz]ed\s+(?:to|into|between)\b|"
    r"\b(?:this|our|the present)\s+(?:[\w-]+\s+){0,3}randomi[sz]ed\b|"
    r"\btoss of a coin\b|\bdrawing (?:of )?lots\b|\b(?:sealed|opaque)\b[^.;]{0,24}\benvelopes\b|"
    r"\brandomi[sz]ation\s+(?:list|sequence)\b",
    re.IGNORECASE,
    holds=_OF_CHANCE,
).finditer
_not_randomised = late(
    r"\b(?:not|without|no|never)\b[^.;,]{0,24}\brandomi[sz]\w+|\bnon-?randomi[sz]ed\b|\bquasi-?random\w*|"
    r"\b(?:alternately|allotted in turn|by turns|"
    r"by (?:date of birth|day of the week|order of attendance|record number))\b|"
    r"\b(?:operators?|surgeons?|clinicians?|patients?)(?:'s?|s')?\s+(?:chose|choice|preference|preferred)\b",
    re.IGNORECASE,
    holds=_OF_NO_CHANCE,
).search
_retrospective = late(
    r"\bretrospective(?:ly)?\b|\b(?:charts|records|files|notes)\s+(?:of|from|were)\b[^.;]{0,60}\b(?:reviewed|searched|audited)\b",
    re.IGNORECASE,
    holds=_OF_RECORDS,
).search
_DESIGNS = ("case series", "case report", "case-control", "cross-sectional", "cohort", "survey", "systematic review")
_calls_itself = late(
    r"\b(?:this|our|the present|present)\s+(?:[\w-]+\s+){0,3}?(?P<design>" + "|".join(_DESIGNS) + r")\b|"
    r"\b(?P<cases>cases? (?:are|is|were) (?:described|reported|presented)|"
    r"we (?:describe|report|present) (?:\w+ )?cases?)\b",
    re.IGNORECASE,
    holds=_OF_DESIGNS,
).search


def may_tell_design(small: str) -> bool:
    """Whether a text of small letters, one passage or several, may tell a design."""
    return holds_any(small, _TELL_DESIGN)


def other_design(text: str, typed: str) -> Span | None:
    """Where a passage says that a study has another design than the one typed; None where it does not."""
    typed = typed.lower()
    drawn = next((each.span() for each in _randomised(text) if not is_denied(text, each.span())), None)
    if "review" in typed or "experiment" in typed:
        return None
    if typed.startswith("randomi"):
        against = _not_randomised(text) or (_retrospective(text) if drawn is None else None)
        return against.span() if against is not None else None
    if drawn is not None and _not_randomised(text) is None:
        return drawn
    called = _calls_itself(text)
    if called is None or typed.partition(" ")[0] in text.lower():
        return None
    said = (called["design"] or "case series").lower()
    return called.span() if said not in typed and not typed.startswith("case") else None


# How the people were chosen

_OF_CHOICE = ("consecutive", "convenience", "purposive", "picked", "selected", "chosen", "taken")
_consecutive = late(r"(?<!non-)(?<!non)\bconsecutive(?:ly)?\b", re.IGNORECASE, holds=("consecutive",)).finditer
_chosen = late(
    r"\bconvenience sampl\w+|\bnon-?consecutive\w*|\bnot (?:all )?consecutive\w*|\bpurposive\w*|\bhand-?picked\b|"
    r"\b(?:selected|chosen) (?:cases|patients)\b|"
    r"\b(?:cases|patients|those) with (?:the )?(?:best|clearest|good)\b[^.;]{0,40}"
    r"\b(?:were|was) (?:chosen|selected|taken|picked)\b",
    re.IGNORECASE,
    holds=_OF_CHOICE,
).search


def may_tell_selection(small: str) -> bool:
    """Whether a text of small letters, one passage or several, may tell how people were chosen."""
    return holds_any(small, _OF_CHOICE)


def other_selection(text: str, typed: str) -> Span | None:
    """Where a passage says that people were chosen otherwise than typed; None where it does not."""
    in_turn = next((each.span() for each in _consecutive(text) if not is_denied(text, each.span())), None)
    if typed == "consecutive":
        chosen = _chosen(text) if in_turn is None else None
        return chosen.span() if chosen is not None else None
    return in_turn if typed == "selected" and _chosen(text) is None else None
