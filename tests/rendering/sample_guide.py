"""A small guide made by hand: one page of each kind, one block of each kind, all figures through the book."""

from __future__ import annotations

import datetime
from decimal import Decimal

from passageproof.numerals import FORMAT_1
from passageproof.problems import Position
from passageproof.proof.proof import Proof
from passageproof.reading.model import Passage
from passageproof.results.values.document import (
    AdviceList,
    Block,
    Choice,
    ChoiceField,
    Details,
    Entry,
    Facts,
    Filter,
    Items,
    Marks,
    Page,
    Paragraph,
    PassageText,
    Raw,
    RecallForm,
    Section,
    Sheet,
    Situation,
    StudyRow,
    StudyRows,
    Table,
    WorkingsSection,
    figures_of,
)
from passageproof.results.values.drawings import (
    Icons,
    StudyScale,
    TimeBracket,
    TimePlot,
    TimePoint,
    TimeSpan,
    TimeSteps,
)
from passageproof.results.values.figures import Figure, FigureBook
from passageproof.results.values.guide import ClaimRow, Guide, Pages, Question, SourceEntry, UrgentEntry, WrittenPage
from passageproof.results.values.line import Link, Marked, Span, date, line

PASSAGE = Passage(
    "marlow2019furcal",
    "p. 46, Table 2",
    "p-46-table-2",
    "healed: 39 of 47 teeth (83\\%)",
    Position("evidence/sources/root-perforation.bib", 7, 22),
)


def proof(name: str, text: str, value: str, unit: str, start: int) -> Proof:
    """A number that stands in the passage, as an audit would prove it."""
    return Proof(
        f"marlow2019furcal/overall/{name}",
        Position("evidence/claims/marlow2019furcal.yaml", 20, 15),
        text,
        Decimal(value),
        unit,
        text,
        PASSAGE,
        start,
        start,
        start + len(text),
    )


PROOFS = {
    item.id: item
    for item in (
        proof("events", "39", "39", "tooth", 8),
        proof("total", "47", "47", "tooth", 14),
        proof("success_rate", "83", "83", "%", 24),
    )
}


def sample_book() -> FigureBook:
    """The book of the sample's three proved numbers."""
    return FigureBook(dict(PROOFS))


def _plots(events: Figure, total: Figure) -> tuple[Block, ...]:
    counts = (events, " of ", total)
    scale = StudyScale(-75, 25, ((-50, "50"), (0, "same")), "points of a hundred", 0.0, ("fewer", "more"))
    opened = (Paragraph(line("Numbers: ", *counts, " teeth")),)
    compared = StudyRows(
        line("healed: over three mm | up to three mm"), "Studies of large holes",
        (
            StudyRow("Marlow", line(*counts), line("fewer, clear, adjusted"), opened, -30, -50, -10, "filled"),
            StudyRow("A study with a much longer name than that", line(*counts), line("fewer"), opened, -20, -90, 40),
            StudyRow("Vey", line("no numbers"), line("which way is not stated"), opened),
            StudyRow("the typical study", line(*counts), line("one"), (), -20, -30, -10),
        ),
        scale,
    )  # fmt: skip
    time = TimePlot(
        "over-time", "When the teeth were seen", line("Most were seen between one and five years."), 84.0,
        ((0.0, "0"), (36.0, "3"), (72.0, "6")), "years since repair",
        points=(TimePoint(12, 83, 70, 91),),
        brackets=(TimeBracket(24, 71, 85, line(total, " studies")),),
        steps=(TimeSteps("Arden", (TimePoint(36, 71), TimePoint(60, 40, 20, 60)), ((0, line(total)),), 1),),
        spans=(TimeSpan(12, 60, 31, line("Marlow: ", *counts)),),
        known_to=60,
    )  # fmt: skip
    icons = Icons("as-teeth", "One mark for each tooth", line(events, " of ", total, " teeth healed."), 39, 47)
    return compared, time, icons


def _advice(kind: str) -> AdviceList:
    return AdviceList(
        (
            Entry(
                line("No bleach through the hole."),
                line("local protocol, not set"),
                line("Stop if it bleeds and call."),
                line("not yet ratified"),
            ),
            Entry(line("Isolate and dry the field."), line("common practice, no source"), (), line("ratified by IM")),
        ),
        kind,
        ordered=kind == "steps",
    )


