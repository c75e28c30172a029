"""What waits of reports: to be re-read, read in full, looked up, or used."""

from __future__ import annotations

from collections.abc import Iterator

from ...reading.fdi_chart import CHART_FACTORS
from ...reading.model import Question
from ...reading.report_model import Report
from ...results.findings.findings import Catalogue
from ...results.findings.report_relations import relations
from ...results.numbers.shown_numbers import count
from ...results.saying.people import person_name
from ...results.saying.source_reference import source_link
from ...results.values.figures import Figure
from ...results.values.line import Line, Link, Span, line, typed
from ..sentences.prose import withdrawn
from ..source.source_ties import located_only
from .waiting_entry import Waits


def waiting(catalogue: Catalogue) -> Iterator[Waits]:
    """By kind, and by key in each."""
    yield from _withdrawn(catalogue)
    for report in standing_reports(catalogue):
        yield from _of_report(catalogue, report)
    yield from _unchecked(catalogue)
    yield from _asked(catalogue)
    yield from _not_read(catalogue)
    yield from _unused(catalogue)


def standing_reports(catalogue: Catalogue) -> list[Report]:
    """Reports that were read and that still count."""
    return [
        report
        for key, report in sorted(catalogue.evidence.reports.items())
        if key in catalogue.evidence.sources and catalogue.standing(key) != "retracted"
    ]


def _withdrawn(catalogue: Catalogue) -> Iterator[Waits]:
    for key, places in sorted(relations(catalogue).mentions.items()):
        if catalogue.standing(key) != "retracted":
            continue
        title = catalogue.readable(catalogue.evidence.sources[key], "title")
        for place in places:
            what = line(
                typed(place.place), ": ", source_link(key, catalogue),
                line(", ", typed(title, "reference")) if title else None, ", ", withdrawn(key, catalogue),
                Span("below", line(typed(str(place.position), "locator"))),
            )  # fmt: skip
            status = catalogue.evidence.statuses[key]
            where = line(Link(place.address, (typed(place.title),)))
            yield Waits("withdrawn", what, where, None, _person(status.by.text, catalogue))


def _of_report(catalogue: Catalogue, report: Report) -> Iterator[Waits]:
    where, since = line(source_link(report.key, catalogue)), report.read.on.value
    who = person_name(report.read.by.text, catalogue)
    if report.checked is None:
        yield Waits("one-reader", line("re-read by nobody yet"), where, since, who)
    depth = report.read.depth.text
    if depth != "full text":
        what = line(": ", typed(report.read.what.text)) if report.read.what is not None else None
        via = line(", in ", source_link(report.read.via.text, catalogue)) if report.read.via is not None else None
        yield Waits("not-in-full", line(typed(depth), what, via), where, since, who)
    if report.checked is None:
        alone, of = located_only(catalogue, report)
        if alone:
            yield Waits("located", located_line(catalogue, report.key, alone, of, report.key), where, since, who)
    if not report.claims and report.key not in relations(catalogue).mentions:
        reason = report.nothing_claimed
        why = line(": ", typed(reason.text)) if reason is not None else None
        yield Waits("no-claim", line("no claim was drawn, and nothing rests on it", why), where, since, who)


def located_line(catalogue: Catalogue, name: str, alone: int, of: int, who: str) -> Line:
    """How many numbers only stand in their passage, of how many."""
    workings = _located_workings(catalogue)

    def counted(called: str, number: int, says: str) -> Figure:
        return count(catalogue.book, f"upkeep/overall/{called}-{name}", number, "none", workings, inputs=(), says=says)

    return line(
        counted("located", alone, f"{who}, only there"), " of ", counted("quoted", of, f"{who}, all"), " numbers"
    )


def _located_workings(catalogue: Catalogue) -> str:
    return catalogue.book.explain(
        "located",
        "Numbers that only stand in their passage",
        "numbers of claims that no words tie; all of them",
        convention="tied: the passage, by words, list or column, or words quoted say a level, time, event or group; "
        "numbers that are part of a level's own words left out",
    )


