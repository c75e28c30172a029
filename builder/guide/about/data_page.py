"""What can be taken along: files, what stands in their columns, the licence, and how to cite."""

from __future__ import annotations

from ...reading.model import Compendium
from ...results.findings.findings import Catalogue
from ...results.saying.marking import marked_words
from ...results.values.document import Block, Details, Items, Page, Paragraph, Raw, Section, Table
from ...results.values.line import Line, Link, Marked, date, line
from ..sentences.prose import NamedResult

FILES = (
    ("figures.jsonl", "every number that a page shows, one line each: where it stands in its passage, or what it was "
     "computed from"),
    ("claims.csv", "every number of every claim and of each of its levels, one line each; opens in a spreadsheet"),
    ("claim-words.csv", "what is told of each claim and level without a number: outcome, study, factor, place, when; "
     "one line each, found by report, claim and level"),
    ("outcomes.csv", "what each outcome counts, on its four axes"),
    ("studies.csv", "whom and what each study counts"),
    ("claims.json", "all four in one, nested, for programs; report, claim, level and the name of a number, with / "
     "between those that are not empty, are its id in figures.jsonl; each number as a list of its value, its unit and, "
     "where that is more, what was printed"),
    ("schema/claims.json", "what may stand in a claim file, as JSON Schema for editors; one such file for each kind of "
     "file of the evidence"),
    ("sources.bib", "every reference with its passages; those of a retracted report are left out"),
)  # fmt: skip

CLAIM_COLUMNS = (
    ("report", "BibTeX key of the report"),
    ("claim", "id of the claim in the report's file"),
    (
        "level",
        "the level in the paper's own wording, shortened as in the ids of figures; empty for the claim as a whole",
    ),
    ("questions", "ids of the questions that the claim is about"),
    (
        "state",
        "none found, corrected, concern, retracted, unknown or not checked; a retracted report has no figures",
    ),
    (
        "name",
        "the field: events, total, follow_up/median, ...; empty where the claim or level has no number of its own. "
        "Report, claim, level and name, with / between those that are there, are the figure's id in figures.jsonl",
    ),
    ("text", "as printed in the report"),
    ("value", "a plain decimal"),
    ("unit", "%, {unit}, month, hazard ratio, ..."),
    ("note", "in the first row of each report: says so where all of it was invented for a demonstration"),
)

WORD_COLUMNS = (
    *CLAIM_COLUMNS[:5],
    ("study", "ids of the studies, as in studies.csv"),
    ("where", "the passage that the numbers were read from"),
    ("outcome", "id of the outcome, as in outcomes.csv"),
    ("factor", "id of the factor that the levels divide"),
    ("known at", "before, during or after treatment"),
    ("reference", "the level that the others are held against"),
    ("planned", "whether the comparison was planned beforehand"),
    ("within", "the group that the claim is about, as factor and level"),
    ("given", "the condition under which it holds"),
    ("differ in", "what the groups differed in at the start"),
    ("cut", "where the bands of a measured factor came from"),
    ("quotes", "the report whose numbers it repeats"),
    ("follow-up", "why there is none"),
    ("follow-up of", "the claim of the same report whose follow-up it shares: the numbers stand there alone"),
    ("timing", "at a time, at least, at the last recall, or by rates"),
    ("from", "what the follow-up counts from"),
    ("estimate", "kind of the estimate at a time"),
    ("measure", "odds ratio, risk ratio, hazard ratio, ..."),
    ("adjusted for", "what a ratio was adjusted for"),
    ("contrast level", "the level whose ratio it is"),
    ("contrast reference", "the level that this one is held against"),
    ("per", "the step of a factor that is measured"),
    ("event", "the event that the ratio is about"),
    ("event is", "whether that is good or bad for the patient"),
    ("model", "the model that gave the ratio"),
    ("proportional", "whether hazards were found proportional"),
    ("margin by", "who or what fixed the margin of a ratio or difference"),
    ("margin sides", "one, towards harm, or two"),
    ("level as printed", "the level in the paper's own wording"),
    ("direction", "the side that the report tells without numbers"),
    ("stated", "says so where the report tells it in words only"),
    ("level where", "the passage of this level"),
    ("counted as", "the paper's own words for what was counted"),
    ("in words", "the words of the passage that hold the numbers"),
    ("claim note", "what its reader noted"),
    CLAIM_COLUMNS[-1],
)

NUMBER_COLUMNS = (
    ("row", "a number for each row that holds one, to be named by others"),
    ("workings", "the workings on a page, beside the formula; the results below it are its own"),
    (
        "part",
        "input, formula, convention, published or result; note, where all of it was invented for a demonstration",
    ),
    ("what", "the field, the formula, or what the result is"),
    ("value", "a plain decimal at full precision: pages show it rounded"),
    ("unit", "%, {unit}, month, hazard ratio, ..."),
    ("figure", "id of the figure in figures.jsonl"),
    (
        "computed_from",
        "rows that go in: of a result those it needs; where that is empty, those that its formula has",
    ),
)

