"""Where nothing is known: for each question and answer, what this guide does not hold and what nobody has read yet."""

from __future__ import annotations

from decimal import Decimal

from ...reading.fdi_chart import CHART_FACTORS, chart_factor_levels
from ...reading.model import Question
from ...reading.values import Length, Words
from ...records import NamedTuple
from ...results.findings.comparable import counts_from_healing, reason_not_compared
from ...results.findings.direction import reason_not_counted, sides_of
from ...results.findings.findings import Catalogue, Finding
from ...results.saying.labels import digits_as_letters
from ...results.saying.source_reference import source_link
from ...results.saying.titles import factor_title
from ...results.saying.wording import definition
from ...results.values.document import Block, Items, Page, Paragraph, Section, Table
from ...results.values.line import Line, Link, Marked, date, joined, line, typed
from ..sections.level_summary import not_known
from ..sentences.prose import NamedResult

# House rule: what was counted before the second year is out is early.
EARLY_MONTHS = 24


def gaps_page(catalogue: Catalogue, named: NamedResult) -> Page:
    """One section a question, by title. Never "no study exists": only what this guide holds, and since when."""
    blocks: list[Block] = [
        Paragraph(
            line(
                "This page lists what this guide does not hold. It says nothing about what may have been printed "
                "elsewhere, and no evidence of a difference is not evidence of no difference."
            )
        ),
        Paragraph(
            line("Only early evidence: no result in people by this answer stands at one stated time of ",
                 Marked("convention", f"{EARLY_MONTHS} months"), " or later (house rule). A range of times counts by "
                 "its shortest. A study in which all had the same answer is not told by answer."),
            "quiet",
        ),
    ]  # fmt: skip
    questions = sorted(catalogue.evidence.questions.values(), key=lambda item: (item.title.text, item.id))
    blocks.extend(_question(catalogue, question) for question in questions)
    if not questions:
        blocks.append(Paragraph(line("No question has been written yet."), "quiet"))
    return Page(
        address="gaps/",
        kind="gaps",
        title="Where nothing is known",
        blocks=tuple(blocks),
        description="What this guide holds no evidence for, and when it was searched for.",
        search=("gaps", "no evidence", "not known"),
    )


def _question(catalogue: Catalogue, question: Question) -> Section:
    blocks: list[Block] = [Paragraph(_searched(question), "searched")]
    at_all = _question_as_a_whole(catalogue, question)
    if at_all:
        blocks.append(Items(at_all, kind="gaps"))
    rows = _factor_rows(catalogue, question)
    if rows:
        header = (line("Of"), line("Answers"), line("What this guide holds"))
        blocks.append(
            Table(
                line("Answers about which little or nothing is known"),
                header,
                rows,
                f"Gaps: {digits_as_letters(question.id)}",
                "gaps",
            )
        )
    else:
        blocks.append(Paragraph(line("Every answer of this question has a finding in people.")))
    unread = _not_read(catalogue, question)
    if unread:
        blocks.append(Paragraph(line("Seen and not read yet"), "lead"))
        blocks.append(Items(unread, kind="not-read"))
    blocks.append(Paragraph(line(Link(f"{question.id}/", ("To the question",))), "more"))
    return Section(question.title.text, question.id, tuple(blocks), "gap")


def _searched(question: Question) -> Line:
    if question.searched is None:
        return line("search not recorded")
    where = joined([line(typed(word.text)) for word in question.searched.where], ", ")
    how = Link(f"{question.id}/conference/#how-searched", ("how it was searched",))
    return line("Searched ", date(question.searched.on.value), line(" in ", where) if where else None, "; ", how)


class _LevelEvidence(NamedTuple):
    """What the guide holds of one level, by kind."""

    compared: bool
    """A level beside its reference, in people, standing."""
    stated: bool
    """At least one of those states a direction."""
    is_reference: bool
    people: tuple[Finding, ...]
    part: bool
    """In people, but only within a part of a study's people."""
    others: frozenset[str]
    """animal, bench."""
    withdrawn: bool


def _factor_rows(catalogue: Catalogue, question: Question) -> tuple[tuple[Line, ...], ...]:
    """One row for all answers of a factor of which the same is held."""
    rows: list[tuple[Line, ...]] = []
    by_factor: dict[str, list[Finding]] = {}
    for finding in catalogue.of_question(question.id):
        by_factor.setdefault(finding.factor, []).append(finding)
    for name, title, levels in _factors(catalogue, question):
        by_level = _evidence_by_level(catalogue, question, name, by_factor.get(name, []))
        missing: dict[Line, list[Line]] = {}
        for level, level_title in levels:
            said = _what_is_missing(question, by_level.get(level))
            if said:
                missing.setdefault(said, []).append(line(typed(level_title, "definition")))
        page = line(Link(f"{question.id}/{name}/", (typed(title),)))
        rows.extend((page, joined(answers), said) for said, answers in missing.items())
    return tuple(rows)


def _factors(catalogue: Catalogue, question: Question) -> list[tuple[str, str, tuple[tuple[str, str], ...]]]:
    """Factors that the question names, with their levels: those in its order, then those it asks for."""
    names = [word.text for word in question.factors]
    names += [item.factor.text for item in question.situation if item.factor is not None]
    if any(item.charted is not None for item in question.situation):
        names += list(CHART_FACTORS)
    names += [option.is_factor.text for option in question.options if option.is_factor is not None]
    out = []
    for name in dict.fromkeys(names):
        factor = catalogue.evidence.vocabulary.factors.get(name)
        if factor is not None:
            levels = tuple((level.id.text, level.title.text) for level in factor.levels)
            out.append((name, factor.title.text, levels))
        elif name in CHART_FACTORS:
            out.append(
                (name, factor_title(catalogue, name), tuple((level, level) for level in chart_factor_levels(name)))
            )
    return out


