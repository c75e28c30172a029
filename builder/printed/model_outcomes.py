"""Where a passage says what a model is of: "logistic regression for failure", "(0 = healed, 1 = not healed)"."""

from __future__ import annotations

import re

from ..numerals.late import late
from .clauses import Span

_MODEL = (
    r"(?:logistic|cox|poisson|multivariab?le|multivariate|univariab?le|univariate|proportional[\s-]hazards)\s[^.;:|\n]{0,40}?"
    r"(?:regressions?|models?|analys[ei]s)|regressions?|models?|(?:odds|hazard|risk|rate) ratios?"
)
_NAMED = (
    r"predictors?|determinants|(?:prognostic|risk|associated) factors?|factors? (?:associated|linked|related)|"
    r"variables? (?:associated|linked|related)|associations?"
)
_find_model = late(
    rf"\b(?:(?:{_MODEL})(?:\s\([^()]*\))?[^.;:|,\n\d]{{0,40}}?\s(?:for|of|on|predicting|explaining)|"
    rf"(?:{_NAMED})\s(?:of|for|with|to)|"
    r"(?:dependent|outcome|response)(?:\s(?:variable|event|modelled))?\s*(?:[:=]|(?:was|is|were)\b)|"
    r"(?:event|outcome|end-?\s?point)(?:\s(?:modelled|of interest|of the (?:model|regression)))?\s*"
    r"(?:[:=]|(?:was|is)\b))"
    r"\s*(?:the\s)?(?P<outcome>[^.;:|,\n(\d]{3,60})",
    re.IGNORECASE,
    holds=(
        "regression", "model", "ratio", "predictor", "determinant", "factor", "associat", "variable", "outcome",
        "event", "point", "dependent", "response", "analys",
    ),
).finditer  # fmt: skip
_find_coded = late(
    r"(?:\b1\s*(?:=|:|for|denoting)\s*(?P<behind>[^,;:()|.\n\d=]{3,40})|"
    r"(?P<before>[^\W\d_][^,;:()|.\n\d=]{2,40}?)\s*(?:=|:|coded(?: as)?|as)\s*1\b(?![.,]\d))",
    re.IGNORECASE,
    holds=("1",),
).finditer


def modelled(text: str, at: int) -> list[Span]:
    """Where the outcome of a ratio at a place is named before it: as what was coded 1, nearest first, then as what the
    nearest model, list of predictors or dependent variable is of."""
    coded = [found.span(found.lastgroup or "") for found in _find_coded(text) if found.start() < at]
    models = [found.span("outcome") for found in _find_model(text) if found.end("outcome") <= at]
    return [*reversed(coded), *models[-1:]]
