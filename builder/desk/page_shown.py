"""The page that a paper will have, as far as it says what was drawn from it."""

from __future__ import annotations

from ..guide.named_results import named_result
from ..guide.source.source_page import source_page
from ..proof.proof import Audit
from ..reading.latex import readable_text
from ..reading.model import Evidence
from ..rendering.blocks import Setting, blocks_html
from ..rendering.inline import Place
from ..results.findings.findings import Catalogue
from ..results.values.line import Line


def page_html(evidence: Evidence, audit: Audit, key: str) -> str:
    """The page of the report as the guide would have it, "" where there is none."""
    if key not in evidence.reports or key not in evidence.sources:
        return ""
    catalogue = Catalogue(evidence, audit)

    def named(text: str) -> Line | None:
        return named_result(catalogue, text)

    page = source_page(catalogue, key, named)
    compendium = evidence.compendium
    is_demonstration = compendium is not None and compendium.demonstration
    return blocks_html(
        page.blocks, Setting(Place(page.address), is_demonstration, readable_text, evidence.vocabulary.units)
    )
