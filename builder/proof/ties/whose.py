"""Whose result a number is: this report's own and observed, or another's, assumed, imputed, or of the start."""

from __future__ import annotations

import re
from collections.abc import Sequence
from decimal import Decimal
from functools import lru_cache, partial

from ...compiled_patterns import compiled
from ...numerals.late import late
from ...printed.clauses import Span
from ...printed.other_series import series_of_others
from ...printed.whose import Cue, Whose
from ...printed.whose_words import BY_INTENTION, PER_PROTOCOL
from ...reading.report_model import Claim, FollowUp
from ...reading.values import Length, Words
from ..proving.printed_passage import Reading, different_words_in, words_in
from .counted_events import counting
from .pinned import is_pinned_away
from .tie import Known, Stands, Ties, studies_of

_BASIS = "Basis: the format of this guide; common practice, no source."

RULES: dict[str, str] = {
    "result-of-others": (
        "The passage gives the number to another report: an earlier series, the literature, authors who are cited. A "
        "claim holds what its own report found; a figure taken over names where it comes from. Add `quotes` with the "
        f"key and claim of the other report, or type the report's own number. {_BASIS}"
    ),
    "result-assumed": (
        "The passage assumes, expects or plans the number: the success rate of a sample size calculation, the "
        "difference that a trial could detect. Nobody observed it, so it is no result. Type the number that was "
        f"observed, from where the report gives it. {_BASIS}"
    ),
    "result-imputed": (
        "The number holds only under a condition that nobody observed: if all who were lost had failed, the "
        "worst case, "
        "values put in for missing ones. Shown as a result it would pass for one. Type what was seen; where "
        "this number "
        f"is meant, say so in `given` in the passage's words. {_BASIS}"
    ),
    "result-at-start": (
        "The passage places the number before the treatment: at baseline, on admission, preoperatively. What "
        "stood at "
        "the start is no result. Such figures belong into `shares` of the study, which tell who they were; the claim "
        f"takes the number that was found afterwards. {_BASIS}"
    ),
    "result-of-other-analysis": (
        "The passage counts the number by one analysis, and the claim names another, or the passage prints "
        "both and the "
        "claim does not say which: per protocol or completers on one side, intention to treat or all "
        "randomised on the "
        f"other. Say in `given` which units the number speaks of. {_BASIS}"
    ),
}

_RESULTS = frozenset({"events", "rate", "success_rate", "value", "mean", "median"})
_FACTS = frozenset({"treated", "due", "examined", "lost", "discontinued", "died"})
_REVIEWED = ("systematic review", "review", "meta-analysis", "overview", "guideline")
_SEEN_ONCE = ("cross-sectional", "survey", "prevalence")


def find_whose(standing: Sequence[Stands], ties: Ties, known: Known) -> None:
    """Whose every result is."""
    scope = ties.scope
    if scope.report is None or not standing:
        return
    authors = _authors(ties)
    reader = _reader(authors)
    if all(reading.told(reader).is_silent for reading in ties.readings):
        return
    finding: _Finding | None = None
    for stands in standing:
        whose = stands.reading.told(reader)
        if whose.is_silent:
            continue
        finding = finding or _Finding(ties, known, scope.claim)
        if scope.claim is None:
            if stands.row.name in _FACTS:
                finding.fact(stands, whose)
        elif stands.row.name in _RESULTS and "/follow_up/" not in stands.row.id:
            finding.result(stands, whose)


def _authors(ties: Ties) -> str:
    field = ties.source.fields.get("author") or ties.source.fields.get("editor")
    return field.text if field is not None else ""


@lru_cache(maxsize=1)  # one report is proved at a time
def _reader(authors: str) -> partial[Whose]:
    return partial(_whose, authors)


def _whose(authors: str, reading: Reading) -> Whose:
    said, words = reading.told(different_words_in), partial(reading.told, words_in)
    treatments = reading.lexicon.treatments
    return Whose(reading.passage.text, reading.tokens, said, words, reading.cells(), authors, treatments)


def _series_of_others(reading: Reading) -> dict[int, Span]:
    counted = reading.lexicon.beside_numbers
    return series_of_others(reading.passage.text, reading.tokens, reading.table, counted)


