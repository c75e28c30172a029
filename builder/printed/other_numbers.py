"""Numbers of a model, or of a spread, that are no ratio and no interval: "B 0.92", "64% to 91% over the centres"."""

from __future__ import annotations

import re

from ..numerals import Token
from ..numerals.late import late
from .clauses import Span
from .tables import InCell

_LABEL = (
    r"(?:(?:^|(?<=[:;,(|\n])|(?<=[:;,(|\n] ))(?-i:[Bb]|SE|S\.E\.|[zZ]|t)|(?-i:COEF)|β|beta|"
    r"(?:regression |logistic |model |cox )?(?:coefficients?|coeff\.?|slope|"
    r"estimate)(?: \(?(?-i:[Bb]|β)\)?)?|"
    r"wald(?: (?:chi-?square|statistic|χ²|χ2))?|chi-?square[d]?|χ²|χ2|"
    r"(?:ln|log|logarithm of the|natural logarithm of the)[\s(-]{0,2}"
    r"(?:odds ratio|hazard ratio|risk ratio|odds|hazards?|[oh]r|rr)\)?|"
    r"log-?odds|logit|z[- ](?:value|score|statistic)|t[- ](?:value|statistic))"
)
_ends_in_label = late(
    rf"(?<![\w(.-])(?P<label>{_LABEL})\s*(?:=|:|\bof|\bwas|\bis|,)?\s*(?:\(?SE\)?[,:=]?\s*)?[-−–]?$", re.IGNORECASE
).search
_is_label = late(
    rf"\s*(?P<label>{_LABEL})\s*(?:[,;]?\s*\(?(?:SE|S\.E\.|standard error|95 ?% CI)\)?)?\s*", re.IGNORECASE
).fullmatch
_NEAR = 50
"""Characters before a number in which its label stands."""


def coefficient_of(text: str, token: Token, cell: InCell | None) -> Span | None:
    """The label that makes a number a coefficient or the statistic of a test, and no ratio; None where none does."""
    if cell is not None and cell.headings:
        found = _is_label(text, *cell.headings[0])
        return found.span("label") if found is not None else None
    found = _ends_in_label(text, max(token.outer_start - _NEAR, 0), token.outer_start)
    return found.span("label") if found is not None else None


_UNITS_OF_A_SPREAD = (
    r"(?:cent(?:re|er)s?|clinics?|operators?|hospitals?|practices?|practitioners?|surgeons?|examiners?|observers?|sites?|"
    r"schools?|countries|regions|raters?|clinicians?|wards?|units?|series|studies|trials|reports|papers)"
)
_ends_in_range = late(
    r"\b(?P<label>(?:range[sd]?|ranging|var(?:ied|ying|iation)|differ(?:ed|ing)|spread|extremes?)\b[^.;\d]{0,70}"
    r"(?:\b(?:nine|two|three|four|five|six|seven|eight|ten|\d+)\b[^.;\d]{0,40})?)$",
    re.IGNORECASE,
    holds=("rang", "vari", "vary", "differ", "spread", "extreme"),
).search
_match_range_behind = late(
    rf"\s*%?\s*,?\s*(?P<label>from (?:one )?(?:\w+ )?{_UNITS_OF_A_SPREAD} to "
    rf"(?:the next|the other|another|{_UNITS_OF_A_SPREAD})|"
    rf"depending on (?:the )?{_UNITS_OF_A_SPREAD}|"
    r"(?:across|among|amongst|between|over|by|in (?:the )?(?:single|individual|various|different)) "
    rf"(?:the |our |all |these )?(?:[\w-]+ ){{0,2}}{_UNITS_OF_A_SPREAD})\b",
    re.IGNORECASE,
).match
_of_confidence = late(r"\b(?:confidence|(?-i:CIs?)|credible|credibility|limits?|intervals?)\b", re.IGNORECASE).search


def range_of(text: str, low: Token, end: int) -> Span | None:
    """The words by which two limits are the least and the most of some, and no interval of confidence.

    low: the lower of them. end: of the upper one.
    """
    start = low.outer_start
    behind = _match_range_behind(text, end)
    begin = max(start - 130, 0)
    before = _ends_in_range(text, begin, start)
    found = before if behind is None else behind
    if found is None or _of_confidence(text, max(found.start("label") - _NEAR, 0), max(start, found.end())) is not None:
        return None
    return found.span("label")
