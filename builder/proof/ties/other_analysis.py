"""A figure of another analysis than the claim's, where the words beside each of several figures tell them apart."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from ...compiled_patterns import compiled
from ...numerals.late import holds_any, in_small
from ...printed.clauses import Span
from ...printed.labels import Labelled, labelled_figures, labels_of, plain_words
from ...reading.report_model import Claim, Pooled
from ...reading.values import Words
from ..proving.printed_passage import Reading
from .adjustment import names_of
from .groupings import own_words
from .pinned import is_pinned_away
from .tie import Known, Stands, Ties

_FIGURES = frozenset({"events", "rate", "success_rate", "value"})


def find_other_analyses(standing: Sequence[Stands], ties: Ties, known: Known) -> None:
    """Every figure of a claim that stands among others of its kind."""
    claim = ties.scope.claim
    if claim is None or claim.quotes is not None:
        return
    finding: _Finding | None = None
    for stands in standing:
        name = stands.row.name
        if name not in _FIGURES or stands.row.id in ties.asked or not stands.reading.told(_may_tell):
            continue
        finding = finding or _Finding(claim, ties, known)
        finding.find(stands)


_STEMS = (
    "model", "effect", "analys", "imput", "complete", "adjust", "step", "sensitivity", "trim", "leave", "leaving",
    "exclu", "omit", "omission", "without", "remov", "worst", "best", "counting", "regard", "treating", "assum",
    "scoring", "taking", "classing", "strict", "loose", "lenient", "liberal", "relaxed", "stringent", "criteri",
    "available", "examiner", "observer", "reader", "rater", "assessor", "laird", "haenszel", "still", "only", "alone",
)  # fmt: skip


def _may_tell(reading: Reading) -> bool:
    """Whether a passage may tell two analyses apart: by two figures, or by the word for one side alone."""
    small = reading.small
    if not holds_any(small, _STEMS):
        return False
    return len(labelled_figures(reading.passage.text, reading.tokens)) > 1 or holds_any(small, _SIDES)


def labels_in(reading: Reading) -> dict[int, Labelled]:
    """What stands beside each figure of a passage; for `Reading.told`."""
    return labels_of(reading.passage.text, reading.tokens, reading.table)


_EFFECTS = (
    frozenset({"fixed", "common", "haenszel", "peto"}),
    frozenset({"random", "dersimonian", "laird", "hartung", "knapp", "paule", "mandel"}),
)
_STRICT = (
    frozenset({"strict", "stringent", "rigid", "rigorou", "narrow", "stricter", "severe"}),
    frozenset({"loose", "lenient", "liberal", "relaxed", "looser", "generou"}),
)
_SIDES = tuple(sorted(frozenset[str]().union(*_EFFECTS, *_STRICT)))
"""Words that say which analysis it is, whatever stands beside."""


class _Finding:
    """What one claim says of the analysis that it means."""

    def __init__(self, claim: Claim, ties: Ties, known: Known) -> None:
        self.claim, self.ties, self.known = claim, ties, known
        self.said = _said_by(claim)
        outcome = known.outcomes.get(claim.outcome.text)
        words = (outcome.title, *outcome.synonyms) if outcome is not None else ()
        self._outcome = plain_words(" ".join(each.text for each in words))
        self.own = own_words(claim, ties, known)

    def find(self, stands: Stands) -> None:
        """Ask about one figure."""
        labels = stands.reading.told(labels_in)
        own = labels.get(stands.at)
        if own is None:
            return
        others = list(
            {each.at: each for each in labels.values() if each.kind == own.kind and each.at != own.at}.values()
        )
        beside_others = (self._other_given, self._fewer_adjusted, self._aside) if others else ()
        for find in (self._other_side, *beside_others):
            found = find(stands, own, others)
            if found is not None:
                passage_says, claim_says = found
                self.ties.ask(
                    stands, "result-of-other-analysis", passage_says, claim_says,
                    "type the figure of the analysis that is meant, or name this one in the claim:\ngiven: WHICH",
                )  # fmt: skip
                return

    def _other_side(self, stands: Stands, own: Labelled, others: Sequence[Labelled]) -> tuple[str, str] | None:
        """Fixed effects, where the claim says random ones; a loose criterion for a strict outcome."""
        del others
        pooled = self.claim.contrast.pooled if self.claim.contrast is not None else None
        outcome = self.known.outcomes.get(self.claim.outcome.text)
        sides = (
            (_EFFECTS, " ".join(_models(self.claim.pooled, pooled))),
            (_STRICT, outcome.strictness.text if outcome is not None else ""),
        )
        for (first, second), typed in sides:
            words = plain_words(typed)
            for own_side, other_side in ((first, second), (second, first)):
                is_other = own_side & words and not other_side & words
                if is_other and other_side & own.words and not own_side & own.words and not other_side & self.said:
                    return f'calls it "{_shown(stands, own, other_side)}"', f'the claim "{typed}"'
        return None

    def _other_given(self, stands: Stands, own: Labelled, others: Sequence[Labelled]) -> tuple[str, str] | None:
        """The figure beside which others stand that the words of `given` name."""
        model = self.claim.contrast.model if self.claim.contrast is not None else None
        for typed in (self.claim.given, model):
            wanted = plain_words(typed.text) - self._counted if type(typed) is Words else frozenset()
            stems = _stems(wanted)
            if not wanted or stems & _stems(own.words):
                continue
            lacking = plain_words(typed.text) & own.words & _LACKING if type(typed) is Words else frozenset()
            for other in others:
                if lacking - other.words:  # "with a lesion 22/34, without 38/46": of those without one
                    continue
                is_told = stems <= _stems(other.words) and bool(own.words - other.words)
                if is_told and self._are_alike(own, other, wanted) and type(typed) is Words:
                    return f'gives it as "{_shown(stands, own)}"', f'the claim as "{typed.text}"'
        return None

    def _fewer_adjusted(self, stands: Stands, own: Labelled, others: Sequence[Labelled]) -> tuple[str, str] | None:
        """The ratio of a first model, where a second one holds more of what the claim names."""
        contrast = self.claim.contrast
        if contrast is None or type(contrast.adjusted_for) is not tuple:
            return None
        typed = [each for each in contrast.adjusted_for if type(each) is Words]
        names = [frozenset(plain_words(" ".join(names_of(each.text, self.known)))) for each in typed]
        has = sum(bool(each & self._legend(stands, own)) for each in names)
        if has == len(names):
            return None
        for other in others:
            holds = sum(bool(each & self._legend(stands, other)) for each in names)
            wanted = frozenset[str]().union(*names)
            if holds > has and self._are_alike(own, other, wanted) and (has or own.words & _MODEL):
                told = ", ".join(each.text for each in typed)
                return f'has another one that holds more, and this one as "{_shown(stands, own)}"', (
                    f"the claim is adjusted for {told}"
                )
        return None

    def _legend(self, stands: Stands, label: Labelled) -> frozenset[str]:
        """The words beside a figure, with those of the sentence that explains its model."""
        keys = label.words & _KEYS
        if not keys or not label.words & _MODEL:
            return label.words
        said = set(label.words)
        for part in _parts(stands.reading.passage.text):
            if not any(low <= span[0] < high for low, high in [part] for span in label.spans):
                words = plain_words(stands.reading.passage.text[slice(*part)], with_digits=True)
                if keys <= words and not (_KEYS - keys) & words:
                    said |= words
        return frozenset(said)

    def _aside(self, stands: Stands, own: Labelled, others: Sequence[Labelled]) -> tuple[str, str] | None:
        """A figure of an analysis aside, which the claim does not name, where one of the main analysis stands too."""
        text = stands.reading.passage.text
        said = next((each for span in (*own.spans, own.lead) for each in _find_aside(text, *span)), None)
        if said is None or self.claim.within:
            return None
        words = plain_words(said[0])
        if (words - _COMMON - self._outcome) & (
            self.said | plain_words(self.own.claim) | plain_words(self.own.population)
        ):
            return None
        if is_pinned_away(stands, said.span()):
            return None
        for other in others:
            if not any(True for span in (*other.spans, other.lead) for _ in _find_aside(text, *span)):
                return (
                    f'has it aside from the main figure ("{stands.printed(said.span())}")',
                    "the claim as the main one",
                )
        return None

    @property
    def _counted(self) -> frozenset[str]:
        return frozenset(self.known.lexicon.unit_words) | _COMMON

    def _are_alike(self, own: Labelled, other: Labelled, wanted: frozenset[str]) -> bool:
        """Whether nothing but the analysis tells two figures apart."""
        differ = own.words ^ other.words
        differ = frozenset(word for word in differ if not word.endswith("ed"))  # "replanted": of all
        return _stems(differ) <= _stems(wanted | _MODEL | self._counted | self._outcome | _OF_RATIOS)


_MODEL = frozenset({
    "model", "step", "analysi", "adjusted", "adjustment", "adjusting", "minimally", "fully", "full", "basic", "final",
    "further", "partially", "minimal", "stage", "block", "first", "second", "third", "alone", "only", "complete",
    "case", "imputed", "imputation", "multiple", "available", "observed", "additionally", "when", "after",
    *"123456789",
})  # fmt: skip
_LACKING = frozenset({"without", "no", "not", "none", "absent"})
_KEYS = frozenset({
    "minimally", "fully", "full", "basic", "final", "partially", "minimal", "first", "second", "third", *"123456789",
})  # fmt: skip
_OF_RATIOS = frozenset({"hr", "or", "rr", "hazard", "odd", "risk", "ratio", "hazards", "odds"})
_COMMON = frozenset({
    "analysi", "analyse", "model", "case", "data", "only", "alone", "after", "before", "all", "without", "with",
    "leaving", "out", "aside", "excluding", "exclusion", "omitting", "removal", "removing", "counting", "treating",
    "regarding", "study", "studie", "trial", "missing", "lost", "set", "cox", "logistic", "regression", "linear",
    "poisson",
})  # fmt: skip


def _stems(words: frozenset[str]) -> frozenset[str]:
    """ "imputed" and "imputation" are one."""
    return frozenset(word[:5] for word in words)


def _models(*pooled: Pooled | None) -> Iterator[str]:
    for each in pooled:
        if each is not None and type(each.model) is Words:
            yield each.model.text


def _said_by(claim: Claim) -> frozenset[str]:
    contrast = claim.contrast
    texts = [claim.given, claim.note, *((contrast.model,) if contrast is not None else ())]
    said = [each.text for each in texts if type(each) is Words]
    said += [each.text for each in (*claim.in_words, *claim.counted_as)]
    return plain_words(" ".join(said))


def _shown(stands: Stands, label: Labelled, words: frozenset[str] = frozenset()) -> str:
    """The words beside a figure, those that hold some words first."""
    spans: list[Span] = [span for span in label.spans if plain_words(stands.reading.passage.text[slice(*span)])]
    best = sorted(spans, key=lambda span: not words & plain_words(stands.reading.passage.text[slice(*span)]))
    return stands.printed(*best[:1]).strip(" ,;:()=|")


def _parts(text: str) -> Iterator[Span]:
    low = 0
    for cut in _ends.finditer(text):
        yield low, cut.start()
        low = cut.end()
    yield low, len(text)


_ends = compiled(r"[;\n]|\.(?=\s|$)|,(?=\s(?:the\s)?(?:model|step|stage|block|full|fully|final|basic|second)\b)")
_ASIDE = in_small(
    r"\bsensitivity analys[ei]s\b|\btrim[- ]and[- ]fill\b|\bleave[- ]one[- ]out\b|\b(?:worst|best)[- ]case\b|"
    r"\b(?:leaving (?:out|aside)|excluding|omitting|discounting|disregarding|setting aside|"
    r"(?:after|with|on|by|following) (?:the )?(?:exclusion|removal|omission|exclud\w+|remov\w+|omitting|leaving out)"
    r" ?(?:of)?)"
    r" [^.;:()\d]{0,20}(?:\d+ )?[^.;:()\d]{3,60}|"
    r"\b(?:counting|regarding|treating|taking|scoring|assuming|classing|counted|regarded|scored|classed)"
    r" [^.;:()\d]{0,40}"
    r"(?:missing|lost|drop-?outs?|unseen|absent|withdrawn|unexamined|not seen)\b[^.;:()\d]{0,30}\bas\b[^.;:()\d]{0,30}|"
    r"\bcomplete[- ]cases?\b|\blast observations? carried\b|\b(?:multiple )?imput(?:ation|ed)\b|"
    r"\b(?:examiner|observer|rater|reader|assessor) (?:[ab12]|one|two)\b",
    holds=(
        "sensitivity", "trim", "leave", "leaving", "worst", "best", "exclu", "omi", "aside", "disc", "disre", "remov",
        "missing", "lost", "drop", "unseen", "absent", "withdrawn", "unexamined", "not seen", "complete", "carried",
        "imput", "examiner", "observer", "rater", "reader", "assessor",
    ),
)  # fmt: skip


def _find_aside(text: str, low: int, high: int) -> Iterator[re.Match[str]]:
    yield from _ASIDE.finditer(text, low, high)
