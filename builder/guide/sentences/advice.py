"""Entries of advice: what to do, what it rests on, who ratified it, and what happens when its basis is withdrawn."""

from __future__ import annotations

import re
from collections.abc import Sequence
from urllib.parse import urlencode

from ...reading.model import Advice, Basis, Question, Ratified, Urgent
from ...reading.values import Words
from ...results.findings.findings import Catalogue, Finding
from ...results.saying.certainty import comparison_sure
from ...results.saying.margin_words import margin_told
from ...results.saying.people import NOT_RATIFIED, NOT_SET, person_name
from ...results.saying.source_reference import source_link
from ...results.saying.speech import counted_as, when
from ...results.saying.whose_age import of_age
from ...results.saying.wording import adjustment, compared_how, contrast, contrast_alone, cut, differed
from ...results.values.document import AdviceList, Entry
from ...results.values.line import Line, Link, MarkKind, Part, date, joined, line, typed
from .named_figures import once
from .prose import NamedResult, prose, withdrawn

# A line of advice stays one line: more levels are one tap away.
_LEVELS_SHOWN = 3


def advice_list(
    entries: tuple[Advice, ...],
    kind: str,
    catalogue: Catalogue,
    named: NamedResult,
    ratified: Ratified | None,
    *,
    ordered: bool = False,
    start: int = 1,
) -> AdviceList:
    """A list of advice; an entry without a ratifier of its own stands under the question's.

    ratified: the question's. start: the number of the first entry of an ordered list.
    """
    shown = tuple(entry(item, catalogue, named, ratified) for item in entries)
    return AdviceList(shown, kind, ordered, start=start)


def entry(item: Advice, catalogue: Catalogue, named: NamedResult, ratified: Ratified | None, level: str = "") -> Entry:
    """One entry with its basis said in words.

    level: id of the level that the entry speaks for or against; "" where it speaks of none.
    """
    kind: MarkKind = "words" if item.basis.kind.text == "study" else "instruction"
    words = prose(item.words.text, catalogue, named, kind)
    if is_withdrawn(item, catalogue):
        # Before what it tells to do: whoever reads on has been warned.
        words = line("The report behind this line was withdrawn, ask whom you call before you do it: ", words)
    return Entry(
        with_door(words, catalogue),
        basis_line(item.basis, catalogue, level),
        with_door(prose(item.caution.text, catalogue, named, kind), catalogue) if item.caution else (),
        # What is not set is called that alone: whoever ratified the words could not ratify the protocol behind them.
        _who(item, catalogue, ratified),
        urlencode([(answer.factor.text, answer.level.text) for answer in item.answers or ()]),
    )


def _who(item: Advice, catalogue: Catalogue, ratified: Ratified | None) -> Line:
    """Who ratified an entry, and whose dissent speaks of it."""
    said = () if item.basis.state is not None else ratified_line(item.ratified or ratified, catalogue)
    if not item.dissent:
        return said
    names = joined([line(typed(person_name(who.text, catalogue))) for who in item.dissent])
    return line(*said, "; " if said else None, Link("#dissent", ("dissent",)), ": ", names)


_DOOR = "urgent page"


def with_door(said: Line, catalogue: Catalogue) -> Line:
    """Where advice sends somebody to the urgent page, one tap opens it, at the emergency that it speaks of."""
    if not catalogue.evidence.urgent:
        return said
    out: list[Part] = []
    for part in said:
        if isinstance(part, str) and _DOOR in part:
            before, _, after = part.partition(_DOOR)
            out += [before, Link(f"urgent/{_emergency_before(before, catalogue)}", (_DOOR,)), after]
        else:
            out.append(part)
    return line(*out)


def _emergency_before(text: str, catalogue: Catalogue) -> str:
    """The anchor of the emergency that the words before the door speak of: "Through it? First the "; "" if in doubt.

    A word names an emergency if it stands in its title and nowhere in another: "swelling" is a sign of several, and
    the wrong list would be worse than the top of the page, where all of them are named.
    """
    sentences = re.split(r"(?<=[.?!])\s+", text)
    said = _long_words(" ".join(sentences[-2:]))
    told = {name: _told(item) for name, item in catalogue.evidence.urgent.items()}
    named: list[str] = []
    for name, item in catalogue.evidence.urgent.items():
        elsewhere = set().union(*(words for other, words in told.items() if other != name))
        if said & _long_words(item.title.text) - elsewhere:
            named.append(name)
    return f"#{named[0]}" if len(named) == 1 else ""


def _told(item: Urgent) -> set[str]:
    """The long words of all that stands about an emergency."""
    advised = [entry for _, entries in item.advice for entry in entries]
    texts = [item.title, *item.signs, *(entry.words for entry in advised)]
    texts += [entry.caution for entry in advised if entry.caution]
    return set().union(*(_long_words(words.text) for words in texts))


def _long_words(text: str) -> set[str]:
    return set(re.findall(r"[^\W\d_]{5,}", text.lower()))


