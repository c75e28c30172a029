"""Which of two names a ratio of a passage is for and which it is against, by the words and the layout around it."""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import pairwise

from ..compiled_patterns import compiled
from ..numerals import Token
from ..numerals.late import holds_any, late
from ..records import NamedTuple
from .clauses import Span, brackets
from .surroundings import Surroundings
from .tables import InCell
from .wordings import Mention


class Compared(NamedTuple):
    """What a passage says a ratio compares."""

    level: str
    """The name it is for; "" where only the other is told."""
    reference: str
    """The name it is against; "" where only the other is told."""
    words: tuple[Span, ...]
    is_by_side: bool = False
    """True where "higher in A than in B" says it, and which of them the ratio is for follows from its own side."""


class Side(NamedTuple):
    """More or less of an event with one name than with another."""

    subject: str
    other: str
    """ "" where it is not named."""
    is_more: bool
    start: int
    end: int


_VERSUS = (
    r"against|versus|vs\b\.?|v\.|v(?=\s)|(?:as |when |if )?compared (?:with|to|against)|relative to|"
    r"(?:in|by) (?:comparison|contrast) (?:with|to)|outperformed|surpassed|exceeded|"
    r"as opposed to|in relation to|(?:above|below|beyond) (?:that|those) of|rather than|instead of|"
    r"(?:times|twice|double|half|(?:two|three|four|five)[\s-]?(?:fold|times)|\w+-fold|fold) "
    r"(?:the |that )?(?:[a-z]+ ){0,3}(?:of|as|in|for|with)|"
    r"(?:(?:thirds?|quarters?|fifths?|sixths?|tenths?|percent|per cent)\b|\d+(?:\.\d+)? ?%) "
    r"(?:(?:of )?(?:the )?(?:(?:relative|annual|yearly) )?(?:rates?|risks?|odds|hazards?|chances?|probability|"
    r"likelihood|incidence|frequency) (?:of|for|in)|(?:of )?(?:that|those) (?:of|for|in)|"
    r"as (?:often|likely|frequently|many|much)(?: to [a-z]+)?(?: as)?)"
)
_versus = late(rf"\b(?:{_VERSUS})(?:\s|$)", re.IGNORECASE)
_leads_to_reference = late(
    r"\b(?:against|versus|vs\.?|(?:as |when |if )?compared (?:with|to|against)|relative to|"
    r"(?:in|by) (?:comparison|contrast) (?:with|to)|as opposed to|unlike|than)\s+(?:[a-z]+\s+){0,4}$",
    re.IGNORECASE,
).search
_than = late(
    r"(?<!rather )(?<!other )(?<!later )\bthan\b(?!\s+\d)|(?<=superior )to\b|(?<=inferior )to\b", re.IGNORECASE
)
_more = late(
    r"\b(?P<more>more|higher|greater|larger|increased|raised|elevated|longer|faster|sooner|oftener|likelier|better|superior|"
    r"rose|excess)\b|"
    r"\b(?P<less>less|lower|fewer|smaller|reduced|decreased|shorter|slower|rarer|seldom|worse|poorer|inferior|halved)\b",
    re.IGNORECASE,
)
JUDGED = {"better": "good", "superior": "good", "worse": "bad", "poorer": "bad", "inferior": "bad"}
"""Words that say of themselves whether more of it is good: "worse" is more of the bad."""
_denied = late(
    r"\b(?:not|no|nor|neither|never|without|similar\w*|same|equal\w*|comparable|unless)\b"
    r"(?!\s(?:(?:any|been|yet|further)\s)?(?:adjust|correct|covaria|confounder|controll|allow|given|reported))",
    re.IGNORECASE,
).finditer
_next_clause = compiled(r"[,)]\s+(?:and|but|which|while|whereas|although|though)\s").search
""" "OR 1.58, and the result did not change when two studies were left out"."""
_REFERENCE = r"(?:the\s+)?(?:reference|referent|ref\b\.?|comparator\b|baseline (?:group|category|level))"
_reference_behind = late(
    r"\s*(?:[a-z]+)?\s*(?:"
    rf"(?:as|being|was|served as|used as|taken as)\s+{_REFERENCE}(?![^\S\n]*(?:=|was\b|is\b|were\b|[A-Za-z]))|"
    r"[|:,;(\[=]*\s*(?:(?:OR|HR|RR)\s*)?(?:1(?:[.,·]0+)?\s*[|,;:(\[]*\s*)?"
    rf"(?:as\s+|was\s+|were\s+|is\s+|being\s+|used\s+|served\s+|serving\s+|taken\s+|set\s+)*{_REFERENCE}"
    r"(?![^\S\n]*(?:group|category|level|class|material)?[^\S\n]*(?:[:=]|was\b|is\b|were\b|[A-Za-z]))|"
    r"(?:was |were |is |being )?(?:taken as|set (?:at|to)|fixed at|equal to)\s*(?:1|one|unity)\b|"
    r"(?:to|at|as) (?:1[.,]0+|unity)\b)",
    re.IGNORECASE,
    holds=(
        "ref", "comparator", "baseline", "taken as", "set at", "set to", "fixed at", "equal to", "unity", " 1.0",
        " 1,0",
    ),
).match  # fmt: skip
_reference_before = late(
    r"\b(?:reference|referent|ref\.?)(?:\s+(?:category|group|level|class|material))?[^\S\n]*(?:was|is|were|are|being|[=:,])?[^\S\n]*"
    r"(?:[a-z]+[^\S\n]+){0,3}$",
    re.IGNORECASE,
    holds=("ref",),
).search
_is_one = late(
    r"(?:\s*|(?:\s+[a-z]+)?\s*[|:=,(]+\s*)(?:(?:OR|HR|RR|odds ratio|hazard ratio|risk ratio)\s*[=:]?\s*)?"
    r"1(?:[.,·]0+)?(?![.,·]\d)\s*(?=[|;,)\n(]|$|\.\s)"
).match
_for = late(r"[\d.,·]+\s*(?:\([^()]*\)\s*)?(?:for|with|in)\s+(?:the\s+)?").fullmatch
_measure_for = late(r"\b(?:ratio|odds|hazard|ORs?|HRs?|RRs?)\s+(?:of [a-z]+ )?(?:for|of|with|in)\s+(?:the\s+)?$").search
_ends_a_sentence = compiled(r"(?:(?<!\bv)(?<!\bvs)\.|;)\s|\n", re.IGNORECASE).search
_NEXT = 12
"""Characters between a name and its ratio: "OR for A was 0.4"."""
names_states_turned = late(
    r"[\s:,(=\[]*(?:absen(?:t|ce)|no|none|not present|without|negative|0)\s*"
    r"(?:versus|vs?\b\.?|against|compared with|/|to)\s*"
    r"(?:present|presence|yes|some|any|with|positive|1)\b",
    re.IGNORECASE,
).match
"""Behind the name of what an eye may have: "lesion (absent v present)" is for those without it."""
_over = late(r"\s*over\s+(?:the\s+)?", re.IGNORECASE).fullmatch
_slash = late(r"\s*[/:]\s*").fullmatch
_names_a_measure = late(
    r"\b(?:ratio|difference|ORs?|HRs?|RRs?|[Rr]elative risk)\s*(?:(?:of|for)\s+[a-z]+\s*|\([a-z ]+\)\s*)?[(:,]?\s*$"
).search
_ratio_of = late(r"\b(?:ratio|odds|risk|hazard|difference)s?\s+(?:of|for|in)\s+(?:the\s+)?$", re.IGNORECASE).search
_favours = late(
    r"\b(?:favou?r(?:s|ing|ed)?|in favou?r of|to the (?:advantage|benefit) of|"
    r"(?:advantage|superiority|benefit) (?:of|for|to|with))"
    r"\s+(?:the\s+)?$",
    re.IGNORECASE,
).search
_protective = late(r"\bprotective\b", re.IGNORECASE)
_as_with = late(r"\s*(?:[a-z]+\s+)?as\s+(?:(?:with|in|after|for|on|by|among)\s+)?(?:the\s+)?", re.IGNORECASE).fullmatch
_as_much = late(
    r"\b(?:as|times)\s+(?:as\s+)?(?:high|likely|often|great|large|many|much|frequent\w*)\b", re.IGNORECASE
).search
""" "1.9 times as high with A as with B"."""
_minus = late(r"\s*(?:minus|less|[-\u2212\u2013])\s*", re.IGNORECASE).fullmatch
_to = late(r"\s*(?:[a-z]+)?\s*to\s+(?:the\s+)?(?:group)?\s*", re.IGNORECASE).fullmatch
COMPARES = late(
    rf"\b(?:{_VERSUS}|than|favou?r\w*|referen(?:ce|t)|ref\b|protective|minus)(?:\b|\s)|\((?:ref|reference)\.?\)",
    re.IGNORECASE,
)
"""Any word of comparison."""


