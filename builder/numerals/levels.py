"""Levels of confidence in words of their own: "90% credible interval", "BCI 90%", "at a confidence level of 90%"."""

from __future__ import annotations

import re
from decimal import Decimal

from ..compiled_patterns import compiled
from .forms.pairs import make_confidence
from .kinds import Kind
from .late import holds_any, in_small, late
from .printed import Numeral, Printed

_SHORT = r"[bs]?cis?|c\.\s?i\.|cri?s?|c\.?l\.?s?|hp?dis?|hpdr?s?|hdrs?|int\.?|conf\.?"
_NAMES = rf"(?:{_SHORT}|confiden(?:ce|t)|credib(?:le|ility)|compatibility|intervals?|limits?|bounds?|certainty)"
_SURE_NAMES = r"(?:[bs]?cis?|c\.\s?i\.|cris?|hp?dis?|hpdr?s?|hdrs?|conf\.|confidence|credib(?:le|ility))"
_SIGN = r"(?:[\s~$}]*+\\?[%％]|[\s~-]{0,3}per[\s-]?cent(?:age)?)"
_GAP = r"[\s~$}-]{0,9}"

_NAMES_HOLD = (
    "ci", "c.", "cr", "cl", "hd", "hpd", "int", "conf", "compat", "limit", "bound", "certain", "level", "cover", "band",
    "bars", "whisk",
)  # fmt: skip
"""Few shares stand beside any of them."""
_find_names = in_small(rf"\b{_NAMES}(?![a-z])|\blevels?\b|\bcoverage\b|\bbands?\b|\bbars\b|\bwhiskers\b").search
_find_intervals = late(r"\b(?:confidence|credib\w+|intervals?|limits?|[bs]?cis?)\b", re.IGNORECASE).search
_match_coverage = late(
    rf"{_GAP}(?:(?P<coverage>coverage)\b(?!\s+(?:of|by|for|with|in)\b)|range\s+of\s+confidence\b)",
    re.IGNORECASE,
    holds=("coverage", "range"),
).match
_ends_in_range = late(r"\d\s*[%％]?\s*(?:to|and|[-–—−,])\s*\d[\d.]*\s*[%％]?\s*[,;]\s*\Z").search
_ends_in_coverage = late(
    r"\b(?:intervals?|limits?)\s+(?:all\s+)?(?:cover|covers|covering|covered)\s+\Z|"
    r"\bintervals?\b[^.;]{0,40}\bcoverage(?:\s+(?:of|was|is|set at|at))?[\s:=]{1,3}\Z|"
    r"\d\s*[%％]?\s*[,;]\s*coverage(?:\s+of)?[\s:=]{1,3}\Z",
    re.IGNORECASE,
    holds=("cover",),
).search
_ends_in_intervals = late(r"\bintervals?\s+(?:of|at|with)\s+\Z", re.IGNORECASE, holds=("interval",)).search
_is_said_of_intervals = late(
    r"\s*(?:(?:were|was|are|is)\s+(?:\w+ly\s+)?(?:computed|calculated|given|reported|shown|estimated|used|quoted|"
    r"constructed|obtained|presented)|coverage|confidence)\b",
    re.IGNORECASE,
).match
_match_sign = compiled(_SIGN, re.IGNORECASE).match
_match_name = compiled(
    rf"{_GAP}(?:(?P<words>(?:[a-z]++(?:-[a-z]++)*+[\s~-]{{1,9}}){{0,3}}?){_NAMES}|level(?:\s+of\s+confidence)?)(?![a-z])"
    r"(?!\s+of\s+agreement)",
    re.IGNORECASE,
).match
"""Behind a level: what it is the level of, up to three words between."""
_match_sure_name = late(rf"{_GAP}{_SURE_NAMES}(?![a-z])", re.IGNORECASE).match
_BANDS = r"(?:bands?|envelopes?|(?:error[\s~-]+)bars|whiskers)"
_match_bands = late(
    rf"[\s~-]{{1,3}}(?:(?:pointwise|point-wise|simultaneous|shaded|dashed|dotted|grey|gray|uncertainty|error)[\s~-]+)*"
    rf"{_BANDS}\b(?=[\s~]*(?:[.,;:()\[\]|\n]|\Z|(?:for|of|around|about|in brackets|behind|below|are|were)\b))",
    re.IGNORECASE,
    holds=("band", "envelope", "bars", "whisk"),
).match
"""Of a drawing, as its legend has them: "survival with 90% bands", no "90% bands retained" of an appliance."""
_ends_in_bands = late(
    rf"\b(?:(?:shaded|dashed|dotted|grey|gray|pointwise|uncertainty|error)[\s~-]+{_BANDS}|error[\s~-]+bars|"
    rf"whiskers)[\s~]*(?:[:=,(\[]|are|were|is|was|show|shows|give|gives|mark|marks|at|of|cover|covers|reach)?[\s~(]*\Z",
    re.IGNORECASE,
    holds=("shaded", "dashed", "dotted", "gr", "pointwise", "uncertainty", "error", "whisk"),
).search
_LINKS = (
    "levels?|intervals?|limits?|bounds?|int\\.|coefficient|coverage|was|were|is|are|all|set|fixed|at|to|of|an?|the|with|"
    "as|calculated|computed|estimated|given|reported|shown|quoted|presented|used|chosen|taken"
)
_find_name_before = late(
    rf"\b{_SURE_NAMES}(?:[\s~-]{{1,9}}(?:{_LINKS})\b\.?){{0,8}}(?P<sign>[\s~]{{0,9}}[:=,(\[]?[\s~$]{{0,9}})\Z",
    re.IGNORECASE,
    holds=("ci", "c.", "cri", "hd", "hp", "conf", "credib"),
).search
_BEFORE = 80
"""Characters before a level in which its word is looked for."""
_match_number = late(r"[\s~$]{0,9}[(\[]?[\s~$]{0,9}(?:to|and|-+|[–—−,;])?[\s~$]{0,9}[(\[]?\s?[.·−-]?\d").match
_match_end_of_range = late(r"[\s~$]{0,9}(?:to|and|-+|[–—−,;])[\s~$]{0,9}[.·−-]?\d", re.IGNORECASE).match