class _Finding:
    """The questions about one claim, or one study's facts."""

    def __init__(self, ties: Ties, known: Known, claim: Claim | None) -> None:
        self.ties, self.known, self.claim = ties, known, claim
        self.said = _words_of(claim)
        self.said_by = _authors(ties)
        studies = studies_of(claim, ties, known) if claim is not None else ()
        self.differs = [words.text.lower() for words in claim.differ_in] if claim is not None else []
        self.designs = [study.design.text.lower() for study in studies if study.design is not None]

    def fact(self, stands: Stands, whose: Whose) -> None:
        """A number of the flow that was planned only."""
        cue = whose.planned(stands.at, is_near=True)
        if cue is not None and cue.kind == "assumed":
            self._ask(stands, "result-assumed", f'only plans it: "{_text(stands, cue)}"', "the study counts it as seen")

    def result(self, stands: Stands, whose: Whose) -> None:
        """A number that the claim takes for what this report found."""
        cue = self._others(stands, whose)
        if cue is not None and not is_pinned_away(stands, (cue.start, cue.end), is_aside=True):
            self._ask(
                stands, "result-of-others", f'gives it to others: "{_text(stands, cue)}"',
                "the claim to this report", "type the report's own number, or name the other report:\nquotes: "
                "KEY/CLAIM",
            )  # fmt: skip
            return
        cue = whose.planned(stands.at, is_near=False)
        if cue is not None and not self._says(stands, cue) and not is_pinned_away(stands, (cue.start, cue.end)):
            what = "would have it so only" if cue.kind == "imputed" else "assumes or plans it"
            self._ask(stands, f"result-{cue.kind}", f'{what}: "{_text(stands, cue)}"', "the claim has it as observed")
            return
        cue = self._at_start(stands, whose)
        if cue is not None:
            when = "the time of the treatment" if cue.kind == "day" else "before the treatment"
            self._ask(
                stands, "result-at-start", f'has it from {when}: "{_text(stands, cue)}"',
                "the claim has it as a result", "type it under `shares` of the study, or type the number found "
                "afterwards",
            )  # fmt: skip
            return
        self._analysis(stands, whose)

    def _at_start(self, stands: Stands, whose: Whose) -> Cue | None:
        """Words that place the number at the start, where it may stand there and the claim does not say so itself."""
        cue = whose.at_start(stands.at)
        if cue is None or (cue.kind == "day" and not self._is_later_result()):
            return None
        if cue.kind == "change" and self._types_both(stands):
            return None
        if self._names_a_level(stands, cue) or is_pinned_away(stands, (cue.start, cue.end)):
            return None
        may = self._may_stand_at_start(stands) or _is_first_of_times(stands, cue) or _is_told_of_start(stands, cue)
        return cue if may and not self._says(stands, cue) else None

    def _types_both(self, stands: Stands) -> bool:
        """Whether the claim gives the second number of a change to another of its blocks: "fell from 12% to 5% with A"
        may be B and A."""
        second = stands.at + 1
        return any(
            each.at > second - 1
            and each.at <= second + _BETWEEN
            and each.block != stands.block
            and each.reading is stands.reading
            for each in self.ties.standing
        )

    def _others(self, stands: Stands, whose: Whose) -> Cue | None:
        claim, report = self.claim, self.ties.scope.report
        if claim is None or report is None or claim.quotes is not None or report.read.depth.text == "secondary":
            return None
        series = stands.reading.told(_series_of_others).get(stands.at)
        if series is not None:
            return self._of_series(stands, Cue(*series, "others"))
        is_review = any(design.startswith(_REVIEWED) for design in self.designs)
        if is_review and "review" not in stands.reading.small:
            return None
        is_discussion = _of_discussion(stands.reading.passage.bracket) is not None
        is_introduction = _of_introduction(stands.reading.passage.bracket) is not None
        cue = whose.others(stands.at, is_discussion=is_discussion, is_introduction=is_introduction)
        if cue is None or (cue.place and self._is_own(cue.place)):
            return None
        if is_review:
            # A review tells of others' studies by trade; another review's result is none of its own.
            is_of_a_review = claim.pooled is not None or (
                claim.contrast is not None and claim.contrast.pooled is not None
            )
            return cue if is_of_a_review and "review" in _text(stands, cue).lower() else None
        return cue

    def _of_series(self, stands: Stands, cue: Cue) -> Cue | None:
        """Another series' name beside the number, where that is no level of the claim's own."""
        is_by_authors = any(name in self.said_by for name in _find_names(_text(stands, cue)))
        is_told = any(_of_earlier(words) for words in (*self.designs, self.said, *self.differs))
        return None if is_by_authors or is_told or self._names_a_level(stands, cue) or self._says(stands, cue) else cue

    def _may_stand_at_start(self, stands: Stands) -> bool:
        """False where what is counted can only come later, or everybody was seen once."""
        claim = self.claim
        if claim is None or any(design.startswith(_SEEN_ONCE) for design in self.designs):
            return False
        if stands.row.name == "value":
            return False
        events = counting(claim, self.known).events(stands.reading)
        said = events.said_of(stands.at)
        return not any(
            stands.reading.passage.text[mention.start : mention.end].lower() in _COMES_LATER
            for mention in said.own or said.carried
        )

    def _is_later_result(self) -> bool:
        """Whether the claim has its number from later than the treatment; what is bad may be a mishap of that day."""
        claim, report = self.claim, self.ties.scope.report
        if claim is None or report is None:
            return False
        block = claim.follow_up
        if isinstance(block, Words) and (other := report.claim(block.text)) is not None:
            block = other.follow_up
        if isinstance(block, FollowUp):
            times = [each for each in (block.at, block.minimum, block.mean, block.median) if type(each) is Length]
            return any(time.months > _A_WEEK for time in times)
        outcome = self.known.outcomes.get(claim.outcome.text) if type(claim.outcome) is Words else None
        return block.text == "not reported" and outcome is not None and outcome.good

    def _says(self, stands: Stands, cue: Cue) -> bool:
        """Whether the claim's own words say so too."""
        first = _text(stands, cue).lower()
        return first in self.said or any(word in self.said for word in _SAID_BY.get(cue.kind, ()))

    def _analysis(self, stands: Stands, whose: Whose) -> None:
        cue = whose.analysis(stands.at)
        if cue is None or self._is_a_level(_text(stands, cue)):
            return
        by_protocol = PER_PROTOCOL.search(self.said) is not None or "pp" in self.said.replace(",", " ").split()
        by_intention = (
            BY_INTENTION.search(self.said) is not None or "intention" in self.said or "itt" in self.said.split()
        )
        if by_protocol and by_intention:
            return
        claimed = "per protocol" if by_protocol else "intention to treat" if by_intention else ""
        printed = _text(stands, cue)
        if claimed == cue.kind:
            self.ties.tie(stands, "analysis", claimed, "words", (cue.start, cue.end))
        elif claimed:
            self._ask(
                stands, "result-of-other-analysis", f'counts it by another analysis: "{printed}"',
                f"the claim says {claimed}", "correct `given`, or take the number of that analysis",
            )  # fmt: skip
        elif cue.kind != "intention to treat" and whose.has_both_analyses():  # all who were treated need no word
            self._ask(
                stands, "result-of-other-analysis", f'prints two analyses, and this number under "{printed}"',
                "the claim does not say which", f"given: {cue.kind}",
            )  # fmt: skip

    def _names_a_level(self, stands: Stands, cue: Cue) -> bool:
        """Whether words of the start say what a level had: "preoperative lesion", where the factor is the lesion."""
        reading = stands.reading
        text = reading.passage.text
        for mention in reading.mentions(self.ties.scope.names):
            is_inside = mention.start <= cue.start < mention.end
            if is_inside or (cue.end <= mention.start and not text[cue.end : mention.start].strip(" \t~-,")):
                return True
        factor = self.known.factors.get(self.claim.factor.text) if self.claim and self.claim.factor else None
        behind = _match_word(text, cue.end)
        if factor is None or behind is None:
            return False
        named = " ".join((factor.factor.title.text, *factor.words())).lower()
        return len(behind[1]) > _SHORT and behind[1].lower() in _split(named)

    def _is_own(self, place: str) -> bool:
        """Whether a study called "the Leeds trial" may be this one, or a level of it."""
        entry = self.ties.source.fields
        own = " ".join(entry[name].text for name in ("title", "journal", "note", "institution") if name in entry)
        report = self.ties.scope.report
        ids = " ".join(study.id.text for study in report.studies) if report is not None else ""
        return place.lower() in f"{own} {ids} {self.said}".lower() or self._is_a_level(place)

    def _is_a_level(self, printed: str) -> bool:
        """Whether "PP" is no analysis here but what a level is called."""
        return any(factor.matches(printed) for factor in self.known.factors.values())

    def _ask(self, stands: Stands, rule: str, passage: str, claim: str, mend: str = "") -> None:
        self.ties.ask(stands, rule, passage, claim, mend)


