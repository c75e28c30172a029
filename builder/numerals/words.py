"""The words that stand beside numbers in clinical papers, and what each says about its number."""

from __future__ import annotations

from decimal import Decimal

TIMES = {
    "day": "day", "days": "day", "week": "week", "weeks": "week", "wk": "week", "wks": "week", "month": "month",
    "months": "month", "mo": "month", "mos": "month", "mth": "month", "mths": "month",
    "year": "year", "years": "year", "yr": "year", "yrs": "year",
    "y": "year", "min": "minute", "mins": "minute", "minute": "minute", "minutes": "minute",
    **dict.fromkeys(("h", "hr", "hrs", "hour", "hours"), "hour"),
}  # fmt: skip
LEADING_TIMES = frozenset({"day", "week", "month", "year"})
"""Words that may also stand before the number: "at month 12"; in the plural before several."""
ORDINALS = {
    word: value
    for value, word in enumerate(
        ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth"), start=1
    )
}
WHICH_TIME = frozenset({
    *ORDINALS, "st", "nd", "rd", "th", "same", "next", "last", "previous", "following", "final", "each", "every", "per",
    "one", "a", "an", "another", "this", "that",
})  # fmt: skip
"""Behind these the word of a time has no number of its own: "after the first year 39 of 47"."""

SIZES = {"mm": "mm", "millimetre": "mm", "millimetres": "mm", "millimeter": "mm", "millimeters": "mm"}

# A number of these is no number of ours: "3 cm" must not pass for a bare 3.
OTHER_UNITS = frozenset({
    "cm", "µm", "μm", "um", "nm", "m", "ml", "mg", "kg", "g", "s", "sec", "seconds", "visits", "sessions", "degrees",
    "ncm", "rpm", "kv", "kvp", "ma", "points", "mmhg", "kpa", "mpa", "gpa", "kn", "mn", "hz", "khz", "mhz", "µl", "μl",
    "ul", "dl", "mmol", "µg", "μg", "msv", "µsv", "μsv", "mgy", "gy", "hu", "ppm", "°", "°c", "°f", "newton", "newtons",
    "pascal", "pascals", *(f"{length}{power}" for length in ("mm", "cm", "µm", "μm", "m") for power in "23²³"),
})  # fmt: skip

SMALL = (
    "zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
    "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen",
)  # fmt: skip
TENS = ("twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety")
NUMBER_WORDS: dict[str, Decimal] = {
    **{word: Decimal(value) for value, word in enumerate(SMALL)},
    **{word: Decimal(10 * value) for value, word in enumerate(TENS, start=2)},
    "dozen": Decimal(12),
    "hundred": Decimal(100),
    "thousand": Decimal(1000),
}
"""Number words that are one word each."""

PARTS = frozenset(
    ["half", "halves", "third", "thirds", "quarter", "quarters", "fifth", "fifths", "tenth", "tenths", "fold"]
)
"""After "one-" or "two-" they make a fraction or a multiple, which is no count."""

ROLES: dict[str, str] = {
    "eligible": "eligible", "eligibility": "eligible", "screened": "eligible",
    "treated": "treated", "enrolled": "treated",
    "recruited": "treated",
    "due": "due", "examined": "examined", "reexamined": "examined", "re-examined": "examined", "recalled": "examined",
    "reviewed": "examined",
    "attended": "examined", "assessed": "examined", "evaluated": "examined", "followed": "examined", "measured":
    "examined", "tested": "examined",
    "lost": "lost", "missing": "lost", "discontinued": "discontinued", "withdrew": "discontinued",
    "withdrawn": "discontinued", "died": "died", "deceased": "died", "dead": "died", "deaths": "died",
    "median": "median", "mean": "mean", "average": "mean", "minimum": "minimum", "shortest": "minimum",
    "maximum": "maximum", "longest": "maximum", "sd": "sd", "deviation": "sd", "se": "se", "iqr": "iqr",
    "interquartile": "iqr", "quartiles": "iqr", "percentile": "iqr", "range": "range", "ranged": "range",
    "tolerance": "tolerance",
    "lower": "low", "upper": "high",
    "both": "both", "neither": "neither", "only": "only",
    "healed": "good", "heal": "good", "healing": "good", "success": "good", "successes": "good", "successful": "good",
    "successfully": "good", "survived": "good", "survival": "good", "surviving": "good", "functional": "good",
    "favourable": "good", "favorable": "good",
    "non-healing": "bad", "nonhealing": "bad", "not healed": "bad", "not examined": "lost",
    "not failed": "good",
    "failed": "bad", "failure": "bad", "failures": "bad", "failing": "bad", "diseased": "bad", "unhealed": "bad",
    "nonhealed": "bad", "non-healed": "bad", "unsuccessful": "bad", "persisted": "bad",
    "persistent": "bad",
    "unfavourable": "bad", "unfavorable": "bad", "reversed": "bad", "reversal": "bad", "relapsed": "bad",
    "women": "who", "men": "who", "woman": "who", "man": "who", "female": "who", "females": "who", "male": "who",
    "males": "who", "girls": "who", "boys": "who", "smokers": "who", "diabetics": "who",
    "adjusted": "adjusted", "multivariable": "adjusted", "multivariate": "adjusted", "crude": "crude",
    "unadjusted": "crude", "univariable": "crude", "univariate": "crude", "bivariate": "crude",
    "i2": "i2", "i²": "i2", "starting": "starting", "at risk": "at risk",
    "drop-outs": "dropped out", "dropouts": "dropped out", "drop-out": "dropped out", "dropout": "dropped out",
}  # fmt: skip
"""Words that say what a number is, and the role they stand for."""

