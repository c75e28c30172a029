"""Every digit that a proof uses, changed: does the check fail, and does it name the place?

One mutation is one digit of one figure replaced by another digit, in the claim file or in the passage. The audit of a
report is a pure function of its values, so each mutation costs one report and no files; and what a passage says around
its numbers is a function of the passage alone, so it is read once for all mutations that leave it as it is.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple
from unittest import mock

from demo import ROOT, demo_evidence
from passageproof.audit import whole
from passageproof.numerals import Lexicon
from passageproof.numerals.reader import read_numerals
from passageproof.problems import Position, Problem
from passageproof.proof import report_proof
from passageproof.proof.declared_names import DeclaredNames, declared_names
from passageproof.proof.proof import Proof
from passageproof.proof.proving.printed_passage import Reading
from passageproof.reading import yaml_text
from passageproof.reading.evidence import read_evidence
from passageproof.reading.model import Evidence
from passageproof.reading.prose import Reference, split_references
from passageproof.reading.questions import read_question
from passageproof.reading.report_model import Passage, Report, Source
from passageproof.reading.reports import read_report
from passageproof.reading.yaml_text import Sheet


class Mutation(NamedTuple):
    """One digit changed, and whether the check noticed."""

    where: str
    """claim, passage or prose."""
    place: Position
    text: str
    """What was printed, and what it became: "39 -> 38"."""
    is_caught: bool


STEPS = (1, 4, 7)


class _KeptReading(Reading):
    """A passage whose readers' answers outlive one audit."""

    __slots__ = ()

    def forget(self) -> None:
        """Nothing: the same passage is asked again."""


