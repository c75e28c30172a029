"""The words in which papers say whose a number is: others', assumed, imputed, of the start, of which analysis."""

from __future__ import annotations

import re

from ..compiled_patterns import compiled
from ..numerals.late import holds_any, late

TRIGGERS = frozenset({
    "fell", "rose", "dropped", "decreased", "increased", "declined", "improved", "changed", "reduced", "shrank", "grew",
    "went", "diminished", "historical", "historic", "archival",
    "al", "colleagues", "coworkers", "co-workers", "associates", "previous", "previously", "earlier",
    "prior", "other",
    "older", "recent", "another", "published", "literature", "according", "authors", "ref", "reference", "review",
    "reported", "found", "saw", "observed", "described", "noted", "showed", "shown", "obtained", "elsewhere",
    "assuming", "assumed", "assumption", "assume", "expected", "expecting", "expects", "hypothesised", "hypothesized",
    "hypothesis", "sample", "power", "powered", "detect", "anticipated", "anticipating", "presumed", "presuming",
    "planned", "threshold", "if", "worst", "worst-case", "best-case", "best", "sensitivity", "imputed", "imputation",
    "imputing", "scenario", "counting", "counted", "treating", "carried", "baseline", "before", "presentation",
    "preoperative", "pre-operative", "preoperatively", "pre-operatively", "pretreatment", "pre-treatment", "initially",
    "start", "admission", "enrolment", "enrollment", "entry", "first", "inclusion", "randomisation", "randomization",
    "outset", "initial", "referral", "beforehand", "protocol", "per-protocol", "pp", "completers", "completer",
    "completed", "as-treated", "intention", "intention-to-treat", "intent-to-treat", "intent", "itt", "randomised",
    "randomized", "series", "study", "cohort", "trial", "report", "reports", "fas", "full", "evaluable",
    "complete-case",
    "locf", "received", "treated", "day", "immediately", "directly", "straight", "pre-op", "ahead", "suppose",
    "supposes", "supposition", "supposing", "kept", "stuck", "keeping", "sticking",
    "imagine", "imagining", "would", "illustration", "example", "calculation", "calculations",
    "simulation", "simulations", "simulated", "hypothetical", "hypothetically", "postulated", "postulating",
    "projected", "predecessors", "others", "us", "illustrate", "mitt", "here", "ours", "our", "we", "reviews",
    "meta-analysis", "meta-analyses", "registry", "register", "hands", "team", "studies", "trials", "papers", "paper",
    "claimed", "target", "model", "models", "foresaw", "screening", "diagnosis", "zero", "history",
    "complaint", "presenting", "indication", "indications", "reason", "reasons", "arrival", "superiority", "reckoned",
    "non-inferiority", "elicited", "priori", "guess", "intake", "attendance", "came", "presented", "arrived", "adhered",
    "adherence", "compliant", "violators", "violations", "allocated", "allotted", "alloted", "assigned", "regardless",
    "irrespective", "crossovers", "cross-overs", "excluding", "excluded", "leaving", "left", "sample-size", "let's",
    "postulate", "thought", "nomogram", "calculator", "needed", "required", "sought", "necessary", "suffices",
    "suffice", "sufficient", "allowing", "regarded", "considered", "classified", "regarding", "considering", "taken",
    "taking", "missing", "dropout", "dropouts", "drop-outs", "recruitment", "beginning", "preliminary", "on-treatment",
    "communication", "poster", "thesis", "dissertation", "brochure", "leaflet", "lecture",
    "clinicians", "practitioners", "surgeons", "parent", "mother", "preexisted", "pre-existed", "presurgically",
    "preprocedural", "preprocedurally", "preintervention", "preinterventional", "pre-intervention",
    "pre-interventional", "premedication", "pre-medication", "prerepair", "pre-procedurally",
    "preceding", "attended", "referred", "sent", "begin", "led",
    "existed", "existing", "pre-existing", "preexisting",
    "characteristics", "demographics", "description", "features", "opened", "began", "started", "enrolled", "included",
    "recruited", "admitted", "pre-injection", "preinjection", "pre-surgical", "pre-surgically", "presurgical",
    "pre-procedural", "pre-repair", "referring", "done",
    "index", "0", "available", "adhering", "violator", "violation", "violate", "violated", "as-randomised",
    "as-randomized",
})  # fmt: skip
"""A passage without any of these words says nothing that is asked about here."""

