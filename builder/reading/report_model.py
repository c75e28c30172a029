"""What one report says, as typed: studies and claims; immutable values with their place."""

from __future__ import annotations

from ..problems import Position
from ..records import NamedTuple
from .source_model import Field as Field, Passage as Passage, Source as Source
from .values import Date, Ends, Length, Missing, Number, Percentage, PValue, Range, Words

# Field names are those of the form, so that a message, a figure's id and an attribute are one word.
# A field that was left out is None (or an empty tuple for a list); a field typed "not reported" is a Missing.


class Acknowledged(NamedTuple):
    """The answer to a question that the check asked."""

    position: Position
    rule: Words
    printed: Words
    by: Words
    reason: Words
    with_key: Words | None
    """The other report (typed `with`)."""


class Read(NamedTuple):
    """Who read the report, when, and how much of it."""

    position: Position
    by: Words
    on: Date
    depth: Words
    what: Words | None
    via: Words | None


class Checked(NamedTuple):
    """The second person who re-read it."""

    position: Position
    by: Words
    on: Date


class Recall(NamedTuple):
    """A recall rate with the counts it is made from: lists of names of flow fields."""

    position: Position
    rate: Percentage | Missing | None
    seen: tuple[Words, ...]
    of: tuple[Words, ...]
    less: tuple[Words, ...]
    where: Words | None = None
    in_words: tuple[Words, ...] = ()
    """The words of the passage that hold the block's numbers, in printed order; the same in every block."""


class Flow(NamedTuple):
    """How many units were eligible, treated, due, examined, and what became of the others."""

    position: Position
    eligible: Number | Missing | None
    treated: Number | Missing | None
    due: Number | Missing | None
    examined: Number | Missing | None
    lost: Number | Missing | None
    discontinued: Number | Missing | None
    died: Number | Missing | None
    extracted_related: Number | Missing | None
    extracted_other: Number | Missing | None
    extracted: Number | Missing | None
    recall: Recall | None
    where: Words | None
    in_words: tuple[Words, ...] = ()


class SharePart(NamedTuple):
    """One level of who the units were, with its count and share."""

    position: Position
    level: Words
    count: Number | Missing | None  # type: ignore[assignment]  # the form's word, over a method of tuple nobody calls
    share: Percentage | Missing | None
    in_words: tuple[Words, ...] = ()


class Shares(NamedTuple):
    """Who the units were: one split, audited and shown on the source page."""

    position: Position
    of: Number | Missing | None
    what: Words
    parts: tuple[SharePart, ...]
    where: Words | None
    in_words: tuple[Words, ...] = ()


class Unit(NamedTuple):
    """What was counted, by its id; with `per` and `rule` where one stands for several."""

    position: Position
    unit: Words | Missing
    per: Words | None
    rule: Words | None


class Study(NamedTuple):
    """The people (or animals, or specimens) behind one or more reports, as one report describes them."""

    position: Position
    id: Words
    species: Words | None
    design: Words | None
    selection: Words | None
    population: dict[str, Words]
    """As typed, in the order typed; values may read "not reported"."""
    setting: dict[str, Words] | Missing | None
    unit: Unit | None
    flow: Flow | None
    patients: Flow | None
    shares: tuple[Shares, ...]
    covers: Number | Missing | None
    includes: tuple[Words, ...]
    where: Words | None
    acknowledged: tuple[Acknowledged, ...]
    in_words: tuple[Words, ...] = ()


class FollowUp(NamedTuple):
    """How long the units were followed, from what, and how the paper says so."""

    position: Position
    start: Words | Missing | None
    """What the time counts from (typed `from`)."""
    timing: Words | Missing | None
    """at, by, last recall, at least, or not reported."""
    at: Length | Missing | None
    tolerance: Length | Missing | None
    minimum: Length | Missing | None
    maximum: Length | Missing | None
    mean: Length | Missing | None
    median: Length | Missing | None
    sd: Length | Missing | None
    where: Words | None
    in_words: tuple[Words, ...] = ()


class Candidates(NamedTuple):
    """A total of which the report prints more than one, and why."""

    position: Position
    candidates: tuple[Number, ...]
    reason: Words
    where: Words | None = None
    in_words: tuple[Words, ...] = ()


class Estimate(NamedTuple):
    """A survival, cumulative incidence or yearly rate, as reported at a time."""

    position: Position
    kind: Words
    """survival, cumulative incidence, yearly rate."""
    at: Length | None
    value: Percentage | Missing
    interval: Ends | Missing | None
    confidence: Percentage | Missing | None
    starting: Number | Missing | None
    at_risk: Number | Missing | None
    start: Words | Missing | None
    """What it counts from (typed `from`)."""
    competing: tuple[Words, ...] | Missing | None
    where: Words | None
    in_words: tuple[Words, ...] = ()


class Pooled(NamedTuple):
    """What a review says its rate, estimate or contrast was pooled from."""

    position: Position
    studies: Number | Missing | None
    of: Number | Missing | None
    model: Words | Missing | None
    i2: Percentage | Missing | None
    sd: Percentage | Missing | None
    where: Words | None
    in_words: tuple[Words, ...] = ()


class Grade(NamedTuple):
    """One ordered grade of an outcome."""

    position: Position
    outcome: Words | None
    """Id in the vocabulary, or None where `words` name it."""
    words: Words | None
    events: Number | Missing | None
    rate: Percentage | Missing | None
    where: Words | None = None
    in_words: tuple[Words, ...] = ()