def _situation(rate: tuple[object, ...]) -> Situation:
    return Situation(
        (
            ChoiceField(
                "size",
                "How wide is it?",
                (
                    Choice("small", "up to 3 mm", (Paragraph(rate, "answer"),)),  # type: ignore[arg-type]
                    Choice("large", "over 3 mm", (Paragraph(line("Does worse than small holes."), "answer"),)),
                    Choice("", "can't tell", (Paragraph(line("Small or large would change the answer.")),)),
                ),
            ),
            ChoiceField(
                "tooth",
                "Which tooth?",
                (
                    Choice("11", "11", (), (("tooth-type", "incisor"), ("arch", "maxillary"))),
                    Choice("46", "46", (), (("tooth-type", "molar"), ("arch", "mandibular"))),
                    Choice("", "can't tell", ()),
                ),
            ),
            *(
                ChoiceField(
                    name,
                    f"Which {name}?",
                    (
                        *(Choice(value, value, (Paragraph(line("not stated"), "answer"),)) for value in values),
                        Choice("", "can't tell", (Paragraph(line("Nothing is known for any.")),)),
                    ),
                )
                for name, values in (("tooth-type", ("incisor", "molar")), ("arch", ("maxillary", "mandibular")))
            ),
            ChoiceField(
                "roots",
                "How many roots?",
                (
                    Choice("one", "one", (Paragraph(line("none in people in this guide, searched "), "answer"),)),
                    Choice("many", "more than one", (Paragraph(line("no clear difference"), "answer"),)),
                    Choice("", "can't tell", (Paragraph(line("Nothing is known for either.")),)),
                ),
            ),
        )
    )


