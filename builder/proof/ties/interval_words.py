"""Limits that a passage draws otherwise than at 95%, without the level itself: "z = 1.64", "5th to 95th centile"."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from ...compiled_patterns import compiled
from ...numerals.late import late
from ...printed.clauses import Span
from ...reading.report_model import Claim
from ..proving.printed_passage import Reading, surroundings_in
from .tie import Known, Stands, Ties

RULES: dict[str, str] = {
    "limits-of-another-kind": (
        "The claim shows two limits as a 95% confidence interval, and the passage says that they were drawn otherwise: "
        "at another number of standard errors, at other centiles, as quartiles, or widened for several comparisons. "
        "Such limits say more or less than a 95% interval. Type the level that they have as `confidence`, or "
        "`confidence: not reported`; where they are 95% limits all the same, answer the question. Source of the "
        "multipliers 1.645 (90%) and 2.576 (99%): tables of the normal distribution, from memory."
    ),
}
_METHODS = r"(?:bonferroni|sidak|šidák|scheff[eé]|tukey|dunnett|simultaneous|family-?wise)"
_OTHERWISE = late(
    r"\bz ?= ?(?:1\.2[78]\d?|1\.64\d?|1\.65|2\.32\d?|2\.33|2\.57\d?|2\.58)(?!\d)|"
    r"(?<![\d.])(?:1|1\.0|1\.28\d?|1\.64\d?|1\.65|2\.57\d?|2\.58|3|one|three)(?:\s+standard errors?| SEs?)\b|"
    r"(?<![\d.])(?:5th|10th|25th|fifth|tenth)\s*(?:and|to|[-–]|,|/)\s*(?:the\s+)?(?:95th|90th|75th|ninety-fifth|ninetieth)\b|"
    r"(?<![\d.])(?:5th|10th|fifth)\s+(?:per)?centile\s*(?:and|to|[-–]|,|/)\s*(?:the\s+)?(?:95th|90th)\b|"
    r"\binterquartile|\bquartiles?\b|"
    r"\balpha\s*(?:=|of|level of|was|at)?\s*(?:0?\.(?:01|10|1|001|20|2)\b|(?:1|10|20)\s?%)|"
    r"\b(?:nine in ten|nine of ten|ninety-nine in a hundred)\b|"
    rf"\b(?P<method>{_METHODS})\b|"
    r"\blevel of (?:the |all )?(?:intervals?|limits)[^.;]{0,25}?0?\.(?:9|90|99|8|80)\b",
    re.IGNORECASE,
    holds=(
        "z =", "z=", "standard error", " se", "5th", "10th", "fifth", "tenth", "quartile", "alpha", "in ten", "of ten",
        "in a hundred", "bonferroni", "sidak", "šidák", "scheff", "tukey", "dunnett", "simultaneous", "family",
        "level of",
    ),
)  # fmt: skip
_of_limits = late(r"\b(?:limits?|intervals?|bounds?|bands?|whiskers|either side|to each side)\b", re.IGNORECASE).search
_of_tests = late(r"\b(?:p[\s-]values?|tests?|significan\w+|pairwise|observers?)\b", re.IGNORECASE).search
_has_p = compiled(r"\b[Pp]\s*[=<>≤]").search


def find_limits(standing: Sequence[Stands], ties: Ties, known: Known) -> None:
    """Every interval for which neither the claim nor its passage gives a level."""
    claim = ties.scope.claim
    if claim is None or _types_a_level(claim):
        return
    for stands in standing:
        if stands.row.name != "interval" or stands.row.part != "low":
            continue
        told = stands.reading.told(_told_otherwise)
        if not told:
            continue
        words = next((span for sentence, span in told if _is_of(stands, sentence, span)), None)
        if words is not None:
            ties.ask(
                stands, "limits-of-another-kind", f'draws these limits otherwise: "{stands.printed(words)}"',
                "the claim shows them as a 95% interval", "confidence: not reported",
            )  # fmt: skip


def _types_a_level(claim: Claim) -> bool:
    blocks = (claim, claim.contrast, claim.estimate, *claim.levels, *(level.estimate for level in claim.levels))
    return any(getattr(block, "confidence", None) is not None for block in blocks)


def _told_otherwise(reading: Reading) -> list[tuple[Span, Span]]:
    """Words that draw limits otherwise, each with the sentence in which they stand; none where a level is printed."""
    text = reading.passage.text
    if _OTHERWISE.search(text) is None or any(token.kind == "confidence" for token in reading.tokens):
        return []
    return list(_words_with_sentences(reading))


def _words_with_sentences(reading: Reading) -> Iterator[tuple[Span, Span]]:
    text, around = reading.passage.text, reading.told(surroundings_in)
    for found in _OTHERWISE.finditer(text):
        sentence = around.sentence(found.start())
        said = text[slice(*sentence)]
        if found["method"] and _of_tests(said):
            continue
        if found[0].lower().startswith("z") and _has_p(said):
            continue
        yield sentence, found.span()


def _is_of(stands: Stands, sentence: Span, words: Span) -> bool:
    """Whether words stand in the interval's own brackets, straight beside it, or in a sentence about limits."""
    text, token = stands.reading.passage.text, stands.token
    if sentence[0] <= token.start < sentence[1]:
        low, high = min(token.start, words[0]), max(token.end, words[1])
        return high - low < _BESIDE or _of_limits(text, *sentence) is not None
    return sentence[0] >= token.end and _of_limits(text, *sentence) is not None


_BESIDE = 80
"""Characters within which words speak of an interval of their sentence."""
