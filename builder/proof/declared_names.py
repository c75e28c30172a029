"""What a claim file may name: the names that exist, and what the vocabulary makes of a wording."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from decimal import Decimal
from functools import cached_property

from ..numerals import Lexicon, Unit as CountedUnit
from ..reading import parsing
from ..reading.folded import folded
from ..reading.model import Evidence, Factor, FactorLevel, Outcome
from ..reading.pictures import Picture
from ..reading.report_model import Report, Study
from ..reading.values import Range
from ..records import NamedTuple


class DescribedStudy(NamedTuple):
    """A study as one report describes it."""

    key: str
    study: Study


class DeclaredNames(NamedTuple):
    """Every name a reference may use, with what a rule has to look up behind it."""

    sources: frozenset[str]
    reports: dict[str, Report]
    questions: frozenset[str]
    factors: dict[str, FactorWording]
    outcomes: dict[str, Outcome]
    units: Mapping[str, CountedUnit]
    people: frozenset[str] | None
    """None where compendium.yaml could not be read: nobody is unknown then, that is its problem alone."""
    described: dict[str, DescribedStudy]
    """By study id: the report that tells species and design."""
    urgent: frozenset[str]
    pictures: Mapping[str, Picture]
    """Drawings by their path below evidence/pictures/."""
    unreadable: frozenset[str]
    """As Evidence.unreadable: names that exist, though what stands behind them could not be read."""
    lexicon: Lexicon
    """What is counted here, and the words of the trade: every number of this evidence is read with it."""

    @property
    def has_lost_report(self) -> bool:
        """True where some claim file could not be read, so that nobody knows what it describes."""
        return any(name.startswith("report:") for name in self.unreadable)

    def is_unreadable(self, kind: str, name: str) -> bool:
        """True where the name exists and what it stands for could not be read: rules are silent about it."""
        return bool(self.unreadable) and f"{kind}:{name}" in self.unreadable


class Called(NamedTuple):
    """What a level of the vocabulary is called, and what it spans."""

    words: tuple[str, ...]
    """Its title and synonyms."""
    folded: frozenset[str]
    span: Span | None


class FactorWording:
    """What a factor's levels may be called: a title or synonym; for a measured factor, a range that meets a band."""

    def __init__(self, factor: Factor) -> None:
        self.factor = factor
        self.levels = tuple(level.id.text for level in factor.levels)
        self._measured = factor.unit is not None
        self._by_word: dict[str, tuple[FactorLevel, ...]] = {}
        self._by_range: dict[str, tuple[FactorLevel, ...]] = {}
        self._bands: list[tuple[FactorLevel, Span]] = []
        for level in factor.levels:
            for word in (level.title, *level.synonyms):
                self._by_word.setdefault(folded(word.text), (level,))
            band = span_of(level.range) if level.range is not None else span_of_wording(level.title.text)
            if band is not None:
                self._bands.append((level, band))

    def matches(self, wording: str, typed_range: Range | None = None) -> tuple[FactorLevel, ...]:
        """The levels a wording stands for: that of its own title or synonym; else, or where a range beside it lies
        outside that level, of a measured factor every band that its range meets."""
        own = self._by_word.get(wording) or self._by_word.get(folded(wording), ())
        if not self._measured or (own and typed_range is None):
            return own
        if typed_range is not None:
            met = self._meeting(span_of(typed_range))
            # A paper's "large" may lie where ours does not reach: then its range says which level it is.
            return own if own and (own[0] in met or not self._has_band(own[0])) else met
        found = self._by_range.get(wording)
        if found is None:
            span = span_of_wording(wording)
            found = self._by_range[wording] = () if span is None else self._meeting(span)
        return found

    def _has_band(self, level: FactorLevel) -> bool:
        return any(banded is level for banded, _ in self._bands)

    def _meeting(self, span: Span) -> tuple[FactorLevel, ...]:
        return tuple(level for level, band in self._bands if band.meets(span))

    @cached_property
    def called(self) -> dict[str, Called]:
        """Every level by its id."""
        spans = {level.id.text: band for level, band in self._bands}
        found = {}
        for level in self.factor.levels:
            words = (level.title.text, *(synonym.text for synonym in level.synonyms))
            found[level.id.text] = Called(words, frozenset(map(folded, words)), spans.get(level.id.text))
        return found

    @property
    def unit(self) -> str:
        """What the factor is measured in, or ""."""
        return self.factor.unit.text if self.factor.unit is not None else ""

    def words(self) -> list[str]:
        """Every title and synonym."""
        return [word.text for level in self.factor.levels for word in (level.title, *level.synonyms)]


