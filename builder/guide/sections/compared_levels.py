"""The comparisons of a factor: all of them, the one that leads, what each is called and what it is beside."""

from __future__ import annotations

from ...reading.model import Question
from ...results.findings.direction import Compared, compared
from ...results.findings.findings import Catalogue
from ...results.findings.outcomes import in_order
from ...results.findings.side import Side
from ...results.saying.titles import levels_of
from ...results.values.line import Line, joined, line, typed


def comparisons(catalogue: Catalogue, question: Question, factor: str) -> list[Compared]:
    """Every comparison that people report for a factor: outcomes in the page's order, levels in the vocabulary's."""
    return catalogue.once(("comparisons", question.id, factor), lambda: _comparisons(catalogue, question, factor))


def _comparisons(catalogue: Catalogue, question: Question, factor: str) -> list[Compared]:
    found = [
        item
        for level, _ in levels_of(catalogue, factor)
        for item in compared(catalogue, question.id, factor, level)
        if item.sides or item.reaching
    ]
    order = {
        outcome.id: index
        for index, outcome in enumerate(in_order(catalogue, question, {item.outcome.id for item in found}))
    }
    return sorted(found, key=lambda item: order[item.outcome.id])


def leading(question: Question, items: list[Compared]) -> Compared | None:
    """The comparison that heads the page: the first that faculty judged, else the one with most studies."""
    for entry in question.certainty:
        for item in items:
            named = (
                entry.outcome.text,
                entry.factor.text if entry.factor else "",
                entry.level.text if entry.level else "",
            )
            if named == (item.outcome.id, item.factor, item.level):
                return item
    stated = [item for item in items if item.verdict != "not known"] or items
    return max(stated, key=lambda item: len(item.sides), default=None)


def reference_words(item: Compared) -> Line:
    """The wordings of the reference levels of a comparison, each once; of what counts, where anything does."""
    words = dict.fromkeys(reference_wording(side) for side in item.sides or item.reaching)
    return joined([line(typed(word, "definition")) for word in words if word], " or ") or line("the others")


def reference_wording(side: Side) -> str:
    """What the report calls the reference of a side; "" where it does not say."""
    if side.reference is not None and side.reference.level is not None:
        return side.reference.level.level.text
    item = side.finding.contrast
    named = item.reference if item is not None and item.reference is not None else side.finding.claim.reference
    return named.text if named is not None and named.text != "not reported" else ""


def level_title(catalogue: Catalogue, item: Compared) -> str:
    """The title of the level that is compared."""
    return dict(levels_of(catalogue, item.factor)).get(item.level, item.level)


def compared_title(catalogue: Catalogue, item: Compared) -> str:
    """What a comparison is called: its level and outcome, and the reference where there is a second one."""
    titles = dict(levels_of(catalogue, item.factor))
    beside = " or ".join(titles.get(name, name) for name in item.beside)
    start = f"{titles.get(item.level, item.level)}: {item.outcome.title.text}"
    return f"{start}, beside {beside}" if beside else start
