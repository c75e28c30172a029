"""What a word, a mark or a TeX command is to the number beside it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from decimal import Decimal

from . import words
from .kinds import Kind

Meaning = tuple[Kind, str]
"""The kind of a piece, and what it says: of a unit its id, of a comparator its sign, of a role word the word itself."""

_TWO_WORDS = {
    (tens, small): words.NUMBER_WORDS[tens] + words.NUMBER_WORDS[small]
    for tens in words.TENS
    for small in words.SMALL[1:10]
}
NUMBERS: dict[str, Decimal] = {
    **words.NUMBER_WORDS,
    **{f"{tens}{joint}{small}": value for (tens, small), value in _TWO_WORDS.items() for joint in "- "},
    "none": Decimal(0),
    **dict.fromkeys(("not one", "not even one", "not a single", "not a single one"), Decimal(0)),
}
"""The value of a number that is printed as a word or two."""


def _alike(kind: Kind, says: str, *pieces: str) -> dict[str, Meaning]:
    """Pieces that all mean the same."""
    return dict.fromkeys(pieces, (kind, says))


PHRASES: dict[str, Meaning] = {
    **_alike(Kind.COMPARATOR, "<=", "up to", "at most"),
    **_alike(Kind.COMPARATOR, ">=", "at least"),
    **_alike(Kind.ROLE, "at risk", "at risk"),
    **_alike(Kind.ROLE, "sd", "standard deviation"),
    **_alike(Kind.ROLE, "se", "standard error", "standard errors"),
    **_alike(Kind.WORD, "", "per se"),
    **_alike(Kind.ROLE, "lost", "lost to"),
    **_alike(Kind.ROLE, "eligible", "assessed for eligibility", "screened for eligibility"),
    **_alike(Kind.EQUALS, "", "equal to"),
    **_alike(Kind.OF, "", "out of"),
    **_alike(Kind.PERCENT, "", "per cent", "per centage"),
    **_alike(Kind.CI, "", "confidence interval", "confidence intervals", "confidence limit", "confidence limits"),
    **_alike(Kind.NUMBER, "", *(phrase for phrase in NUMBERS if " " in phrase), "none"),
    **_alike(Kind.WORD, "", "due to", "percentage point", "percentage points"),
    **_alike(Kind.WORD, "", *(f"{which} one" for which in ("each", "no", "any", "this", "that", "which"))),
    **_alike(Kind.ALL, "all", "every one", "each of", "both of"),
    **_alike(Kind.ALL, "any", "any of"),
    **_alike(Kind.UNIT, "other", "mm hg"),
    **{phrase: (Kind.MEASURE, measure) for phrase, measure in words.MEASURE_PHRASES.items()},
    **_alike(Kind.COMPARATOR, "<=", *(f"{no} {more} than" for no in ("no", "not") for more in words.NO_MORE)),
    **_alike(Kind.COMPARATOR, ">=", *(f"{no} {less} than" for no in ("no", "not") for less in words.NO_LESS)),
    **_alike(Kind.COMPARATOR, ">", *(f"{more} than" for more in words.NO_MORE)),
    **_alike(Kind.COMPARATOR, "<", *(f"{less} than" for less in words.LESS)),
    **_alike(Kind.OR_MORE, ">=", *(f"{either} {more}" for either in ("or", "and") for more in words.OR_MORE)),
    **_alike(Kind.OR_MORE, "<=", *(f"{either} {less}" for either in ("or", "and") for less in words.OR_LESS)),
}
"""What several words say together, in any trade."""

DESCRIBES: Meaning = (Kind.ADJECTIVE, "")
"""Of a phrase of the trade, "eye bank tissue": no eye is counted there."""

_WORDS: dict[str, Meaning] = {
    **_alike(Kind.UNIT, "other", *words.OTHER_UNITS),
    **_alike(Kind.NUMBER, "", *(word for word in NUMBERS if " " not in word and word != "none")),
    **{word: (Kind.MEASURE, measure) for word, measure in words.MEASURES.items()},
    **{word: (Kind.COMPARATOR, sign) for word, sign in words.BEFORE.items()},
    **_alike(Kind.ROLE, "i2", "i2", "i²", "i^2", "i^{2}"),
    **_alike(Kind.PERCENT, "", "percent", "percentage", "pct"),
    **_alike(Kind.CI, "", "ci", "cis", "c.i.", "ic"),
    **_alike(Kind.ALL, "all", "all"),
    **_alike(Kind.WORD, "without", "without", "excluding", "except"),
    **_alike(Kind.OF, "", "of"),
    **_alike(Kind.TO, "", "to", "through"),
    **_alike(Kind.AND, "", "and"),
    **_alike(Kind.BETWEEN, "", "between"),
    **_alike(Kind.P_SIGN, "", "p", "p-value", "p-values"),
    **_alike(Kind.N_SIGN, "", "n"),
    **_alike(Kind.LABEL, "per", "per"),
    **_alike(Kind.WORD, "or", "or"),
    **_alike(Kind.WORD, "not", "not", "nor", "never"),
}

_DASHES: dict[str, Meaning] = {dash: (Kind.DASH, dash) for dash in ("-", "–", "—", "−", "‐", "‑", "--", "---")}

MARKS: dict[str, Meaning] = {
    **_DASHES,
    **_alike(Kind.PERCENT, "", "%", "％", r"\%", r"\percent", r"\textpercent"),
    **_alike(Kind.PLUS_MINUS, "", "±", r"\pm", r"\textpm"),
    **_alike(Kind.COMPARATOR, "<", "<", r"\lt", r"\textless"),
    **_alike(Kind.COMPARATOR, ">", ">", r"\gt", r"\textgreater"),
    **_alike(Kind.COMPARATOR, "<=", "≤", "⩽", r"\le", r"\leq", r"\leqslant"),
    **_alike(Kind.COMPARATOR, ">=", "≥", "⩾", r"\ge", r"\geq", r"\geqslant"),
    **_alike(Kind.DASH, "–", r"\textendash"),
    **_alike(Kind.DASH, "—", r"\textemdash"),
    **_alike(Kind.DASH, "−", r"\textminus"),
    **_alike(Kind.ROUND_OPEN, "", "("),
    **_alike(Kind.ROUND_CLOSE, "", ")"),
    **_alike(Kind.SQUARE_OPEN, "", "[", r"\["),
    **_alike(Kind.SQUARE_CLOSE, "", "]", r"\]"),
    **_alike(Kind.COMMA, "", ","),
    **_alike(Kind.SEMICOLON, "", ";"),
    **_alike(Kind.COLON, "", ":"),
    **_alike(Kind.STOP, "", "."),
    **_alike(Kind.SLASH, "", "/"),
    **_alike(Kind.WORD, "", "+"),
}
"""Signs and TeX commands; "=" may belong to the sign before it."""

KINDS_OF_NUMBER = {
    "%": "percent", "day": "length", "week": "length", "month": "length", "year": "length", "mm": "size",
    "minute": "minutes", "hour": "number", "none": "number", "other": "number",
}  # fmt: skip
"""`Token.kind` of a number whose form says nothing, by its unit, where that is no unit of the trade."""


def of_words(
    units: Mapping[str, str], adjectives: Iterable[str], labels: Iterable[str], roles: Iterable[str]
) -> dict[str, Meaning]:
    """Every word that means something; units (by word), adjectives, labels and roles are those of the trade."""
    counted_and_measured = {**units, **words.TIMES, **words.SIZES}
    return {
        **_alike(Kind.FILLER, "", *words.FILLERS),
        **_alike(Kind.ADJECTIVE, "", *words.ADJECTIVES, *adjectives),
        **{word: (Kind.ROLE, word) for word in (*words.ROLES, *roles)},
        **_alike(Kind.LABEL, "label", *words.LABELS, *labels),
        **{word: (Kind.UNIT, unit) for word, unit in counted_and_measured.items()},
        **_WORDS,
    }