class Span(NamedTuple):
    """Where a measured level begins and ends."""

    low: Decimal | None
    high: Decimal | None
    unit: str
    low_included: bool
    high_included: bool

    def meets(self, other: Span) -> bool:
        """True where the two share at least one point; never across units."""
        return self.unit == other.unit and self._begins_before_end_of(other) and other._begins_before_end_of(self)

    def _begins_before_end_of(self, other: Span) -> bool:
        if self.low is None or other.high is None:
            return True
        return self.low < other.high or (self.low == other.high and self.low_included and other.high_included)


def span_of(typed: Range) -> Span:
    """The span of a range that was typed as one."""
    return Span(typed.low, typed.high, typed.unit, typed.low_included, typed.high_included)


_SIGNS = (("<=", "up to "), (">=", "from "), ("≤", "up to "), ("≥", "from "), ("<", "under "), (">", "over "))


def span_of_wording(wording: str) -> Span | None:
    """The span that a paper's wording holds: "over 3 mm", ">3 mm", "1-3 mm", "1 to 3 mm"; None where it holds none."""
    text = wording.strip().lower()
    for sign, word in _SIGNS:
        if text.startswith(sign):
            text = word + text[len(sign) :].lstrip()
    read = parsing.measured_range(" ".join(text.split()))
    for dash in ("–", "-", "−"):
        if read is None and dash in text[1:]:
            low, _, high = text.partition(dash)
            read = parsing.measured_range(f"{low.strip()} to {high.strip()}")
    return Span(*read) if read is not None else None


def _with_doubled_brackets(evidence: Evidence) -> Iterator[str]:
    """Keys of entries with one bracket twice: what a claim names there may be the passage that lost its name."""
    for problem in evidence.problems:
        if problem.rule == "bracket-twice":
            file, line, _ = problem.position
            before = [
                (source.position.line, key)
                for key, source in evidence.sources.items()
                if source.position.file == file and source.position.line <= line
            ]
            if before:
                yield max(before)[1]


def _without_doubled(outcomes: dict[str, Outcome]) -> dict[str, Outcome]:
    """The outcomes without synonyms that another has before: told once, and no passage is asked about them."""
    known: dict[str, str] = {}
    result = {}
    for name, outcome in outcomes.items():
        words = [known.setdefault(folded(word.text), name) == name for word in (outcome.title, *outcome.synonyms)]
        if not all(words[1:]):
            kept = tuple(word for word, is_own in zip(outcome.synonyms, words[1:], strict=True) if is_own)
            outcome = outcome._replace(synonyms=kept)
        result[name] = outcome
    return result


def declared_names(evidence: Evidence) -> DeclaredNames:
    """What the whole evidence offers to references."""
    described: dict[str, DescribedStudy] = {}
    for key, report in evidence.reports.items():
        for study in report.studies:
            if study.species is not None or study.design is not None:
                described.setdefault(study.id.text, DescribedStudy(key, study))
    return DeclaredNames(
        sources=frozenset(evidence.sources),
        reports=evidence.reports,
        questions=frozenset(evidence.questions),
        factors={name: FactorWording(factor) for name, factor in evidence.vocabulary.factors.items()},
        outcomes=_without_doubled(evidence.vocabulary.outcomes),
        units=evidence.vocabulary.units,
        people=frozenset(evidence.compendium.people) if evidence.compendium else None,
        described=described,
        urgent=frozenset(evidence.urgent),
        pictures=evidence.pictures,
        unreadable=evidence.unreadable | {f"passages:{key}" for key in _with_doubled_brackets(evidence)},
        lexicon=evidence.vocabulary.lexicon,
    )