class Bench:
    """A compendium read once, whose reports can be audited again with one digit changed.

    Every place of a digit is changed. is_whole: to three other digits; else to one of these, another from place to
    place, since what becomes of the digit is compared with its passage in one and the same way.
    """

    def __init__(self, root: Path, *, is_whole: bool = True) -> None:
        self.root = root
        self.is_whole = is_whole
        self.readings: dict[Passage, Reading] = {}
        self.evidence: Evidence = demo_evidence() if root == ROOT else read_evidence(root)
        self.declared: DeclaredNames = declared_names(self.evidence)
        self.units = whole.units_of(self.evidence)
        self.day = whole.day_of(self.evidence)

    def taken(self, key: str) -> tuple[Report, Source]:
        """A report with its source, to be audited time and again; passages of the one before are let go."""
        self.readings.clear()
        return self.evidence.reports[key], self.evidence.sources[key]

    def audited(self, report: Report, source: Source | None) -> whole.Audited:
        """One report, audited alone."""
        with mock.patch.object(report_proof, "Reading", self._reading):
            return whole.audit_report(report, source, self.declared, self.day, self.units)

    def _reading(self, passage: Passage, lexicon: Lexicon) -> Reading:
        if passage not in self.readings:
            self.readings[passage] = _KeptReading(passage, lexicon)
        return self.readings[passage]

    def others(self, digit: str, place: int) -> list[str]:
        """Digits that are not this one. place: counts the places that were changed before."""
        steps = STEPS if self.is_whole else STEPS[place % len(STEPS) :][:1]
        return [str((int(digit) + step) % 10) for step in steps]

    def of_report(self, key: str, *, is_asked: bool = True) -> Iterator[Mutation]:
        """Every mutation of one report's claim file and of the passages it uses.

        is_asked: False where only the places are wanted; then none counts as caught.
        """
        report, source = self.taken(key)
        before = self.audited(report, source)
        known = {_name(problem) for problem in before.problems}
        yield from self._in_claims(report, source, before, known, is_asked)
        yield from self._in_passages(report, source, before, known, is_asked)

    def _in_claims(
        self, report: Report, source: Source, before: whole.Audited, known: set[tuple[str, str]], is_asked: bool
    ) -> Iterator[Mutation]:
        text = (self.root / report.file).read_text("utf-8")
        starts = [0]
        for line in text.splitlines(keepends=True):
            starts.append(starts[-1] + len(line))
        seen: set[int] = set()
        for proof in before.proofs.values():
            at = starts[proof.written_in.line - 1] + proof.written_in.column - 1
            for offset in range(at, at + len(proof.typed)):
                if not text[offset].isdigit() or offset in seen:
                    continue
                seen.add(offset)
                for digit in self.others(text[offset], len(seen)):
                    changed = text[:offset] + digit + text[offset + 1 :]
                    found = self._claims_read(report, source, changed) if is_asked else []
                    line = text.count("\n", 0, offset) + 1
                    caught = any(
                        problem.position.file == report.file
                        and (problem.position.line == line or f"{report.file}:{line}" in problem.message)
                        for problem in found
                        if _name(problem) not in known
                    )
                    place = Position(report.file, line, offset - starts[line - 1] + 1)
                    yield Mutation("claim", place, f"{text[offset]} -> {digit} in {proof.id}", caught)

    def _claims_read(self, report: Report, source: Source, text: str) -> list[Problem]:
        problems: list[Problem] = []
        sheet = Sheet(report.file, text, problems)
        root = yaml_text.compose(sheet)
        if root is None:
            return problems
        changed, _ = read_report(root, sheet, report.key)
        return problems if changed is None else [*problems, *self.audited(changed, source).problems]

    def _in_passages(
        self, report: Report, source: Source, before: whole.Audited, known: set[tuple[str, str]], is_asked: bool
    ) -> Iterator[Mutation]:
        seen: set[tuple[str, int]] = set()
        for proof in before.proofs.values():
            passage = proof.passage
            for offset in range(proof.outer_start, proof.outer_end):
                char = passage.text[offset]
                if not char.isdigit() or (passage.bracket, offset) in seen:
                    continue
                seen.add((passage.bracket, offset))
                for digit in self.others(char, len(seen)):
                    changed = _with_text(source, passage, passage.text[:offset] + digit + passage.text[offset + 1 :])
                    found = self.audited(report, changed).problems if is_asked else ()
                    place = passage.place(offset)
                    named = f"{place.file}:{passage.position.line}"
                    caught = any(
                        problem.position.file == place.file or named in problem.message
                        for problem in found
                        if _name(problem) not in known
                    )
                    yield Mutation("passage", place, f"{char} -> {digit} in {proof.id}", caught)

    def of_prose(self) -> Iterator[Mutation]:
        """Every digit of every reference in question files and hand-written pages: a named figure must exist."""
        proofs: dict[str, Proof] = {}
        for key, report in self.evidence.reports.items():
            proofs.update(self.audited(report, self.evidence.sources.get(key)).proofs)
        known = {_name(problem) for problem in whole._in_questions(self.evidence, self.declared, proofs, False)}
        for name, question in self.evidence.questions.items():
            file = question.position.file
            text = (self.root / file).read_text("utf-8")
            at = 0
            for part in split_references(text):
                if isinstance(part, str):
                    continue
                at = text.index(f"${part.text}", at)
                yield from self._in_reference(file, name, text, at, part, proofs, known)
                at += 1

        for index, page in enumerate(self.evidence.pages):
            at = 0
            for part in split_references(page.text):
                if isinstance(part, str):
                    continue
                at = page.text.index(f"${part.text}", at)
                for offset in range(at + 1, at + 1 + len(part.text)):
                    if not page.text[offset].isdigit():
                        continue
                    for digit in self.others(page.text[offset], offset):
                        changed = page._replace(text=page.text[:offset] + digit + page.text[offset + 1 :])
                        pages = (*self.evidence.pages[:index], changed, *self.evidence.pages[index + 1 :])
                        found = whole._in_questions(self.evidence._replace(pages=pages), self.declared, proofs, False)
                        caught = any(_name(item) not in known and item.position.file == page.file for item in found)
                        line = page.text.count("\n", 0, offset) + 1
                        said = f"{page.text[offset]} -> {digit} in ${part.text}"
                        yield Mutation("prose", Position(page.file, line, 1), said, caught)
                at += 1

    def _in_reference(
        self,
        file: str,
        name: str,
        text: str,
        at: int,
        reference: Reference,
        proofs: dict[str, Proof],
        known: set[tuple[str, str]],
    ) -> Iterator[Mutation]:
        for offset in range(at + 1, at + 1 + len(reference.text)):
            if not text[offset].isdigit():
                continue
            line = text.count("\n", 0, offset) + 1
            for digit in self.others(text[offset], offset):
                changed = text[:offset] + digit + text[offset + 1 :]
                sheet = Sheet(file, changed, [])
                question = read_question(yaml_text.compose(sheet), sheet, name)
                assert question is not None
                evidence = self.evidence._replace(questions={**self.evidence.questions, name: question})
                found = whole._in_questions(evidence, self.declared, proofs, False)
                caught = any(_name(problem) not in known and problem.position.file == file for problem in found)
                yield Mutation(
                    "prose", Position(file, line, 1), f"{text[offset]} -> {digit} in ${reference.text}", caught
                )

    def unclaimed(self, key: str) -> list[str]:
        """Numbers of a report's passages that no proof uses: "4 in [p. 148, Table 5]"."""
        report, source = self.evidence.reports[key], self.evidence.sources[key]
        used = {(proof.passage.bracket, proof.start) for proof in self.audited(report, source).proofs.values()}
        return [
            f"{token.text} in [{passage.bracket}]"
            for passage in source.passages
            for token in read_numerals(passage.text)
            if (passage.bracket, token.start) not in used
        ]


def _name(problem: Problem) -> tuple[str, str]:
    return problem.rule, problem.message


def _with_text(source: Source, passage: Passage, text: str) -> Source:
    passages = tuple(item._replace(text=text) if item.bracket == passage.bracket else item for item in source.passages)
    return source._replace(passages=passages)
