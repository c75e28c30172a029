"""What one report has to do with others: the same people, quotations, what takes its place, and what leans on it."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

from ...problems import Position
from ...reading.files import WRITTEN_DIR
from ...reading.model import AbsoluteOf, Basis, Question, Urgent
from ...reading.prose import reports_named_in
from ...reading.published import published_address
from ...reading.values import Words
from ...records import NamedTuple
from .comparable import Superseded, count_patients_once, reason_not_compared
from .findings import Catalogue, Finding


class Mention(NamedTuple):
    """A place in our own prose that names a report."""

    key: str
    address: str
    """Of the page, from the root of the site."""
    title: str
    """Of the page."""
    place: str
    """The part of the file, in words: "the answer", "steps"."""
    position: Position


class Quotation(NamedTuple):
    """A claim of one report that takes a figure over from another."""

    key: str
    claim: str
    quoted: str
    """ "key/claim" as typed."""


class Relations(NamedTuple):
    """Every tie between reports of one evidence."""

    by_study: dict[str, tuple[str, ...]]
    """Keys of the reports of each study, by study id."""
    held_by: dict[str, tuple[str, ...]]
    """Keys of the reviews that hold each study."""
    quoting: dict[str, tuple[Quotation, ...]]
    """Quotations of each report, by the key that is quoted."""
    replaced: dict[str, tuple[Superseded, ...]]
    """Findings of each report whose patients another report counts."""
    replacing: dict[str, tuple[Superseded, ...]]
    """The same, by the key of each report that counts some of them; its finding stands first."""
    of_study: dict[str, tuple[Finding, ...]]
    """Findings of each study."""
    mentions: dict[str, tuple[Mention, ...]]
    """Places in prose that name each report."""


@lru_cache(maxsize=2)  # one guide is composed at a time, and every page of a source asks
def relations(catalogue: Catalogue) -> Relations:
    """All ties, found once."""
    by_study: dict[str, list[str]] = {}
    held_by: dict[str, list[str]] = {}
    quoting: dict[str, list[Quotation]] = {}
    for key, report in sorted(catalogue.evidence.reports.items()):
        for study in report.studies:
            by_study.setdefault(study.id.text, []).append(key)
            for included in study.includes:
                held_by.setdefault(included.text, []).append(key)
        for claim in report.claims:
            if claim.quotes is not None:
                quoted = claim.quotes.text
                quoting.setdefault(quoted.partition("/")[0], []).append(Quotation(key, claim.id.text, quoted))
    of_study: dict[str, list[Finding]] = {}
    for finding in catalogue.findings:
        for facts in finding.studies:
            of_study.setdefault(facts.id, []).append(finding)
    replaced, replacing = _supersession(of_study)
    return Relations(
        by_study={study: tuple(dict.fromkeys(keys)) for study, keys in by_study.items()},
        held_by={study: tuple(dict.fromkeys(keys)) for study, keys in held_by.items()},
        quoting={key: tuple(quotations) for key, quotations in quoting.items()},
        replaced=replaced,
        replacing=replacing,
        of_study={study: tuple(findings) for study, findings in of_study.items()},
        mentions=_mentions(catalogue),
    )


_Pairs = dict[str, tuple[Superseded, ...]]


def _supersession(of_study: dict[str, list[Finding]]) -> tuple[_Pairs, _Pairs]:
    """Which finding counts where two reports tell of the same patients, by the key that gives way and by the other."""
    # A report of two studies ties both together, so all that share anybody are decided at once.
    tied: set[str] = set()
    for findings in of_study.values():
        if len({finding.key for finding in findings}) > 1:
            tied.update(finding.key for finding in findings)
    rates = {
        (finding.base, finding.kind): finding
        for findings in of_study.values()
        for finding in findings
        if finding.key in tied and finding.kind in ("rate", "estimate", "grade") and not reason_not_compared(finding)
    }
    superseded = count_patients_once([rates[name] for name in sorted(rates)])[1]
    found = {(pair.finding.base, pair.by.base): pair for pair in superseded if pair.by.key != pair.finding.key}
    replaced: dict[str, list[Superseded]] = {}
    replacing: dict[str, list[Superseded]] = {}
    for _, pair in sorted(found.items(), key=lambda item: item[0]):
        replaced.setdefault(pair.finding.key, []).append(pair)
        for held in pair.counting:
            others = tuple(other for other in pair.counting if other is not held)
            replacing.setdefault(held.key, []).append(Superseded(pair.finding, held, others))
    return _tuples(replaced), _tuples(replacing)


def _tuples(pairs: dict[str, list[Superseded]]) -> _Pairs:
    return {key: tuple(items) for key, items in pairs.items()}


def reversals_of(catalogue: Catalogue, finding: Finding) -> tuple[Finding, ...]:
    """Estimates of the same patients that take this outcome back: where the rate stands, they are named too."""
    held = relations(catalogue).of_study
    found: dict[str, Finding] = {}
    for facts in finding.studies:
        for other in held.get(facts.id, ()):
            reverses = other.outcome.reverses
            if reverses is not None and reverses.text == finding.outcome.id and not other.is_withdrawn:
                found.setdefault(other.base, other)
    return tuple(other for base, other in sorted(found.items()) if base != finding.base)


_PLACES = {
    "answer": "the answer",
    "stop": "what not to do now",
    "is_it_this": "is it really this",
    "medical": "medical questions",
    "options": "options",
    "steps": "steps",
    "call": "when to call",
    "absolute": "absolute risks",
    "patient": "numbers for the talk",
    "certainty": "how sure",
    "dissent": "a signed dissent",
    "until_help": "until help comes",
    "say": "what to say",
    "signs": "signs",
}


def _mentions(catalogue: Catalogue) -> dict[str, tuple[Mention, ...]]:
    found: dict[str, dict[Mention, None]] = {}
    for mention in _places(catalogue):
        found.setdefault(mention.key, {}).setdefault(mention, None)
    return {key: tuple(places) for key, places in found.items()}


def _places(catalogue: Catalogue) -> Iterator[Mention]:
    evidence = catalogue.evidence
    for _, question in sorted(evidence.questions.items()):
        yield from _in_file(question, f"{question.id}/", question.title.text)
    for _, urgent in sorted(evidence.urgent.items()):
        yield from _in_file(urgent, "urgent/", urgent.title.text)
    for page in evidence.pages:
        path = page.file.removeprefix(f"{WRITTEN_DIR}/")
        address, title = published_address(path), path.removesuffix(".md")
        for number, text in enumerate(page.text.split("\n"), start=1):
            for key in sorted(reports_named_in(text)):
                yield Mention(key, address, title, "the text", Position(page.file, number, 1))


def _in_file(item: Question | Urgent, address: str, title: str) -> Iterator[Mention]:
    for name, value in zip(item._fields, item, strict=True):
        for key, position in _named_in(value):
            yield Mention(key, address, title, _PLACES.get(name, name.replace("_", " ")), position)
    if isinstance(item, Question) and item.patient is not None:
        for shown in item.patient.show:
            yield Mention(shown.text.partition("/")[0], address, title, _PLACES["patient"], shown.position)


def _named_in(value: object) -> Iterator[tuple[str, Position]]:
    """Keys that a part of a file names: in its prose, as a basis, or as a ratio and its baseline."""
    if isinstance(value, Words):
        if "$" in value.text:
            for key in sorted(reports_named_in(value.text)):
                yield key, value.position
    elif isinstance(value, Basis):
        if value.claim is not None:
            yield value.claim.text.partition("/")[0], value.position
        if value.source is not None:
            yield value.source.text, value.position
    elif isinstance(value, AbsoluteOf):
        yield value.ratio.text.partition("/")[0], value.position
        yield value.baseline.text.partition("/")[0], value.position
    elif isinstance(value, tuple) and not isinstance(value, Position):
        for part in value:
            yield from _named_in(part)
