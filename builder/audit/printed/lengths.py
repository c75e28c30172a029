"""Lengths of time that say how long nobody was followed: ages, intervals between visits, courses of medicine."""

from __future__ import annotations

import re
from collections.abc import Sequence

from ...numerals import Token

_BACK = 90
"""Characters before a length in which its words stand."""

AGE = "an age"
INTERVAL = "the time between two visits or renewals"
RECRUITMENT = "how long people were recruited"
LASTING = "how long something was done, taken or left"
DELAY = "the time until the treatment"
BEFORE = "a time before the treatment"
PRACTICE = "how long somebody has practised"
EVENT = "the time until an event"

_RECRUITS = r"(?:recruit|enrol|accru|admit|collect|gather|entered|includ|inclusion|intake|accept)\w*"
_RENEWS = r"(?:renew|chang|replac|replen|repeat|refill|refresh)\w*"
_TREATS = (
    r"(?:treated|treatment|operated|performed|started|begun|initiated|restored|placed|placement|sealed|repaired|filled|"
    r"closed|completed|referred|presented|admitted|cemented|seated)"
)
_TAKEN = (
    r"(?:antibiotics?|analgesics?|medications?|medicines?|amoxicillin|penicillin|clindamycin|ibuprofen|paracetamol|"
    r"tablets?|capsules?|prescri\w+|drugs?|steroids?|doses?|splint\w*|course|left|kept|stayed|remained|"
    r"worn|soaked|stored|rinsed|irrigated|in place)"
)
_PEOPLE = r"(?:patients|people|persons|participants|subjects|adults|children|women|men|those)"
_ABOUT = r"[\s~(]*(?:about|approximately|around|at least|at most|up to|the first|an?|the)?[\s~]*$"


def _any(*patterns: str) -> re.Pattern[str]:
    return re.compile("|".join(f"(?:{pattern})" for pattern in patterns), re.IGNORECASE)


_SAID_BEFORE = (
    (
        AGE,
        _any(
            r"\bage[ds]?[\s~:=(]*$",
            r"\bage[ds]?\b[^\d;]{0,50}?(?:\b(?:of|was|were|is|between|from|over|under|above|below|than|about|"
            r"median|mean|range|ranged|to)\b[\s~]*|[(,:=][\s~]*)$",
            r"\b(?:older|younger)(?: than)?[\s~]*$",
            rf"\b{_PEOPLE}\s+(?:who were\s+)?(?:over|under|above|below)[\s~]*$",
        ),
    ),
    (
        INTERVAL,
        _any(
            rf"\b{_RENEWS}\b[^\d,;]{{0,30}}\b(?:after|at)[\s~]*$",
            r"\b(?:every|each)(?:[\s~]+(?:other|few|second))?[\s~]*$",
            r"\bintervals?\s+(?:of|was|were|being|lasted)\s+(?:\w+\s+)?$",
            r"\bbetween\s+(?:the\s+)?(?:two\s+)?(?:visits|appointments|sessions|treatments|stages|renewals|dressings)\b[^\d]{0,30}$",
        ),
    ),
    (
        RECRUITMENT,
        _any(rf"\b{_RECRUITS}\b[^\d,;]{{0,40}}\b(?:over|during|within|for|in|lasted|took|ran)\b[^\d,;]{{0,24}}$"),
    ),
    (
        LASTING,
        _any(
            rf"\b{_TAKEN}\b[^\d,;]{{0,30}}\b(?:for|of|lasting)\b{_ABOUT}",
            r"\bwash-?out\b[^\d]{0,30}$",
            r"\b(?:set|sets|cured|hardened|hardens|setting)\b[^\d,;]{0,20}\b(?:within|in|after|for)\b" + _ABOUT,
            r"\b(?:setting|working|operating|operation|chair|mixing|treatment) times?\b[^\d,;]{0,30}$",
        ),
    ),
    (DELAY, _any(rf"\b{_TREATS}[\s~]+(?:within|after|inside)\b{_ABOUT}")),
    (
        BEFORE,
        _any(
            r"\b(?:duration|history) of (?:the )?(?:symptoms?|complaints?|pain|swelling|disease)\b[^\d,;]{0,30}$",
            r"\b(?:symptoms|pain|swelling|complaints?|painful)\s+(?:(?:had|have|been|was|were|present)\s+)*(?:for|since)\b"
            + _ABOUT,
        ),
    ),
    (
        PRACTICE,
        _any(
            r"\b(?:experience|practi[sc]e[ds]?|practising|qualified|graduated|trained)\b[^\d,;]{0,16}\b(?:for|of)\b"
            + _ABOUT
        ),
    ),
    (
        EVENT,
        _any(
            r"\btimes? (?:to|until|till)\b(?![^\d]{0,40}\b(?:recall|follow|last|observ|review))[^\d,;]{0,40}$",
            r"\b(?:healing|closure|repair|treatment|operation|it|this|they)\s+(?:took|lasted|required)\b[^\d,;]{0,20}$",
            r"\b(?:failures?|fractures?|events?|losses|flare-?ups?|complications?)\s+(?:had\s+)?"
            r"(?:occurred|happened|appeared|arose)\b[^\d,;]{0,10}\b(?:mean|median|average)\b[^\d,;]{0,10}$",
        ),
    ),
)

