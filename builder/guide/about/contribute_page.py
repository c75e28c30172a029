"""How a claim is added through the web editor, what may be typed, and every rule of the check."""

from __future__ import annotations

from ...audit.computed_names import FACTOR, OVERALL
from ...audit.rules import AUDIT_RULES
from ...numerals import Unit as CountedUnit
from ...reading.page_kinds import DESK
from ...reading.rules import READING_RULES
from ...results.findings.findings import Catalogue
from ...results.saying.marking import marked_words, with_basis
from ...results.values.document import Block, Details, Items, Page, Paragraph, Raw, Section, Table
from ...results.values.line import Link, Marked, line, typed
from ..sentences.prose import NamedResult
from .contribute_fields import fields_section
from .contribute_texts import BIBTEX_TEMPLATE, CLAIM_TEMPLATE, STEPS, UNITS, VALUES, template


def all_rules() -> dict[str, str]:
    """Every rule that check or build may name, with its paragraph, by name."""
    return dict(sorted({**READING_RULES, **AUDIT_RULES}.items()))


def contribute_page(catalogue: Catalogue, named: NamedResult) -> Page:
    """For faculty with a paper in the other window: what to type, where, and what the check may say."""
    unit = catalogue.main_unit()
    blocks: tuple[Block, ...] = (
        Paragraph(
            line(
                "One paper is one BibTeX entry with the passages you used, and one file with what it says. A figure is "
                "typed twice, in its passage and in the claim, so that a slip in either shows; sentences name it. "
                "The search finds every field and every message of the check by its name."
            )
        ),
        Paragraph(
            line(
                Link(DESK, ("Type a paper in",)),
                ": where this site brings its desk, it asks for all of this field by field, and looks up each number "
                "in its passage meanwhile. Where it does not, that page leads back here.",
            )
        ),
        Section(
            "Step by step",
            "steps",
            (_steps(unit), _where()),
        ),
        Details(
            "The entry, to copy",
            (
                Paragraph(
                    line(
                        "Into a file of evidence/sources/. Each passage begins with its place in square brackets, "
                        "then the words and figures as the paper has them. An invented example:"
                    )
                ),
                Raw(template(BIBTEX_TEMPLATE, unit), "BibTeX entry to copy"),
            ),
            "part",
            anchor="template-entry",
        ),
        Details(
            "The claim, to copy",
            (
                Paragraph(
                    line(
                        "Into evidence/claims/, named as the key. What the paper does not say is typed as “not "
                        "reported”; an empty field is an error. The same invented example:"
                    )
                ),
                Raw(template(CLAIM_TEMPLATE, unit), "Claim file to copy"),
            ),
            "part",
            anchor="template-claim",
        ),
        Details("How values are typed", (_values(),), "part", anchor="values"),
        Details("What is counted", _units(catalogue), "part", anchor="units"),
        Details("Results that sentences may name", _computed_names(), "part", anchor="computed-names"),
        Details(
            "What the check may say",
            (
                Paragraph(
                    line(
                        "An error has to be corrected in our files. A question is about printed figures that do not "
                        "fit together: look at the paper, then correct a slip, or paste the block that the message "
                        "prints and write down the answer. Each is known by its name:"
                    )
                ),
                *(
                    Details(name, (Paragraph(with_basis(text)),), "rule", anchor=f"rule-{name}")
                    for name, text in all_rules().items()
                ),
            ),
            "part",
            anchor="rules",
        ),
        fields_section(unit),
    )
    return Page(
        address="contribute/",
        kind="contribute",
        title="Add a claim",
        blocks=blocks,
        description="How faculty add a claim through the web editor, and every rule of the check.",
        search=("contribute", "claim", "BibTeX", "YAML", "template"),
    )


def _steps(unit: CountedUnit) -> Items:
    return Items(tuple(marked_words(step.format(many=unit.many)) for step in STEPS), ordered=True)


def _where() -> Paragraph:
    return Paragraph(
        line(
            "Who reads, checks or ratifies is named by the initials listed under people in evidence/compendium.yaml. "
            "Factors and outcomes are those of evidence/vocabulary.yaml. What is overdue is listed under ",
            Link("upkeep/", ("Upkeep",)),
            "; how numbers are made, under ",
            Link("methods/", ("How numbers are made",)),
            ".",
        )
    )


def _values() -> Table:
    rows = tuple(
        (line(kind), line(Marked("convention", example)), marked_words(note)) for kind, example, note in VALUES
    )
    header = (line("Value"), line("Typed"), line("What to know"))
    return Table(line("How values are typed"), header, rows, "How values are typed", "values")


def _units(catalogue: Catalogue) -> tuple[Block, ...]:
    declared = catalogue.evidence.vocabulary.declared_units
    names = declared or tuple(name for name in catalogue.units if name != "study")
    counted = ", ".join(f"{name} ({catalogue.units[name].many})" for name in names)
    rows = tuple((line(name), line(Marked("convention", example)), marked_words(said)) for name, example, said in UNITS)
    header = (line("Field"), line("Typed"), line("What it is for"))
    return (
        Paragraph(
            line(
                "A study says under unit what it counts. This guide knows ", typed(counted, "definition"),
                ". What else a trade counts is declared under units of evidence/vocabulary.yaml, by an id of its own; "
                "its words then stand wherever pages and the check speak of it. A page about many studies uses the "
                "word of what most of those in people count.",
            )
        ),
        Table(line("The fields of a unit"), header, rows, "The fields of a unit", "unit-fields"),
    )  # fmt: skip


def _computed_names() -> tuple[Block, ...]:
    rows = [
        (line(typed(f"$question/overall/{name}", "identifier")), line(said)) for name, said in sorted(OVERALL.items())
    ]
    rows += [
        (line(typed(f"$question/factor/{name}", "identifier")), line(said)) for name, said in sorted(FACTOR.items())
    ]
    header = (line("Typed"), line("Stands for"))
    return (
        Paragraph(
            line(
                "In the words of a question or of a page a figure is named, never typed. $key/claim prints n of N and "
                "per cent; $key/claim/level does so for one level, and a field such as $key/claim/estimate/value one "
                "number, so that a sentence can say what it is a share of. When it was seen, by which definition, its "
                "interval and how sure stand in a line below the sentence by themselves. The results below are "
                "computed; put ids in place of question and factor. One that is refused prints “not pooled” and why. "
                "Two dollar signs print one."
            )
        ),
        Paragraph(
            line(
                "A tired reader takes in forty words and two numbers a sentence. ",
                Link("upkeep/#long-sentences", ("Upkeep lists the sentences",)),
                " that have more; no check asks.",
            )
        ),
        Table(line("All computed results that have a name"), header, tuple(rows), "Computed results by name", "names"),
    )
