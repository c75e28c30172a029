"""Sentences of people become lines: a figure they named stands in them, what it counts below them."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence

from ...reading.prose import Reference, split_references
from ...reading.values import Words
from ...results.findings.comparable import people_of
from ...results.findings.findings import Catalogue, Finding
from ...results.saying.wording import few_followed, length, percent
from ...results.values.line import Line, MarkKind, Part, Span, above_and_below, date, line, typed
from .named_figures import below, in_sentence, unbracketed

NamedResult = Callable[[str], Line | None]
"""Gives the line for "question/factor-or-overall/name", or None where no such result is known."""


def prose(
    text: str, catalogue: Catalogue, named: NamedResult, kind: MarkKind = "words", *, is_always_sure: bool = False
) -> Line:
    """A sentence as typed, each reference replaced by its number; what stands below it follows at the end.

    kind: how a digit that was typed is marked (the audit allows days, numbers of a chart and definitions alone).
    is_always_sure: see `Teller`.
    """
    out: list[Part | Line] = []
    teller = Teller(catalogue, named, is_always_sure=is_always_sure)
    for part in split_references(text):
        if isinstance(part, Reference):
            out.append(teller.refer(part))
        else:
            teller.pass_over(part)
            out.append(_plain(part, kind))
    return line(*out, *teller.below())


class Teller:
    """Puts figures into sentences that follow one another, and keeps what is to be said below them.

    A number of other patients than those of the number before it in the same sentence says so.
    """

    def __init__(self, catalogue: Catalogue, named: NamedResult, *, is_always_sure: bool = False) -> None:
        """is_always_sure: how sure a number is stands below it even where nobody has judged it."""
        self._catalogue = catalogue
        self._is_always_sure = is_always_sure
        self._named = named
        self._people: frozenset[str] = frozenset()
        """Studies of the numbers of this sentence."""
        self._between = ""
        """Words since the last number."""
        self._brackets = 0
        self._computed: Line = ()
        """What stands below computed results that were named."""
        self._named_here: list[Finding] = []
        """Findings that were named since the last lines below."""

    def pass_over(self, text: str) -> None:
        """Words of the sentence that stand as typed."""
        self._between += text
        self._brackets = max(0, self._brackets + text.count("(") - text.count(")"))
        if _ENDS.search(text):
            self._people, self._between = frozenset(), ""

    def refer(self, reference: Reference) -> Line:
        """What stands in the sentence for a reference."""
        said = self._said(reference)
        people = _people(reference, self._catalogue)
        is_other = people and self._people and people.isdisjoint(self._people) and not _OTHERS.search(self._between)
        if people:
            self._people, self._between = self._people | people, ""
        if not is_other:
            return said
        if self._brackets:
            return line(said, "; other patients")
        if said[-1:] == (")",):
            return line(*said[:-1], "; other patients)")
        return line(said, " (other patients)")

    def below(self) -> Line:
        """A line for each claim named since the last time, in order."""
        rows = below(self._named_here, self._catalogue, is_always_sure=self._is_always_sure)
        computed = self._computed
        self._named_here, self._computed, self._brackets = [], (), 0
        return (*(Span("below", row) for row in rows), *computed)

    def _said(self, reference: Reference) -> Line:
        catalogue, steps = self._catalogue, reference.steps
        if steps[0] in catalogue.evidence.questions:
            said, more = above_and_below(self._named(reference.text) or line("not pooled"))
            self._computed += more
            return unbracketed(said) if self._brackets else said
        if catalogue.standing(steps[0]) == "retracted":
            gone = withdrawn(steps[0], catalogue)
            return unbracketed(gone) if self._brackets else gone
        findings = catalogue.of_claim("/".join(steps[:3])) or catalogue.of_claim("/".join(steps[:2]))
        whole = [item for item in findings if item.base == reference.text] or (findings if len(steps) == 2 else [])
        if whole:
            self._keep(whole)
            return in_sentence(whole, in_bracket=self._brackets > 0)
        figure = catalogue.book.quoted(reference.text)
        if figure is None:
            return line("not reported")
        owner = _owner(reference, findings)
        self._keep(owner)
        if figure.unit == "%":
            said = line(percent(figure), *(few_followed(item) for item in owner if reference.steps[-1] == "value"))
            return unbracketed(said) if self._brackets else said
        return length(figure) if figure.unit in _TIMES else (figure,)

    def _keep(self, findings: Sequence[Finding]) -> None:
        self._named_here += [item for item in findings if item not in self._named_here]


_TIMES = frozenset({"hour", "day", "week", "month", "year", "minute"})
_ENDS = re.compile(r"[.!?](?:\s|$)")
# Where the writer said so already.
_OTHERS = re.compile(r"\b(?:other|different|another)\b[^.]*\b(?:patients|people|studies|series|clinic)\b")


def _owner(reference: Reference, findings: Sequence[Finding]) -> list[Finding]:
    """The row of which a reference names one field: of a claim with a ratio or an estimate, the one that it names."""
    held = [item for item in findings if reference.text.startswith(f"{item.base}/")]
    named = [item for item in held if item.kind in reference.steps]
    return (named or held)[:1]


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
