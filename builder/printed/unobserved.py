"""A number that nobody observed by the grammar of its sentence: hoped for, laid down, foretold, or told in general."""

from __future__ import annotations

import re

from ..numerals.late import late
from .clauses import Span

WORDS_OF_PLANS = frozenset({
    "important", "relevant", "useful", "adequate", "sufficient", "target", "model", "futility", "derived", "deemed",
    "budget", "bet", "guess", "promised", "simulated", "contract", "schedule", "programme", "worked", "computed",
    "expected",
    "extrapolating", "extrapolated", "ought", "should", "will", "shall", "hoped", "hope", "hopes", "reasoned",
    "stipulated", "foresees", "foresaw",
    "foreseen", "benchmark", "yardstick", "stopping", "rule", "null", "theory", "principle", "averages", "margin",
    "worthwhile", "heal", "heals", "survive", "survives", "succeed", "succeeds", "fail", "fails", "respond", "responds",
    "planning", "working", "consulted", "sized", "granted", "stop", "close", "given", "experts", "needs", "requires",
    "goal", "objective", "aim", "aimed", "aims", "set", "fixed", "specified", "prespecified", "pre-specified",
    "prognosis", "informed", "wanted", "desired", "required", "wished", "recover", "recovers", "forecast",
    "forecasts", "intended", "boundary", "laid", "minimum", "minimal", "smallest", "least", "acceptable", "would",
    "stipulates", "promises", "hoping", "wants", "aiming", "expert", "panel", "panellists", "panelists", "clinicians",
    "consultants", "quoted", "foretold", "told", "warned", "paper", "prior", "theoretically", "dimensioned",
    "could", "allowed", "allows", "sets", "end", "ended", "run", "continue", "continued", "abandoned", "closed",
    "stopped",
    "advance", "beforehand", "cut-off", "enough", "limit", "needed", "standard", "threshold", "suffices",
})  # fmt: skip
"""A passage without any of these says nothing that is found here."""

_ENDS = r"(?:heal|surviv|fail|succe|recover|respond|remain|stay|last|be (?:heal|success|kept|lost|free|cur|in place))"
_WORDS = r"(?:[\s~]+(?!(?:who|that|which|did|does|do|not|could|can|cannot|may|might|must)\b)[\w()%.-]+){0,5}?[\s~]+"
_match_not_yet = late(
    rf"\W{{0,2}}{_WORDS}(?:(?P<modal>should|ought to|will|shall|would)\s+(?:\w+ly\s+)?(?:have\s+)?{_ENDS}|"
    r"(?P<to>to)\s+(?:heal|survive|fail|succeed|recover|respond)\b|"
    r"(?P<general>heals?|survives?|fails?|succeeds?|recovers?|responds?)\b)",
    re.IGNORECASE,
    holds=("should", "ought", "will", "shall", "would", "heal", "surviv", "fail", "succe", "recover", "respond"),
).match
""" "26 of 32 eyes should heal", "26 of 32 eyes to heal", "26 of 32 eyes heal"."""
_found_so = late(
    r"\b(?:we (?:\w+ )?(?:report|find|found|show|showed|conclude|saw|had|have)|our (?:results?|data|study|series|trial|"
    r"patients|findings)|ours|here|these|results?|data|showed?|shown|shows|found|finds?|demonstrated?|saw|observed|"
    r"confirmed?|concluded?|indicated?|revealed?|fail\w* to)\b",
    re.IGNORECASE,
).search
_ends_in_did = late(r"\b(?:did|does|do)\s+(?:only\s+)?$", re.IGNORECASE).search
_is_needed = late(
    r"\b(?:needs?|needed|requires?|required|want(?:s|ed)?|wished|allow(?:s|ed)?|hop\w+ for|call(?:s|ed) for|for)\s+"
    r"(?:at least\s+|the\s+|some\s+)?$",
    re.IGNORECASE,
).search