_goes_on = late(
    r"\b(?:fell|rose|dropped|shrank|changed|became|remained|decreased|increased|attenuated|strengthened|weakened|went|"
    r"stayed|held|adjust\w+|controll\w+|accounting|allowing|multivaria\w+|unadjusted|crude|univaria\w+|"
    r"corresponding|overall|pooled|combined|in total|in all|ours?|here|present|this (?:series|study|cohort|trial)|"
    r"the (?:odds|risk|hazard|rate|relative) (?:ratio|risk)|the (?:OR|RR|HR|ratio|estimate|effect)|sub-?groups?|"
    r"restrict\w+|sensitivity|excluding|leaving out)\b",
    re.IGNORECASE,
)
""" "After adjustment the odds ratio fell to 1.58": of the same levels as the crude one before it."""


class Region(NamedTuple):
    """A slice of a passage that speaks of a ratio, with the names in it and the other ratios."""

    start: int
    end: int
    value: int
    """Where the ratio itself stands; -1 where it stands elsewhere."""
    mentions: tuple[Mention, ...]
    others: tuple[int, ...]
    """Where other ratios stand."""


def may_be_ratio(token: Token) -> bool:
    """Whether a number may be a ratio, by how it is printed."""
    if token.part or token.value == 1:
        return False
    return token.kind == "ratio" or (token.kind == "number" and token.decimals > 0 and not token.comparator)


