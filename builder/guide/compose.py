"""The whole guide from the evidence and its audit: every page with its address, figures, downloads.

All pages are composed once, in order, since a page's workings hold what other pages computed under the same name. Only
the figures are kept of that; a page's blocks are made again, the same, whenever somebody asks for it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from functools import partial

from ..proof.proof import Audit
from ..reading.fdi_chart import CHART_FACTORS
from ..reading.model import Evidence, Question
from ..records import NamedTuple
from ..results.findings.findings import Catalogue
from ..results.values.document import Page, figures_of, walk
from ..results.values.figures import Figure, FigureBook, Working
from ..results.values.guide import Anew, Guide, Pages, Question as NamedQuestion, UrgentEntry
from ..results.values.line import Line
from ..results.values.page_lines import PageLine, page_lines
from .about.changes_page import changes_page
from .about.contribute_page import contribute_page
from .about.data_page import data_page
from .about.front_page import DOORS, front_page
from .about.gaps_page import gaps_page
from .about.methods_page import methods_page
from .about.news import news
from .about.upkeep_page import upkeep_page
from .about.urgent_page import urgent_page
from .downloads_rows import claim_rows, outcome_rows, source_entries, study_rows
from .factor.factor_page import factor_page
from .named_results import named_result
from .question.conference_page import conference_page
from .question.over_time import over_time_page
from .question.patient_page import patient_page
from .question.question_page import question_page
from .question.recall_page import recall_page
from .sentences.prose import NamedResult
from .source.letters import letters
from .source.source_page import source_page
from .source.sources_index import sources_page
from .talk.handout import handouts
from .talk.plots import PlotsToTake
from .talk.talk import talks
from .workings import WorkingsTables, shown_workings, with_workings, written_with_workings
from .written import written_pages


def compose_guide(evidence: Evidence, audit: Audit) -> Guide:
    """Everything that is published.

    audit: that of the same evidence, with nothing left open. Raises ValueError where compendium.yaml could not be read,
    which the audit has reported.
    """
    return compose_part(Catalogue(evidence, audit), lambda maker: True)


def compose_part(catalogue: Catalogue, is_wanted: Callable[[Maker], bool]) -> Guide:
    """The guide with these pages alone, each as the whole guide has it where every page is among them that may compute
    for its question. Raises ValueError where compendium.yaml could not be read, which the audit has reported.
    """
    evidence = catalogue.evidence
    compendium = evidence.compendium
    if compendium is None:
        raise ValueError("a guide needs a compendium.yaml that could be read")

    def named(text: str) -> Line | None:
        return named_result(catalogue, text)

    pages = ComposedPages(filter(is_wanted, makers_of(catalogue, named)), catalogue.book)
    written = tuple(written_with_workings(page, catalogue.book) for page in written_pages(catalogue, named))
    shown = (*map(pages.workings, pages.heads), *(page.workings for page in written))
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
        pages=pages,
        figures=catalogue.book.all(),
        written=written,
        sources=source_entries(catalogue),
        claims=Anew(partial(claim_rows, catalogue)),
        outcomes=outcome_rows(catalogue),
        studies=study_rows(catalogue),
        units=evidence.vocabulary.units,
        withdrawn=_withdrawn(evidence),
        tables=WorkingsTables(shown, catalogue.book),
        letters=tuple(letters(catalogue)),
        doors=DOORS,
        news=news(catalogue),
        handouts=handouts(catalogue, named),
        plots=PlotsToTake(catalogue, partial(factors_shown, catalogue)),
        talks=talks(catalogue, named),
    )


class Maker(NamedTuple):
    """What composes one page."""

    make: Callable[[], Page]
    question: str = ""
    """The question it belongs to; "" for one of none."""
    source: str = ""
    """Of the page of a report: its key."""


class ComposedPages(Pages):
    """Pages of which figures and what the search shows are held, each composed anew when it is asked for."""

    def __init__(self, makers: Iterable[Maker], book: FigureBook) -> None:
        """makers: of every page. Raises ValueError where two stand at one address, which is a fault of ours."""
        self._book = book
        self._makers: dict[str, Callable[[], Page]] = {}
        self._figures: dict[str, tuple[Figure, ...]] = {}
        self._lines: dict[str, tuple[PageLine, ...]] = {}
        self.heads = {}
        for maker in makers:
            page = maker.make()
            if page.address in self.heads:
                other = self.heads[page.address]
                raise ValueError(f'"{page.address}": two pages want it, of the kinds {other.kind} and {page.kind}')
            self.heads[page.address] = page._replace(blocks=())
            self._makers[page.address] = maker.make
            self._figures[page.address] = tuple(figures_of(page))
            self._lines[page.address] = page_lines(page)

    def __getitem__(self, address: str) -> Page:
        return with_workings(self._makers[address](), self.workings(address))

    def figures(self, address: str) -> Iterator[Figure]:
        yield from self._figures[address]
        yield from (item for item in walk(self.workings(address)) if isinstance(item, Figure))

    def workings(self, address: str) -> tuple[Working, ...]:
        return shown_workings(self._figures[address], self._book, address)

    def lines(self, address: str) -> tuple[PageLine, ...]:
        return self._lines[address]


def makers_of(catalogue: Catalogue, named: NamedResult) -> Iterator[Maker]:
    """What composes each page, in the order of the site."""
    evidence = catalogue.evidence
    yield Maker(partial(front_page, catalogue, named))
    for name, question in sorted(evidence.questions.items()):
        yield Maker(partial(question_page, catalogue, question, named), name)
        for factor in factors_shown(catalogue, question):
            yield Maker(partial(factor_page, catalogue, question, factor, named), name)
        for make in (over_time_page, patient_page, recall_page, conference_page):
            yield Maker(partial(make, catalogue, question, named), name)
    yield Maker(partial(sources_page, catalogue))
    for key in evidence.sources:
        yield Maker(partial(source_page, catalogue, key, named), source=key)
    for page in (urgent_page, gaps_page, changes_page, upkeep_page, methods_page, contribute_page, data_page):
        yield Maker(partial(page, catalogue, named))


def factors_shown(catalogue: Catalogue, question: Question) -> list[str]:
    """Every factor that has a page below the question, in the order of the site."""
    factors = dict.fromkeys(word.text for word in question.factors)
    factors.update(dict.fromkeys(field.factor.text for field in question.situation if field.factor is not None))
    if any(field.charted is not None for field in question.situation):
        factors.update(dict.fromkeys(CHART_FACTORS))
    factors.update(dict.fromkeys(item.factor for item in catalogue.of_question(question.id) if item.factor))
    factors.update(dict.fromkeys(item.is_factor.text for item in question.options if item.is_factor is not None))
    return list(factors)


def _contact(evidence: Evidence) -> str:
    number = evidence.local.call_number
    if number is None or number.text in ("", "not set"):
        return ""
    name = evidence.local.call_name.text if evidence.local.call_name else ""
    return f"{name}: {number.text}" if name and name != "not set" else number.text


def _named(question: Question, evidence: Evidence) -> NamedQuestion:
    own = [word.text for word in question.urgent if word.text in evidence.urgent]
    others = [name for name in sorted(evidence.urgent) if name not in own]
    # What the page does not have leads to its beginning: every bar has the same places in the same order.
    to_do = "#now" if question.steps_due("now") else "#steps" if question.steps else ""
    doors = (to_do, "#situation" if question.situation else "", "#call")
    return NamedQuestion(
        question.id, question.title.text, tuple(own + others), tuple(f"{question.id}/{door}" for door in doors)
    )


def _withdrawn(evidence: Evidence) -> tuple[tuple[str, str], ...]:
    out = []
    for key, status in sorted(evidence.statuses.items()):
        if status.state.text == "retracted":
            noticed = status.notice.on if status.notice is not None else None
            out.append((key, (noticed or status.on).value.isoformat()))
    return tuple(out)
