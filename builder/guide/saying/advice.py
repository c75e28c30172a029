"""Entries of advice: what to do, what it rests on, who ratified it, and what happens when its basis is withdrawn."""

from __future__ import annotations

from ...reading.model import Advice, Basis, Ratified
from ..findings.findings import Catalogue
from ..values.document import AdviceList, Entry, Line, MarkKind, date, joined, line, typed
from .certainty import comparison_sure
from .people import person_name
from .prose import NamedResult, prose, withdrawn
from .source_reference import source_link
from .wording import honest_whole

# A line of advice stays one line: more levels are one tap away.
_LEVELS_SHOWN = 2


def advice_list(
    entries: tuple[Advice, ...],
    kind: str,
    catalogue: Catalogue,
    named: NamedResult,
    ratified: Ratified | None,
    *,
    ordered: bool = False,
) -> AdviceList:
    """A list of advice; an entry without a ratifier of its own stands under the question's.

    ratified: the question's.
    """
    return AdviceList(tuple(entry(item, catalogue, named, ratified) for item in entries), kind, ordered)


def entry(item: Advice, catalogue: Catalogue, named: NamedResult, ratified: Ratified | None) -> Entry:
    """One entry with its basis said in words."""
    kind: MarkKind = "words" if item.basis.kind.text == "study" else "instruction"
    return Entry(
        prose(item.words.text, catalogue, named, kind),
        basis_line(item.basis, catalogue),
        prose(item.caution.text, catalogue, named, kind) if item.caution else (),
        ratified_line(item.ratified or ratified, catalogue),
    )


def basis_line(basis: Basis, catalogue: Catalogue) -> Line:
    """What an entry rests on: a study with its finding, a guideline, common practice, or local protocol."""
    kind = basis.kind.text
    if kind == "study" and basis.claim is not None:
        key = basis.claim.text.partition("/")[0]
        if catalogue.standing(key) == "retracted":
            return line("the study it rested on was ", withdrawn(key, catalogue))
        findings = catalogue.of_claim(basis.claim.text)
        if findings:
            shown = [honest_whole(item) for item in findings[:_LEVELS_SHOWN]]
            return line(
                "study: ", source_link(key, catalogue), ", ", joined(shown),
                " (and further levels there)" if len(findings) > _LEVELS_SHOWN else None,
                comparison_sure(findings, catalogue),
            )  # fmt: skip
        return line("study: ", source_link(key, catalogue))
    if kind == "guideline" and basis.source is not None:
        where = typed(f", {basis.where.text}", "locator") if basis.where else None
        if catalogue.standing(basis.source.text) == "retracted":
            return line("the guideline it rested on was ", withdrawn(basis.source.text, catalogue))
        return line("guideline: ", source_link(basis.source.text, catalogue), where)
    if kind == "local protocol":
        return line("local protocol, not set" if basis.state is not None else "local protocol")
    if kind == "common practice":
        return line("common practice, no source")
    return line(typed(kind))


def ratified_line(ratified: Ratified | None, catalogue: Catalogue) -> Line:
    """Who stands behind an entry and since when, or "not yet ratified"."""
    if ratified is None:
        return line("not yet ratified")
    names = ", ".join(person_name(word.text, catalogue) for word in ratified.by)
    return line("ratified by ", typed(names), " on ", date(ratified.on.value))