def is_withdrawn(item: Advice, catalogue: Catalogue) -> bool:
    """True for an entry that tells what a study found which is withdrawn: it speaks for nothing any more."""
    basis = item.basis
    if basis.kind.text != "study" or basis.claim is None:
        return False
    findings = catalogue.of_claim(basis.claim.text)
    return catalogue.standing(basis.claim.text.partition("/")[0]) == "retracted" or (
        bool(findings) and all(finding.is_withdrawn for finding in findings)
    )


def basis_line(basis: Basis, catalogue: Catalogue, level: str = "") -> Line:
    """What an entry rests on: a study with its finding, a guideline, common practice, or local protocol.

    level: id of the level that is spoken of; its number stands first, then that of its reference.
    """
    kind = basis.kind.text
    if kind == "study" and basis.claim is not None:
        key = basis.claim.text.partition("/")[0]
        if catalogue.standing(key) == "retracted":
            return line("the study it rested on was ", withdrawn(key, catalogue))
        findings = _spoken_of_first(catalogue.of_claim(basis.claim.text), level)
        if findings:
            return line(
                "study: ", source_link(key, catalogue), ", ", _found(findings),
                comparison_sure(findings, catalogue),
            )  # fmt: skip
        return line("study: ", source_link(key, catalogue))
    if kind == "guideline" and basis.source is not None:
        where = typed(f", {basis.where.text}", "locator") if basis.where else None
        if catalogue.standing(basis.source.text) == "retracted":
            return line("the guideline it rested on was ", withdrawn(basis.source.text, catalogue))
        return line("guideline: ", source_link(basis.source.text, catalogue), where)
    if kind == "local protocol":
        return line(NOT_SET if basis.state is not None else "local protocol")
    if kind == "common practice":
        return line("common practice, no source")
    return line(typed(kind))


def _found(findings: Sequence[Finding]) -> Line:
    """What a claim found: its ratio whole, its rows with what they share said once."""
    rows = [finding for finding in findings if finding.kind != "contrast"]
    ratios = [_ratio(finding, rows) for finding in findings if finding.kind == "contrast"]
    further = "; further levels there" if len(rows) > _LEVELS_SHOWN else None
    told = rows or list(findings)
    heads = joined([*([line(_held(findings, rows), once(rows[:_LEVELS_SHOWN]))] if rows else []), *ratios])
    shared = None if rows else line("; ", counted_as(told[0].outcome), ", ", when(told[0]), of_age(told[0]))
    # A ratio tells of its cut itself.
    return line(heads, further, shared, differed(told[0]) if ratios else compared_how(findings))


def _held(findings: Sequence[Finding], rows: Sequence[Finding]) -> Line:
    """What the interval shows of a margin, to stand before the counts; empty without a margin, and without counts."""
    held = (margin_told(finding) for finding in findings if finding.kind == "contrast" and _is_beside(finding, rows))
    return next((line(said, ": ") for said in held if said), ())


def _is_beside(finding: Finding, rows: Sequence[Finding]) -> bool:
    """True of a ratio that compares the counts it stands behind, by the same event."""
    item = finding.contrast
    is_alike = item is not None and (item.event is None or item.event.text == finding.outcome.title.text)
    return is_alike and any(row.level_ids == finding.level_ids for row in rows)


def _ratio(finding: Finding, rows: Sequence[Finding]) -> Line:
    """A ratio whole; behind the counts that it compares without naming levels, event and margin once more."""
    if not _is_beside(finding, rows):
        return contrast(finding)
    return line(contrast_alone(finding), ", ", adjustment(finding), cut(finding))


def _spoken_of_first(findings: Sequence[Finding], level: str) -> list[Finding]:
    """The same rows, so that a sentence about a level never stands beside the numbers of others alone."""

    def rank(finding: Finding) -> int:
        if level in finding.level_ids:
            return 0
        reference = finding.claim.reference
        wording = finding.level.level.text if finding.level is not None else None
        return 1 if isinstance(reference, Words) and reference.text == wording else 2

    if not any(level in finding.level_ids for finding in findings):
        return list(findings)
    # Of a table of grades one outcome alone, for both levels.
    graded = [finding for finding in findings if finding.kind == "grade"]
    one = [finding for finding in graded if finding.outcome == graded[0].outcome]
    return sorted(one or findings, key=rank)


def ratified_line(ratified: Ratified | None, catalogue: Catalogue) -> Line:
    """Who stands behind an entry and since when, or "not yet ratified"."""
    if ratified is None:
        return line(NOT_RATIFIED)
    names = ", ".join(person_name(word.text, catalogue) for word in ratified.by)
    return line("ratified by ", typed(names), " on ", date(ratified.on.value))


def question_ratified(question: Question, catalogue: Catalogue) -> Line:
    """Who stands behind a question as a whole; "ratified in part" where somebody does behind single lines or ways."""
    lists = (question.stop, question.is_it_this, question.medical, question.steps, question.call)
    of_ways = (part for option in question.options for _, part in option.advice)
    is_in_part = any(option.ratified for option in question.options) or any(
        item.ratified for part in (*lists, *of_ways) for item in part
    )
    if question.ratified is None and is_in_part:
        return line("ratified in part")
    return ratified_line(question.ratified, catalogue)
