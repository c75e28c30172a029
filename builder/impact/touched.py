"""How far a change reaches: the questions and reports whose pages it may move. All others stay word for word.

A report reaches the questions of its claims; reports that share a study with it, hold it as a review, or are quoted,
decide together whose patients count, so they are touched with it. A question reaches the pages of its reports, and the
questions that name its results. Where the vocabulary or what stands on every page has changed, all is touched.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping

from ..guide.one_page import on_every_page, question_file
from ..reading.model import Evidence
from ..reading.prose import reports_named_in
from ..reading.report_model import Report
from ..records import NamedTuple
from .same import changed, same


class Version(NamedTuple):
    """The evidence at one time."""

    evidence: Evidence
    texts: Mapping[str, str]
    """Of every file of the evidence, by its path from the root."""


class Touched(NamedTuple):
    """What a change may move; pages of no question and no report are always looked at."""

    questions: frozenset[str]
    sources: frozenset[str]
    """Keys of reports."""


def touched(before: Version, now: Version) -> Touched | None:
    """None where everything may move."""
    old, new = before.evidence, now.evidence
    if not same(on_every_page(old), on_every_page(new)):
        return None
    keys = (
        changed(old.reports, new.reports) | changed(old.sources, new.sources) | changed(old.statuses, new.statuses)
    )  # fmt: skip
    keys = _tied(keys, (old, new))
    files = _changed_texts(before, now)
    questions = changed(old.questions, new.questions)
    questions |= _asked_by(keys, (old, new)) | _naming(keys, before) | _naming(keys, now)
    questions |= {name for text in files for name in reports_named_in(text)} & (
        old.questions.keys() | new.questions.keys()
    )
    while more := (_linked(questions, before) | _linked(questions, now)) - questions:
        questions |= more
    mentioned = {key for key in old.sources.keys() | new.sources.keys() if any(key in text for text in files)}
    sources = keys | mentioned | _answering(questions, (old, new))
    sources |= _claims_naming(questions | keys, before) | _claims_naming(questions | keys, now)
    return Touched(frozenset(questions), frozenset(sources))


def _changed_texts(before: Version, now: Version) -> list[str]:
    """Both texts of each file that is neither a report's nor a list of sources, where they differ; hand-written pages
    are among them."""
    texts = [
        dict(version.texts) | {page.file: page.text for page in version.evidence.pages} for version in (before, now)
    ]
    out: list[str] = []
    for name in texts[0].keys() | texts[1].keys():
        both = [each.get(name, "") for each in texts]
        if both[0] != both[1] and not name.startswith(("evidence/claims/", "evidence/sources/")):
            out += both
    return out


def _tied(keys: set[str], both: Iterable[Evidence]) -> set[str]:
    """With all reports that decide with these, directly or by others, whose patients count."""
    beside: dict[str, set[str]] = defaultdict(set)
    for evidence in both:
        of_study: dict[str, list[str]] = defaultdict(list)
        for key, report in evidence.reports.items():
            for study in _studies_of(report):
                of_study[study].append(key)
            for claim in report.claims:
                if claim.quotes is not None:
                    quoted = claim.quotes.text.partition("/")[0]
                    beside[key].add(quoted)
                    beside[quoted].add(key)
        for group in of_study.values():
            for key in group[1:]:
                beside[group[0]].add(key)
                beside[key].add(group[0])
    out: set[str] = set()
    waiting = list(keys)
    while waiting:
        key = waiting.pop()
        if key not in out:
            out.add(key)
            waiting += beside.get(key, ())
    return out


def _studies_of(report: Report) -> set[str]:
    return {*report.all_studies(), *(inner.text for study in report.studies for inner in study.includes)}


def _asked_by(keys: Iterable[str], both: Iterable[Evidence]) -> set[str]:
    """Questions to which these reports give claims."""
    reports = [evidence.reports[key] for evidence in both for key in keys if key in evidence.reports]
    return {name.text for report in reports for claim in report.claims for name in claim.question}


def _answering(questions: set[str], both: Iterable[Evidence]) -> set[str]:
    """Reports that give claims to these questions."""
    return {
        key
        for evidence in both
        for key, report in evidence.reports.items()
        if any(name.text in questions for claim in report.claims for name in claim.question)
    }


def _question_text(version: Version, question: str) -> str:
    return version.texts.get(question_file(question), "")


def _naming(keys: set[str], version: Version) -> set[str]:
    """Questions whose text names one of these reports."""
    return {
        name
        for name in version.evidence.questions
        if any(key in _question_text(version, name) for key in keys)
    }  # fmt: skip


def _linked(questions: set[str], version: Version) -> set[str]:
    """Questions that name a result of these, and those of which these name one: their workings are made together."""
    out: set[str] = set()
    for name in version.evidence.questions:
        named = reports_named_in(_question_text(version, name)) & version.evidence.questions.keys()
        if name in questions:
            out |= named
        elif named & questions:
            out.add(name)
    return out


def _claims_naming(names: set[str], version: Version) -> set[str]:
    """Reports whose own texts name a figure of these reports or a result of these questions."""
    out: set[str] = set()
    for key in version.evidence.reports:
        text = version.texts.get(f"evidence/claims/{key}.yaml", "")
        if "$" in text and names.intersection(reports_named_in(text)):
            out.add(key)
    return out