def _is_told_of_start(stands: Stands, cue: Cue) -> bool:
    """Whether nothing but what was counted stands between words of the start and a number: "healed at baseline: 12 of
    92", "12 of 92 were healed at baseline"; in "of 92 seen at baseline 70 healed" the whole is of the start."""
    text, token = stands.reading.passage.text, stands.token
    end = token.outer_end
    if cue.kind != "start":
        return False
    if token.pair >= 0 and token.part == "events":
        end = max(end, stands.reading.tokens[token.pair].outer_end)
    if cue.end <= token.start:
        leads = _leads_start(text, max(cue.start - 40, 0), cue.start) is not None
        return leads and _is_of_start.fullmatch(text, cue.end, token.outer_start) is not None
    if cue.start < end or _match_own_end(text, cue.end) is None:
        return False
    return _is_event_of_start.fullmatch(text, end, cue.start) is not None


_EVENT = r"(?:healed|healing|success(?:ful)?|failed|failures?|survived|cured|recovered|resolved|unhealed|not healed)"
_leads_start = late(rf"(?:^|[.;:(\n|]|\b{_EVENT}[\s,(]*)\s*(?:(?:already|the|at)\s+)*$", re.IGNORECASE).search
_is_of_start = late(
    rf"\)?(?:\s+(?:visit|status|characteristics|findings|state|values?))?[\s:,(]*(?:{_EVENT}[\s:,(]*)?", re.IGNORECASE
)
_is_event_of_start = late(
    rf"\s*(?:\([^()]*\)\s*)?(?:[a-z]+\s+)?(?:(?:were|was|had|have)\s+)?(?:(?:already|been)\s+)*{_EVENT}[\s,(]*",
    re.IGNORECASE,
)
_match_own_end = late(r"\s*(?:[.,;)]|$|and\b)").match
_of_discussion = compiled(
    r"\b(?:discussion|introduction|background|conclusions?|letter|comment)\b", re.IGNORECASE
).search
"""Of the bracket before a passage: there papers tell of others' results."""
_of_introduction = compiled(r"introduction|background", re.IGNORECASE).match
_match_word = compiled(r"[\s~-]+([^\W\d_]+)").match
_split = compiled(r"[^\W\d_]+").findall
_find_names = compiled(r"[A-Z][a-z]+(?:[-'’][A-Z]?[a-z]+)*").findall
_BETWEEN = 2
"""Numbers that may stand between the two of a change: a total, a deviation."""
_SHORT = 3
"""Letters of words that say little of a factor: "of", "the"."""
_A_WEEK = Decimal(7) / 30
"""In months: what was found within it may still be told of the day of the treatment."""


