"""Proof of every quoted number: it stands in the passage that its `where` names, as printed and in the same role."""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import cache
from typing import NamedTuple

from ...numerals import FORMAT_1, Lexicon, Token, read_numerals
from ...problems import Position, Problem
from ...reading.model import Outcome
from ...reading.report_model import Report, Source
from ...reading.values import Words
from ..proof import Proof
from .choosing import choose
from .field_roles import Quoted, Scope
from .fields import quoted_scopes
from .figure_messages import (
    FIGURE_RULES as FIGURE_RULES,
    mention_problem,
    proof_problem,
    unknown_where,
)
from .interval_level import Stated, find_levels, may_state_level, stated_levels
from .printed_passage import Reading


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
) -> Proved:
    """Match every number of a report with one printed number of its source.

    units: what each study counts ("eye"), by its id, where another report of the study tells it. outcomes: of the
    vocabulary, by id. lexicon: what is counted, and the words of the trade. located: whether the proofs are wanted, or
    only the names of what is proved.
    """
    passages = {passage.bracket: passage for passage in source.passages}
    read: dict[str, Reading] = {}
    unknown: dict[Position, Problem] = {}

    def reading(bracket: str) -> Reading | None:
        found = read.get(bracket)
        if found is None:
            passage = passages.get(bracket) or passages.get(" ".join(bracket.split()))
            if passage is not None:
                found = read[bracket] = Reading(passage, lexicon)
        return found

    @cache
    def levels_of_source() -> list[Stated]:
        may = [bracket for bracket, passage in passages.items() if may_state_level(passage.text)]
        return stated_levels(found for bracket in may if (found := reading(bracket)) is not None)

    problems: list[Problem] = []
    proofs: dict[str, Proof] = {}
    ids: list[str] = []
    unproved_at: list[Position] = []
    other_level: list[Position] = []
    quoted = 0
    for scope in quoted_scopes(report, units, outcomes, lexicon):
        readings: list[Reading | None] = []
        where: Words | None = None
        found: Reading | None = None
        for row in scope.quoted:
            if row.where is not where:  # the rows of a claim share their place
                where = row.where
                found = reading(where.text)
                # A place that could not be read is said already: what it should prove stays unproved, in silence.
                if found is None and where.text and where.position not in unknown:
                    problem = unknown[where.position] = unknown_where(where, source)
                    problems.append(problem)
            readings.append(found)
        quoted += len(readings)
        choices = choose(scope, readings)
        for row, place, choice in zip(scope.quoted, readings, choices, strict=True):
            if choice is not None and place is not None:
                if choice.at >= 0:
                    ids.append(row.id)
                    if located:
                        proofs[row.id] = _proof(row, place, choice.at)
                    continue
                problems.append(proof_problem(row, place, choice, scope, source, reading))
            unproved_at.append(row.position)
        for row, problem in find_levels(scope, readings, choices, levels_of_source):
            problems.append(problem)
            other_level.append(row.position)
        if scope.mentions:
            problems += _mentions(scope, reading, source)
    return Proved(tuple(problems), proofs, ids, quoted, len(unproved_at), frozenset((*unproved_at, *other_level)))


def _proof(row: Quoted, place: Reading, at: int) -> Proof:
    token = place.tokens[at]
    unit = row.unit
    if not unit:
        unit = token.unit if token.unit in place.lexicon.units else "none"
    elif (row.role.kind == "length" and token.unit != "none") or (row.role.kind == "bound" and unit == "none"):
        unit = token.unit
    return Proof(
        row.id, row.position, row.typed, token.value, unit, token.shown, place.passage,
        start=token.start, outer_start=token.outer_start, outer_end=token.outer_end,
    )  # fmt: skip


def _mentions(scope: Scope, reading, source: Source) -> list[Problem]:  # type: ignore[no-untyped-def]
    """Numbers in words of the claim must stand in its passage; they prove nothing.

    Only what is written with digits is asked for: "one of the two groups" speaks and quotes nothing. Places in the
    report ("Table 3") and years of the calendar are no figures.
    """
    problems: list[Problem] = []
    for mention in scope.mentions:
        text = mention.words.text
        if not _has_digit(text):
            continue
        place = reading(mention.where.text)
        if place is None:
            continue
        for token in read_numerals(_LOCATOR.sub(lambda found: " " * len(found[0]), text), scope.lexicon):
            if token.kind != "calendar" and _has_digit(token.text) and not _is_mentioned(token, place):
                problems.append(mention_problem(mention, token, place))
    return problems


_has_digit = re.compile(r"\d").search
_LOCATOR = re.compile(
    r"\b(?:pp?\.|pages?|tab(?:les?|\.)|fig(?:ures?|s?\.)|append(?:ix|ices)|refs?\.|references?|chapters?|sections?)"
    r"\s*[A-Z]?\d+(?:(?:\s*(?:-|–|,|and|to)\s*)\d+)*",
    re.IGNORECASE,
)


def _is_mentioned(token: Token, place: Reading) -> bool:
    return any(
        token.decimals == place.tokens[index].decimals
        and (token.unit == place.tokens[index].unit or "none" in (token.unit, place.tokens[index].unit))
        for index in place.by_value.get(token.value, ())
    )