def _unchecked(catalogue: Catalogue) -> Iterator[Waits]:
    """Reports whose standing nobody knows, then those that were looked at before the others."""
    statuses = catalogue.evidence.statuses
    newest = max((status.on.value for status in statuses.values()), default=None)
    for key in sorted(catalogue.evidence.sources):
        status = statuses.get(key)
        where = line(source_link(key, catalogue))
        since = status.on.value if status is not None else None
        who = _person(status.by.text, catalogue) if status is not None else ""
        if catalogue.standing(key) in ("unknown", "not checked"):
            looked = line("looked for and not found out") if status is not None else line("not checked")
            yield Waits("not-checked", looked, where, since, who)
        elif since != newest:
            yield Waits("not-checked", line("checked before the others"), where, since, who)


def _person(sign: str, catalogue: Catalogue) -> str:
    """Who wrote a status; "" where that was a program, or somebody by hand who is not named."""
    compendium = catalogue.evidence.compendium
    is_person = compendium is not None and sign in compendium.people
    return person_name(sign, catalogue) if is_person else ""


def _asked(catalogue: Catalogue) -> Iterator[Waits]:
    """Questions of the check that somebody answered: the paper still prints it so, or the two may still be one."""
    for problem in catalogue.audit.problems:
        if problem.acknowledged is None:
            continue
        key = problem.place.partition("/")[0]
        is_overlap = problem.rule == "looks-like-one-cohort"
        with_other = (
            line(" and ", source_link(problem.with_key, catalogue))
            if problem.with_key in catalogue.evidence.sources
            else None
        )
        what = line(
            typed(problem.printed or problem.message), ", by ",
            Link(f"contribute/#rule-{problem.rule}", (typed(problem.rule),)), ": ", typed(problem.acknowledged),
        )  # fmt: skip
        if key in catalogue.evidence.sources:
            where = line(source_link(key, catalogue), with_other)
        else:
            question = catalogue.evidence.questions.get(key.removeprefix("question:"))
            where = _to_question(question) if question is not None else line(typed(problem.place))
        yield Waits("overlap" if is_overlap else "asked", what, where)


def _to_question(question: Question) -> Line:
    return line(Link(f"{question.id}/", (typed(question.title.text),)))


def _not_read(catalogue: Catalogue) -> Iterator[Waits]:
    evidence = catalogue.evidence
    wanted: dict[str, list[str]] = {}
    for _, question in sorted(evidence.questions.items()):
        for word in question.seen_not_read:
            wanted.setdefault(word.text, []).append(question.title.text)
    for key in sorted(evidence.sources):
        if key not in evidence.reports:
            titles = "; ".join(wanted.get(key, ()))
            yield Waits("not-read", line("for: ", typed(titles)) if titles else line("for no question yet"),
                        line(source_link(key, catalogue)))  # fmt: skip


def _unused(catalogue: Catalogue) -> Iterator[Waits]:
    """Factors and outcomes that no claim, question or other entry names."""
    vocabulary = catalogue.evidence.vocabulary
    where = line(Link("data/", ("the vocabulary",)))
    factors, outcomes = _named(catalogue)
    for name, factor in vocabulary.factors.items():
        if name not in factors:
            yield Waits("unused", line("factor: ", typed(factor.title.text, "definition")), where)
    for name, outcome in vocabulary.outcomes.items():
        if name not in outcomes:
            yield Waits("unused", line("outcome: ", typed(outcome.title.text, "definition")), where)


def _named(catalogue: Catalogue) -> tuple[set[str], set[str]]:
    """Ids of factors and of outcomes that somebody names; those of a chart follow from its numbers."""
    evidence = catalogue.evidence
    factors, outcomes = set(CHART_FACTORS), set()
    for report in evidence.reports.values():
        for claim in report.claims:
            outcomes.add(claim.outcome.text)
            factors |= {claim.factor.text} if claim.factor is not None else set()
            factors |= {part.factor.text for part in claim.within}
    for question in evidence.questions.values():
        factors |= {word.text for word in question.factors}
        factors |= {field.factor.text for field in question.situation if field.factor is not None}
        outcomes |= {threshold.outcome.text for threshold in question.thresholds}
        for item in question.certainty:
            outcomes.add(item.outcome.text)
            factors |= {item.factor.text} if item.factor is not None else set()
    for outcome in evidence.vocabulary.outcomes.values():
        outcomes |= {other.text for other in (outcome.reverses, outcome.lenient_of) if other is not None}
    return factors, outcomes
