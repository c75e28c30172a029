"""Proof of every quoted number: it stands in the passage that its `where` names, as printed and in the same role."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Mapping, Sequence
from functools import cached_property

from ..numerals import FORMAT_1, Lexicon
from ..printed.one_each import is_one_each
from ..problems import Position, Problem
from ..reading.model import Outcome
from ..reading.report_model import Report, Source, Study
from ..reading.values import Words
from ..records import NamedTuple
from .declared_names import DeclaredNames
from .proof import Proof, Tie
from .proving.choosing import choose
from .proving.field_roles import Quoted, Scope
from .proving.fields import quoted_scopes
from .proving.figure_messages import (
    FIGURE_RULES as FIGURE_RULES,
    also_elsewhere,
    doubt,
    exchanged_with,
    proof_problem,
)
from .proving.in_passing import find_in_passing
from .proving.interval_level import Stated, find_levels, may_state_level, stated_levels
from .proving.level_names import names_of
from .proving.locating import locate
from .proving.matching import MAY_BE_IN_HOURS
from .proving.printed_passage import Reading
from .proving.sharing import Choice
from .proving.unknown_places import is_doubtful, unknown_where
from .proving.unsigned import as_shown
from .ties.doubts import is_settled, other_unit
from .ties.tie import Stands, Ties
from .ties.tying import find_ties


class Proved(NamedTuple):
    """What the proof of one report gives."""

    problems: tuple[Problem, ...]
    """In the order of the form."""
    proofs: dict[str, Proof]
    """By id of the figure, in the order of the form; empty where they were not wanted."""
    ids: list[str]
    """Of every proved figure, in the order of the form."""
    quoted: int
    """How many numbers the report quotes."""
    unproved: int
    unproved_at: frozenset[Position]
    """Where the numbers stand that take part in no other rule: found without proof, or of an open level."""


def prove_report(
    report: Report,
    source: Source,
    units: Mapping[str, str] | None = None,
    outcomes: Mapping[str, Outcome] | None = None,
    lexicon: Lexicon = FORMAT_1,
    *,
    located: bool = True,
    declared: DeclaredNames | None = None,
) -> Proved:
    """Match every number of a report with one printed number of its source.

    units: what each study counts ("eye"), by its id, where another report of the study tells it. outcomes: of the
    vocabulary, by id. lexicon: what is counted, and the words of the trade. located: whether the proofs are wanted, or
    only the names of what is proved. declared: what the compendium says of the names that claims use; without it no
    tie of a number is looked for.
    """
    return prove_reports([(report, source)], units, outcomes, lexicon, located=located, declared=declared)[0]


def prove_reports(
    reports: Sequence[tuple[Report, Source]],
    units: Mapping[str, str] | None = None,
    outcomes: Mapping[str, Outcome] | None = None,
    lexicon: Lexicon = FORMAT_1,
    *,
    located: bool = True,
    declared: DeclaredNames | None = None,
) -> list[Proved]:
    """What `prove_report` gives of each.

    All go through one step together before any goes on: what the step needs stays at hand in the processor, which takes
    a fifth less time. A dozen reports are enough; of hundreds the passages would fill the memory.
    """
    proofs = [_Proving(source, lexicon, declared, located=located) for _, source in reports]
    scopes = [
        (proving, scope)
        for proving, (report, _) in zip(proofs, reports, strict=True)
        for scope in quoted_scopes(report, units, outcomes, lexicon)
    ]
    for proving, scope in scopes:
        proving.read_passages(scope)
    found = [proving.find(scope) for proving, scope in scopes]
    if declared is not None:
        find_ties([each.ties for each in found], declared)
    for (proving, _), each in zip(scopes, found, strict=True):
        proving.tell(each)
    for proving in proofs:
        proving.forget()
    return [proving.proved() for proving in proofs]


class _Found(NamedTuple):
    """The numbers of one claim, or of one study's facts, and where they stand."""

    scope: Scope
    readings: list[Reading | None]
    choices: Sequence[Choice | None]
    ties: Ties
    doubtful: list[tuple[Stands, Choice]]
    problems: list[Problem]
    """Of places that name no passage."""