def _means_against(gap: str, lead: str) -> bool:
    """Signs and small words between two names: "A - B", "A over B", "ratio of A to B", "HR (A/B)"."""
    if _minus(gap) or _over(gap) or (_as_with(gap) and _as_much(lead)):
        return True
    return bool((_to(gap) and _ratio_of(lead)) or (_slash(gap) and _names_a_measure(lead)))


class Comparisons:
    """What one passage says its ratios compare. mentions: where it has the names."""

    def __init__(self, text: str, tokens: Sequence[Token], around: Surroundings, mentions: Sequence[Mention]) -> None:
        self.text, self.tokens, self.around = text, tokens, around
        self.mentions = [mention for mention in mentions if mention.key]
        self._may_favour = holds_any(text.lower(), ("favo", "advantage", "superiority", "benefit", "protective"))

    def regions(self, index: int, cell: InCell | None) -> list[Region]:
        """Where to look for what a ratio compares, the nearest first."""
        start = self.tokens[index].start
        if cell is not None:
            row = self.around.sentence(start)
            spans = [cell.cell, row, *cell.everywhere, *cell.stubs]
        else:
            spans = [self.around.clause(start), self.around.sentence(start)]
        found = [self._region(span, index) for span in dict.fromkeys(spans)]
        if cell is None and not found[-1].mentions:  # "A against B. Failure: OR 0.4"
            before = self._region((0, found[-1].start), index)
            if not before.others:
                found.append(before)
            elif _goes_on.search(self.text, found[-1].start, found[-1].end):
                found += self._last_named(found[-1].start, index)
        return found

    def _last_named(self, start: int, index: int) -> list[Region]:
        """The last sentence before a place that has a name."""
        before = (span for span in reversed(self.around.sentences) if span[1] <= start)
        regions = (self._region(span, index) for span in before)
        return [region for region in regions if region.mentions][:1]

    def _region(self, span: Span, index: int) -> Region:
        low, high = span
        start = self.tokens[index].start
        return Region(
            low,
            high,
            start if low <= start < high else -1,
            tuple(mention for mention in self.mentions if low <= mention.start < high),
            tuple(
                token.start
                for at, token in enumerate(self.tokens)
                if low <= token.start < high and at != index and may_be_ratio(token)
            ),
        )

    # What a region says

    def compared(self, region: Region, *, is_above_none: bool | None) -> Compared | None:
        """What the words of a region say. is_above_none: on which side of no difference the ratio lies, None on
        neither."""
        pairs = [pair for pair in self._pairs(region, is_above_none) if self._speaks_of(pair.words, region)]
        if pairs:
            return self._nearest(pairs, region)
        references = self._references(region)
        if references:
            keys = {mention.key for mention in references}
            if len(keys) > 1:
                return None
            reference = references[0]
            level = self._beside(region, reference.key)
            words = [(reference.start, reference.end)]
            if level is not None:
                words.insert(0, (level.start, level.end))
            return Compared(level.key if level is not None else "", reference.key, tuple(words))
        level = self._called(region)
        return None if level is None else Compared(level.key, "", ((level.start, level.end),))

    def _called(self, region: Region) -> Mention | None:
        """The name straight behind or before a ratio: "OR 0.4 for A", "OR for A 0.4"."""
        if region.value < 0 or len({mention.key for mention in region.mentions}) < 2:
            return None
        for mention in region.mentions:
            if mention.start > region.value and _for(self.text, region.value, mention.start):
                return mention
            lead = self.text[max(mention.start - 40, region.start) : mention.start]
            if mention.end <= region.value <= mention.end + _NEXT and _measure_for(lead):
                return mention
        return None

    def named_alone(self, region: Region) -> Mention | None:
        """The name that stands alone in a region beside the ratio: "residents RR 2.1"."""
        own = self._own_mentions(region)
        keys = {mention.key for mention in own}
        return own[-1] if len(keys) == 1 else None

    def _own_mentions(self, region: Region) -> list[Mention]:
        """Names between the ratio before and the ratio behind; those before this one where there are any."""
        if region.value < 0:
            return list(region.mentions)
        low = max((at for at in region.others if at < region.value), default=region.start)
        high = min((at for at in region.others if at > region.value), default=region.end)
        inside = [mention for mention in region.mentions if low <= mention.start < high]
        before = [mention for mention in inside if mention.start < region.value]
        return before if before and region.others else inside

    def _speaks_of(self, words: Sequence[Span], region: Region) -> bool:
        """Whether no other ratio stands between these words and this one."""
        if region.value < 0 or not region.others:
            return True
        low, high = min(start for start, _ in words), max(end for _, end in words)
        if high <= region.value:
            return not any(high <= at < region.value for at in region.others)
        return not any(region.value < at <= low for at in region.others)

    def _nearest(self, pairs: list[Compared], region: Region) -> Compared:
        before = [pair for pair in pairs if pair.words[-1][1] <= region.value]
        return before[-1] if before else pairs[0]

    def _pairs(self, region: Region, is_above_none: bool | None) -> list[Compared]:
        found: list[Compared] = []
        mentions = region.mentions
        for first, second in pairwise(mentions):
            if first.key == second.key:
                continue
            gap = self._gap(first.end, second.start)
            words = ((first.start, second.end),)
            lead = self.text[max(first.start - 60, region.start) : first.start]
            if _ends_a_sentence(gap):
                continue
            if _leads_to_reference(lead) and not _than.search(gap):
                # "Compared with B, A healed more often"
                found.append(Compared(second.key, first.key, words))
            elif _than.search(gap):
                if is_above_none is not None:  # "higher in A than in B": `sides` tells which, by the ratio's own side
                    found.append(Compared(first.key, second.key, words, is_by_side=True))
            elif _versus.search(gap) or _means_against(gap, lead):
                found.append(Compared(first.key, second.key, words))
        return found

    def _gap(self, low: int, high: int) -> str:
        """The words between two names, brackets between them left out."""
        parts, at = [], low
        for start, end in brackets(self.text, low, high):
            parts.append(self.text[at:start])
            at = end
        return " ".join((*parts, self.text[at:high]))

    def _references(self, region: Region) -> list[Mention]:
        """Names that the region calls the reference."""
        found = []
        for mention in region.mentions:
            before = self.text[max(mention.start - 60, region.start) : mention.start]
            is_reference = (
                _reference_behind(self.text, mention.end, region.end)
                or _reference_before(before)
                or _leads_to_reference(before)
                or (region.value >= 0 and _is_one(self.text, mention.end, region.end))
            )
            if is_reference:
                found.append(mention)
        return found

    def _beside(self, region: Region, reference: str) -> Mention | None:
        """The name nearest to the ratio that is not the reference."""
        others = [mention for mention in self._own_mentions(region) if mention.key != reference]
        if region.value >= 0:
            behind = (
                mention for mention in region.mentions
                if mention.key != reference and _for(self.text, region.value, mention.start)
            )  # fmt: skip
            if named := next(behind, None):  # "1.9 for the second and 4.6 (2.5 to 8.4) for the third"
                return named
            before = [mention for mention in others if mention.end <= region.value]
            return before[-1] if before else others[0] if others else None
        return others[0] if len({mention.key for mention in others}) == 1 else None

    # Which side

    def sides(self, region: Region) -> list[Side]:
        """ "higher in A than in B", "more failures with A": of whom the region says that there was more, or less."""
        if self._is_denied(region):
            return []
        words = [
            word
            for word in _more.finditer(self.text, region.start, region.end)
            if not self._is_part_of_a_name(word.start(), region)
        ]
        return [side for word in words if (side := self._side(word, region)) is not None]

    def _side(self, word: re.Match[str], region: Region) -> Side | None:
        """The name behind the word, "more often in A than in B", else the one before, "A had more than B"."""
        than = _than.search(self.text, word.end(), region.end)
        limit = than.start() if than is not None else region.end
        behind = [mention for mention in region.mentions if word.end() <= mention.start < limit]
        before = [mention for mention in region.mentions if mention.end <= word.start()]
        before = [each for each in before if not self._is_after_reference_words(each, region)]
        if not behind and not before:
            return None
        subject = behind[0] if behind else before[-1]
        others = [
            each for each in region.mentions if than and each.start >= than.end() and each.key != subject.key
        ]  # fmt: skip
        other = others[0].key if others else ""
        return Side(subject.key, other, word["more"] is not None, word.start(), word.end())

    def _is_denied(self, region: Region) -> bool:
        """Whether a region has a "not" outside the names; not one of what a clause behind the ratio goes on to say."""
        return any(
            not self._is_part_of_a_name(found.start(), region)
            and not (0 <= region.value < found.start() and _next_clause(self.text, region.value, found.start()))
            for found in _denied(self.text, region.start, region.end)
        )

    def _is_part_of_a_name(self, at: int, region: Region) -> bool:
        return any(mention.start <= at < mention.end for mention in region.mentions)

    def _is_after_reference_words(self, mention: Mention, region: Region) -> bool:
        return _leads_to_reference(self.text[max(mention.start - 60, region.start) : mention.start]) is not None

    def favoured(self, region: Region) -> Mention | None:
        """The name that a region calls the better one: "favouring A", "A was protective"."""
        if not self._may_favour:
            return None
        for mention in region.mentions:
            if _favours(self.text[max(mention.start - 40, region.start) : mention.start]):
                return mention
        word = _protective.search(self.text, region.start, region.end)
        if word is not None and not self._is_denied(region):
            before = [mention for mention in region.mentions if mention.end <= word.start()]
            return before[-1] if before else None
        return None
