"""A number that stands in its passage, what ties it to its claim, and what speaks against it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Literal

from ...numerals import Token
from ...printed.clauses import Span
from ...problems import Position, Problem
from ...reading.report_model import Claim, Passage, Source, Study
from ...records import NamedTuple
from ..asking import ask, collapsed
from ..declared_names import DeclaredNames
from ..proof import Tie
from ..proving.field_roles import Quoted, Scope
from ..proving.printed_passage import Reading

Known = DeclaredNames
"""What the compendium says of the names that a claim uses: outcomes, factors with their wordings, studies, words of the
trade."""


class Stands(NamedTuple):
    """One number of a claim, or of a study's facts, that was found in its passage."""

    row: Quoted
    """As typed."""
    at: int
    """Its place among the passage's numbers."""
    reading: Reading
    """The passage."""
    token: Token
    """As printed."""
    block: str
    """The block it is typed in: "marlow2019furcal/by-size/over-3-mm"."""

    def printed(self, *spans: Span) -> str:
        """Slices of the passage as questions quote them: every run of blanks as one, " ... " between two slices."""
        text = self.reading.typed.text
        return collapsed(" ... ".join(text[start:end] for start, end in spans))


class Ties:
    """What is found about the numbers of one scope, kind after kind."""

    __slots__ = (
        "_asked", "asked", "by_figure", "problems", "readings", "scope", "settled", "source", "standing", "wanted",
    )  # fmt: skip

    def __init__(self, scope: Scope, source: Source, standing: Sequence[Stands], *, wanted: bool) -> None:
        self.scope, self.standing = scope, standing
        self.readings = list({id(stands.reading): stands.reading for stands in standing}.values())
        """The passages of all its numbers, each once: what none of them may say need not be asked of each number."""
        self.source = source
        """All passages of the report, those that no number names included."""
        self.wanted = wanted
        """Whether somebody looks at the ties; questions are found in any case."""
        self.by_figure: dict[str, list[Tie]] = {}
        """By id of the figure, in the order of `tying.ORDER`."""
        self.problems: list[Problem] = []
        self.asked: set[str] = set()
        """Ids of the figures about which something was asked."""
        self.settled: set[str] = set()
        """Ids of the figures whose event the words around them say, each with what denies it: no single word among
        them, "failure" in "no sign of failure", speaks against it."""
        self._asked: set[tuple[str, str, str]] = set()

    def tie(self, stands: Stands, of: str, says: str, by: Literal["words", "position", "reader"], *words: Span) -> None:
        """The passage says it too. of: "level", "time", ...; says: as the claim has it: "over 3 mm".

        words: the slices of the passage that say so.
        """
        if self.wanted:
            self.by_figure.setdefault(stands.row.id, []).append(Tie(of, says, by, words))

    def ask(self, stands: Stands, rule: str, passage_says: str, claim_says: str, mend: str = "") -> None:
        """The passage says otherwise, or says nothing that it must say. Told once a block, rule and reading.

        passage_says: behind "the passage typed from p. 46 (..)": 'gives it to "B"'. claim_says: 'the claim to "A"'.
        mend: what to write where the passage is right as it is, in YAML where it can be pasted.
        """
        self.asked.add(stands.row.id)
        key = (rule, stands.block, passage_says)
        if key in self._asked:
            return
        self._asked.add(key)
        self.ask_at(
            stands.row.position, rule, as_printed(stands), stands.reading.passage, passage_says, claim_says, mend,
            closing="which is meant?",
        )  # fmt: skip

    def ask_at(
        self, position: Position, rule: str, printed: str, passage: Passage, passage_says: str, claim_says: str,
        mend: str = "", closing: str = "which is meant?",
    ) -> None:  # fmt: skip
        """The same of a typed fact that is no proved number.

        position: where it is typed. printed: as the passage has it.
        """
        place = f"the passage typed from {passage.bracket} ({passage.position.file}:{passage.position.line})"
        tells = f"{place} {passage_says}, {claim_says}"
        problem = ask(position, rule, printed, tells, self.scope.name, closing=closing)
        self.problems.append(problem._replace(hint=f"{mend}\n{problem.hint}") if mend else problem)


def as_printed(stands: Stands) -> str:
    """The number as the passage has it, with the other half of a pair: "39 of 47"."""
    tokens, token = stands.reading.tokens, stands.token
    if token.pair < 0:
        return token.shown
    first, last = sorted((token, tokens[token.pair]), key=lambda each: each.start)
    return collapsed(stands.reading.typed.text[first.outer_start : last.outer_end])


def ratio_of(standing: Sequence[Stands]) -> Stands | None:
    """The value of a claim's ratio or difference."""
    return next((each for each in standing if each.row.name == "value" and each.block.endswith("/contrast")), None)


def studies_of(claim: Claim, ties: Ties, known: Known) -> Iterator[Study]:
    """What is typed of the studies that a claim counts, each as the report has it that describes it."""
    for name in ties.scope.report.studies_of(claim) if ties.scope.report is not None else ():
        described = known.described.get(name)
        if described is not None:
            yield described.study