def _is_first_of_times(stands: Stands, cue: Cue) -> bool:
    """ "Healed at baseline 12 of 92, at one year 70 of 92": the words tell when, whatever is counted."""
    text, token = stands.reading.passage.text, stands.token
    if cue.end > token.start or text[cue.end : token.start].strip(" :=("):
        return False
    is_a_time = text[cue.start : cue.end].lower().startswith(("at ", "on ", "before "))
    return is_a_time and any(
        each.start > token.end and each.kind == "length" and _ends_in_at(text, max(each.start - 12, 0), each.start)
        for each in stands.reading.tokens
    )


_ends_in_at = compiled(r"\b(?:at|after)\s+$", re.IGNORECASE).search
_COMES_LATER = frozenset({
    "healed", "heal", "heals", "healing", "cured", "recovered", "resolved", "success", "successes", "successful",
    "succeeded", "failed", "failure", "failures", "fail", "survived", "survival", "surviving",
    "retained", "extracted",
    "unhealed", "non-healed", "nonhealed", "not healed", "healed or healing", "complete healing",
    "relapse", "relapsed",
    "recurrence", "reversal", "unsuccessful", "non-healing",
})  # fmt: skip
_PUT_IN = (
    "worst case", "worst-case", "best case", "best-case", "imput", "count", "sensitivity", "if ", "intention", "taken ",
    "treated as", "regarded", "considered", "presum", "deemed", "assum", "scenario", "missing", "drop-out", "dropout",
    "not seen", "carried", "had all", "were all",
)  # fmt: skip
_SAID_BY = {
    "imputed": _PUT_IN,
    "assumed": (*_PUT_IN, "expected", "planned"),
    "start": (
        "baseline",
        "at the start",
        "before ",
        "prior to",
        "preoperative",
        "beforehand",
        "on admission",
        "at entry",
        "first seen",
    ),
    "day": ("on the day", "immediately", "directly after", "straight after", "at the time of"),
}


_of_earlier = compiled(r"histor|archiv|before[\s-]and[\s-]after|earlier|retrospective control", re.IGNORECASE).search
"""Words by which a claim or study itself says that some were treated at another time."""


def _words_of(claim: Claim | None) -> str:
    """What the claim says of its numbers in words, in small letters."""
    if claim is None:
        return ""
    words = [claim.given, claim.note, *claim.counted_as]
    reason = getattr(claim.total, "reason", None)
    return " ; ".join(each.text for each in (*words, reason) if each is not None).lower()


def _text(stands: Stands, cue: Cue) -> str:
    return stands.printed((cue.start, cue.end))
