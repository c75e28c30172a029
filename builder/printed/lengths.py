"""Lengths of time that say how long nobody was followed: ages, intervals between visits, courses of medicine."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import lru_cache

from ..compiled_patterns import compiled
from ..numerals import Token
from ..numerals.late import holds_any, late
from ..records import NamedTuple

_BACK, _AHEAD = 90, 150
"""Characters before a length, and behind it, in which its words stand."""

AGE = "an age"
INTERVAL = "the time between two visits or renewals"
RECRUITMENT = "how long people were recruited"
LASTING = "how long something was done, taken or left"
DELAY = "the time until the treatment"
BEFORE = "a time before the treatment"
STUDY = "how long the study lasted"
LOST = "how long those were seen who were lost"
PRACTICE = "how long somebody has practised"
EVENT = "the time until an event"

_RECRUITS = r"(?:recruit|enrol|accru|admit|collect|gather|entered|includ|inclusion|intake|accept)\w*"
_RECRUITING = (
    "recruit", "enrol", "accru", "admit", "collect", "gather", "entered", "inclu", "intake", "accept",
)  # fmt: skip
_RENEWED = r"(?:(?:renew|repeat|refill|refresh|replenish)ed|(?:chang|replac)ed|renewals?|changes?)"
""" "Changed after 2 weeks"; but "a repeat procedure at 10 years" is what happened to somebody."""
_TREATS = (
    r"(?:treated|treatment|operated|performed|started|begun|initiated|restored|placed|placement|sealed|repaired|filled|"
    r"closed|completed|referred|presented|admitted|cemented|seated)"
)
_TAKEN = (
    r"(?:antibiotics?|analgesics?|medications?|medicines?|amoxicillin|penicillin|clindamycin|ibuprofen|paracetamol|"
    r"tablets?|capsules?|prescri\w+|drugs?|steroids?|doses?|splint\w*|course|left|kept|stayed|remained|"
    r"worn|soaked|stored|rinsed|irrigated|in place)"
)
_ENDED = (
    r"(?:extract(?:ed|ions?)|lost|loss(?:es)?|fail(?:ed|ures?)|fractur(?:ed|es?)|re-?treat(?:ed|ments?)|relapsed?|"
    r"relapses|recurr(?:ed|ences?)|removed|removals?|taken out|came out|died|deaths?)"
)
_STEMS_OF_ENDINGS = (
    "extract", "lost", "loss", "fail", "fractur", "treat", "relaps", "recurr", "remov", "out", "died", "death",
)  # fmt: skip
"""What ends a follow-up: how long it took says not how long all were followed."""
_WELL = r"(?:healed|free|in place|in function|intact|successful|well|clear|alive|sound|stable|closed)\b"
"""In "stayed healed for 6 years" nothing was taken or left."""
_PEOPLE = r"(?:patients|people|persons|participants|subjects|adults|children|women|men|those)"
_ABOUT = r"[\s~(]*(?:about|approximately|around|at least|at most|up to|the first|an?|the)?[\s~]*$"


class _Sought(NamedTuple):
    """Words that say what a length is."""

    what: str
    stems: tuple[str, ...]
    """In small letters, one of which all of them hold: few lengths have any, and then no pattern is asked."""
    patterns: tuple[str, ...]


@lru_cache(maxsize=32)
def _pattern(sought: _Sought) -> re.Pattern[str]:
    return late("|".join(f"(?:{pattern})" for pattern in sought.patterns), re.IGNORECASE)


_SAID_BEFORE = (
    _Sought(
        AGE,
        ("age", "older", "younger", "over", "under", "above", "below"),
        (
            r"\bage[ds]?[\s~:=(]*$",
            r"\bage[ds]?\b[^\d;]{0,50}?(?:\b(?:of|was|were|is|between|from|over|under|above|below|than|about|"
            r"median|mean|range|ranged|to)\b[\s~]*|[(,:=][\s~]*)$",
            r"\b(?:older|younger)(?: than)?[\s~]*$",
            rf"\b{_PEOPLE}\s+(?:who were\s+)?(?:over|under|above|below)[\s~]*$",
        ),
    ),
    _Sought(
        INTERVAL,
        ("renew", "chang", "replac", "replen", "repeat", "refill", "refresh", "every", "each", "interval", "between"),
        (
            rf"\b{_RENEWED}\b[^\d,;]{{0,30}}\b(?:after|at)[\s~]*$",
            r"\b(?:every|each)(?:[\s~]+(?:other|few|second))?[\s~]*$",
            r"\bintervals?\s+(?:of|was|were|being|lasted)\s+(?:\w+\s+)?$",
            r"\bbetween\s+(?:the\s+)?(?:two\s+)?(?:visits|appointments|sessions|treatments|stages|renewals|dressings)\b[^\d]{0,30}$",
        ),
    ),
    _Sought(
        RECRUITMENT,
        _RECRUITING,
        (rf"\b{_RECRUITS}\b[^\d,;]{{0,40}}\b(?:over|during|within|for|in|lasted|took|ran)\b[^\d,;]{{0,24}}$",),
    ),
    _Sought(
        LASTING,
        (
            "antibiotic",
            "analgesic",
            "medic",
            "cillin",
            "clindamycin",
            "ibuprofen",
            "paracetamol",
            "tablet",
            "capsule",
            "prescri",
            "drug",
            "steroid",
            "dose",
            "splint",
            "course",
            "left",
            "kept",
            "stayed",
            "remained",
            "worn",
            "soaked",
            "stored",
            "rinsed",
            "irrigated",
            "in place",
            "wash",
            "set",
            "cured",
            "harden",
            "time",
        ),
        (
            rf"(?<!\bin the )(?<!\bover the )(?<!\bduring the )(?<!\bin )\b{_TAKEN}\b(?!\s+{_WELL})[^\d,;]{{0,30}}"
            rf"\b(?:for|of|lasting)\b{_ABOUT}",
            r"\bwash-?out\b[^\d]{0,30}$",
            r"\b(?:set|sets|cured|hardened|hardens|setting)\b[^\d,;]{0,20}\b(?:within|in|after|for)\b" + _ABOUT,
            r"\b(?:setting|working|operating|operation|chair|mixing|treatment) times?\b[^\d,;]{0,30}$",
        ),
    ),
    _Sought(
        DELAY,
        ("within", "after", "inside", "interval", "delay", "time"),
        (
            rf"\b{_TREATS}[\s~]+(?:within|after|inside)\b{_ABOUT}",
            r"\b(?:intervals?|delays?|times?)\s+(?:from|between)\s+(?:the\s+)?(?:injury|trauma|accident|diagnosis|onset|"
            rf"referral|symptoms?|randomi[sz]ation)\s+(?:to|and|until)\s+(?:the\s+)?{_TREATS}\b[^\d;]{{0,30}}$",
        ),
    ),
    _Sought(
        BEFORE,
        ("duration", "history", "symptom", "pain", "swelling", "complaint"),
        (
            r"\b(?:duration|history) of (?:the )?(?:symptoms?|complaints?|pain|swelling|disease)\b[^\d,;]{0,30}$",
            r"\b(?:symptoms|pain|swelling|complaints?|painful)\s+(?:(?:had|have|been|was|were|present)\s+)*(?:for|since)\b"
            + _ABOUT,
        ),
    ),
    _Sought(
        LOST,
        ("lost", "drop", "withdr"),
        (
            r"\b(?:lost(?: to (?:follow-?up|recall))?|drop(?:ped)?[\s-]?outs?|withdrawn|withdrew)\s+"
            r"(?:(?:had|have|been|were|was)\s+)+(?:seen|followed|observed|last seen)\b[^\d;]{0,40}$",
        ),
    ),
    _Sought(
        PRACTICE,
        ("experience", "practi", "qualified", "graduated", "trained"),
        (
            r"\b(?:experience|practi[sc]e[ds]?|practising|qualified|graduated|trained)\b[^\d,;]{0,16}\b(?:for|of)\b"
            + _ABOUT,
        ),
    ),
    _Sought(
        STUDY,
        ("trial", "study", "project"),
        (
            r"(?:follow-?up\s+(?:of|in|during)\s+(?:the|this|our)\s+)?\b(?:trial|study|project)\s+"
            r"(?:ran|was run|lasted|took)\b(?:\s+(?:for|over))?" + _ABOUT,
        ),
    ),
    _Sought(
        EVENT,
        ("time", "took", "lasted", "required", "occurred", "happened", "appeared", "arose", *_STEMS_OF_ENDINGS),
        (
            r"\btimes? (?:to|until|till)\b(?![^\d]{0,40}\b(?:recall|follow|last|observ|review))[^\d,;]{0,40}$",
            r"\b(?:healing|closure|repair|treatment|operation|it|this|they)\s+(?:took|lasted|required)\b[^\d,;]{0,20}$",
            r"\b(?:failures?|fractures?|events?|losses|flare-?ups?|complications?)\s+(?:had\s+)?"
            r"(?:occurred|happened|appeared|arose)\b[^\d,;]{0,10}\b(?:mean|median|average)\b[^\d,;]{0,10}$",
            rf"\b{_ENDED}\b[^\d;]{{0,20}}\b(?:came|occurred|happened|took place|followed)\s+(?:after|at){_ABOUT}",
            rf"\b{_ENDED}\b(?! to\b)[^\d;]{{0,30}}\b(?:mean|median|average)\b[^\d,;]{{0,10}}$",
        ),
    ),
)

_UNIT = r"[\s~-]*(?:minutes?|min|hours?|hrs?|days?|weeks?|months?|years?|yrs?)\b['’]?"
_SAID_BEHIND = (
    _Sought(AGE, ("age", "old"), (rf"{_UNIT}[\s-]*(?:of age|old|olds)\b",)),
    _Sought(
        INTERVAL,
        ("interval", "apart", "between"),
        (rf"{_UNIT}[\s-]*(?:intervals?|apart|between (?:the )?(?:two )?(?:visits|appointments|sessions))\b",),
    ),
    _Sought(
        BEFORE,
        ("before", "prior", "preced", "previous", "ago", "history"),
        (rf"{_UNIT}\s*(?:before|prior to|preceding|previously|ago|history)\b",),
    ),
    _Sought(
        PRACTICE,
        ("experience", "practi", "training"),
        (rf"{_UNIT}\s*(?:of|in|as)?\s*(?:\w+\s+)?(?:experience|practi[sc]e|training)\b",),
    ),
    _Sought(
        LASTING,
        ("wash", "course", "antibiotic", "medication"),
        (rf"{_UNIT}[\s-]*(?:wash-?out|course|of (?:antibiotics?|medication))\b",),
    ),
    _Sought(
        RECRUITMENT,
        _RECRUITING,
        (
            rf"{_UNIT}[\s-]*(?:of )?(?:recruitment|enrol\w+|accrual|inclusion|intake)\b",
            rf"{_UNIT},?\s*(?:all|every|each|consecutive)\b[^.;\d]{{0,60}}\b(?:were|was)\s+{_RECRUITS}",
        ),
    ),
)

_is_followed = late(
    r"\b(?:follow|observ|recall|review|re-?examin|last (?:visit|seen)|diar|journal|monitor|recorded|noted|scored)",
    re.IGNORECASE,
).search
_is_followed_behind = compiled(rf"{_UNIT}[\s-]*(?:of )?(?:follow|observ|recall|review)", re.IGNORECASE).match
_is_since = compiled(rf"{_UNIT}\s+(?:after|following|since|from)\s+(?!birth)[a-z]", re.IGNORECASE).match
""" "Vitality by age, 5 years after treatment"."""
_CUT = compiled(r"[.;|](?=\s|$)|\n(?=\s*\[)")


# The lengths of a passage are asked one after the other, and by every claim that quotes it.
@lru_cache(maxsize=64)
def _sought_in(text: str) -> tuple[list[_Sought], list[_Sought]]:
    """Those of which a text has a stem, before a length and behind it."""
    small = text.lower()
    before = [sought for sought in _SAID_BEFORE if holds_any(small, sought.stems)]
    return before, [sought for sought in _SAID_BEHIND if holds_any(small, sought.stems)]


def _is_meant(sought: _Sought, said: str, text: str, end: int) -> bool:
    """Whether words before a length are said of it. end: of the length."""
    if sought.what == AGE and "," in said and _is_since(text, end):
        return False
    if sought.what == LOST:
        return True
    return _is_followed(said) is None


def what_else(text: str, tokens: Sequence[Token], token: Token) -> str:
    """What a length is, where its words say that it is no time of a follow-up; else "".

    Of two that belong together, "aged 12 to 60 years", the words before the first and behind the last are both's.
    """
    may_before, may_behind = _sought_in(text)
    if not (may_before or may_behind):
        return ""
    first = last = token
    if token.pair >= 0:
        first, last = sorted((token, tokens[token.pair]), key=lambda each: each.start)
    low = max(first.start - _BACK, 0)
    before = text[low : first.start]
    before = before[max((match.end() for match in _CUT.finditer(before)), default=0) :]
    small, behind = before.lower(), text[last.end : last.end + _AHEAD].lower()
    before_it = [sought for sought in may_before if holds_any(small, sought.stems)]
    behind_it = [sought for sought in may_behind if holds_any(behind, sought.stems)]
    if not (before_it or behind_it) or _is_followed_behind(text, last.end):
        return ""
    for sought in before_it:
        found = _pattern(sought).search(before)
        if found is not None and _is_meant(sought, found[0], text, last.end):
            return sought.what
    return next((sought.what for sought in behind_it if _pattern(sought).match(text, last.end)), "")