_NAME = r"[A-Z][a-z]+(?:[-'’][A-Z]?[a-z]+)*"
_WORK = (
    r"(?:stud(?:y|ies)|series|reports?|trials?|reviews?|meta-analys[ei]s|cohorts?|authors?|investigators?|surveys?|"
    r"investigations?|publications?|papers?|articles?|work|groups? elsewhere|literature|centres? elsewhere)"
)
_OLDER = r"(?:previous|earlier|prior|other|older|recent|another|published|former|preceding)"
SAYS = (
    r"(?:reported|report|reports|describe|find|found|saw|observed|described|noted|published|showed|shown|"
    r"shows?|obtained|recorded|gave|"
    r"gives?|cites?|quotes?|estimated|documented|pooled|puts?|achieved|cited|quoted|suggests?|suggested|state|stated)"
)
_CITED = rf"{_NAME}(?:,? (?:and|&) {_NAME}|,? et al\.?|,? and (?:colleagues|co-?workers|associates))?"

_ADVERBS = r"(?: (?:also|even|once|later|first|already|all|who|have|has|had|[a-z]+ly))*"
_NO_OTHERS = r"(?: (?!(?:was|were|is|are|be|been|being|and|but|then|we|our|us)\b)\w+)"
_PUT_IN = r",(?! (?:[^,;.()]* )?(?:was|were|is|are|had|we|our)\b) [^,;.()]{2,60}"
"""Words put in: "Okonski and co-workers, in 1998, found"."""
_STUDY = r"(?:trial|study|series|cohort)\b"
_BEFORE_OURS = r"(?:previous|earlier|prior|published|former)"
_ANALYSIS = r"(?:analys[ei]s|registr(?:y|ies)|registers?)\b(?! of (?:our|these|this|the same|the present)\b)"

_OLDER_STEMS = (
    "previous ", "earlier ", "prior ", "other ", "older ", "recent ", "another ", "published ", "former ", "preceding ",
)  # fmt: skip
_WORK_STEMS = (
    "stud", "series", "report", "trial", "review", "meta-anal", "cohort", "author", "investigat", "survey", "publicat",
    "paper", "article", "work", "elsewhere", "literature", "analys", "regist", "centre", "center", "team", "clinic",
    "hospital", "institution",
)  # fmt: skip
_SAYS_STEMS = (
    "report", "describ", "find", "found", "saw", "observed", "noted", "publish", "show", "obtained", "recorded", "gave",
    "give", "cite", "quote", "estimated", "document", "pooled", "put", "achieved", "suggest", "state",
)  # fmt: skip
_UNNAMED = (
    "personal communication", "the parent", "the mother", "previously", "already", "formerly", "hitherto",
    "predecessor", "forerunner", "former ", "others ", "it has been",
    "elsewhere", "according to", "literature", "published ", "meta-analysis", "systematic review", "by other",
)  # fmt: skip
_UNNAMED_BEHIND = ("literature", "been ", "ref", "large ", "multicentre ", "national ", "nationwide ", "population")
_has_name = compiled("[A-Z][a-z]").search


def may_lead(sentence: str) -> bool:
    """Whether `LED`, which takes long to compile and to search with, may find anything in a sentence."""
    small = sentence.lower()
    if holds_any(small, _UNNAMED) or (holds_any(small, _OLDER_STEMS) and holds_any(small, _WORK_STEMS)):
        return True
    return _has_name(sentence) is not None and (holds_any(small, _SAYS_STEMS) or holds_any(small, _WORK_STEMS))


def may_tell(sentence: str) -> bool:
    """The same of `TOLD`."""
    small = sentence.lower()
    if _has_name(sentence) is not None or holds_any(small, _UNNAMED_BEHIND):
        return True
    return holds_any(small, _OLDER_STEMS) and holds_any(small, _WORK_STEMS)