class _Proving:
    """The proof of one report as far as it has come."""

    def __init__(self, source: Source, lexicon: Lexicon, declared: DeclaredNames | None, *, located: bool) -> None:
        self.source, self.lexicon, self.declared, self.located = source, lexicon, declared, located
        self.passages = {passage.bracket: passage for passage in source.passages}
        self.read: dict[str, Reading] = {}
        self.unknown: set[Position] = set()
        self.problems: list[Problem] = []
        self.proofs: dict[str, Proof] = {}
        self.ids: list[str] = []
        self.unproved_at: list[Position] = []
        self.doubted: set[tuple[str, str, str]] = set()
        """By rule, block and words beside the number what was asked."""
        self.withheld: list[Position] = []
        self.quoted = 0
        self.elsewhere: dict[tuple[str, str], int] = {}
        """By scope and what mends it, where the problem stands that tells of numbers in another passage."""
        self.one_each: dict[tuple[str, str], bool] = {}
        """By unit and holder, whether the source says that each holder has one."""

    def proved(self) -> Proved:
        """What it gives."""
        withheld = frozenset((*self.unproved_at, *self.withheld))
        return Proved(tuple(self.problems), self.proofs, self.ids, self.quoted, len(self.unproved_at), withheld)

    def forget(self) -> None:
        """Let go of the passages: thousands of reports at once would fill the memory."""
        for reading in self.read.values():
            reading.forget()

    def reading(self, bracket: str) -> Reading | None:
        """The passage of a bracket, read once."""
        found = self.read.get(bracket)
        if found is None:
            passage = self.passages.get(bracket) or self.passages.get(" ".join(bracket.split()))
            if passage is not None:
                found = self.read[bracket] = Reading(passage, self.lexicon)
        return found

    @cached_property
    def levels_of_source(self) -> list[Stated]:
        """What the source says of the level of all its intervals."""
        may = [bracket for bracket, passage in self.passages.items() if may_state_level(passage.text)]
        return stated_levels(found for bracket in may if (found := self.reading(bracket)) is not None)

    def read_passages(self, scope: Scope) -> None:
        """Those that a scope names."""
        for place in {row.where.text for row in scope.quoted}:
            self.reading(place)

    def find(self, scope: Scope) -> _Found:
        """Where the numbers of one claim, or of one study's facts, stand."""
        problems: list[Problem] = []
        readings = self._readings(scope, problems)
        names = names_of(scope, self.declared.factors if self.declared is not None else {})
        scope = scope._replace(names=names, alike=self._alike(scope, readings))
        choices = locate(scope, readings, choose(scope, readings))
        standing: list[Stands] = []
        doubtful: list[tuple[Stands, Choice]] = []
        for row, place, choice in zip(scope.quoted, readings, choices, strict=True):
            if choice is not None and place is not None and choice.at >= 0:
                standing.append(Stands(row, choice.at, place, place.tokens[choice.at], row.id.rpartition("/")[0]))
                if choice.failure is not None:
                    doubtful.append((standing[-1], choice))
        # A doubtful number is settled by its ties; of others nobody wants more than the questions.
        ties = Ties(scope, self.source, standing, wanted=self.located or bool(doubtful))
        return _Found(scope, readings, choices, ties, doubtful, problems)

    def tell(self, found: _Found) -> None:
        """What is to be told of them, once their ties are found."""
        scope, readings, ties = found.scope, found.readings, found.ties
        self.problems += found.problems
        unnamed: set[Position] = set()
        for row, place, choice in zip(scope.quoted, readings, found.choices, strict=True):
            if choice is not None and place is not None:
                if choice.at >= 0:
                    continue
                if self._is_said_in_words(row, place, scope):
                    self.quoted -= 1
                    continue
                self._tell(scope, row, proof_problem(row, place, scope, self.source, self.reading))
            self.unproved_at.append(row.position)
            if row.role.kind == "bound":
                unnamed |= {each.position for each in scope.quoted if each.level == row.typed}
        self.quoted += len(readings)
        self.ids += [stands.row.id for stands in ties.standing]
        # Of a level whose bound the passage lacks, nobody need be told that the passage does not name it.
        self.problems += [p for p in ties.problems if p.rule != "level-not-named" or p.position not in unnamed]
        if self.located:
            for stands in ties.standing:
                self.proofs[stands.row.id] = _proof(stands, ties.by_figure.get(stands.row.id, ()))
        for stands, choice in found.doubtful:
            if not is_settled(stands, choice, scope, ties.standing, ties.settled):
                self._ask(scope, stands, choice, ties.asked)
        for row, problem in find_levels(scope, readings, found.choices, lambda: self.levels_of_source):
            self.problems.append(problem)
            self.withheld.append(row.position)
        if scope.in_passing:
            self.problems += find_in_passing(scope, self.reading)

    def _tell(self, scope: Scope, row: Quoted, problem: Problem) -> None:
        """One problem more; what stands in one other passage is told once for all numbers of a claim."""
        key = scope.name, problem.hint
        at = self.elsewhere.get(key, -1) if problem.rule == "figure-elsewhere" else -1
        if at >= 0:
            self.problems[at] = also_elsewhere(self.problems[at], row)
            return
        if problem.rule == "figure-elsewhere":
            self.elsewhere[key] = len(self.problems)
        self.problems.append(problem)

    def _alike(self, scope: Scope, readings: Sequence[Reading | None]) -> frozenset[str]:
        """Other units that the passages of a scope count, and of which each stands for one of its own."""
        own = {row.unit for row in scope.quoted if row.role.kind == "count" and row.unit in self.lexicon.units}
        if len(own) != 1:
            return frozenset()
        unit = own.pop()
        counted = {token.unit for reading in set(readings) if reading is not None for token in reading.tokens}
        above = [other for other in self.lexicon.holders(unit) if other in counted]
        below = [other for other in counted if other in self.lexicon.held and unit in self.lexicon.holders(other)]
        return frozenset(
            other
            for one, other, holder in (*((unit, each, each) for each in above), *((each, each, unit) for each in below))
            if self._is_one_each(scope, one, holder) or self._is_said_for(one, holder, readings)
        )

    def _is_said_for(self, finding: str, holder: str, readings: Sequence[Reading | None]) -> bool:
        """Whether papers count a finding for what has it, and no passage tells of fewer that had it: "34 lesions of 28
        eyes"."""
        if not self.lexicon.units[finding].is_finding:
            return False
        most = max(
            (token.value for reading in readings if reading is not None for token in reading.tokens
             if token.unit == finding), default=0,
        )  # fmt: skip
        return not any(
            token.unit == holder and token.part != "events" and most <= 3 * token.value < 3 * most
            for bracket in self.passages if (reading := self.reading(bracket)) is not None for token in reading.tokens
        )  # fmt: skip

    def _is_one_each(self, scope: Scope, unit: str, holder: str) -> bool:
        key = unit, holder
        if scope.study is not None and _adds_up(scope):
            return True
        if key not in self.one_each:
            self.one_each[key] = any(
                is_one_each(passage.text, unit, holder, self.lexicon) for passage in self.source.passages
            )
        studies = _studies(scope)
        return self.one_each[key] or any(study.unit is not None and study.unit.per is not None for study in studies)

    def _is_said_in_words(self, row: Quoted, place: Reading, scope: Scope) -> bool:
        """Whether the number of a level is a word of its name, and the passage has this name or another one of the
        level: "single-visit" for "one visit". Such a number is no figure, for nothing was measured."""
        if row.role.kind != "bound":
            return False
        if any(letter.isdigit() for letter in row.typed):  # "0-5" is "up to 5 mm"
            from_none = re.compile(rf"0\s*(?:[-–—]|to)\s*{row.value}\b")
            named = (mention for mention in place.mentions(scope.names) if mention.key == row.typed)
            return any(from_none.match(place.passage.text, mention.start) for mention in named)
        claim = scope.claim
        factor = None
        if self.declared is not None and claim is not None and claim.factor is not None:
            factor = self.declared.factors.get(claim.factor.text)
        alike = {name.key for name in scope.names if factor and factor.matches(name.key) == factor.matches(row.typed)}
        return any(mention.key in (row.typed, *alike) for mention in place.mentions(scope.names))

    def _ask(self, scope: Scope, stands: Stands, choice: Choice, asked: Collection[str]) -> None:
        """Ask about a number whose words may say something else, unless a tie did.

        Until it is answered the number takes part in no other rule, which would ask the same once more.
        """
        row, place = stands.row, stands.reading
        problem = doubt(row, place, choice, scope, self.source, self.reading)
        is_exchanged = exchanged_with(row, place, scope) is not None
        said = problem.rule, stands.block, "exchanged" if is_exchanged else other_unit(stands) or stands.token.role
        # "2.64 (1.40 to 4.97) for smokers" is one question, not three; "9 of 155 eyes" one of both.
        is_said = bool(said[2]) and said in self.doubted
        self.doubted.add(said)
        # Where a level or an event was asked about, its total in another pair is nothing new.
        is_beside = choice.failure in ("pair", "taken") and any(each.startswith(f"{stands.block}/") for each in asked)
        if row.id not in asked and not is_said and not is_beside:
            self.problems.append(problem)
        if not _is_answered(scope, problem.rule):
            self.withheld.append(row.position)

    def _readings(self, scope: Scope, problems: list[Problem]) -> list[Reading | None]:
        """The passage of each number; a `where` that names none is told once."""
        readings: list[Reading | None] = []
        where: Words | None = None
        found: Reading | None = None
        for row in scope.quoted:
            if row.where is not where:  # the rows of a claim share their place
                where = row.where
                found = self.reading(where.text)
                # A place that could not be read is said already: what it should prove stays unproved, in silence.
                if found is None and where.text and where.position not in self.unknown:
                    self.unknown.add(where.position)
                    if not is_doubtful(where, self.source):
                        problems.append(unknown_where(where, self.source))
            if row.name == "confidence":
                readings.append(self._of_level(row, found))
            else:
                readings.append(self._of_step(row, found) if scope.study is not None else found)
        return readings

    def _of_step(self, row: Quoted, found: Reading | None) -> Reading | None:
        """For a step of a study's flow of which its own passage says nothing, the one other passage that names the step
        with this number: a report tells who was treated under Methods and who came back under Results."""
        if found is None or not row.role.own or row.within_words or row.value in found.by_value or found.shows(row):
            return found
        others = [other for bracket in self.passages if (other := self.reading(bracket)) not in (None, found)]
        saying = [other for other in others if other is not None and _says_step(row, other)]
        return saying[0] if len(saying) == 1 else found

    def _of_level(self, row: Quoted, found: Reading | None) -> Reading | None:
        """For a level of confidence that its own passage does not print, the passage that says it of all intervals."""
        if found is None or row.within_words or any(token.kind == "confidence" for token in found.tokens):
            return found
        stated = next((each for each in self.levels_of_source if each.level == row.value), None)
        return found if stated is None else self.reading(stated.passage.bracket)


