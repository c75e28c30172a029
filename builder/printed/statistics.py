"""What kind of statistic a number of a passage is, by the words of its clause, row, column or heading."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from ..compiled_patterns import compiled
from ..numerals import Token
from ..numerals.late import in_small, late
from ..records import NamedTuple
from ..synthesis.rounding import is_share_of
from .clauses import Span
from .surroundings import Surroundings
from .tables import InCell

_MEASURES = late(
    r"(?P<odds>(?-i:\b[ac]?ORs?\b)|\bodds\b|\blogistic\b)|"
    r"(?P<risk>(?-i:\b[ac]?RRs?\b)|\brisk ratios?\b|\brelative risks?\b)|"
    r"(?P<hazard>(?-i:\b[ac]?HRs?\b)|(?<!proportional )\bhazards?\b(?! (?:were |was )?proportional)|\bcox\b)",
    re.IGNORECASE,
)
_OF_ESTIMATES = (
    "kaplan", "km", "product", "life", "actuarial", "aalen", "cumulative", "estimat", "survival", "probab", "chance",
    "likelihood", "censor", "survivor", "log-rank", "logrank", "greenwood", "at risk", "curve", "expected", "projected",
    "predicted", "modelled", "modeled", "model-based", "fitted", "extrapolat", "follow-up", "losses", "withdrawn",
    "last seen",
    "last visit", "last contact", "time-to-event", "expectancy", "plot", "dropouts", "drop-outs", "withdrawals",
    "observation", "until they", "cutler", "berkson", "turnbull", "breslow", "fleming",
)  # fmt: skip
_may_tell = in_small(
    r"kaplan|\bkm\b|product|life|actuarial|aalen|cumulative|estimat|survival [a-z]|probab|chance|likelihood|censor|"
    r"survivor|log-?rank|greenwood|at risk|curve|expected|projected|predicted|modell?ed|model-based|fitted|"
    r"extrapolat|follow-up|losses|"
    r"withdrawn|last (?:seen|visit|contact)|time-to-event|expectancy|cutler|berkson|turnbull|breslow|fleming|"
    r"twelvemonth|"
    r"from (?:one )?year|year by year|p\. ?a\.|"
    r"annual|yearly|\b(?:per|a|each|every|average|given|single|one) year|-years?\b|each of the|"
    r"\b(?:each|every) (?:twelve|12)|annum|/\s?y|afr|per 100|years\b",
    holds=(
        *_OF_ESTIMATES, "annual", "year", "annum", "/", "afr", "per 100", "each ", "every ",
        "twelvemonth", "p.a", "p. a",
    ),
).search  # fmt: skip
"""Any word by which a share may be no counted one."""


class Label(NamedTuple):
    """Words that say what kind of statistic a number is."""

    start: int
    end: int


_ERROR = (
    r"(?-i:\bSEM?s?\b)|\bstandard errors?(?: of the means?)?\b|\bs\.\s?e\.(?:\s?m\.)?|"
    r"\b95 ?% (?:ci|confidence interval)s? half[- ]width|\berrors? of the means?\b|\bmeans? (?:and|with|"
    r"±) (?:the(?:ir)? )?errors?\b|"
    r"\bhalf (?:of )?(?:the|a) (?:width of the )?(?:95 ?% )?confidence interval"
)
_OTHER_SPREAD = (
    r"\bvariance\b|\bcoefficient of variation\b|(?-i:\bCVs?\b)|\bmargin of error\b|\b(?:measurement|absolute|"
    r"relative) error\b|"
    r"\bprecision\b|\buncertainty\b|\b(?:95 ?% )?(?:(?-i:CI)|confidence interval)(?=\s*±)"
)
_DEVIATION = r"(?-i:\bSDs?\b)|\bstandard deviations?\b|\bs\.\s?d\."
_find_error = late(_ERROR, re.IGNORECASE).finditer
names_error = late(_ERROR, re.IGNORECASE).search
"""Whether words are those for a standard error, and not for a variance or another spread."""
_find_deviation = late(_DEVIATION, re.IGNORECASE).finditer
_ends_with_error = late(rf"(?P<label>{_ERROR}|{_OTHER_SPREAD})(?:\s+(?:of|was|is))?[\s=:,±(\[]*$", re.IGNORECASE).search
_ends_with_deviation = late(rf"(?P<label>{_DEVIATION})(?:\s+(?:of|was|is))?[\s=:,±(\[]*$", re.IGNORECASE).search
_match_error_behind = late(rf"\s*(?:mm|months?|years?|%|points?)?\s*[(\[]?\s*(?P<label>{_ERROR})", re.IGNORECASE).match
_match_deviation_behind = late(rf"\s*(?:mm|months?|years?|%|points?)?\s*[(\[]?\s*(?:{_DEVIATION})", re.IGNORECASE).match
_PREDICTION = r"(?:predicti(?:on|ve) (?:intervals?|limits?|bounds?)|(?-i:PIs?)\b)"
_SIGNS = r"[\s:=,(\[]"
_ends_in_prediction = late(
    rf"(?P<label>\b{_PREDICTION})(?:{_SIGNS}|\b(?:of|was|is|from|for|a|further|new|study|ran|went)\b)*$|"
    r"\b(?P<future>(?:future|new|further|next|another|similar) (?:study|trial|setting|centre|series) "
    r"(?:may|might|would|could|can|will|is|should)\b)[^.;\d]{0,60}$",
    re.IGNORECASE,
    holds=("predict", "pi", "future", "new ", "further", "next ", "another", "similar"),
).search
_match_prediction_behind = late(
    rf"\s*%?[\s,;(\[]*(?:\d\d(?:\.\d)? ?%\s*)?(?P<label>{_PREDICTION})(?!{_SIGNS}*(?:of |from |was )?[-−]?\d)",
    re.IGNORECASE,
    holds=("predict", "pi"),
).match

_RATE = (
    r"(?:rate|risk|incidence|failures?|loss(?:es)?|survival|success|probability|hazard|relapses?|reversals?|"
    r"mortality|deaths?|fractures?|retention|longevity|removals?)"
)
_ESTIMATE = late(
    r"\bkaplan\W{0,3}meier\b|(?-i:\bKM\b)|\bproduct[\s-]limit\b|\blife[\s-]?tables?\b|\bactuarial\w*|\bnelson\W{0,3}aalen\b|"
    rf"\bcumulative (?:[\w-]+ ){{0,2}}{_RATE}|\bestimated (?:[\w-]+ ){{0,3}}{_RATE}\b|"
    rf"\b{_RATE}s? (?:[\w-]+ ){{0,3}}estimated\b|\bestimates? of (?:the )?(?:[\w-]+ )?{_RATE}\b|"
    r"\bsurvival (?:estimate|probability|probabilities|function|curve|analysis|table)s?\b|"
    r"\bcensor\w+|\bsurvivor functions?\b|\blog-?rank (?:method|estimate)\b|\bgreenwood\b|"
    r"\b(?:still|number|left|remain(?:ed|ing)?) at risk\b|"
    r"\b(?:read|taken|estimated|derived) (?:off|from) (?:the|a|its|their) (?:[\w-]+ )?(?:curves?|plot)\b|"
    rf"\b(?:expected|projected|predicted|modell?ed|model-based|fitted|extrapolated) (?:[\w-]+ ){{0,2}}"
    rf"(?:{_RATE}|proportion|share|percentage)\b|"
    r"\b(?:allow(?:ed|ing)|account(?:ed|ing)|adjust(?:ed|ing)|correct(?:ed|ing)) for (?:the )?"
    r"(?:(?:incomplete|unequal|differ\w+|var\w+|uneven) )?(?:(?:length|duration|loss)s? (?:of|to) )?"
    r"(?:follow-up|observation|losses|withdrawals|drop-?outs)\b|"
    r"\b(?:withdrawn|leaving|removed|counted)\b[^.;]{0,40}\b(?:last (?:seen|visit|contact|recall|examin\w+)|"
    r"until they (?:left|were lost))\b|"
    r"\btime-to-event\b|\blife expectancy\b|\bcutler\W{1,3}ederer\b|\bberkson\W{1,3}gage\b|\bturnbull\b|\bbreslow\b|"
    r"\bfleming\W{1,3}harrington\b|"
    rf"\b(?:probability|chance|likelihood) of (?:[\w-]+ )?(?:surviv\w+|remaining|being|retention|{_RATE})\b",
    re.IGNORECASE,
    holds=_OF_ESTIMATES,
)
_YEARLY = late(
    rf"\b(?:annual(?:ised|ized)?|yearly) "
    rf"(?:(?!recall|review|visit|control|examination|check)[\w-]+ ){{0,3}}?{_RATE}s?\b(?: rates?)?|"
    r"\b(?:annually|yearly)\b(?! (?:recalls?|visits?|reviews?|controls?|checks?|examinations?|films?|follow|radio))|"
    r"\b(?:in|for|during) each of the (?:\d+|two|three|four|five|six|seven|eight|nine|ten) years\b|"
    r"\bfrom (?:one )?year to (?:the next|year)\b|\byear by year\b|\b(?:each|every|a) twelvemonth\b|\bp\. ?a\.|"
    r"\bper [a-z]+-years?\b|"
    r"(?-i:\bm?AFRs?\b)|\b(?:per|each|every) (?:year|annum)\b|"
    r"\b(?:in|for) (?:an average|any (?:one|given)|a (?:given|single|typical)) year\b|"
    r"\b(?:each|every) (?:twelve|12) months\b|\ba year\b(?! later| after| of| or| and)|/\s?(?:year|yr)\b|"
    r"\bper 100 (?:[\w-]+[\s-])?years?\b|\bper 100 \w+-years?\b|\b(?:person|patient|unit)[\s-]years\b",
    re.IGNORECASE,
    holds=(
        "annual",
        "yearly",
        "afr",
        "per ",
        "each ",
        "every ",
        "a year",
        "/",
        "person",
        "patient",
        "unit",
        "average",
        "given",
        "single",
        "typical",
        "any one",
        "each of",
        "from ",
        "by year",
        "twelvemonth",
        "p.a",
        "p. a",
    ),
)
_WHOLE = late(
    rf"\bcumulative (?:[\w-]+ ){{0,2}}{_RATE}|\b(?:at|after|over|within|by) (?:the )?"
    rf"(?:\d+|two|three|four|five|six|eight|ten)[\s-]years?\b|"
    rf"\b(?:\d+|two|three|four|five|six|eight|ten)-year (?:[\w-]+ ){{0,2}}{_RATE}\b",
    re.IGNORECASE,
)
_INCIDENCE = late(
    r"\bcumulative (?:[\w-]+ ){0,2}(?:incidence|failure|loss|risk|mortality)\b|\bincidence of\b|\bfailure rates?\b|"
    r"\bprobability of (?:failure|loss|fracture|relapse|reversal|death)\b",
    re.IGNORECASE,
    holds=("cumulative", "incidence", "failure", "probability"),
)
_match_gone = late(
    r"\s*%?\s*(?:\([^()]*\)\s*)?(?:of [a-z -]{0,40}?)?(?P<label>(?:had been|were|was) (?:gone|lost|no longer \w+))",
    re.I,
).match
_is_foretold = late(r"expected|projected|predicted", re.IGNORECASE).match
_FOR_ONE = frozenset({"each", "every", "per", "a", "/", "annually", "yearly", "p.a."})


class Statistics:
    """The words of one passage for kinds of statistic, and the numbers that they speak of."""

    def __init__(
        self, text: str, tokens: Sequence[Token], around: Surroundings, cells: Sequence[InCell | None]
    ) -> None:
        self.text, self.tokens, self.around, self.cells = text, tokens, around, cells

    # A spread

    def error_of(self, index: int) -> Label | None:
        """The words by which a number is a standard error and no standard deviation."""
        text, token = self.text, self.tokens[index]
        start = token.outer_start
        place = self.cells[index]
        low, high = place.cell if place is not None else (0, len(text))
        before = text[max(start - 60, low) : start]
        if _ends_with_deviation(before) or _match_deviation_behind(text, token.end, high):
            return None
        found = _ends_with_error(before)
        if found is not None:
            return Label(start - len(before) + found.start("label"), start - len(before) + found.end("label"))
        found = _match_error_behind(text, token.end, high)
        if found is not None:
            return Label(found.start("label"), found.end("label"))
        return self._error_in_heading(index)

    def _error_in_heading(self, index: int) -> Label | None:
        errors = [Label(*found.span()) for found in _find_error(self.text)]
        if not errors:
            return None
        deviations = [found.span() for found in _find_deviation(self.text)]
        place = self.cells[index]
        spans: Sequence[Span] = place.row_and_column if place is not None else ()
        for span in spans:
            inside = [said for said in errors if span[0] <= said.start < span[1]]
            others = any(span[0] <= start < span[1] for start, _ in deviations)
            if inside or others:
                return inside[0] if inside and not others else None
        return None if deviations else errors[0]

    # An interval

    def prediction_of(self, index: int) -> Label | None:
        """The words by which the interval that begins here is where a further study would lie."""
        text, token = self.text, self.tokens[index]
        start = token.outer_start
        found = _ends_in_prediction(text, max(start - 60, 0), start)
        if found is None and token.pair >= 0:
            found = _match_prediction_behind(text, self.tokens[token.pair].end)
        if found is None:
            return None
        name = "future" if found.groupdict().get("future") else "label"
        return Label(*found.span(name))

    # Ratios

    def measure_of(self, index: int) -> tuple[str, Label] | None:
        """The measure that the words around a ratio name, "odds ratio", where they name one alone."""
        place, start = self.cells[index], self.tokens[index].start
        spans: Sequence[Span] = (self.around.clause(start), self.around.sentence(start))
        if place is not None:
            spans = place.everywhere
        for span in spans:
            found = {f"{match.lastgroup} ratio": Label(*match.span()) for match in _MEASURES.finditer(self.text, *span)}
            if found:
                return next(iter(found.items())) if len(found) == 1 else None
        return None

    def measure_in(self, spans: Sequence[Span]) -> tuple[str, Label] | None:
        """The one measure that these slices name, those beside a ratio of several."""
        found = {
            f"{match.lastgroup} ratio": Label(*match.span())
            for span in spans for match in _MEASURES.finditer(self.text, *span)
        }  # fmt: skip
        return next(iter(found.items())) if len(found) == 1 else None

    # Shares

    def may_tell(self) -> bool:
        """Whether any share of the passage may be no counted one."""
        return _may_tell(self.text) is not None

    def estimate_of(self, index: int) -> Label | None:
        """The words by which a share is an estimate from times, and no count of units."""
        start = self.tokens[index].start
        for said in self._said(_ESTIMATE, index):
            # "The expected share was 90%, but 81% were kept"
            if not (_is_foretold(self.text, said.start) and self._share_between(said.end, start)):
                return said
        return None

    def yearly_of(self, index: int) -> Label | None:
        """The words by which a share is one of each year."""
        text, token = self.text, self.tokens[index]
        behind = _match_per_year(text, max(token.end, token.outer_end))
        if behind is not None:
            return Label(behind.start("label"), behind.end("label"))
        for said in self._said(_YEARLY, index):
            if not self._is_of_something_else(said, index):
                return said
        return None

    def _is_of_something_else(self, said: Label, index: int) -> bool:
        """ "3.3% failed (annual failure 0.6%)", "0.6% per year, 3.3% in all", "seen every year"."""
        text = self.text
        if text[said.start : said.end].split()[0].lower() in _FOR_ONE:
            return (
                self._has_other_before(said, index)
                or _ends_in_seen(text[max(said.start - 40, 0) : said.start]) is not None
            )
        if said.start < self.tokens[index].end:
            return False
        return any(0 <= other.start - said.end < 30 and self._is_share(other) for other in self.tokens)

    def whole_of(self, index: int) -> Label | None:
        """The words by which a share is one of several years together."""
        return self._nearest(_WHOLE, index)

    def incidence_of(self, index: int) -> Label | None:
        """The words by which a share is one of those that had the event."""
        token = self.tokens[index]
        gone = _match_gone(self.text, max(token.end, token.outer_end))
        return Label(*gone.span("label")) if gone is not None else self._nearest(_INCIDENCE, index)

    def is_share_of_counts(self, index: int) -> Label | None:
        """The "104 of 120" of the number's own sentence whose share it is."""
        token = self.tokens[index]
        low, high = self.around.sentence(token.start)
        for other in self.tokens:
            if other.part != "events" or not low <= other.start < high:
                continue
            total = self.tokens[other.pair]
            if is_share_of(token.value, token.decimals, other.value, total.value):
                return Label(*sorted((other.start, other.end, total.start, total.end))[::3])
        return self._of_counts_apart(index, (low, high))

    def _of_counts_apart(self, index: int, sentence: Span) -> Label | None:
        """ "Of 120 eyes seen at 6 years, 104 (87%) were in place": a count beside the share, and its whole before."""
        token, counts = self.tokens[index], (index - 1, index + 1)
        for count in (self.tokens[at] for at in counts if 0 <= at < len(self.tokens)):
            low, high = sorted((token, count), key=lambda each: each.start)
            gap = self.text[max(low.end, low.outer_end) : high.start]
            if count.kind not in ("count", "number") or count.decimals or count.part or not _is_beside_share(gap):
                continue
            before = self.around.sentence(sentence[0] - 2)[0] if _takes_up(self.text, *sentence) else sentence[0]
            for whole in self.tokens:
                is_there = before <= whole.start < sentence[1] and whole.kind in ("count", "number")
                if not is_there or whole.decimals or whole.value <= count.value:
                    continue
                if is_share_of(token.value, token.decimals, count.value, whole.value):
                    return Label(min(whole.start, low.start), max(whole.end, high.end))
        return None

    def _nearest(self, pattern: re.Pattern[str], index: int) -> Label | None:
        return next(self._said(pattern, index), None)

    def _said(self, pattern: re.Pattern[str], index: int) -> Iterator[Label]:
        """What a pattern finds that speaks of a number: in its cell, row or column; or in its clause, before it, or
        behind it where no other share stands between."""
        place = self.cells[index]
        if place is not None:
            for span in place.everywhere:
                if span == place.cell or not any(
                    span[0] <= token.start < span[1] and self._is_share(token) for token in self.tokens
                ):
                    yield from (Label(*found.span()) for found in pattern.finditer(self.text, *span))
            return
        token = self.tokens[index]
        low, high = self._stretch(index)
        for found in pattern.finditer(self.text, low, high):
            said = Label(*found.span())
            if said.end <= token.start and self._closed_before(said, token.start):
                continue
            if said.end <= token.start or not self._share_between(token.end, said.start):
                yield said

    def _stretch(self, index: int) -> Span:
        """The clause of a number; where it holds no letter of its own, the sentence."""
        start = self.tokens[index].start
        bracket = self.around.bracket(start)
        clause = self.around.clause(start)
        sentence = self.around.sentence(start)
        low = clause[0]
        while low > sentence[0] and not _has_word(self.text, low, start):
            low = self.around.clause(low - 1)[0]
        return (low, bracket[1]) if bracket is not None and bracket[0] >= low else (low, clause[1])

    def _closed_before(self, said: Label, start: int) -> bool:
        """Whether the words stand in brackets that are closed before the number."""
        bracket = self.around.bracket(said.start)
        return (
            bracket is not None
            and bracket[1] <= start
            and any(bracket[0] < token.start < bracket[1] for token in self.tokens)
        )

    def _share_between(self, low: int, high: int) -> bool:
        return any(low <= token.start < high and self._is_share(token) for token in self.tokens)

    def _has_other_before(self, said: Label, index: int) -> bool:
        """Whether another share stands straight before "per year"."""
        token = self.tokens[index]
        return any(
            self._is_share(other) and other is not token and 0 <= said.start - other.end < 30 for other in self.tokens
        )

    def _is_share(self, token: Token) -> bool:
        return token.kind == "percent" and token.part not in ("low", "high")


_ends_in_seen = late(
    r"\b(?:seen|recalled|examined|checked|visited|reviewed|called|followed|films?|radiographs?|recalls?|visits?|"
    r"controls?|monitored|assessed|invited)\s+(?:\w+\s+)?$",
    re.IGNORECASE,
).search
_match_per_year = late(
    r"\s*(?:%|per cent|percent)?\s*(?:of (?:the )?[\w-]+ )?"
    r"(?P<label>per (?:year|annum)|p\. ?a\.|a year\b|each year|every year|annually|yearly|/\s?(?:years?|yr|y|a)\b|"
    r"per 100 [\w-]+[\s-]years)",
    re.IGNORECASE,
    holds=("per ", "year", "annual", "/", "p.a", "p. a"),
).match
_is_beside_share = compiled(r"[\s~]*(?:[a-z]+[\s~]+){0,2}[(\[,:;–-]?[\s~]*(?:or[\s~]+)?", re.IGNORECASE).fullmatch
_takes_up = compiled(r"\s*(?:(?:out )?of|among) (?:these|them|those|which)\b", re.IGNORECASE).match
_has_word = late(r"[A-Za-z]{4,}").search