class Level(NamedTuple):
    """One row of a paper's table by a factor."""

    position: Position
    level: Words
    range: Range | None
    events: Number | Missing | None
    total: Number | Missing | Candidates | None
    rate: Percentage | Missing | None
    success_rate: Percentage | Missing | None
    interval: Ends | Missing | None
    confidence: Percentage | Missing | None
    estimate: Estimate | None
    grades: tuple[Grade, ...]
    direction: Words | None
    stated: Words | None
    where: Words | None
    counted_as: tuple[Words, ...] = ()
    """The paper's own words for what was counted (typed `as`)."""
    in_words: tuple[Words, ...] = ()
    mean: Number | Missing | None = None
    """Of a measured outcome, in the claim's `unit`."""
    sd: Number | Missing | None = None
    median: Number | Missing | None = None
    iqr: Ends | Missing | None = None


class Absolute(NamedTuple):
    """Absolute risks beside a ratio, as a review prints them."""

    position: Position
    per: Number | Missing
    reference: Number | Missing | None
    level: Number | Missing | None
    interval: Ends | Missing | None
    where: Words | None
    in_words: tuple[Words, ...] = ()


class Margin(NamedTuple):
    """What was fixed beforehand as too small a difference to matter, in the contrast's own scale."""

    position: Position
    value: Number | Percentage | Missing
    by: Words | None
    """Who or what fixed it."""
    sides: Words | None
    """one (the default: towards harm alone) or two."""
    where: Words | None
    in_words: tuple[Words, ...] = ()


class Contrast(NamedTuple):
    """A ratio or difference between a level and its reference."""

    position: Position
    measure: Words
    value: Number | Percentage | Missing
    interval: Ends | Missing | None
    confidence: Percentage | Missing | None
    p: PValue | Missing | None
    level: Words | None
    reference: Words | Missing | None
    per: Words | None
    event: Words | None
    event_is: Words | None
    adjusted_for: Words | Missing | tuple[Words, ...]
    """`none`, a list, or not reported."""
    model: Words | Missing | None
    proportional: Words | Missing | None
    unit: Words | Missing | None
    absolute: Absolute | None
    pooled: Pooled | None
    where: Words | None
    counted_as: tuple[Words, ...] = ()
    margin: Margin | None = None
    in_words: tuple[Words, ...] = ()


class SignificanceTest(NamedTuple):
    """A test reported alone."""

    position: Position
    between: tuple[Words, ...] | Missing
    p: PValue | Missing | None
    method: Words | Missing | None
    where: Words | None
    in_words: tuple[Words, ...] = ()


class Pairs(NamedTuple):
    """The same units judged twice."""

    position: Position
    a: Words
    b: Words
    both: Number | Missing
    only_a: Number | Missing
    only_b: Number | Missing
    neither: Number | Missing
    where: Words | None
    in_words: tuple[Words, ...] = ()


class Within(NamedTuple):
    """A subgroup: one factor held at one level."""

    position: Position
    factor: Words
    level: Words
    where: Words | None = None
    in_words: tuple[Words, ...] = ()


class Claim(NamedTuple):
    """One thing a report says about a question."""

    position: Position
    id: Words
    question: tuple[Words, ...]
    outcome: Words
    where: Words
    follow_up: FollowUp | Words | Missing
    """A block; the id of the claim of this file whose block is meant; or a missing value."""
    study: tuple[Words, ...]
    """Empty: all of the file's."""
    factor: Words | None
    known_at: Words | None
    reference: Words | Missing | None
    differ_in: tuple[Words, ...]
    planned: Words | None
    within: tuple[Within, ...]
    given: Words | None
    flow: Flow | None
    quotes: Words | None
    events: Number | Missing | None
    total: Number | Missing | Candidates | None
    rate: Percentage | Missing | None
    success_rate: Percentage | Missing | None
    interval: Ends | Missing | None
    confidence: Percentage | Missing | None
    pooled: Pooled | None
    levels: tuple[Level, ...]
    estimate: Estimate | None
    contrast: Contrast | None
    tests: tuple[SignificanceTest, ...]
    """Typed `test`, one or a list."""
    pairs: Pairs | Missing | None
    grades: tuple[Grade, ...]
    acknowledged: tuple[Acknowledged, ...]
    note: Words | None
    counted_as: tuple[Words, ...] = ()
    cut: Words | None = None
    """Where the bands of a measured factor came from: fixed beforehand, chosen from the data, not reported."""
    in_words: tuple[Words, ...] = ()
    unit: Words | Missing | None = None
    """What means and medians by level are measured in: mm, minute or words."""


class Report(NamedTuple):
    """One claim file: what one report says."""

    key: str
    """The file's name, which is the BibTeX key."""
    file: str
    source: Words
    read: Read
    checked: Checked | None
    studies: tuple[Study, ...]
    claims: tuple[Claim, ...]
    nothing_claimed: Words | None
    acknowledged: tuple[Acknowledged, ...]

    def claim(self, name: str) -> Claim | None:
        """The claim of this id."""
        for claim in self.claims:
            if claim.id.text == name:
                return claim
        return None

    def studies_of(self, claim: Claim) -> tuple[str, ...]:
        """Ids of the studies that a claim of it counts: all of the report's own where the claim names none."""
        return tuple(name.text for name in claim.study) or tuple(study.id.text for study in self.studies)

    def all_studies(self) -> frozenset[str]:
        """Ids of the studies that it describes, and of those that its claims name."""
        own = (study.id.text for study in self.studies)
        return frozenset((*own, *(name.text for claim in self.claims for name in claim.study)))
