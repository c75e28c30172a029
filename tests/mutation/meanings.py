"""Every meaning that can be exchanged without touching a digit: does the check ask, and at the claim?

One mutation is one claim that says something else than its passage: levels exchanged, a ratio turned round, another
time, outcome, group, event, adjustment, level of confidence, unit or species. A meaning is exchanged only where the
passage has words for it, found by plain search of the vocabulary's words and not by the readers under test; where a
passage is silent there is nothing that a check could see, and the guide says so ("located").
"""

from __future__ import annotations

import itertools
import re
from collections.abc import Callable, Iterator
from decimal import Decimal
from pathlib import Path
from typing import NamedTuple

from digits import Bench
from passageproof.numerals import Token, read_numerals
from passageproof.problems import Position, Problem
from passageproof.reading.model import Outcome
from passageproof.reading.report_model import Claim, Contrast, FollowUp, Level, Report, Source
from passageproof.reading.values import Length, Missing, Number, Words

KINDS = (
    "levels", "direction", "time", "outcome", "event", "group", "adjustment", "confidence", "unit", "species",
)  # fmt: skip


class Meaning(NamedTuple):
    """One meaning exchanged, and what the check said."""

    kind: str
    place: Position
    text: str
    """What was exchanged: "over 3 mm <-> up to 3 mm"."""
    is_caught: bool
    """Whether something new was asked in the claim file, at this claim."""
    is_caught_when_pinned: bool
    """The same with `in_words` quoting the sentences that hold the claim's numbers."""


class Changed(NamedTuple):
    """A claim that means something else, and what else of the report or source had to change for it."""

    kind: str
    text: str
    claim: Claim
    source: Source | None = None
    report: Callable[[Report], Report] | None = None