def _evidence_by_level(
    catalogue: Catalogue, question: Question, factor: str, findings: list[Finding]
) -> dict[str, _LevelEvidence]:
    """What is held of each level of a factor; a level that no finding names is not in it."""
    wording = catalogue.declared.factors.get(factor)
    compared: set[str] = set()
    stated: set[str] = set()
    references: set[str] = set()
    for side in sides_of(catalogue, question.id, factor):
        if reason_not_counted(side.finding):
            continue
        own = [level for level in side.finding.level_ids if level not in side.reference_ids]
        compared.update(own)
        references.update(side.reference_ids)
        if side.direction != "not stated":
            stated.update(own)
    people: dict[str, list[Finding]] = {}
    part: set[str] = set()
    others: dict[str, set[str]] = {}
    withdrawn: set[str] = set()
    for finding in findings:
        reference = finding.claim.reference
        ids = set(finding.level_ids)
        if finding.kind == "contrast" and wording is not None and isinstance(reference, Words):
            ids |= {level.id.text for level in wording.matches(reference.text)}
        for level in ids:
            if finding.is_withdrawn:
                withdrawn.add(level)
            elif not finding.is_human:
                others.setdefault(level, set()).update(study.species for study in finding.studies if study.species)
            elif finding.claim.within:
                part.add(level)
            elif not reason_not_counted(finding):
                people.setdefault(level, []).append(finding)
    names = compared | references | set(people) | part | set(others) | withdrawn
    return {
        level: _LevelEvidence(
            level in compared,
            level in stated,
            level in references,
            tuple(people.get(level, ())),
            level in part,
            frozenset(others.get(level, ())) - {"human"},
            level in withdrawn,
        )
        for level in names
    }


def _what_is_missing(question: Question, evidence: _LevelEvidence | None) -> Line:
    """What is missing for one level; empty where nothing is."""
    if evidence is None:
        return not_known(question)
    if not evidence.people and not evidence.compared and not evidence.is_reference:
        extra = []
        if evidence.part:
            return line("only within a part of the people of one study; of all of them: ", not_known(question))
        if "animal" in evidence.others:
            extra.append("only animals")
        if "bench" in evidence.others:
            extra.append("only the bench")
        if evidence.withdrawn:
            extra.append("one report was withdrawn")
        return line(not_known(question), f" ({'; '.join(extra)})" if extra else None)
    parts: list[Line] = []
    if evidence.compared and not evidence.stated and not evidence.is_reference:
        parts.append(line("studied in people, but which way it goes is not stated"))
    if _is_early(evidence.people):
        parts.append(line("only early evidence"))
    return joined(parts)


def _horizon(finding: Finding) -> Decimal | None:
    """Months from which on a number speaks: its window, or the shortest time that all were followed; None: not known.

    A spread of times belongs to its minimum alone, since nobody says how many were seen at its end.
    """
    if finding.window is not None:
        return finding.window
    follow_up = finding.follow_up
    if follow_up is None or not isinstance(follow_up.timing, Words):
        return None
    length = follow_up.at if follow_up.timing.text in ("at", "by") else follow_up.minimum
    return length.months if isinstance(length, Length) else None


def _is_early(findings: tuple[Finding, ...]) -> bool:
    """True where all numbers that have a time are early, and none is without a time."""
    horizons = [_horizon(finding) for finding in findings if finding.kind not in ("words", "test", "pairs")]
    return bool(horizons) and all(horizon is not None and horizon < EARLY_MONTHS for horizon in horizons)


def _question_as_a_whole(catalogue: Catalogue, question: Question) -> tuple[Line, ...]:
    """What is missing of all units alike: any number, a late one, one at a time that faculty asked for."""
    kinds = ("rate", "estimate", "grade")
    overall = [
        finding
        for finding in catalogue.of_question(question.id)
        if finding.kind in kinds
        and not finding.factor
        and not finding.claim.within
        and not reason_not_compared(finding)
    ]
    rows: list[Line] = []
    many = catalogue.main_unit(question.id).many
    if not overall:
        rows.append(line(f"How such {many} do, whatever was done and seen: ", not_known(question)))
    elif _is_early(tuple(overall)):
        rows.append(line(f"How such {many} do, whatever was done and seen: only early evidence"))
    outcomes = catalogue.evidence.vocabulary.outcomes
    for threshold in question.thresholds:
        outcome = outcomes.get(threshold.outcome.text)
        by_level = [
            finding
            for finding in overall
            if finding.outcome.id == threshold.outcome.text
            and finding.window == threshold.at.months
            # Stayed healed of those healed is not healed of all, unless the outcome itself is about staying so.
            and (finding.outcome.reverses is not None or not counts_from_healing(finding))
        ]
        if outcome is not None and not by_level:
            rows.append(
                line(definition(outcome), ", at ", Marked("threshold", threshold.at.text), ": ", not_known(question))
            )
    return tuple(rows)


def _not_read(catalogue: Catalogue, question: Question) -> tuple[Line, ...]:
    """Papers seen but not read yet, each with its title."""
    rows = []
    for word in question.seen_not_read:
        source = catalogue.evidence.sources.get(word.text)
        if source is None:
            rows.append(line(typed(word.text, "identifier")))
            continue
        title = catalogue.readable(source, "title")
        state = catalogue.standing(word.text)
        rows.append(
            line(
                source_link(word.text, catalogue),
                line(", ", typed(title, "reference")) if title else None,
                line(", ", "retracted") if state == "retracted" else None,
            )
        )
    return tuple(rows)