CITED = late(
    r"\b(?:[A-Z][a-z]+,? (?:et al\b|and (?:colleagues|co-?workers|associates))|(?:has|have) been (?:given|reported|put|"
    r"estimated|shown|found|described|published|quoted)|(?:is|are) (?:reported|said|known|given|quoted)|literature)\b|"
    r"[(\[](?:[A-Z][a-z]+[^()\[\]]*)?(?:19|20)\d\d[a-z]?[)\]]|\[\d+(?:[,–-] ?\d+)*\]"
)
""" "Healing has been given as 92% by Torvald et al."."""

# Before their numbers: "Smith et al. reported 18 of 21", "according to the literature", "in an earlier series".
LED = late(
    rf"(?P<name>{_NAME})(?:, {_NAME})?(?:,? et al\.?|,? (?:and|&) {_NAME}|,? and (?:colleagues|co-?workers|associates))"
    rf"(?:,? ?[(\[][^()\[\]]*[)\]])?(?:{_PUT_IN},{_ADVERBS}|,?{_NO_OTHERS}{{0,3}}) (?:{SAYS})\b|"
    rf"\b(?P<dated>{_NAME})(?: ?\((?:19|20)\d\d[a-z]?\)|(?<!s) ?\[\d[\d, –-]*\]|(?<!s), in (?:19|20)\d\d,){_ADVERBS} "
    rf"{SAYS}\b|\b[Ii]n (?:19|20)\d\d,? (?P<later>{_NAME}) {SAYS}\b|"
    rf"\b(?:whereas|while|but|that|although) (?P<inside>{_NAME})(?<!s){_ADVERBS} "
    r"(?:reported|published|described|documented)\b(?! by)|"
    rf"(?:^|[;,] |[Ww]hereas |[Ww]hile )(?:[Ii]n the (?P<place>{_NAME}) {_STUDY}|"
    rf"[Tt]he (?P<place2>{_NAME}) {_STUDY}{_ADVERBS} (?:{SAYS}|had|healed)\b)|"
    rf"\b(?:of|in|from) the (?P<place3>{_NAME}) {_STUDY},? (?:where|in which)\b|"
    rf"\b(?:[Ww]hereas|[Ww]hile|but) the (?P<place4>{_NAME}) (?:national )?(?:registry|register|database){_ADVERBS} "
    rf"(?:{SAYS}|had|given)\b|"
    rf"\b[Ii]n (?:an?|the|one) {_BEFORE_OURS} (?:\w+ ){{0,2}}{_ANALYSIS}|"
    r"\b[Pp]ersonal communication\b|\b[Ii]n the (?:parent|mother) (?:trial|study)\b|"
    rf"\b[Aa]n? {_BEFORE_OURS} (?:\w+ ){{0,2}}{_ANALYSIS}(?: \w+){{0,6}} {SAYS}\b|"
    rf"\b[Aa]n? (?:\w+ ){{0,2}}(?:meta-analysis|systematic review)(?: \w+){{0,6}} {SAYS}\b|"
    rf"\b(?:of|from|in|across) (?:the |some |several |most |two |three )?{_BEFORE_OURS} (?:\w+ )?"
    r"(?:studies|trials|reports|cohorts)\b"
    r"(?=(?:\([^()]*\)|[^.;,\d()])*\b(?:was|is|came to|lay at|lies at) (?:[A-Z]{2} )?\d)|"
    rf"\b(?:[Tt]wo |[Tt]hree |[Ss]everal |[Ss]ome )?[Oo]ther (?:centres|centers|teams|clinics|hospitals|institutions)"
    rf"{_ADVERBS} {SAYS}\b|"
    r"\b(?i:previously|already|formerly|hitherto) (?:published|reported|described|documented|quoted)"
    r"(?: (?!(?:as|by|for|in|on|and|were|cases)\b)[a-z]+){0,4}? "
    r"(?:of|amount(?:s|ed)? to|ranged? (?:from|between)|"
    r"ranges (?:from|between)|l(?:ies|ay) (?:at|between)|reach(?:es|ed)?|st(?:ands|ood) at|averaged?|averages|is|are|"
    r"was|came to|r[ua]ns? (?:at|to))"
    r"(?: (?:about|around|some|only|between|near|nearly|at|up to|over))?(?= [\d~<>=≥≤(])|"
    r"\b(?i:our|their|his|her|the) (?:predecessors?|forerunners?|former (?:colleagues|staff|team))\b(?! had used)|"
    rf"\b[Oo]thers (?:have|had) (?:\w+ )?{SAYS}\b|"
    rf"\b(?:has|have|had) been (?:{SAYS}) by (?:other|(?:previous|earlier) (?:author|stud|report))\w*|"
    r"\b[Ii]t has been (?:reported|claimed|stated|published|documented) that\b|"
    rf"\b(?i:investigators|authors|workers|researchers|teams) elsewhere{_ADVERBS} {SAYS}\b|"
    r"\b(?:an? |the |some |several |many |most |two |"
    rf"three )?(?i:{_OLDER}) (?:\w+ ){{0,2}}{_WORK}(?: \w+){{0,6}} {SAYS}\b|"
    rf"\b(?i:according to) (?!(?:the )?(?:criteri|protocol|method|classif|manufact|intention|treatment))"
    rf"(?:(?:the |an? )?(?:\w+ ){{0,2}}{_WORK}|{_CITED})|"
    rf"\b(?i:the literature|published (?:rates|figures|data|results|values))\b|"
    rf"\b(?i:in) (?:an?|the|one|his|her|their) (?i:{_OLDER}) (?:\w+ ){{0,2}}{_WORK}\b|"
    rf"\b(?i:in the) (?:series|cohort|study|trial|report|review) (?:of|by) (?P<series>{_CITED})|"
    rf"\b(?P<alone>{_NAME})(?: \((?:19|20)\d\d\))? (?:reported|found|saw|observed|described|noted|"
    r"published|obtained) "
)
# Behind them: "66 of 90 found in the earlier series", "(Ferrand 2011)", "reported by Brandt and Osei".
TOLD = late(
    rf"\b(?:reported|found|seen|observed|published|described|given|noted|obtained|shown|quoted) (?:by|in|from) "
    rf"(?:(?:an?|the|one|some|several) )?(?:(?:{_OLDER}) (?:\w+ ){{0,2}}{_WORK}|"
    rf"(?P<name>{_NAME})\b(?! \d)(?!\s+group)"
    rf"|literature)|"
    rf"\b(?:of|in) (?:an?|the) (?:{_OLDER}) (?:\w+ ){{0,1}}{_WORK}(?: (?:by|of) {_CITED})?|"
    rf"(?<=[\d%)]) (?:of|in|from) an? (?:[A-Z][a-z]+|large|multicentre|national|nationwide|population-based) "
    rf"(?:\w+ ){{0,2}}(?:{_WORK}|registry|register)\b|"
    rf"\bin the (?:series|cohort|study|trial|report) (?:of|by) (?P<series>{_NAME})|"
    rf"\b(?:has|have) been (?:published|reported|quoted) (?:for|elsewhere|from|in|by)\b|"
    r"\b(?:has|have) been (?:published|reported|quoted|described|documented|found|shown|observed|seen)(?: [a-z]+)?"
    r"(?= ?(?:\[\d|\(\d{1,3}[,)–-]))|"
    rf"\((?P<cited>{_NAME})(?:,? (?:and|&) {_NAME}|,? et al\.?)?,? (?:19|20)\d\d[a-z]?\)|"
    rf"\((?P<etal>{_NAME}),? et al\.?[^()]*\)|"
    rf"\(?\b(?:[Rr]ef\.?|[Rr]eference) \d+\)?"
)
NOT_NAMES = frozenset({
    "January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November",
    "December", "Table", "Figure", "Version", "Patient", "Examination", "Film", "Analysis", "Nobody", "One", "Two",
    "Three", "Everybody", "Everyone", "None", "Histology", "Inspection", "Appendix", "Observer",
    "Examiner", "Neither",
    "Both", "Radiography", "Microscopy", "Surgery", "Success", "Healing", "Pain", "All", "Most", "Some", "Staff",
    "They", "He", "She", "It", "We", "Who", "Nine", "Ten", "Half", "Spring", "Summer", "Autumn", "Winter",
    "Operator", "Assistant", "Reader", "Tomography", "Study", "Trial", "Clinic", "And", "But", "The", "This",
    "Control", "Test", "Main", "First", "Second", "Third", "Pilot", "Current", "Present", "Whole", "Entire", "Total",
    "Overall", "Full", "Final", "Initial", "Treatment", "Experimental", "Intervention", "Placebo", "Randomised",
    "Randomized", "Clinical", "Prospective", "Retrospective", "Earlier", "Later", "Same", "Other",
})  # fmt: skip
CITED_YEAR = late(r"19\d\d[a-z]?\)|20\d\d[a-z]?\)|T0(?<=\bT0)\b|t0(?<=\bt0)\b")
"""What speaks of whose a number is without a word: "(2011)", "T0". Each begins with its first sign, which is looked for
ten times as fast as a boundary of words."""
ON_WHICH = late(r", (?:on|upon|from|with|by) which (?:the|our|we)\b")
APPOSED = late(r",\s+(?:which (?:was|is)\s+|itself\s+)?(?:an?|our|the|by)\s+$")
""" "12% as the share reinfected, an assumption of the panel"."""
CRITERIA = late(
    r"\b(?:criteri\w*|index|classification|method|technique|scale|score|guidelines?|definition|protocol|way|manner)\b"
    r"(?: (?:of|by|after|from|set|given|that|which|in which|as|first|described|proposed|published|introduced|used|"
    r"suggested))*\W*$|"
    r"\b(?:scored|judged|graded|assessed|measured|defined|classified|rated|read|done|performed|carried out)"
    r"(?: \w+){0,3} as\W*$"
)
"""What others laid down is no number of theirs."""
NAMED_ONLY = late(
    r"\b(?i:following|after|using|by|per|under|in|at|with|adapted from|modified from|"
    r"like) $"
)
SUBORDINATE = late(r"\b(?:that|which|as|whom|how|where|way) $", re.IGNORECASE)
RESUMES = late(r";|,\s+(?:and|was|were|is|are|had|has|occurred|could|did)\b")
"""The sentence goes on behind words put in: "healing, scored as Smith described in 1998, was seen in"."""
LAYS_DOWN = late(r"\b(?:describe|propose|define|recommend|suggest|introduce|use|state)\w*$")
OF_OURS = late(r"[\d\s%./()]*(?:of \d+ )?(?:[\d.%()]+ )?of (?:ours|our)\b")
LIKE = late(
    r",\s+(?:as|like|consistent|in (?:line|agreement|keeping|accord)|confirming|close|near|much as)\b|"
    r"\bas (?:in|was|were|also|found|seen|reported)\b"
)
OWN = late(
    r"\b(?:[Ww]e|[Hh]ere|[Oo]urs?|(?:[Tt]h(?:is|e) )?(?:present|current) (?:\w+ )?(?:study|series|trial|"
    r"investigation|cohort|work|"
    r"report|results?|data|review)|[Tt]his (?:study|series|trial|cohort|report|investigation)|"
    r"[Tt]hese (?:results|data))\b"
)
TURN = late(
    r"\b(?:compares?|compared|comparable|contra(?:st\w*|ry)|whereas|while|but|than|versus|unlike|agrees?|similar|differs?|"
    r"higher|lower|exceeds?|although|though|however)\b",
    re.IGNORECASE,
)

