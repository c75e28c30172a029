"""The whole evidence as immutable values: compendium, vocabulary, questions, and every report with its source."""

from __future__ import annotations

from collections.abc import Mapping

from ..numerals import FORMAT_1, Lexicon, Unit as CountedUnit
from ..problems import Position, Problem
from ..records import NamedTuple
from .pictures import Picture
from .report_model import (
    Absolute as Absolute,
    Acknowledged as Acknowledged,
    Candidates as Candidates,
    Checked as Checked,
    Claim as Claim,
    Contrast as Contrast,
    Estimate as Estimate,
    Field as Field,
    Flow as Flow,
    FollowUp as FollowUp,
    Grade as Grade,
    Level as Level,
    Margin as Margin,
    Pairs as Pairs,
    Passage as Passage,
    Pooled as Pooled,
    Read as Read,
    Recall as Recall,
    Report as Report,
    SharePart as SharePart,
    Shares as Shares,
    SignificanceTest as SignificanceTest,
    Source as Source,
    Study as Study,
    Unit as Unit,
    Within as Within,
)
from .search_model import Living as Living, Searched as Searched
from .standing_model import Local as Local, Notice as Notice, Protocol as Protocol, Status as Status
from .values import Date, Length, Missing, Number, Percentage, Range, Words

# The values of reports, sources and standing are named here too: whoever takes an Evidence apart imports one module.


class Person(NamedTuple):
    """Somebody who reads, checks or ratifies."""

    position: Position
    name: Words
    interests: Words | Missing | None


class Compendium(NamedTuple):
    """compendium.yaml: who publishes, and when the evidence stood."""

    position: Position
    format: Number
    title: Words
    programme: Words
    demonstration: bool
    evidence_date: Date
    release: Words
    licence_text: Words | None
    licence_data: Words | None
    repository: Words | None
    people: dict[str, Person]
    review_questions: Length | None
    review_status: Length | None
    demonstration_at: Position


class FactorLevel(NamedTuple):
    """One band or word of a factor, in our vocabulary."""

    position: Position
    id: Words
    title: Words
    range: Range | None
    synonyms: tuple[Words, ...]


class Factor(NamedTuple):
    """Something that may go with a better or worse outcome."""

    position: Position
    id: str
    title: Words
    definition: Words | None
    role: Words | None
    unit: Words | None
    levels: tuple[FactorLevel, ...]
    synonyms: tuple[Words, ...]


class Outcome(NamedTuple):
    """What is counted as good or bad, on its four axes."""

    position: Position
    id: str
    title: Words
    construct: Words
    strictness: Words
    basis: Words
    threshold: Words
    good: bool
    reverses: Words | None
    lenient_of: Words | None
    synonyms: tuple[Words, ...]


class Vocabulary(NamedTuple):
    """vocabulary.yaml."""

    factors: dict[str, Factor]
    outcomes: dict[str, Outcome]
    units: Mapping[str, CountedUnit] = FORMAT_1.units
    """What may be counted, by id: those that the compendium declares in its order, then the others of format 1."""
    declared_units: tuple[str, ...] = ()
    """Ids of those that the compendium declares."""
    lexicon: Lexicon = FORMAT_1
    """The words with which numbers of this compendium are read."""


class Basis(NamedTuple):
    """What an entry of advice rests on."""

    position: Position
    kind: Words
    source: Words | None
    where: Words | None
    claim: Words | None
    state: Words | None


class Ratified(NamedTuple):
    """Who stands behind it, and since when."""

    position: Position
    by: tuple[Words, ...]
    on: Date


class AnswerOf(NamedTuple):
    """One level of a factor."""

    position: Position
    factor: Words
    level: Words


class Advice(NamedTuple):
    """One entry of a list of advice."""

    position: Position
    words: Words
    basis: Basis
    caution: Words | None
    ratified: Ratified | None
    when: Words | None = None
    """Of a step alone: now, this visit or later; None counts as this visit."""
    dissent: tuple[Words, ...] = ()
    """Of a step alone: initials of those whose dissent speaks of it."""
    answers: tuple[AnswerOf, ...] | None = None
    """Answers of the situation: of a reason to call those that are this reason, of several factors together; of what a
    way asks, or what speaks for or against it, those for which it holds. Of several of one factor any will do."""


class SituationField(NamedTuple):
    """One thing the reader is asked about the case in hand."""

    position: Position
    factor: Words | None
    """None where a number of the chart is asked for."""
    charted: Words | None
    """The notation of the chart (see fdi_chart.py)."""
    ask: Words
    picture: Words | None
    """A drawing under evidence/pictures/ whose shapes are levels of the factor."""


class Option(NamedTuple):
    """One way to go on."""

    position: Position
    id: Words
    title: Words
    is_factor: Words | None
    is_level: Words | None
    asks: tuple[Advice, ...]
    """What it asks of whom it is done to and of what is treated."""
    visits: tuple[Advice, ...]
    """How often somebody has to come for it."""
    overall: tuple[Words, ...]
    """Ids of outcomes whose rates of all who were examined for the question are of those that went this way."""
    for_: tuple[Advice, ...]
    against: tuple[Advice, ...]
    steps: tuple[Advice, ...]
    """What is done on the day for this way, in its order, where the steps of the question are those of another."""
    ready: tuple[Words, ...]
    ratified: Ratified | None

    @property
    def advice(self) -> tuple[tuple[str, tuple[Advice, ...]], ...]:
        """Its entries of advice, by what they are."""
        return (
            ("asks", self.asks), ("visits", self.visits), ("for", self.for_), ("against", self.against),
            ("steps", self.steps),
        )  # fmt: skip


