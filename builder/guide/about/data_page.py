"""What can be taken along: files, what stands in their columns, the licence, and how to cite."""

from __future__ import annotations

from ...reading.model import Compendium
from ..findings.findings import Catalogue
from ..saying.marking import marked_words
from ..saying.prose import NamedResult
from ..values.document import (
    Block,
    Items,
    Line,
    Link,
    Marked,
    Page,
    Paragraph,
    Raw,
    Section,
    Table,
    date,
    line,
)

FILES = (
    ("figures.jsonl", "every number that a page shows, one line each: where it stands in its passage, or what it was "
     "computed from"),
    ("claims.csv", "every claim and each of its levels, one line per fact; opens in a spreadsheet"),
    ("claims.json", "the same, nested, for programs"),
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
    ("name", "the field: events, total, follow_up/median, outcome, ..."),
    ("text", "as printed in the report, or as typed"),
    ("value", "a plain decimal, empty where the text is not a number"),
    ("unit", "%, {unit}, month, hazard ratio, ..."),
    ("figure", "id of the figure in figures.jsonl"),
    ("note", "says so where all of it was invented for a demonstration"),
)

FIGURE_COLUMNS = (
    ("id", "key/claim/field for what was quoted, question/factor/name for what was computed"),
    ("text", "as pages print it, with its comparator"),
    ("value", "a plain decimal with its leading zero"),
    ("unit", "%, {unit}, month, hazard ratio, P, ... or none"),
    ("kind", "quoted or computed"),
    ("written_in", "file, line and column of our own claim file"),
    ("proof", "source, locator, file, line and column of the number in its passage, and the passage"),
    ("derived_from", "ids of the figures that it was computed from"),
    ("formula", "how it was computed, in words and signs"),
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
        Section("Columns of claims.csv", "claims-columns", (_columns(CLAIM_COLUMNS, unit, "Columns of claims.csv"),)),
        Section(
            "Fields of figures.jsonl", "figures-columns", (_columns(FIGURE_COLUMNS, unit, "Fields of figures.jsonl"),)
        ),
        Section("What to bear in mind", "bear-in-mind", (_cautions(),)),
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
            "recomputed elsewhere."
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


def _columns(columns: tuple[tuple[str, str], ...], unit: str, label: str) -> Table:
    rows = tuple((line(name), marked_words(said.replace("{unit}", unit))) for name, said in columns)
    return Table(line(label), (line("Name"), line("Meaning")), rows, label, "columns")


def _cautions() -> Items:
    return Items(
        (
            line("Do not add up rows: several reports may be about the same people, and levels divide the same table."),
            line("Counts by level are crude. Adjusted ratios say what they are adjusted for."),
            line(
                "A percentage means nothing without its counts, its time and its definition: they are in the same rows."
            ),
            line("Animal and bench studies are in the data too; the field species marks them."),
            line("Look up the standing again before you rely on a row: a report may have been retracted since."),
        )
    )