_ends_in_alpha = late(
    r"(?:\balpha\b|\\alpha\b|α)[\s~$}]{0,3}(?:(?:levels?|errors?|risk|value)\s+)?"
    r"(?:(?:was|is|being|set|fixed|kept|held|at|of)\s+){0,3}(?:=\s?|:\s?)?[\s~$]{0,3}\Z",
    re.IGNORECASE,
).search
_find_limits = late(
    r"\b(?:confidence|credible|intervals?|limits?|bounds?|[bs]?cis?|cris?|c\.\s?i\.)(?![a-z])", re.IGNORECASE
).search
_leads_to_limits = late(
    r"[\s~$}%]{0,3}[()\[\],:;]?\s*(?:(?:the|an?|two-sided|its|profile|likelihood|with)\s+){0,2}"
    r"(?:confidence|credible|intervals?|limits?|bounds?|ci|c\.\s?i\.)(?![a-z])",
    re.IGNORECASE,
).match
_split_sentences = late(r"\n|[.!?]\s+(?=[A-Z])").split

_FIFTH, _HALF, _ONE, _FIFTY, _HUNDRED = Decimal("0.2"), Decimal("0.5"), Decimal(1), Decimal(50), Decimal(100)
_OTHER_INTERVALS = frozenset({
    "prediction", "predictive", "reference", "tolerance", "agreement", "interquartile", "normal", "recall", "time",
    "range", "follow-up", "age", "safety", "legal", "upper-normal",
})  # fmt: skip
_SENTENCE = frozenset({
    "with", "and", "or", "of", "in", "at", "to", "for", "from", "by", "on", "were", "was", "is", "are", "be", "had",
    "have", "has", "within", "than", "not", "no", "who", "which", "that", "when", "after", "before", "during",
    "between", "as", "but", "while", "per", "versus", "vs", "using", "without", "inside", "outside", "under", "over",
    "above", "below", "met", "passed", "exceeded", "reached", "showed", "kept",
})  # fmt: skip
"""Words that lead from a share to something else: "90% were within limits"."""
_MAY_DESCRIBE = frozenset({Kind.ADJECTIVE, Kind.CI})