class Threshold(NamedTuple):
    """What faculty would call good enough, fixed beforehand."""

    position: Position
    outcome: Words
    at: Length
    at_least: Percentage
    agreed: Date | None
    by: Words | None


class CertaintyStep(NamedTuple):
    """One step of a certainty ledger with a person's reason."""

    position: Position
    for_: Words
    down: Number | None
    up: Number | None
    reason: Words
    by: Words


class Certainty(NamedTuple):
    """How sure people are of one outcome, window and factor level."""

    position: Position
    outcome: Words
    at: Length | None
    factor: Words | None
    level: Words | None
    start: Words
    steps: tuple[CertaintyStep, ...]
    final: Words


class AbsoluteOf(NamedTuple):
    """A ratio and the baseline of its reference level."""

    position: Position
    ratio: Words
    baseline: Words


class PatientSheet(NamedTuple):
    """What may be shown and said to a patient."""

    position: Position
    show: tuple[Words, ...]
    chair: tuple[Words, ...]
    afterwards: tuple[Words, ...]


class RecallPlan(NamedTuple):
    """When to see it again and what to record."""

    position: Position
    start: Words | None
    """Typed `from`."""
    visits: tuple[Length, ...]
    record: tuple[Words, ...]
    failing: tuple[Words, ...]


class Dissent(NamedTuple):
    """A signed different opinion."""

    position: Position
    by: Words
    on: Date
    words: Words


class Question(NamedTuple):
    """What a reader asks: one question file."""

    position: Position
    id: str
    title: Words
    about: dict[str, Words]
    searched: Searched | None
    """None: "not recorded"."""
    ratified: Ratified | None
    answer: Words | None
    urgent: tuple[Words, ...]
    stop: tuple[Advice, ...]
    is_it_this: tuple[Advice, ...]
    medical: tuple[Advice, ...]
    situation: tuple[SituationField, ...]
    options: tuple[Option, ...]
    steps: tuple[Advice, ...]
    call: tuple[Advice, ...]
    factors: tuple[Words, ...]
    thresholds: tuple[Threshold, ...]
    certainty: tuple[Certainty, ...]
    absolute: tuple[AbsoluteOf, ...]
    patient: PatientSheet | None
    recall: RecallPlan | None
    dissent: tuple[Dissent, ...]
    seen_not_read: tuple[Words, ...]
    acknowledged: tuple[Acknowledged, ...] = ()
    living: Living | None = None
    is_situation_whole: bool = True
    """False where a field of the situation could not be read: what it asks is then not known."""

    def steps_due(self, when: str) -> tuple[Advice, ...]:
        """Its steps of "now", "this visit" or "later", as typed; one that does not say is due this visit."""
        return tuple(step for step in self.steps if (step.when.text if step.when else "this visit") == when)


class Urgent(NamedTuple):
    """Something worse than the question."""

    position: Position
    id: str
    title: Words
    signs: tuple[Words, ...]
    stop: tuple[Advice, ...]
    """What not to do."""
    until_help: tuple[Advice, ...]
    call: tuple[Advice, ...]
    say: tuple[Advice, ...]
    """Words for whoever it happened to, as they are spoken."""
    afterwards: tuple[Advice, ...]
    """What is done once help was there: who looks again, when, and what is written down."""

    @property
    def advice(self) -> tuple[tuple[str, tuple[Advice, ...]], ...]:
        """Its entries of advice, by the field that holds them."""
        return tuple((name, getattr(self, name)) for name in ("stop", "until_help", "call", "say", "afterwards"))


class Page(NamedTuple):
    """A hand-written page of site_src."""

    file: str
    """Path from the root, "site_src/about.md"."""
    text: str


class Evidence(NamedTuple):
    """Everything that was read, with what was wrong in it."""

    compendium: Compendium | None
    """None only where compendium.yaml itself could not be read; then `problems` says so."""
    vocabulary: Vocabulary
    sources: dict[str, Source]
    """By key as typed, in the order of file and entry."""
    reports: dict[str, Report]
    """By key, sorted."""
    questions: dict[str, Question]
    """By id, sorted."""
    urgent: dict[str, Urgent]
    local: Local
    statuses: dict[str, Status]
    pages: tuple[Page, ...]
    pictures: dict[str, Picture]
    """Drawings by their path below evidence/pictures/."""
    unreadable: frozenset[str]
    """Names of what exists but could not be read, so that references to it are silent: "source:KEY", "report:KEY",
    "claim:KEY/ID", "study:ID", "question:ID", "factor:ID", "outcome:ID", "unit:ID", "picture:FILE", "urgent:ID",
    "person:ID"."""
    problems: tuple[Problem, ...]
    files_beside_pages: tuple[str, ...] = ()
    """Other files of site_src, pictures say, by their path from the root; they are published as they are."""