def sample_guide() -> Guide:
    """The whole guide."""
    book = sample_book()
    figures = [book.quoted(name) for name in PROOFS]
    events, total, share = (figure for figure in figures if figure is not None)
    name = book.explain(
        "root-perforation-overall-wilson", "Interval for one share", "score interval", published="Wilson 1927",
        convention="level 95%, no correction for continuity", inputs=(events, total),
        table=(("events", "total"), ("39", "47")), download="data/workings/root-perforation-wilson.csv",
    )  # fmt: skip
    low = book.computed("root-perforation/overall/wilson-low", "70%", "70", "%", name, says="lower end")
    working = book.working(name)
    rate = line(events, " of ", total, " teeth (", share, "%), followed for a median of ", Marked("words", "31 months"))
    trail = (("root-perforation/", "There is a hole between the canal and the bone"),)
    table = Table(
        line("Levels side by side"),
        (line("Size"), line("Healed"), line("Share"), line("How sure")),
        ((line(Marked("definition", "up to 3 mm")), (events, " of ", total), (share, "%"), line("not judged yet")),),
        "Levels side by side",
    )
    workings = Section("Workings", "workings", (WorkingsSection((working,)),))
    reference = Marked("reference", "Marlow I, Okafor T. Furcal repairs. Ann Imag Endod 2019; 7: 41-52.")

    def page(address: str, kind: str, title: str, *blocks: Block, **more: object) -> Page:
        return Page(address, kind, title, blocks, **more)  # type: ignore[arg-type]

    simple = (Paragraph(line("Nothing stands here yet.")),)
    pages = (
        page(
            "", "front", "Hard questions in root canal treatment",
            Items((
                (Paragraph(line(Link("root-perforation/", line("There is a hole between the canal and the bone")))),
                 Paragraph(line("Most were healed when last seen: ", rate), "answer")),
            ), kind="questions"),
        ),
        page(
            "root-perforation/", "question", "There is a hole between the canal and the bone",
            Paragraph(line("Most repaired teeth were healed when last seen: ", rate), "answer"),
            Section("What not to do now", "stop", (_advice("stop"),)),
            Section("Is it really this?", "is-it-this", (_advice("is-it-this"),)),
            Section("Situation", "situation", (_situation(rate),)),
            Section("Steps", "steps", (_advice("steps"),)),
            Section("Factors", "factors", (Items((line(Link("root-perforation/size/", line("Size of the hole"))),)),)),
            Section("More", "more", (
                Items(tuple(
                    line(Link(f"root-perforation/{name}/", line(name))) for name in
                    ("over-time", "patient", "recall", "conference")
                )),
            )),
            workings,
            Paragraph(line(low, " is the lower end"), "quiet"),
            edit="evidence/questions/root-perforation.yaml", review_due=datetime.date(2028, 10, 1),
            search=("Most repaired teeth were healed when last seen", "perforation"), touched_by=("marlow2019furcal",),
        ),
        page(
            "root-perforation/size/", "factor", "Size of the hole", _plots(events, total)[0], table,
            Details("How the groups differed", (Paragraph(line("not reported")),)), workings,
            Paragraph(line("lower end ", low)), trail=trail, search=("diameter", "width"),
        ),
        page("root-perforation/over-time/", "over-time", "How such teeth do", _plots(events, total)[1], trail=trail),
        page(
            "root-perforation/patient/", "patient", "Numbers for the talk", _plots(events, total)[2],
            Sheet("In the chair", "chair", (Items((line("There is a small hole and we can close it."),)),)),
            trail=trail,
        ),
        page(
            "root-perforation/recall/", "recall", "When to see the tooth again",
            RecallForm(
                "root-perforation", ((6, "6 months"), (12, "12 months"), (48, "48 months")),
                ("tenderness", "film"), ("new swelling",),
            ), trail=trail,
        ),
        page(
            "root-perforation/conference/", "conference", "To take along",
            Filter("Show only", ("cohort", "trial")), table,
            Raw("@article{marlow2019furcal,\n\n  year = 2019}", "BibTeX"),
            trail=trail,
        ),
        page(
            "sources/marlow2019furcal/", "source", "Marlow and Okafor",
            Paragraph(line(reference), "reference"),
            Facts(((line("Standing"), line("none found, checked on ", date(datetime.date(2026, 10, 20)))),
                   (line("Read by"), line("IM; ", Span("quiet", line("re-read by nobody yet")))))),
            PassageText(
                PASSAGE.slug, PASSAGE.bracket, PASSAGE.text,
                (Marks(8, 10, (events,)), Marks(14, 16, (total,)), Marks(24, 26, (share,))),
            ),
            search=("Marlow", "Okafor"),
        ),
        page(
            "urgent/", "urgent", "Something worse is happening",
            Section("Irrigant has gone beyond the root", "irrigant-extruded", (_advice("until-help"),)),
        ),
        page("gaps/", "gaps", "Where nothing is known", *simple),
        page("changes/", "changes", "What changed", *simple),
        page("upkeep/", "upkeep", "What is due", table),
        page("methods/", "methods", "How this is made", *simple),
        page(
            "contribute/", "contribute", "Adding a claim",
            Raw("source: KEY\nread: {by: XX}", "Template of a claim file"),
        ),
        page(
            "data/", "data", "Data to take away",
            Items(tuple(
                line(Link(f"data/{name}", line(name)))
                for name in ("figures.jsonl", "claims.csv", "claims.json", "sources.bib")
            )),
        ),
    )  # fmt: skip
    shown = {figure.id: figure for page in pages for figure in figures_of(page)}
    return Guide(
        title="Hard questions in root canal treatment",
        programme="Fenwick Graduate Endodontics",
        is_demonstration=True,
        evidence_date=datetime.date(2026, 10, 30),
        release="1.2.0",
        repository="https://example.org/fenwick/guide",
        licence_text="CC-BY-4.0",
        licence_data="CC0-1.0",
        contact="",
        status_checked=datetime.date(2026, 10, 20),
        questions=(
            Question(
                "root-perforation", trail[0][1], ("irrigant-extruded",),
                ("root-perforation/", "root-perforation/#situation", "root-perforation/"),
            ),
        ),
        urgent=(UrgentEntry("irrigant-extruded", "Irrigant has gone beyond the root"),),
        pages=Pages(pages),
        figures=shown,
        written=(
            WrittenPage("about.md", ("# About this demo\n\nAll of it is invented. Of the teeth ", rate, " healed.\n")),
        ),
        sources=(SourceEntry("marlow2019furcal", "@article{marlow2019furcal,\n  year = 2019\n}", False),),
        claims=(
            ClaimRow(
                "marlow2019furcal", "overall", "", ("root-perforation",), "none found",
                (("study", "marlow-clinic"), ("outcome", "healed")), (("events", events), ("total", total)),
            ),
        ),
        outcomes=(
            ("outcome", "title", "construct", "strictness", "basis", "threshold", "good"),
            ("healed", "healed", "success", "strict", "film", "normal space", "yes"),
        ),
        studies=(
            ("study", "species", "design", "unit counted"),
            ("marlow-clinic", "human", "cohort", "tooth"),
        ),
        units=FORMAT_1.units,
        withdrawn=(),
        tables={working.download: working.table},
    )  # fmt: skip
