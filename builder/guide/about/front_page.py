"""The front page: the questions, each with its one-sentence answer and its date, below the link to the urgent page."""

from __future__ import annotations

from ...reading.model import Question
from ...reading.page_kinds import PAGES
from ...reading.prose import reports_named_in
from ...results.findings.findings import Catalogue
from ...results.saying.review_date import review_due
from ...results.values.document import Block, Blocks, Items, Page, Paragraph, Section
from ...results.values.line import Link, date, joined, line, typed
from ..sections.contact import contact_blocks
from ..sentences.prose import NamedResult, prose

DOORS = ("#questions", "#my-case", "#call")
"""Where the bar of a page that belongs to no question leads: what to do now, the case in hand, whom to call."""


def front_page(catalogue: Catalogue, named: NamedResult) -> Page:
    """Every question, by id, and where else one may go."""
    compendium = catalogue.evidence.compendium
    blocks: list[Block] = [
        Section("Do now: which question is it?", "questions", _choice(catalogue)),
        Section("My case", "my-case", (Paragraph(line(_CASE)),)),
    ]
    if len(catalogue.evidence.questions) > 1:
        blocks.append(Paragraph(line(_NOT_ALIKE), "quiet"))
    for _, question in sorted(catalogue.evidence.questions.items()):
        blocks.append(_question(catalogue, question, named))
    blocks.append(Section("Call", "call", contact_blocks(catalogue)))
    blocks.append(
        Section(
            "Also here",
            "also-here",
            (
                Paragraph(
                    joined([line(Link(page.address, (page.also_here,))) for page in PAGES if page.also_here], " · "),
                    "more",
                ),
                Paragraph(
                    line(
                        "This guide says what reports found and how sure that is. It does not replace local protocols, "
                        "a supervisor or licensed practice."
                    ),
                    "caution",
                ),
            ),
        )
    )
    answers = [item.answer.text for item in catalogue.evidence.questions.values() if item.answer is not None]
    return Page(
        address="",
        kind="front",
        title=compendium.title.text if compendium else "",
        blocks=tuple(blocks),
        description="Hard questions, each with what is known, how sure, and every figure proved.",
        edit="evidence/compendium.yaml",
        search=(),
        touched_by=tuple(
            sorted({key for item in answers for key in reports_named_in(item)} & set(catalogue.evidence.sources))
        ),
    )


# Numbers that stand below one another are read against each other.
_NOT_ALIKE = (
    "Each answer has its own patients and its own ending, named below it: compare no number with another question's."
)

# A script names below it what was answered in this tab.
_CASE = "A case begins on the page of its question, where you tap what you see. This tab alone keeps it."


def _choice(catalogue: Catalogue) -> Blocks:
    """One tap from here to what not to do now, whichever question it is; the answers can wait below."""
    emergencies = tuple(
        line(Link(f"urgent/#{name}", (typed(item.title.text),), "target danger"))
        for name, item in catalogue.evidence.urgent.items()
    )
    worse: Blocks = ()
    if emergencies:
        worse = (Paragraph(line("Or an emergency, by its name:"), "lead"), Items(emergencies, kind="dangers"))
    links = tuple(
        line(Link(f"{question.id}/", (typed(question.title.text),), "target"))
        for _, question in sorted(catalogue.evidence.questions.items())
    )
    if not links:
        return (Paragraph(line("No question has been written yet."), "quiet"), *worse)
    lead = Paragraph(line("Tap what has happened: what not to do comes first."), "lead")
    return (lead, Items(links, kind="dangers"), *worse)


def _question(catalogue: Catalogue, question: Question, named: NamedResult) -> Section:
    due = review_due(catalogue, question)
    answer = (
        prose(question.answer.text, catalogue, named, is_always_sure=True)
        if question.answer
        else line("not answered yet")
    )
    searched = line("searched ", date(question.searched.on.value)) if question.searched else line("search not recorded")
    return Section(
        question.title.text,
        f"question-{question.id}",
        (
            Paragraph(answer, "answer"),
            Paragraph(line(Link(f"{question.id}/", ("What to do now",), "target open"), " "), "open"),
            Paragraph(line(searched, line("; review due ", date(due)) if due else None), "quiet"),
        ),
        "question",
    )