FIGURE_COLUMNS = (
    ("id", "key/claim/field for what was quoted, question/factor/name for what was computed"),
    ("text", "as pages print it, with its comparator"),
    ("value", "a plain decimal with its leading zero"),
    ("unit", "%, {unit}, month, hazard ratio, P, ... or none"),
    ("kind", "quoted or computed"),
    ("written_in", "file, line and column of our own claim file"),
    (
        "proof",
        "source, locator, file, line and column of the number in its passage, and the passage; ties, where the passage "
        "says more of the number: the level, the time, the event, ... as the claim has it; with says, by and words "
        "where its place or a person says so, or where other words are printed",
    ),
    ("derived_from", "ids of the figures that it was computed from"),
    ("formula", "how it was computed, in words and signs; a long one by the name that numbers.csv puts before it"),
    ("shown_on", "the pages that print it"),
)


def data_page(catalogue: Catalogue, named: NamedResult) -> Page:
    """Files to take along, and under which terms."""
    compendium = catalogue.evidence.compendium
    unit = catalogue.main_unit().id
    blocks: tuple[Block, ...] = (
        Section("Files", "files", (_files(), _workings())),
        Section("Licence", "licence", _licence(compendium)),
        Section("How to cite", "cite", _cite(compendium)),
        Section("What to bear in mind", "bear-in-mind", (_cautions(),)),
        _columns("Columns of claims.csv", "claims-columns", CLAIM_COLUMNS, unit),
        _columns("Columns of claim-words.csv", "words-columns", WORD_COLUMNS, unit),
        _columns("Columns of numbers.csv", "numbers-columns", NUMBER_COLUMNS, unit),
        _columns("Fields of figures.jsonl", "figures-columns", FIGURE_COLUMNS, unit),
    )
    return Page(
        address="data/",
        kind="data",
        title="Take the data along",
        blocks=blocks,
        description="The claims, figures and references of this guide as files, their columns, licence and citation.",
        edit="evidence/compendium.yaml",
        search=("data", "download", "CSV", "JSON", "BibTeX", "licence", "cite"),
    )


def _files() -> Items:
    return Items(tuple(line(Link(f"data/{name}", (name,), "download"), ": ", said) for name, said in FILES))


def _workings() -> Paragraph:
    return Paragraph(
        line(
            "Each pooled result has a file of its own, linked from its workings, from which it can be "
            "recomputed elsewhere. All other workings of a question share one, numbers.csv."
        )
    )


def _licence(compendium: Compendium | None) -> tuple[Block, ...]:
    text = compendium.licence_text if compendium is not None else None
    data = compendium.licence_data if compendium is not None else None
    return (
        Items(
            (
                line("Words and drawings: ", _licence_link(text.text) if text is not None else "licence not stated"),
                line("Figures and claims: ", _licence_link(data.text) if data is not None else "licence not stated"),
                line("The reports themselves belong to their publishers; short passages are quoted to check numbers."),
            )
        ),
    )


def _licence_link(name: str) -> Link | Marked:
    # The SPDX list gives each licence a short name and an address; a blank in the name says that it is none of those.
    marked = Marked("identifier", name)
    return marked if " " in name else Link(f"https://spdx.org/licenses/{name}.html", (marked,))


def citation(compendium: Compendium) -> str:
    """The guide as a reference list would name it, the release and the day of its evidence included."""
    repository = f" {compendium.repository.text}" if compendium.repository is not None else ""
    return (
        f"{compendium.programme.text}. {compendium.title.text}. Release {compendium.release.text}, evidence to "
        f"{compendium.evidence_date.value.isoformat()}.{repository}"
    )


def _bibtex(compendium: Compendium) -> str:
    day = compendium.evidence_date.value
    rows = [
        f"  author = {{{{{compendium.programme.text}}}}}",
        f"  title = {{{compendium.title.text}}}",
        f"  version = {{{compendium.release.text}}}",
        f"  date = {{{day.isoformat()}}}",
        f"  year = {{{day.year}}}",
    ]
    if compendium.repository is not None:
        rows.append(f"  url = {{{compendium.repository.text}}}")
    # @misc is known to every style; @dataset to biblatex alone.
    return f"@misc{{guide{compendium.release.text.replace('.', '-')},\n" + ",\n".join(rows) + "\n}\n"


def _cite(compendium: Compendium | None) -> tuple[Block, ...]:
    if compendium is None:
        return (Paragraph(line("Nothing is known of this guide's name and release.")),)
    said: Line = line(
        "Release ", Marked("identifier", compendium.release.text), ", evidence to ",
        date(compendium.evidence_date.value), ". Cite the reports themselves for what they found; cite the guide for "
        "what it made of them.",
    )  # fmt: skip
    return (Paragraph(said), Raw(citation(compendium), "Citation to copy"), Raw(_bibtex(compendium), "BibTeX to copy"))


def _columns(title: str, anchor: str, columns: tuple[tuple[str, str], ...], unit: str) -> Details:
    rows = tuple((line(name), marked_words(said.replace("{unit}", unit))) for name, said in columns)
    table = Table(line("In each line"), (line("Name"), line("Meaning")), rows, title, "columns")
    return Details(title, (table,), "part", anchor=anchor)


def _cautions() -> Items:
    return Items(
        (
            line("Do not add up rows: several reports may be about the same people, and levels divide the same table."),
            line("Counts by level are crude. Adjusted ratios say what they are adjusted for."),
            line(
                "A percentage means nothing without its counts, its time and its definition: the counts and the time "
                "are numbers of the same claim, or of the claim that its follow-up is of; outcomes.csv holds the "
                "definition."
            ),
            line("Animal and bench studies are in the data too; the column species of studies.csv marks them."),
            line("Look up the standing again before you rely on a row: a report may have been retracted since."),
        )
    )
