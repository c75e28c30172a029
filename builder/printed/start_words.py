"""The words in which papers place a number before the treatment, or at it."""

from __future__ import annotations

import re
from functools import lru_cache

from ..numerals.late import in_small, late

_TREATMENT = (
    r"(?:(?:the|any|their|its|this) )?(?:(?!(?:and|or|at|in|of|to|after|before|was|were|had)\b)[a-z-]+ ){0,2}"
    r"(?:treatments?|surgery|therapy|operation|intervention|repair|procedure)\b"
)
_OPERATION = r"(?:(?:the|any|their|its|this) )?(?:[a-z-]+ )?[a-z-]+(?:[eo]ctomy|otomy|ostomy|plasty|rrhaphy|desis)\b"
""" "Before vitrectomy": what is done to a patient, in every trade."""
_NO_ACTS = (
    r"(?:heal|fail|los|dy|leav|be|hav|clos|go|com|return|becom|reach|adjust|match|weight|pool|round|exclud|dropp|imput|"
    r"count|scor|read|judg|examin|grad|see|stopp|break|fractur|fall|follow|dur|even|morn|spr|th|noth|someth|anyth|"
    r"everyth|bleed|swell|r|str|attend|miss|mean|prob|bit|chew|rat|remain|exist|walk|cough|sleep|eat|report|publish|analys|analyz|draw)ing\b"
)
"""What is no treatment: "before healing", "before rounding"."""
_ACT = rf"(?:(?:the|any|their|its) )?(?:(?!(?:and|or|at|in|of|to)\b)[a-z-]+ )?(?!{_NO_ACTS})[a-z-]+ing\b"
# These may tell of what was done as well: asked only where they lead to a number or stand straight behind it.
PLACED = late(
    rf"\b(?:(?:before|prior to|ahead of) {_ACT}|"
    rf"(?P<day>(?:on|at) the (?:very |same )?(?:day|moment|time) of (?:{_TREATMENT}|{_ACT})|"
    rf"(?:immediately|directly|straight|right) (?:after|following) (?:{_TREATMENT}|{_ACT})))",
    re.IGNORECASE,
    holds=(
        "before ", "prior to", "ahead of", " day of", " moment of", " time of", "immediately ", "directly ",
        "straight after", "straight following", "right after", "right following",
    ),
    also=("ing", "treatment", "surgery", "therapy", "operation", "intervention", "procedure", "repair"),
)  # fmt: skip
PLACED_CLOSES = late(
    r"(?: (?:the|their) [a-z]+)?(?: itself)?\s*(?:$|[,;:.)|]|(?:and|but|while|whereas)\b|"
    r"(?:in|of|for|among) (?:all )?(?:the |these )?\d)",
    re.IGNORECASE,
)
BEFORE_ALONE = late(
    r"(?<!ever )(?<!than )(?<!as )\bbefore\b(?=[\s:=,(]*(?:n\s*=\s*)?(?:\d|$|[;.)]|and\b))",
    re.IGNORECASE,
    holds=("before",),
)
BEFORE_CELL = late(r"(?:before(?: [a-z-]+){0,2}|pre-?op\.?)(?:,? ?\([^()]*\)|, [^|,]*)?", re.IGNORECASE)
AFTER = late(r"\b(?:after(?:wards?)?|later|post-?\w*)\b", re.IGNORECASE)
OF_WHOM = late(
    r"\b(?:with|without|where|if|whenever|who|which|that|whose|those|having|taken|given|used|injected|"
    r"administered|prescribed|started|hours?|minutes?|after)\b[^.;:,]*$",
    re.IGNORECASE,
)
ACT = late(rf"\W*(?!{_NO_ACTS})(?!ach|burn|throbb|present|dur)[a-z-]+ing\b", re.IGNORECASE, holds=("ing",))
""" "Rinsing before treatment left 8 in pain": what was done then, and no number of then."""
IN_WHOM = late(r"\b(?:(?:in|of|for|with) (?:which|whom)|whose)\b")
DONE = late(r"\b(?!(?:tested|noted|observed|examined|recorded|reported)\b)(?:[a-z]+ed|done|made|given|put|set) $")
"""Behind these, words of the start say who is meant: "those with pain before treatment"."""
WENT_ON = late(
    r"\b(?:was|were|had|is|are|did)\b.*\b(?:and|then)\b|\b(?:and|then) (?:[a-z]+ )?(?:after|later)\b", re.DOTALL
)
START = in_small(
    r"\b(?:at (?:the )?(?:time of (?:the )?)?(?:baseline|presentation|enrol?lment|inclusion|entry|recruitment|"
    r"randomi[sz]ation|"
    r"outset|referral|"
    r"admission|start\b(?! of follow)|beginning|screening|intake|time zero|first attendance|"
    r"diagnosis(?! of)|first (?:examination|visit|consultation|appointment)(?! (?:after|following|post)))|"
    r"t0\b|(?:visit|day|week|month) 0\b(?!\s*(?:to|through|-|–|and)\b)|(?:index|initial|inclusion) visit|"
    r"(?:presenting|chief|main) complaints?|history of|time zero|"
    r"(?:indications?|reasons?) for (?:the )?(?:treatment|operation|surgery|referral|attendance|repair|intervention)|"
    r"on (?:the day of )?(?:admission|entry|arrival|"
    r"enrol?lment|inclusion|presentation|referral|first examination)|baseline|"
    rf"(?:before|prior to|ahead of) (?:{_TREATMENT}|{_OPERATION})|beforehand|"
    r"(?:when|as) (?:first|initially) (?:seen|examined|tested|visited|met)|"
    r"when (?:they|(?:the )?\w+) (?:first )?(?:came in|came first|presented|arrived)|"
    r"(?:came|presented|arrived)(?: in| to us)? with (?:an? )?(?:mean|median|average|typical)\b|"
    r"when (?:they|(?:the )?\w+) (?:was|were|had been) (?:enrolled|included|recruited|referred|admitted|randomi[sz]ed)|"
    r"(?:when|as|before) (?:the )?(?:study|trial|treatment|recruitment|investigation) (?:opened|began|started|set out)|"
    r"before (?:anything|any treatment|treatment|a thing) (?:was|had been) (?:done|begun|started|given)|to begin with|"
    r"before (?:the|their) (?:first|initial) (?:visit|appointment|session)|on referring|"
    r"(?:that|which) (?:had )?led to (?:the )?(?:treatment|surgery|referral|operation|repair)|"
    r"exist(?:ed|ing) already|already existed|pre-?exist(?:ing|ed)|"
    r"pre-?(?:injection|surgical(?:ly)?|procedural(?:ly)?|intervention(?:al)?|repair)|"
    r"(?:characteristics|demographics) of (?:the|our|all) "
    r"(?:sample|patients|participants|cohort|groups?|subjects|population)(?=\s*[:(])|"
    r"when (?:they|(?:the )?\w+) (?:was|were) first (?:seen|examined|visited|met)|"
    rf"preceding {_TREATMENT}|(?:when|as|on|upon) (?:they |(?:the )?\w+ )?enter(?:ed|ing) (?:the )?(?:study|trial)|"
    r"(?:indications?|reasons?) for (?:seeing|visiting|attending|consulting|coming)|"
    r"before (?:they|(?:the )?\w+) (?:came|attended|presented|were seen)|"
    r"upon (?:admission|entry|arrival|enrol?lment|inclusion|presentation|referral)|"
    r"pre-?operative(?:ly)?|pre-?treatment|initially|(?:initial|preliminary) (?:examination|status|findings?|"
    r"sampl\w+|cultures?|swabs?|readings?|scores?|records?|tests?|values?|"
    r"assessments?)|(?:first|baseline) (?:sampl\w+|swabs?|cultures?)|taken (?:on|at|before) (?:opening|access|entry|"
    r"entering))\b",
    holds=(
        "baseline", "presentation", "enrol", "inclusion", "entry", "recruitment", "randomi", "outset", "referral",
        "admission", "start", "beginning", "first", "before", "prior", "initial", "preop", "pre-op", "pretreat",
        "taken ", "sampl", "swab", "culture", "opened", "began", "started", "set out", "prerep", "pre-treat",
        "preliminary", "screening", "intake", "time zero",
        "attendance", "diagnosis", "t0", " 0", "index ", "complaint",
        "history of", "indication", "reason", "arrival", "ahead", "came", "presented", "arrived", "when ", "begin with",
        "referring", "attended", "sought", "referred", "sent ", "led to", "exist", "pre-", "presurg", "preinj",
        "preproc",
        "preinter", "premed", "characteristics", "demographics", "preceding", "enter",
    ),
)  # fmt: skip