NOT: dict[str, str] = {"good": "bad", "bad": "good", "examined": "lost"}
"""What a role becomes behind "not"; any other says nothing then: "not excised"."""

LABELS = frozenset({
    "table", "tables", "figure", "figures", "fig", "figs", "page", "pages", "group", "groups", "grade", "grades",
    "class", "type", "stage", "score", "scores", "phase", "ref", "refs", "reference", "references", "appendix",
    "step", "version", "item", "no", "number", "nos",
})  # fmt: skip
"""A number straight after one of these is a name and no quantity: "Table 2"."""

MEASURES = {
    "aor": "odds ratio", "rr": "risk ratio", "arr": "risk ratio", "hr": "hazard ratio", "ahr": "hazard ratio",
    "rd": "risk difference", "md": "mean difference", "pf": "prevented fraction",
}  # fmt: skip
MEASURE_PHRASES = {
    "odds ratio": "odds ratio", "odds ratios": "odds ratio", "risk ratio": "risk ratio", "risk ratios": "risk ratio",
    "relative risk": "risk ratio", "relative risks": "risk ratio", "rate ratio": "risk ratio",
    "rate ratios": "risk ratio", "incidence rate ratio": "risk ratio", "incidence rate ratios": "risk ratio",
    "hazard ratio": "hazard ratio", "hazard ratios": "hazard ratio", "hazards ratio": "hazard ratio",
    "hazards ratios": "hazard ratio",
    "risk difference": "risk difference", "mean difference": "mean difference",
    "prevented fraction": "prevented fraction", "difference in means": "mean difference",
}  # fmt: skip

ADJECTIVES = frozenset({
    "human", "consecutive", "available", "remaining", "included", "single", "multi", "such", "different", "more",
    "other", "further", "these", "selected", "asymptomatic", "affected", "young", "adult",
})  # fmt: skip
"""May stand between a number and what it counts: "47 consecutive patients"."""

FILLERS = frozenset({
    "the", "a", "an", "total", "were", "was", "is", "are", "had", "have", "been", "being", "in", "at",
    "these", "those", "its", "their", "about", "approximately", "value", "values", "time", "follow", "recall",
    "period", "duration", "from", "with", "follow-up", "followup", "our", "possible",
})  # fmt: skip

MORE = ("more", "greater", "larger", "longer", "wider", "older", "higher")
LESS = ("less", "fewer", "smaller", "shorter", "lower", "younger")
"""Comparators before "than"."""
NO_MORE = (*MORE, "later")
NO_LESS = LESS
"""Comparators between "no" and "than"."""
OR_MORE = ("more", "larger", "greater", "longer", "above", "over", "older", "wider")
OR_LESS = ("less", "fewer", "smaller", "shorter", "below", "under", "younger")
"""Comparators behind "or", after their number."""
BEFORE = {
    "over": ">",
    "above": ">",
    "exceeding": ">",
    "exceeded": ">",
    "exceeds": ">",
    "beyond": ">",
    "under": "<",
    "below": "<",
}
"""Comparators in one word."""

BEHIND_NONE = frozenset({"of", "was", "were", "had", "lost", "died", "failed", "healed", "discontinued"})
"""Words behind which "none" is a number, in any trade."""

WHEN = frozenset({
    "in", "from", "since", "until", "till", "during", "before", "after", "between", "year", "years", "january",
    "february", "march", "april", "may", "june", "july", "august", "september", "october", "november", "december",
    "jan", "feb", "mar", "apr", "jun", "jul", "aug", "sept", "sep", "oct", "nov", "dec",
})  # fmt: skip
"""Words before a year of the calendar: "in 2012"."""