_LAID_DOWN = (
    r"(?:(?<!passed the )(?<!reached the )(?<!met the )(?:benchmark|yardstick|(?:performance|target|treatment) goal)|"
    r"(?:stopping|decision|futility) (?:rule|boundary)(?: was crossed)?|working figure|null(?: hypothesis| value)?|"
    r"(?:the|our|a) prior|"
    r"(?:minimum|minimal|minimally|smallest|least) (?:clinically )?"
    r"(?:worthwhile|important|relevant|acceptable|useful) (?:\w+))"
)
_leads = late(
    r"\b(?:(?:we|they|it was|was|were|had|one|investigators|authors) (?:had )?"
    r"(?:hoped|reasoned|wished|wanted|stipulated|promised|forecast|foresaw|aimed)(?: (?:for|at|that))?|hop(?:es|"
    r"ing) that|"
    r"(?:protocol|plan|design|proposal|model|contract|guarantee) (?:\w+ )?(?:foresees|foresaw|stipulates|stipulated|"
    r"promises|promised|wants|wanted|sets|aims|aimed)|"
    r"(?:experts?|panel(?:lists?)?|clinicians|consultants)\b(?: \w+){0,2} (?:puts?|sets?|expects?|guess(?:ed)?|"
    r"estimated)(?: \w+){0,3} (?:at|in)|set out to (?:show|prove|demonstrate|find)|"
    r"(?:number|size|sample)(?: needed| required)? (?:was|were) (?:derived|worked out|computed) (?:from|on|for|with)|"
    r"(?:budget|plan|contract|schedule|programme) (?:allowed|allows|provided|provides) for|"
    r"(?:will|should|ought to) (?:heal|survive|fail|succeed|recover|last)(?: in| for| with)?|"
    r"simulated (?:clinic|practice|patients?|sample)|"
    r"for planning|in planning|as a working figure|"
    r"(?:sample|trial|study|groups?|arms?) (?:was|were|had been|is) (?:sized|dimensioned) (?:up)?(?:on|for)|"
    r"extrapolat(?:ing|ed) from|in theory|on paper|in principle|by the law of averages|theoretically|"
    r"(?:was|were|is) to (?:stop|close|end|run on|continue|be (?:stopped|closed|ended|abandoned|continued))"
    r"(?: (?:once|when|if|as soon as|until|unless|after))?|"
    rf"{_LAID_DOWN}(?: (?:healing|success|it|them))?(?: (?:was|is|were|of|at|for|put|set|stood|lay|fixed))*|"
    r"patients (?:were|had been|are) (?:told|informed|promised|warned) that|"
    r"informed consent(?: \w+){0,3} that)\b",
    re.IGNORECASE,
    holds=(
        "will ", "should ", "ought", "model", "simulated", "budget", "plan", "contract", "schedule", "programme",
        "derived",
        "worked out", "computed",
        "extrapolat", "hop", "reason", "wish", "want", "stipul", "promis", "forecast", "foresa", "foresee", "aim",
        "set", "expert",
        "panel", "clinicians", "consultants", "planning", "working figure", "sized", "dimensioned", "theor", "paper",
        "principle", "averages", " to stop", " to close", " to end", " to run", " to be ", " to continue", "benchmark",
        "yardstick", "goal", "rule", "boundary", "null", "prior", "worthwhile", "important", "relevant", "acceptable",
        "useful", "told", "informed", "warned",
    ),
).finditer  # fmt: skip
_follows = late(
    rf"\W{{0,2}}{_WORDS}(?:"
    r"(?:was|were|is|are|had been) (?:regarded|taken|chosen|fixed|laid down|stipulated|specified|considered|deemed|set|"
    r"thought|agreed|called|defined|judged)(?: \w+)? (?:as |to be |for |in |up)?(?:an? |the |as )*"
    r"(?:worthwhile|important|relevant|acceptable|useful|adequate|sufficient|enough|granted|standard|minimum|advance|goal|"
    r"aim|target|cut-off|limit|boundary|margin|threshold|benchmark|needed|beforehand)|"
    r"(?:was|were|is) stipulated|"
    rf"(?:was|were|is) (?:the|our|its|their) (?:{_LAID_DOWN}|(?:primary |main )?(?:target|goal))|"
    r"(?:is|are) (?:usually |often |commonly |generally )?(?:promised|expected|quoted|foretold)\b|"
    rf"a (?:fair|safe) (?:bet|guess)\b|under the null\b|(?:in|from) theory\b|for granted\b)",
    re.IGNORECASE,
    holds=(
        "worthwhile", "important", "relevant", "acceptable", "useful", "adequate", "sufficient", "enough", "granted",
        "promised", "expected", "quoted", "foretold", "bet", "guess", "standard", "minimum", "advance", "goal",
        "aim", "target", "cut-off", "limit", "boundary", "margin",
        "threshold", "benchmark", "needed", "beforehand", "stipulated", "null", "theory", "yardstick", "rule",
        "working figure", "prior",
    ),
).match  # fmt: skip
_granted = late(r"\b(?:took|taken?|taking|set|fixed) [^.;,\d]{2,40}$", re.IGNORECASE).search
_ends_in_that = late(r"\b(?:given that|provided that|on condition that|once|as soon as)\s+$", re.IGNORECASE).search
_consequence = late(r"[,;][^.;]*?\b(?:would|will|could|suffices?|need(?:s|ed)?)\b", re.IGNORECASE).match
_inverted = late(
    r"(?:Should|Had|Were)\s+(?!we\b|they\b|he\b|she\b)[^.;]*?$", holds=("should", "had", "were")
).match  # fmt: skip
_would = late(r"[^.;]*?\b(?:would|will|could)\b", re.IGNORECASE).match
_seen_between = late(
    r"\d|\b(?:but|in fact|actually|whereas|while|we (?:saw|found|had)|"
    r"(?:was|were) (?:seen|found|observed|reached|obtained|noted|recorded))\b",
    re.IGNORECASE,
).search


def unobserved(text: str, sentence: Span, at: Span) -> Span | None:
    """The words by which the number at a place is a hope, a rule, a forecast, or what is told in general; or None."""
    start, end = sentence
    found = _match_not_yet(text, at[1], end)
    if found is not None and _is_not_yet(found, text, sentence, at):
        return found.start(found.lastgroup or 0), found.end()
    for led in _leads(text, start, at[0]):
        if _seen_between(text, led.end(), at[0]) is None:
            return led.span()
    behind = _follows(text, at[1], end)
    if behind is not None and (
        not behind[0].endswith("granted") or "was" in behind[0] or _granted(text, start, at[0]) is not None
    ):
        return at[1], behind.end()
    if _inverted(text, start, at[0]) is not None and _would(text, at[1], end) is not None:
        return start, at[0]
    that = _ends_in_that(text, start, at[0])
    if that is not None and _consequence(text, text.find(",", at[1], end), end) is not None:
        return that.span()
    return None


def _is_not_yet(found: re.Match[str], text: str, sentence: Span, at: Span) -> bool:
    if found["to"]:
        return _is_needed(text, sentence[0], at[0]) is not None
    if found["modal"]:
        return True
    return _found_so(text, *sentence) is None and _ends_in_did(text, sentence[0], at[0]) is None
