"""The foot of every printed sheet."""

from __future__ import annotations

from ...results.findings.findings import Catalogue
from ...results.values.document import Paragraph
from ...results.values.line import date, line, typed


def sheet_footer(catalogue: Catalogue) -> Paragraph:
    """Whose sheet it is and how old its evidence is: paper outlives the page it was printed from."""
    compendium = catalogue.evidence.compendium
    if compendium is None:
        return Paragraph(line("evidence date not reported"), "quiet")
    return Paragraph(
        line(
            typed(compendium.title.text), ", ", typed(compendium.programme.text), "; evidence to ",
            date(compendium.evidence_date.value), ", release ", typed(compendium.release.text, "identifier"),
            ". Local protocol and licensed practice come first.",
        ),
        "quiet",
    )  # fmt: skip
