"""The invented report that a new compendium starts with: it never stands without its mark."""

from __future__ import annotations

from collections.abc import Iterator

from ..problems import Problem, error
from ..reading.model import Evidence
from ..writing import INVENTED_JOURNAL

RULES = {
    "example-left": (
        "The invented report of a new compendium is still here, and compendium.yaml says that nothing is invented any "
        "more (demonstration: no), so that its figures would stand on the pages without their mark. Remove its entry, "
        "its claims and the question that it answers, or write demonstration: yes. Basis: the format of this guide; "
        "common practice, no source."
    ),
}


def find_example(evidence: Evidence) -> Iterator[Problem]:
    """The example in a guide that says of itself that it is no demonstration."""
    compendium = evidence.compendium
    if compendium is None or compendium.demonstration or not compendium.demonstration_at.file:
        return
    for key, source in evidence.sources.items():
        journal = source.fields.get("journal")
        if journal is not None and journal.text == INVENTED_JOURNAL:
            claims = evidence.reports[key].claims if key in evidence.reports else ()
            questions = sorted({named.text for claim in claims for named in claim.question})
            files = [source.position.file, f"evidence/claims/{key}.yaml"]
            files += [f"evidence/questions/{name}.yaml" for name in questions]
            message = f"{key} is invented, and with demonstration: no its pages would not say so"
            hint = f"remove its entry, claims and question ({', '.join(files)}) and its line of evidence/status.yaml"
            yield error(compendium.demonstration_at, "example-left", message, f"{hint}, or write yes")
