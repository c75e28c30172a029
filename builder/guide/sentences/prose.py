"""Sentences of people become lines: a figure they named is put in whole, a withdrawn one is said to be withdrawn."""

from __future__ import annotations

import re
from collections.abc import Callable

from ...reading.prose import Reference, split_references
from ...reading.values import Words
from ..findings.comparable import people_of
from ..findings.findings import Catalogue
from ..saying.certainty import comparison_sure
from ..saying.wording import compared_how, depth_mark, honest_whole, length, percent
from ..values.document import Line, MarkKind, Part, date, joined, line, typed

NamedResult = Callable[[str], Line | None]
"""Gives the line for "question/factor-or-overall/name", or None where no such result is known."""


def prose(text: str, catalogue: Catalogue, named: NamedResult, kind: MarkKind = "words") -> Line:
    """A sentence as typed, each reference replaced by what it stands for.

    A number of other patients than those of the number before it in the same sentence says so.

    kind: how a digit that was typed is marked (the audit allows days, numbers of a chart and definitions alone).
    """
    out: list[Part | Line] = []
    known: frozenset[str] = frozenset()
    between = ""
    for part in split_references(text):
        if isinstance(part, Reference):
            referred = _referred(part, catalogue, named)
            people = _people(part, catalogue)
            is_other = people and known and people.isdisjoint(known) and not _OTHERS.search(between)
            out.append(line(referred, "; other patients") if is_other else referred)
            known, between = (known | people, "") if people else (known, between)
        else:
            out.append(_plain(part, kind))
            between += part
            if _ENDS.search(part):
                known, between = frozenset(), ""
    return line(*out)


_ENDS = re.compile(r"[.!?](?:\s|$)")
# Where the writer said so already.
_OTHERS = re.compile(r"\b(?:other|different|another)\b[^.]*\b(?:patients|people|studies|series|clinic)\b")


def _people(reference: Reference, catalogue: Catalogue) -> frozenset[str]:
    """Ids of the studies behind a reference to a claim; empty for a computed result and for a withdrawn report."""
    steps = reference.steps
    if steps[0] in catalogue.evidence.questions or catalogue.standing(steps[0]) == "retracted":
        return frozenset()
    return frozenset().union(*(people_of(finding) for finding in catalogue.of_claim("/".join(steps[:2]))))


_DAY = re.compile(r"(\b\d{4}-\d\d-\d\d\b)")


def _plain(text: str, kind: MarkKind) -> Line:
    """Typed words, days marked as days and any other digit with the kind given."""
    pieces = _DAY.split(text)
    out: list[Part] = []
    for index, piece in enumerate(pieces):
        if piece:
            out.append(typed(piece, "date" if index % 2 else kind))
    return tuple(out)


def _referred(reference: Reference, catalogue: Catalogue, named: NamedResult) -> Line:
    steps = reference.steps
    if steps[0] in catalogue.evidence.questions:
        return named(reference.text) or line("not pooled")
    if catalogue.standing(steps[0]) == "retracted":
        return withdrawn(steps[0], catalogue)
    findings = catalogue.of_claim("/".join(steps[:3])) or catalogue.of_claim("/".join(steps[:2]))
    whole = [finding for finding in findings if finding.base == reference.text] or (findings if len(steps) == 2 else [])
    if whole:
        depth = depth_mark(whole[0].report.read.depth.text)
        return line(
            joined([honest_whole(finding) for finding in whole]),
            depth,
            compared_how(whole),
            comparison_sure(whole, catalogue),
        )
    figure = catalogue.book.quoted(reference.text)
    if figure is None:
        return line("not reported")
    if figure.unit == "%":
        return percent(figure)
    return length(figure) if figure.unit in ("hour", "day", "week", "month", "year", "minute") else (figure,)


def withdrawn(key: str, catalogue: Catalogue) -> Line:
    """What stands in place of a figure whose report was retracted: the word and the day, never the number."""
    status = catalogue.evidence.statuses.get(key)
    if status is None:
        return line("withdrawn")
    noticed = status.notice.on if status.notice is not None else None
    return line("withdrawn (", date((noticed or status.on).value), ")")


def texts(words: tuple[Words, ...]) -> tuple[str, ...]:
    """The texts of a list of words."""
    return tuple(word.text for word in words)
