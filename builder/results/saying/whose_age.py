"""How old the people behind a number were, where they were not simply everybody: said in the line of the number."""

from __future__ import annotations

import re

from ...reading.folded import folded
from ..findings.findings import Finding
from ..values.line import Line, line, typed

# House rule: a study of adults, or of everybody, is what a reader takes a number for; all others are named.
_EVERYBODY = frozenset({"adults", "all ages", "any age", "adults of all ages", "adults of any age", "not reported"})


def of_age(finding: Finding) -> Line:
    """ ", in children and young adults", ", in people aged 6 to 18 years"; empty for adults and where none says.

    As typed in the population of the studies; of several each once.
    """
    said = []
    for facts in finding.studies:
        value = facts.study.population.get("age") if facts.study is not None else None
        if value is not None and folded(value.text) not in _EVERYBODY:
            said.append(value.text.strip())
    return tuple(part for text in dict.fromkeys(said) for part in line(", ", _in(text)))


def _in(text: str) -> Line:
    if not re.search(r"\d", text):
        return line(f"in {text}")
    # "6 to 18 years" is an age; "mean 14 years (SD 3)" or "under 40" needs to be told of what it is.
    return line("in people aged " if text[0].isdigit() else "age of the people: ", typed(text))
