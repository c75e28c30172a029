"""What a letter of contribution says of each report: who read it, and what stands in the guide because of that."""

from __future__ import annotations

from collections.abc import Iterator

from ...results.findings.findings import Catalogue
from ...results.saying.people import person_name
from ...results.saying.source_reference import reference_text
from ...results.saying.titles import claim_title
from ...results.values.guide import Letter


def letters(catalogue: Catalogue) -> Iterator[Letter]:
    """One for each report from which a claim was drawn; none of a report that was retracted."""
    evidence = catalogue.evidence
    for key, report in evidence.reports.items():
        source = evidence.sources.get(key)
        if source is None or not report.claims or catalogue.standing(key) == "retracted":
            continue
        read, checked = report.read, report.checked
        yield Letter(
            key,
            catalogue.readable(source, "title") or "Title not reported",
            reference_text(catalogue, source),
            person_name(read.by.text, catalogue),
            read.on.value.isoformat(),
            read.depth.text,
            person_name(checked.by.text, catalogue) if checked is not None else "",
            checked.on.value.isoformat() if checked is not None else "",
            tuple(dict.fromkeys(claim_title(catalogue, claim) for claim in report.claims)),
        )