_UNIT = r"[\s~-]*(?:minutes?|min|hours?|hrs?|days?|weeks?|months?|years?|yrs?)\b['’]?"
_SAID_BEHIND = (
    (AGE, _any(rf"{_UNIT}[\s-]*(?:of age|old|olds)\b")),
    (
        INTERVAL,
        _any(rf"{_UNIT}[\s-]*(?:intervals?|apart|between (?:the )?(?:two )?(?:visits|appointments|sessions))\b"),
    ),
    (BEFORE, _any(rf"{_UNIT}\s*(?:before|prior to|preceding|previously|ago|history)\b")),
    (PRACTICE, _any(rf"{_UNIT}\s*(?:of|in|as)?\s*(?:\w+\s+)?(?:experience|practi[sc]e|training)\b")),
    (LASTING, _any(rf"{_UNIT}[\s-]*(?:wash-?out|course|of (?:antibiotics?|medication))\b")),
    (
        RECRUITMENT,
        _any(
            rf"{_UNIT}[\s-]*(?:of )?(?:recruitment|enrol\w+|accrual|inclusion|intake)\b",
            rf"{_UNIT},?\s*(?:all|every|each|consecutive)\b[^.;\d]{{0,60}}\b(?:were|was)\s+{_RECRUITS}",
        ),
    ),
)

_may = re.compile(
    r"\bage|older|younger|every|each|interval|between|recruit|enrol|accru|admit|collect|gather|enter|inclu|intake|accept|"
    r"renew|chang|replac|replen|repeat|refill|refresh|treat|operat|perform|start|begun|initiat|restor|place|seal|repair|"
    r"fill|close|complet|refer|present|cement|seat|antibiotic|analges|medic|cillin|clinda|ibu|para|tablet|capsule|"
    r"prescri|drug|steroid|dose|splint|course|left|kept|stay|remain|worn|soak|store|rinse|irrig|patients|people|person|"
    r"partic|subject|adult|child|women|men\b|those|wash|set|cure|hard|work|chair|mix|time|duration|history|symptom|pain|"
    r"swell|complain|experi|practi|qualif|graduat|train|took|last|requir|occur|happen|appear|arose|old|apart|before|prior|"
    r"preced|previous|ago\b|all\b",
    re.IGNORECASE,
).search
_is_followed = re.compile(r"\b(?:follow|observ|recall|review|re-?examin|last (?:visit|seen))", re.IGNORECASE).search
_is_followed_behind = re.compile(rf"{_UNIT}[\s-]*(?:of )?(?:follow|observ|recall|review)", re.IGNORECASE).match
_CUT = re.compile(r"[.;|](?=\s|$)|\n(?=\s*\[)")


def what_else(text: str, tokens: Sequence[Token], token: Token) -> str:
    """What a length is, where its words say that it is no time of a follow-up; else "".

    Of two that belong together, "aged 12 to 60 years", the words before the first and behind the last are both's.
    """
    first = last = token
    if token.pair >= 0:
        first, last = sorted((token, tokens[token.pair]), key=lambda each: each.start)
    low = max(first.start - _BACK, 0)
    before = text[low : first.start]
    before = before[max((match.end() for match in _CUT.finditer(before)), default=0) :]
    if _may(before + text[last.end : last.end + _BACK]) is None or _is_followed_behind(text, last.end):
        return ""
    for what, sought in _SAID_BEFORE:
        found = sought.search(before)
        if found is not None and _is_followed(found[0]) is None:
            return what
    return next((what for what, sought in _SAID_BEHIND if sought.match(text, last.end)), "")