@lru_cache(maxsize=16)
def before_treatments(treatments: frozenset[str]) -> re.Pattern[str] | None:
    """The words that place a number before one of these; None where a trade names none."""
    if not treatments:
        return None
    named = "|".join(sorted(map(re.escape, treatments), key=lambda each: (-len(each), each)))
    return late(
        rf"\b(?:before|prior to|ahead of) (?:(?:the|any|their|its|this) )?(?:[a-z-]+ )?(?:{named})\b",
        re.IGNORECASE,
        holds=("before ", "prior to ", "ahead of "),
    )


LATER = late(
    r"\b(?:after (?:the )?(?:treatment|surgery|therapy|operation|intervention|repair|procedure)|"
    r"post-?operative(?:ly)?|"
    r"at (?:the )?(?:final|last|end|recall|review|control|discharge)|when (?:the )?\w+ ended|follow-up|"
    r"later(?! \w+ed (?:with|by|using|to)\b)|"
    r"still|afterwards?|thereafter|subsequently|eventually|finally|T[1-9]\d?|"
    r"(?:f[ae]ll|dropp?|declin|decreas|reduc|lower|s[aiu]nk|shr[aiu]nk|ris|rose|increas|improv|subsid|diminish|climb|"
    r"abat|com|came|go|went)(?:s|e|es|en|ed|d|ing)?(?: down| up)? to)\b",
    re.IGNORECASE,
)
COMPARED_WITH = late(r"\b(?:with|from|than|to|versus|unlike)\s+(?:the\s+|at\s+)?$")
WHEN = late(r"\b(?:after|at|by|within)\s+(?:the\s+)?(?:[a-z]+\s+)?$")
CAME = late(
    r"\b(?:came|attended|presented|sought (?:care|treatment|help|advice)|(?:were|was|had been) (?:referred|sent))"
    r"(?: to us| here| to the \w+)? (?:because of|on account of|for|with|in|complaining of)\b",
    re.IGNORECASE,
    holds=("came", "attended", "presented", "sought", "referred", "sent"),
)
""" "26 of 32 came because of pain": before the treatment, unless `LATER` or a visit is told of."""
CAME_LATER = late(
    r"\b(?:visits?|recalls?|unscheduled|emergency|again|back|during|after|between|flare\w*|weeks?|days?|months?|years?|"
    r"control|review|return\w*)\b",
    re.IGNORECASE,
)
heads_the_start = late(
    r"\s*(?:Table\s+\w+[.:]?\s+)?(?:(?:Patients?|Demographic|Clinical)\s+)?(?:characteristics|patients|participants|demographics|findings|"
    r"signs|symptoms|complaints|status|state|situation|description|sample)\b(?:(?!\b(?:by|according|after|final|end|outcomes?|"
    r"results?|was|were|had)\b)[^.:\n]){0,60}?\b(?:at (?:the )?(?:start|baseline|beginning|outset|enrol?lment|"
    r"inclusion|entry|"
    r"randomi[sz]ation|admission|presentation)|before (?:the )?(?:treatment|surgery|operation)|at T0)"
    r"(?:(?!\b(?:and|by|to|after)\b)[^.:\n|]){0,40}[.:\n|]",
    re.IGNORECASE,
    holds=(
        "start",
        "baseline",
        "beginning",
        "outset",
        "enrol",
        "inclusion",
        "entry",
        "randomi",
        "admission",
        "presentation",
        "before ",
        "t0",
    ),
).match
"""A title over whatever a passage tells: "Table 1 Patients at the start."."""