class Meanings:
    """A compendium read once, whose claims can be audited again with one meaning exchanged."""

    def __init__(self, root: Path) -> None:
        self.bench = Bench(root)
        self.outcomes = self.bench.evidence.vocabulary.outcomes
        self.factors = self.bench.evidence.vocabulary.factors

    def of_report(self, key: str) -> Iterator[Meaning]:
        """Every exchange in the claims of one report."""
        bench = self.bench
        report, source = bench.taken(key)
        known = {_name(problem) for problem in bench.audited(report, source).problems}
        for at, claim in enumerate(report.claims):
            for changed in self._changes(claim, report, source):
                pinned = changed._replace(claim=_pinned(changed.claim, changed.source or source))
                yield Meaning(
                    changed.kind, claim.position, changed.text,
                    self._is_caught(report, source, at, changed, known),
                    self._is_caught(report, source, at, pinned, known),
                )  # fmt: skip

    def _is_caught(
        self, report: Report, source: Source, at: int, changed: Changed, known: set[tuple[str, str]]
    ) -> bool:
        claims = (*report.claims[:at], changed.claim, *report.claims[at + 1 :])
        altered = report._replace(claims=claims)
        if changed.report is not None:
            altered = changed.report(altered)
        found = [
            problem
            for problem in self.bench.audited(altered, changed.source or source).problems
            if _name(problem) not in known and problem.position.file == report.file
        ]
        if changed.kind in ("unit", "species"):
            return bool(found)
        begin = report.claims[at].position.line
        end = report.claims[at + 1].position.line if at + 1 < len(report.claims) else 10**9
        return any(begin <= problem.position.line < end for problem in found)

    def _changes(self, claim: Claim, report: Report, source: Source) -> Iterator[Changed]:
        text = _passage(source, claim.where)
        if not text or claim.quotes is not None:
            return
        yield from self._levels(claim, text)
        if claim.contrast is not None:
            yield from self._contrast(claim, claim.contrast, source)
        yield from self._times(claim, source)
        yield from self._outcomes(claim, text)
        yield from self._groups(claim, text)
        yield from self._confidence(claim, source, text)
        yield from self._study(claim, report, source)

    def _levels(self, claim: Claim, text: str) -> Iterator[Changed]:
        told = [level for level in claim.levels if self._is_named(claim, level.level.text, text)]
        for one, other in itertools.pairwise(told):
            if _figures(one) == _figures(other) or not any(_figures(one)) or one.where != other.where:
                continue
            levels = tuple(
                level._replace(level=other.level, range=other.range)
                if level is one
                else level._replace(level=one.level, range=one.range)
                if level is other
                else level
                for level in claim.levels
            )
            yield Changed("levels", f"{one.level.text} <-> {other.level.text}", claim._replace(levels=levels))

    def _is_named(self, claim: Claim, wording: str, text: str) -> bool:
        """Whether the words of a level stand in a passage, as typed or as the vocabulary has them."""
        names = [wording]
        factor = self.factors.get(claim.factor.text) if claim.factor is not None else None
        for level in factor.levels if factor is not None else ():
            words = [level.title.text, *(word.text for word in level.synonyms)]
            if wording in words:
                names += words
        return any(_stands(name, text) for name in names)

    def _contrast(self, claim: Claim, contrast: Contrast, source: Source) -> Iterator[Changed]:
        text = _passage(source, contrast.where or claim.where)
        level, reference = contrast.level, contrast.reference
        is_turnable = (
            isinstance(level, Words)
            and isinstance(reference, Words)
            and not isinstance(contrast.value, Missing)
            and contrast.value.value not in (Decimal(0), Decimal(1))
            and contrast.per is None
        )
        if is_turnable and any(self._is_named(claim, words.text, text) for words in (level, reference)):
            turned = contrast._replace(level=reference, reference=level)
            yield Changed("direction", f"{level.text} <-> {reference.text}", claim._replace(contrast=turned))
        if contrast.event_is is not None and _says_event(text):
            other = "bad" if contrast.event_is.text == "good" else "good"
            flipped = contrast._replace(event_is=contrast.event_is._replace(text=other))
            yield Changed("event", f"event_is: {other}", claim._replace(contrast=flipped))
        adjusted_for = contrast.adjusted_for
        if _says_adjustment(text):
            if isinstance(adjusted_for, Words):
                as_list = contrast._replace(adjusted_for=(adjusted_for._replace(text="age"),))
                yield Changed("adjustment", "none -> [age]", claim._replace(contrast=as_list))
            elif isinstance(adjusted_for, tuple) and not isinstance(adjusted_for, Missing) and adjusted_for:
                crude = contrast._replace(adjusted_for=adjusted_for[0]._replace(text="none"))
                yield Changed("adjustment", "a list -> none", claim._replace(contrast=crude))

    def _times(self, claim: Claim, source: Source) -> Iterator[Changed]:
        block = claim.follow_up
        if isinstance(block, FollowUp) and isinstance(block.at, Length) and (claim.events or claim.rate):
            text = _passage(source, block.where or claim.where)
            for token in _times_in(text, block.at):
                other = block._replace(at=_length(block.at, token))
                yield Changed("time", f"{block.at.text} -> {token.text}", claim._replace(follow_up=other))
        estimate = claim.estimate
        if estimate is not None and estimate.at is not None:
            text = _passage(source, estimate.where or claim.where)
            for token in _times_in(text, estimate.at):
                moved = estimate._replace(at=_length(estimate.at, token))
                yield Changed("time", f"{estimate.at.text} -> {token.text}", claim._replace(estimate=moved))

    def _outcomes(self, claim: Claim, text: str) -> Iterator[Changed]:
        own = self.outcomes.get(claim.outcome.text)
        has_counts = claim.events is not None or any(level.events is not None for level in claim.levels)
        if own is None or not has_counts or not any(_stands(name, text) for name in _names(own)):
            return
        for other in self.outcomes.values():
            is_named = any(_stands(name, text) for name in _names(other))
            if other.good != own.good and not is_named:
                changed = claim._replace(outcome=claim.outcome._replace(text=other.id))
                # The form itself refuses a success rate of something bad.
                if other.good or all(holder.success_rate is None for holder in (claim, *claim.levels)):
                    yield Changed("outcome", f"{own.id} -> {other.id}", changed)
                    return

    def _groups(self, claim: Claim, text: str) -> Iterator[Changed]:
        for at, within in enumerate(claim.within):
            if not _stands(within.level.text, text):
                continue
            rest = (*claim.within[:at], *claim.within[at + 1 :])
            if claim.given is None and not claim.levels:
                yield Changed("group", f"within {within.level.text} left out", claim._replace(within=rest))
            factor = self.factors.get(within.factor.text)
            for level in factor.levels if factor is not None else ():
                if level.title.text != within.level.text and _stands(level.title.text, text):
                    other = within._replace(level=within.level._replace(text=level.title.text))
                    swapped = (*claim.within[:at], other, *claim.within[at + 1 :])
                    what = f"within {within.level.text} -> {level.title.text}"
                    yield Changed("group", what, claim._replace(within=swapped))

    def _confidence(self, claim: Claim, source: Source, text: str) -> Iterator[Changed]:
        has_interval = any(
            holder is not None and holder.interval is not None
            for holder in (claim, claim.contrast, claim.estimate, *claim.levels)
        )
        for match in re.finditer(r"\b95(?=\s*(?:%|per cent)\s*(?:CI|confidence))", text) if has_interval else ():
            changed = f"{text[: match.start()]}90{text[match.end() :]}"
            passages = tuple(
                passage._replace(text=changed) if passage.text == text else passage for passage in source.passages
            )
            yield Changed("confidence", "95% CI -> 90% CI", claim, source._replace(passages=passages))
            return

    def _study(self, claim: Claim, report: Report, source: Source) -> Iterator[Changed]:
        names = {name.text for name in claim.study} or {study.id.text for study in report.studies}
        for study in report.studies:
            if study.id.text not in names or study.species is None:
                continue
            whole = " ".join(passage.text for passage in source.passages)
            typed = study.species.text
            words = {
                "human": r"\b\d+ (?:\w+ )?(?:patients|people|children)\b",
                "animal": r"\b\d+ (?:\w+ )?(?:dogs|rats)\b",
            }
            if typed in words and re.search(words[typed], whole):
                other = study._replace(species=study.species._replace(text="animal" if typed == "human" else "human"))
                yield Changed("species", f"{typed} -> other", claim, None, _with_study(study.id.text, other))
            unit = study.unit
            if unit is not None and isinstance(unit.unit, Words) and unit.unit.text in ("tooth", "patient"):
                word = {"tooth": "teeth", "patient": "patients"}[unit.unit.text]
                if re.search(rf"\b\d+ (?:\w+ )?{word}\b", _passage(source, claim.where)) and claim.total is not None:
                    swapped = unit.unit._replace(text="root" if unit.unit.text == "tooth" else "tooth")
                    other = study._replace(unit=unit._replace(unit=swapped))
                    yield Changed(
                        "unit", f"{unit.unit.text} -> {swapped.text}", claim, None, _with_study(study.id.text, other)
                    )