def read_levels(printed: Printed) -> None:
    """Make a level of each percentage of 50 to below 100 that a word of confidence or credibility stands beside.

    What has a place in a form already stays what it is there. A share of what was counted, "90% healed", is no level.
    """
    text = printed.text
    if "lpha" in text or "α" in text:
        _read_alphas(printed)
    if not holds_any(text.lower(), _NAMES_HOLD):
        return
    candidates = [numeral for numeral in printed.numerals if _may_be_level(numeral)]
    if not candidates or _find_names(text) is None:
        return
    for numeral in candidates:
        sign = _match_sign(text, numeral.end)
        if sign is None and numeral.value > 1:
            continue
        end = sign.end() if sign else numeral.end
        if _is_named_behind(printed, numeral.start, end, is_bare=sign is None) or _is_named_before(
            text, numeral.start, end
        ):
            make_confidence(numeral)


def _read_alphas(printed: Printed) -> None:
    """Make a level of 90% of ".10" where an alpha stands beside its interval: "limits 81% and 93%, alpha = 0.10"."""
    text = printed.text
    for numeral in printed.numerals:
        if numeral.is_destroyed or not 0 < numeral.value <= (20 if numeral.unit == "%" else _FIFTH):
            continue
        before = text[max(numeral.start - _BEFORE, 0) : numeral.start]
        named = _ends_in_alpha(before)
        if named is None or numeral.part in ("low", "high"):
            continue
        clause = _split_sentences(before[: named.start()])[-1]
        if _find_limits(clause) is None and _leads_to_limits(text, numeral.end) is None:
            continue
        share = numeral.value if numeral.unit == "%" else numeral.value.scaleb(2)
        numeral.value, numeral.decimals = _HUNDRED - share, max(-int(share.normalize().as_tuple().exponent), 0)
        make_confidence(numeral)


def _may_be_level(numeral: Numeral) -> bool:
    value = numeral.value
    if numeral.form or numeral.mate is not None or numeral.share is not None or numeral.is_destroyed:
        return False
    return _FIFTY <= value < _HUNDRED or (numeral.unit == "none" and _HALF <= value < _ONE)


def _is_named_behind(printed: Printed, start: int, end: int, *, is_bare: bool) -> bool:
    """ "90% simultaneous confidence intervals". is_bare: without a sign, as "0.90 CrI"."""
    if is_bare:
        return _match_sure_name(printed.text, end) is not None
    if _match_bands(printed.text, end) is not None:
        return True
    coverage = _match_coverage(printed.text, end)
    if coverage is not None:
        before = printed.text[max(start - _BEFORE, 0) : start]
        return not coverage["coverage"] or bool(_find_intervals(before) or _ends_in_range(before))
    found = _match_name(printed.text, end)
    if found is None:
        return False
    words = (found["words"] or "").lower().split()
    meanings = printed.lexicon.word_meanings
    stands_for = printed.lexicon.all_roles
    for word in words:
        plain = word.strip("~-")
        if plain in _OTHER_INTERVALS or plain in _SENTENCE:
            return False
        kind, _ = meanings.get(plain, ("", ""))
        if kind and kind not in _MAY_DESCRIBE and stands_for.get(plain) not in ("adjusted", "crude"):
            return False
    return True


def _is_named_before(text: str, start: int, end: int) -> bool:
    """ "CI (90%)", "confidence intervals were set at 90%"; but in "CI 70% to 91%" it is the end of an interval."""
    before = text[max(start - _BEFORE, 0) : start]
    if _ends_in_bands(before) and not _match_number(text, end):
        return True
    if _ends_in_coverage(before) or (_ends_in_intervals(before) and _is_said_of_intervals(text, end)):
        return True
    found = _find_name_before(before)
    if found is None or (_match_end_of_range(text, end) and "," not in text[end : end + 4]):
        return False
    is_parted = any(sign in found["sign"] for sign in ":,")
    return not (is_parted and _match_number(text, end))
