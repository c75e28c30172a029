"""The whole guide from the evidence and its audit: every page with its address, figures, downloads."""

from __future__ import annotations

from ..audit.proof import Audit
from ..reading.fdi_chart import CHART_FACTORS
from ..reading.model import Evidence, Question
from .about.changes_page import changes_page
from .about.contribute_page import contribute_page
from .about.data_page import data_page
from .about.front_page import front_page
from .about.gaps_page import gaps_page
from .about.methods_page import methods_page
from .about.upkeep_page import upkeep_page
from .about.urgent_page import urgent_page
from .downloads_rows import claim_rows, source_entries
from .factor.factor_page import factor_page
from .findings.findings import Catalogue
from .named_results import named_result
from .question.conference_page import conference_page
from .question.over_time import over_time_page
from .question.patient_page import patient_page
from .question.question_page import question_page
from .question.recall_page import recall_page
from .saying.prose import NamedResult
from .source.source_page import source_page
from .source.sources_index import sources_page
from .values.document import Line, Page
from .values.guide import Guide, Question as NamedQuestion, UrgentEntry
from .workings import INVENTED, with_workings, written_with_workings
from .written import written_pages


def compose_guide(evidence: Evidence, audit: Audit) -> Guide:
    """Everything that is published.

    audit: that of the same evidence, with nothing left open. Raises ValueError where compendium.yaml could not be read,
    which the audit has reported.
    """
    compendium = evidence.compendium
    if compendium is None:
        raise ValueError("a guide needs a compendium.yaml that could be read")
    catalogue = Catalogue(evidence, audit)

    def named(text: str) -> Line | None:
        return named_result(catalogue, text)

    pages = [front_page(catalogue, named)]
    for _, question in sorted(evidence.questions.items()):
        pages.extend(_question_pages(catalogue, question, named))
    pages.append(sources_page(catalogue))
    pages.extend(source_page(catalogue, key, named) for key in evidence.sources)
    pages.append(urgent_page(catalogue, named))
    pages.append(gaps_page(catalogue, named))
    pages.append(changes_page(catalogue, named))
    pages.append(upkeep_page(catalogue, named))
    pages.append(methods_page(catalogue, named))
    pages.append(contribute_page(catalogue, named))
    pages.append(data_page(catalogue, named))
    note = INVENTED if compendium.demonstration else ""
    written = tuple(written_with_workings(page, catalogue.book, note) for page in written_pages(catalogue, named))
    finished = tuple(with_workings(page, catalogue.book, note) for page in pages)
    return Guide(
        title=compendium.title.text,
        programme=compendium.programme.text,
        is_demonstration=compendium.demonstration,
        evidence_date=compendium.evidence_date.value,
        release=compendium.release.text,
        repository=compendium.repository.text if compendium.repository else "",
        licence_text=compendium.licence_text.text if compendium.licence_text else "",
        licence_data=compendium.licence_data.text if compendium.licence_data else "",
        contact=_contact(evidence),
        status_checked=max((status.on.value for status in evidence.statuses.values()), default=None),
        questions=tuple(_named(question, evidence) for _, question in sorted(evidence.questions.items())),
        urgent=tuple(UrgentEntry(name, item.title.text) for name, item in sorted(evidence.urgent.items())),
        pages=finished,
        figures=catalogue.book.all(),
        written=written,
        sources=source_entries(catalogue),
        claims=claim_rows(catalogue),
        withdrawn=_withdrawn(evidence),
    )


def _question_pages(catalogue: Catalogue, question: Question, named: NamedResult) -> list[Page]:
    pages = [question_page(catalogue, question, named)]
    factors = dict.fromkeys(word.text for word in question.factors)
    factors.update(dict.fromkeys(field.factor.text for field in question.situation if field.factor is not None))
    if any(field.charted is not None for field in question.situation):
        factors.update(dict.fromkeys(CHART_FACTORS))
    factors.update(dict.fromkeys(item.factor for item in catalogue.of_question(question.id) if item.factor))
    factors.update(dict.fromkeys(item.is_factor.text for item in question.options if item.is_factor is not None))
    pages.extend(factor_page(catalogue, question, factor, named) for factor in factors)
    pages.extend(
        make(catalogue, question, named) for make in (over_time_page, patient_page, recall_page, conference_page)
    )
    return pages


def _contact(evidence: Evidence) -> str:
    number = evidence.local.call_number
    if number is None or number.text in ("", "not set"):
        return ""
    name = evidence.local.call_name.text if evidence.local.call_name else ""
    return f"{name}: {number.text}" if name and name != "not set" else number.text


def _named(question: Question, evidence: Evidence) -> NamedQuestion:
    own = [word.text for word in question.urgent if word.text in evidence.urgent]
    others = [name for name in sorted(evidence.urgent) if name not in own]
    return NamedQuestion(question.id, question.title.text, tuple(own + others))


def _withdrawn(evidence: Evidence) -> tuple[tuple[str, str], ...]:
    out = []
    for key, status in sorted(evidence.statuses.items()):
        if status.state.text == "retracted":
            noticed = status.notice.on if status.notice is not None else None
            out.append((key, (noticed or status.on).value.isoformat()))
    return tuple(out)