def _adds_up(scope: Scope) -> bool:
    """Whether those examined and those lost are all that were treated or due: then five patients who did not return
    had five eyes."""
    typed = {row.name: row.value for row in scope.quoted if row.id.endswith(f"/flow/{row.name}")}
    lost = sum(value for name, value in typed.items() if name in _LEFT)
    return bool(lost) and typed.get("examined", -1) + lost in (typed.get("treated"), typed.get("due"))


_LEFT = frozenset({"lost", "discontinued", "died", "extracted", "extracted_related", "extracted_other"})


def _studies(scope: Scope) -> Iterator[Study]:
    """The studies of a scope as this report tells of them."""
    if scope.study is not None:
        yield scope.study
    elif scope.claim is not None and scope.report is not None:
        names = {name.text for name in scope.claim.study}
        yield from (study for study in scope.report.studies if not names or study.id.text in names)


def _says_step(row: Quoted, place: Reading) -> bool:
    """Whether a passage has the number of a step with the word for this step."""
    tokens = (place.tokens[index] for index in place.by_value.get(row.value, ()))
    return any(row.role.own in token.roles and token.unit in ("none", row.unit, "") for token in tokens)


def _is_answered(scope: Scope, rule: str) -> bool:
    """Whether somebody answered this rule where the scope is typed."""
    holders = (scope.claim, scope.study, scope.report)
    return any(answer.rule.text == rule for holder in holders if holder is not None for answer in holder.acknowledged)


def _proof(stands: Stands, ties: Sequence[Tie]) -> Proof:
    row, place, token = stands.row, stands.reading, stands.token
    unit, value = row.unit, token.value
    if unit == "%" and token.unit == "none" and 100 * value == row.value:  # "0.84" proves 84%
        value = row.value
    if not unit:
        unit = token.unit if token.unit in place.lexicon.units else "none"
    elif (
        (row.id.endswith("/pooled/of") and token.unit in place.lexicon.units)
        or (row.role.kind == "length" and token.unit != "none")
        or (row.role.kind == "bound" and unit == "none")
    ):
        unit = token.unit
    if row.role.kind in MAY_BE_IN_HOURS and value != row.value:  # "11.4 hours", read as minutes, is 11.4 in hours
        value = row.value
    elif token.stands_for:  # nobody would read 24 as one day
        value, unit = token.value * 24 if token.unit == "day" else token.value / 60, token.stands_for
    return Proof(
        row.id, row.position, row.typed, value, unit, as_shown(row, token), place.typed,
        start=token.start, outer_start=token.outer_start, outer_end=token.outer_end,
        ties=tuple(ties),
    )  # fmt: skip
