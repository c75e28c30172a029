"""What a legend says that the first of each pair counts: "Values are failures / eyes followed"."""

from __future__ import annotations

import re

from ..numerals.late import late
from .clauses import Span

_COUNTED = r"(?:the\s+)?(?:numbers?\s+(?:of\s+)?)?"
_find_legend = late(
    rf"\b(?:values|figures|numbers|data|entries|cells|counts|fractions|results|numerators?)\s+"
    rf"(?:are|is|was|were|gives?|shows?|represents?|stands? for|refers? to|denotes?|means?)\s+{_COUNTED}"
    r"(?P<said>[^/.;:\n]{3,50}?)\s*(?:/|\bover\b|\bout of\b|\bdivided by\b|\band (?:the )?denominators?)|"
    rf"\bnumerators?\s*[:=,]\s*{_COUNTED}(?P<apart>[^;,.\n]{{3,60}})|"
    rf"\(\s*{_COUNTED}(?P<inside>[a-z][^()/;.\d]{{3,50}}?)\s(?:over|/)\s(?:the\s+)?(?:number|all|[a-z]+s)\b[^()]*\)",
    re.IGNORECASE,
    holds=(
        "values",
        "figures",
        "numbers",
        "data",
        "entries",
        "cells",
        "counts",
        "fractions",
        "results",
        "numerator",
        "(",
    ),
    also=("/", "over", "out of", "divided", "numerator", "denominator"),
).search


def legend_of_pairs(text: str) -> Span | None:
    """Where a legend names what the first number of each pair counts; None where none does."""
    found = _find_legend(text)
    return found.span(found.lastgroup or "") if found is not None else None