def _with_study(name: str, other: object) -> Callable[[Report], Report]:
    return lambda report: report._replace(
        studies=tuple(other if study.id.text == name else study for study in report.studies)  # type: ignore[misc]
    )


def _pinned(claim: Claim, source: Source) -> Claim:
    """The claim with the sentences that hold its numbers quoted in `in_words`."""
    text = _passage(source, claim.where)
    sentences = [part for part in re.split(r"(?<=[.;])\s+(?=[A-Z\d])|\n", text) if any(map(str.isdigit, part))]
    numbers = [
        number.text
        for holder in (claim, *claim.levels)
        for number in (holder.events, holder.total)
        if isinstance(number, Number)
    ]
    if claim.contrast is not None and not isinstance(claim.contrast.value, Missing):
        numbers.append(claim.contrast.value.text.rstrip("%"))
    if claim.estimate is not None and not isinstance(claim.estimate.value, Missing):
        numbers.append(claim.estimate.value.text.rstrip("%"))
    kept = [
        sentence for sentence in sentences
        if text.count(sentence) == 1 and any(re.search(rf"(?<![\d.]){re.escape(n)}(?![\d])", sentence) for n in numbers)
    ]  # fmt: skip
    held = " ".join(kept)
    if not kept or not all(re.search(rf"(?<![\d.]){re.escape(n)}(?![\d])", held) for n in numbers):
        return claim
    return claim._replace(in_words=tuple(Words(sentence.strip(), claim.where.position) for sentence in kept))


def _passage(source: Source, where: Words) -> str:
    passage = source.passage(" ".join(where.text.split()))
    return passage.text if passage is not None else ""


def _stands(words: str, text: str) -> bool:
    return re.search(rf"(?<![a-z]){re.escape(words.lower())}(?![a-z])", " ".join(text.lower().split())) is not None


def _names(outcome: Outcome) -> list[str]:
    return [outcome.title.text, *(word.text for word in outcome.synonyms)]


def _figures(level: Level) -> tuple[str, ...]:
    values = (level.events, level.total, level.rate, level.success_rate, level.estimate and level.estimate.value)
    return tuple(value.text if value is not None and hasattr(value, "text") else "" for value in values)


def _says_event(text: str) -> bool:
    return re.search(r"heal|fail|success|surviv|lost|loss|pain|extract|persist", text, re.IGNORECASE) is not None


def _says_adjustment(text: str) -> bool:
    return re.search(r"adjust|multivaria|crude|univaria|controlling|allowing for", text, re.IGNORECASE) is not None


def _times_in(text: str, own: Length) -> Iterator[Token]:
    """Other times that a passage prints, in the unit of the typed one, each once."""
    seen = {own.value}
    for token in read_numerals(text):
        if token.kind == "length" and token.unit == own.unit and token.value not in seen and not token.roles:
            seen.add(token.value)
            yield token


def _length(typed: Length, token: Token) -> Length:
    text = f"{token.value} {typed.unit}{'s' if token.value != 1 else ''}"
    return typed._replace(text=text, value=token.value, decimals=token.decimals)


def _name(problem: Problem) -> tuple[str, str]:
    return problem.rule, problem.message