ASSUMED = late(
    r"\b(?:(?<!\bthan )(?<!\bas )assum(?:ing|ed|es?|ptions?)|hypothesi[sz]ed|anticipat(?:ed|ing)|presum(?:ed|ing)|"
    r"expecting|"
    r"(?<!\bthan )(?<!\bas )(?<!\blonger )(?<!\bmore )expect(?:ed|s)(?! to (?:return|attend))|"
    r"sample[- ]size (?:calculation|estimat\w+|was|of|required|needed|for)|(?:calculated|required) sample size|"
    r"power(?:ed)? (?:of|for|calculation|analysis|\d)|statistical power|(?:to|could|can|would) detect|able to detect|"
    r"(?<!\bto )(?:suppos(?:es?|ing)|supposition)\b|(?:let us|let's) (?:say|assume|imagine)|imagin(?:e|ing)\b|"
    r"postulat(?:ed|ing|es?)|projected|"
    r"hypothetical(?:ly)?|(?:worked|invented|notional) example|by way of illustration|"
    r"(?:sample(?:[- ]size)?|power|trial size|(?<!\w )the|our|this) (?:calculations?|estimation) "
    r"(?:was|were|is|are|had been) (?:based|founded|built) (?:up)?on(?! the \d)|"
    r"(?:calculations?|sample(?:[- ]size)?|power) (?:had )?(?:rest(?:s|ed)|relie[sd]|hinge[sd]) (?:up)?on|"
    r"calculation of the (?:sample|number|size)|reckoned with|counted (?:up)?on|"
    r"(?:thought|believed|reckoned|guessed|hoped) (?:beforehand|in advance|a priori)|elicited from|best guess|"
    r"prior (?:belief|distribution)|target (?:was|is|of|rate)(?! (?:met|reached|attained|missed|exceeded|achieved))|"
    r"(?:models?|protocol|simulations?|nomogram|calculator) (?:had )?(?:predict(?:s|ed)?|foresaw|foresees|foreseen|"
    r"projects?|projected|expects|provides for|provided for)|"
    r"(?:decision|cost|economic|Markov|simulation|planning)(?:[- ][a-z]+)? model (?:had )?(?:t[oa]kes?|took|uses?|used|"
    r"sets?|puts?|adopt(?:s|ed)|began with|start(?:s|ed) (?:from|with)|was (?:fed|given|run) (?:with|on)?)|"
    r"in an? (?:[\w-]+ )?(?:cost|decision|economic|Markov|simulation)(?:[- ][a-z]+)? model|"
    r"to (?:show|detect|demonstrate|prove|establish) (?:\w+ )?(?:superiority|non-?inferiority|difference|improvement|"
    r"increase|reduction|gain|rise)\b(?=[^.;]*\b(?:needed|required|sought|necessary|suffic\w+|would))|"
    r"simulations? (?:in which|where|assuming|with an? assumed|gave|predicted|yielded)|"
    r"simulated (?:trials?|data(?: ?sets?)?|cohorts?|populations?)|"
    r"a power\b|threshold (?:was|of|set)|(?:had|were|was) planned|planned (?:number|sample)|"
    r"(?:would|were|was) (?:be )?(?:needed|required) (?:per|in each|for|to)|"
    r"allowing for (?:[\w%-]+ ){0,3}(?:drop|loss|lost|attrition|withdraw)|hypothesis was)",
    re.IGNORECASE,
    holds=(
        "assum", "hypothe", "anticipat", "presum", "expect", "sample", "power", "detect", "suppos", "let us", "let's",
        "imagin", "postulat", "project", "example", "illustrat", "calculation", "estimation", "simulat", "threshold",
        "planned", "needed", "required", "allowing", "calculator", "reckoned", "counted", "beforehand", "in advance",
        "a priori",
        "elicited", "guess", "prior", "target", "model", "protocol", "nomogram", "sought", "necessary", "suffic",
        "would",
    ),
)  # fmt: skip
IMPUTED = late(
    r"\b(?:(?:had|were) (?:none|all|every\w*|no|nobody|each|the (?:lost|missing|others?|rest|drop-?outs?)|those)\b"
    r"[^.;,]{0,60}(?=,[^.;]*\bwould\b)|"
    r"if (?:all|every|each|those|the|none)\b[^.;]{0,60}?\b(?:lost|missing|seen|drop\w*|absent|"
    r"attend\w*|return\w*|"
    r"follow\w*)\b|(?:worst|best)[- ]case|sensitivity analys[ei]s|imput(?:ed|ation|ing)|"
    r"(?:counting|counted|treating|treated|taking|regarding|considering|classified|regarded|considered) "
    r"(?:\w+ ){0,4}?(?:lost|missing|drop-?outs?|absent|unseen|"
    r"not seen)(?: \w+){0,4} as (?:\w+ )?(?:fail\w*|success\w*|"
    r"not healed|healed|unhealed|lost)|(?:lost|missing|drop-?outs?)(?: \w+){0,4} (?:counted|treated|"
    r"regarded|considered|"
    r"classified|taken) as (?:\w+ )?(?:fail\w*|success\w*|not healed|healed|unhealed)|scenario|"
    r"assum(?:ing|ed|es?)(?: that)? (?:\w+ ){0,3}?(?:lost|missing|drop-?outs?))\b",
    re.IGNORECASE,
    holds=("would", "if ", "worst", "best", "sensitivity", "imput", "scenario", "assum", " as "),
)  # fmt: skip
PER_PROTOCOL = late(
    r"\b(?:per[- ]protocol|(?-i:m?PP)\b(?!\.| ?\d)|completers?\b|(?:who|that) (?:had )?completed|"
    r"complet(?:ed|ing) the (?:protocol|study|trial|treatment)|as[- ]treated|on[- ]treatment|evaluable|"
    r"complete[- ]cases?|"
    r"observed cases?|available cases?|(?<!of )(?<!of the )treatment received|(?:who|that) adhered|"
    r"(?:kept|stuck|held|keeping|sticking) to (?:the|their) (?:(?:allocated|allott?ed|assigned|planned|study) )?"
    r"(?:protocol|regimen|treatment|arm|group|allocation|assignment|schedule)|"
    r"follow(?:ed|ing) the protocol|"
    r"adher(?:ence|ed|ing) to the|(?:complet|receiv|finish|adher|treat)(?:ed|ing)(?: \w+){0,2} as "
    r"(?:allott?ed|allocated|assigned|planned|randomi[sz]ed|intended)|"
    r"(?<!non)(?<!non-)compliant|(?:protocol|without) violat(?:ors?|ions?)|(?:received|had) (?:the|their) allocated|"
    r"exclud(?:ing|ed) (?:\w+ ){0,4}(?:broke|violat\w+|cross-?overs?|non-?complian\w+|non-?adheren\w+)|"
    r"(?:leaving|left) out (?:\w+ ){0,2}(?:violat\w+|cross-?overs?|non-?complian\w+)|"
    r"(?:leaving|left|leave) out[^.;,]{0,40}(?:depart|deviat|strayed|differed)\w* from (?:the|their|its) "
    r"(?:protocol|plan|schedule|allocat\w+|assign\w+))",
    re.IGNORECASE,
    holds=(
        "protocol", "pp", "complet", "treat", "evaluable", "case", "adher", "receiv", "finish", "complian", "violat",
        "allocated", "exclud", "out", " to the", " to their",
    ),
)  # fmt: skip
# With a number inside, and nothing that was seen: "By way of example, 30 of 40 heal", "If 30 of 40 heal, ...".
AS_EXAMPLE = late(
    r"\b(?:by way of example|as an (?:example|illustration)|to illustrate)\b",
    re.IGNORECASE,
    holds=("example", "illustrat"),
)
ALTHOUGH = late(r"\W*(?:although|though|even though|while|whereas|despite)\b", re.IGNORECASE).match
OF_PLANS = frozenset({"count", "percent", "ratio", "number"})
"""Kinds of number that a plan has: "Although powered for a hazard ratio of 0.60, the trial yielded 0.71"."""
SEEN = late(r"\b(?:was|were|had|did|saw|found|kept|lost|became|remained|(?!need|red)[a-z]{2,}ed)\b", re.IGNORECASE)
CONDITION = late(r"(?:\b(?:If|Were)|[;:,(] (?:if|were))(?: (?!(?:it|they|asked)\b)[\w-]+){0,6} $", holds=("if", "were"))
CONSEQUENCE = late(r",[^.;]*?\b(?:would|will|could|power|suffices?|detects?|needed|required)\b", re.IGNORECASE)
BY_INTENTION = late(
    r"\b(?:inten(?:tion|t)[- ]to[- ]treat|m?ITT\b|as[- ]randomi[sz]ed|"
    r"(?:all|(?:full|whole|entire) (?:set|group|sample|cohort) of) (?:the |those )?(?:\d+ )?(?:\w+ )?randomi[sz]ed|"
    r"(?:every|everybody|everyone) (?:\w+ )?(?:randomi[sz]ed|allott?ed|allocated|assigned)|full analysis set|FAS\b|"
    r"(?:group|arm) to which (?:they|it|each|all) (?:was|were|had been) (?:allott?ed|allocated|assigned|randomi[sz]ed)|"
    r"as (?:allocated|allotted|assigned)\b|(?:regardless|irrespective) of (?:the )?(?:treatment|adherence|compliance)|"
    r"last observation carried forward|LOCF\b)",
    re.IGNORECASE,
    holds=(
        "inten", "itt", "randomi", "every", "full analysis", "fas", "carried", "locf", "to which",
        "as allo", "as assigned", "spective", "regardless",
    ),
)  # fmt: skip
