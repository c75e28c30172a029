"""What a word, a mark or a TeX command is to the number beside it."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from decimal import Decimal

from . import words
from .words import ROLES as ROLES

Meaning = tuple[str, object]
"""The letter of a piece (see `lexemes.py`) and what it says."""

LETTER = "[a-zµß-ɏα-ω]"
_GAP = r"(?:[\s~]|\\[ ,;])+"

PHRASES: dict[str, Meaning] = {
    "up to": ("<", "<="), "at least": ("<", ">="), "at most": ("<", "<="), "at risk": ("r", "at risk"),
    "equal to": ("=", ""), "out of": ("o", ""), "per cent": ("%", ""), "percent": ("%", ""), "percentage": ("%", ""),
    "per centage": ("%", ""), "ci": ("c", ""), "c.i.": ("c", ""), "confidence interval": ("c", ""),
    "confidence intervals": ("c", ""), "confidence limit": ("c", ""), "confidence limits": ("c", ""),
    "standard deviation": ("r", "sd"), "due to": ("w", ""), "assessed for eligibility": ("r", "eligible"),
    "screened for eligibility": ("r", "eligible"), "lost to": ("r", "lost"),
    "one hundred": ("d", Decimal(100)), "none": ("d", Decimal(0)),
    **{f"percentage {points}": ("w", "") for points in ("point", "points")},
    **{f"{which} one": ("w", "") for which in ("every", "each", "no", "any", "this", "that", "which")},
    "i2": ("r", "i2"), "i^2": ("r", "i2"), "i^{2}": ("r", "i2"),
    **{phrase: ("m", measure) for phrase, measure in words.MEASURE_PHRASES.items()},
    **{f"{no} {less} than": ("<", "<=") for no in ("no", "not") for less in ("more", "longer", "later")},
    **{f"{no} {less} than": ("<", ">=") for no in ("no", "not") for less in ("less", "fewer")},
    **{f"{more} than": ("<", ">") for more in ("more", "greater", "larger", "longer", "wider", "older", "higher")},
    **{f"{less} than": ("<", "<") for less in ("less", "fewer", "smaller", "shorter", "lower", "younger")},
    **{f"{either} {more}": (">", ">=") for either in ("or", "and")
       for more in ("more", "larger", "greater", "longer", "above", "over", "older", "wider")},
    **{f"{either} {less}": (">", "<=") for either in ("or", "and")
       for less in ("less", "fewer", "smaller", "shorter", "below", "under", "younger")},
    **{f"{tens} {small}": ("d", words.NUMBER_WORDS[tens] + words.NUMBER_WORDS[small])
       for tens in words.TENS for small in words.SMALL[1:10]},
}  # fmt: skip

_WORDS: dict[str, Meaning] = {
    **dict.fromkeys(words.OTHER_UNITS, ("u", "other")),
    **{word: ("d", value) for word, value in words.NUMBER_WORDS.items()},
    **{word: ("m", measure) for word, measure in words.MEASURES.items()},
    **{word: ("<", sign) for word, sign in words.BEFORE.items()},
    **{f"{tens}-{small}": ("d", words.NUMBER_WORDS[tens] + words.NUMBER_WORDS[small])
       for tens in words.TENS for small in words.SMALL[1:10]},
    "percent": ("%", ""), "percentage": ("%", ""), "c.i.": ("c", ""), "i2": ("r", "i2"), "i²": ("r", "i2"),
    "i^2": ("r", "i2"), "i^{2}": ("r", "i2"),
    "of": ("o", ""), "to": ("t", ""), "through": ("t", ""), "and": ("a", ""), "between": ("b", ""), "ci": ("c", ""),
    "cis": ("c", ""), "p": ("p", ""), "p-value": ("p", ""), "p-values": ("p", ""), "per": ("l", "per"), "n": ("n",
    ""), "pct": ("%", ""), "or": ("w", "or"),
    "not": ("w", "not"), "nor": ("w", "not"), "never": ("w", "not"),
}  # fmt: skip


def of_words(
    units: Mapping[str, str], adjectives: Iterable[str], labels: Iterable[str], roles: Iterable[str]
) -> dict[str, Meaning]:
    """Every word that means something; units (by word), adjectives, labels and roles are those of the trade."""
    counted_and_measured = {**units, **words.TIMES, **words.SIZES}
    return {
        **dict.fromkeys(words.FILLERS, ("f", "")),
        **dict.fromkeys((*words.ADJECTIVES, *adjectives), ("j", "")),
        **{word: ("r", word) for word in (*words.ROLES, *roles)},
        **dict.fromkeys((*words.LABELS, *labels), ("l", "label")),
        **{word: of_unit(unit) for word, unit in counted_and_measured.items()},
        **_WORDS,
    }


def of_unit(unit: str) -> Meaning:
    """What a word for a unit is."""
    return "u", unit


def phrase_pattern(phrases: Iterable[str], participles: Iterable[str]) -> re.Pattern[str]:
    """Words that say one thing together. phrases: of the trade; participles: more of what may befall "none"."""
    more = "".join(f"|{word}" for word in sorted(participles))
    own = "".join(f"| {_GAP.join(map(re.escape, phrase.split(' ')))}" for phrase in sorted(phrases))
    return re.compile(
        rf"""(?:
        up{_GAP}to | at{_GAP}(?:least|most) | at{_GAP}risk
      | (?:no|not){_GAP}(?:more|less|fewer|longer|later){_GAP}than
      | (?:more|greater|larger|longer|wider|older|less|fewer|smaller|shorter|lower|higher|younger){_GAP}than
      | (?:or|and){_GAP}(?:less|more|fewer|larger|greater|smaller|longer|shorter|above|below|over|under|older|younger
        |wider)
        (?!{_GAP}(?:than|[\d.]))
      | equal{_GAP}to | out{_GAP}of | per{_GAP}cent(?:age)? | percentage{_GAP}points?
      | (?:assessed|screened){_GAP}for{_GAP}eligibility
      | confidence{_GAP}(?:intervals?|limits?) | standard{_GAP}deviation | due{_GAP}to | lost{_GAP}to
      | (?:odds|risk|hazards?|rate){_GAP}ratios? | relative{_GAP}risks? | (?:risk|mean){_GAP}difference
      | difference{_GAP}in{_GAP}means | prevented{_GAP}fraction
      | (?:twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety){_GAP}(?:one|two|three|four|five|six|seven|eight|nine)
      | (?:every|each|no|any|this|that|which){_GAP}one | one{_GAP}hundred
      | none(?={_GAP}(?:of|was|were|had|lost|died|failed|healed|discontinued{more})\b)
      {own}
    )(?!{LETTER})""",
        re.VERBOSE,
    )


MARKS: dict[str, Meaning] = {
    **{mark: (mark, "") for mark in "%()[],;:=./"},
    "％": ("%", ""), "±": ("+", ""), "+": ("w", ""), "<": ("<", "<"), ">": ("<", ">"), "≤": ("<", "<="),
    "≥": ("<", ">="), "⩽": ("<", "<="), "⩾": ("<", ">="),
}  # fmt: skip

COMMANDS: dict[str, Meaning] = {
    r"\%": ("%", ""), r"\pm": ("+", ""), r"\textpm": ("+", ""), r"\lt": ("<", "<"), r"\textless": ("<", "<"),
    r"\gt": ("<", ">"), r"\textgreater": ("<", ">"), r"\le": ("<", "<="), r"\leq": ("<", "<="),
    r"\leqslant": ("<", "<="), r"\ge": ("<", ">="), r"\geq": ("<", ">="), r"\geqslant": ("<", ">="),
    r"\textendash": ("-", "–"), r"\textemdash": ("-", "—"), r"\textminus": ("-", "−"), r"\[": ("[", ""),
    r"\]": ("]", ""), r"\percent": ("%", ""), r"\textpercent": ("%", ""),
}  # fmt: skip

DESCRIBES: Meaning = ("j", "")
"""Of a phrase of the trade, "root canal treated": no root is counted there."""

KINDS = {
    "%": "percent", "day": "length", "week": "length", "month": "length", "year": "length", "mm": "size",
    "minute": "minutes", "none": "number", "other": "number",
}  # fmt: skip
"""The kind of a number by the unit that stands beside it."""
