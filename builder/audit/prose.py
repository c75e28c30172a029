"""Sentences of people: figures named in them must exist, and none is typed."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator
from functools import lru_cache

from ..compiled_patterns import compiled
from ..numerals import Lexicon
from ..numerals.format_units import COUNTED_NAMES
from ..numerals.late import holds_any, late
from ..problems import Position, Problem, error
from ..proof.declared_names import DeclaredNames
from ..reading.fdi_chart import CHART_FACTORS
from ..reading.model import Advice, Page, Question, Urgent
from ..reading.prose import Reference, split_references
from ..reading.report_model import Claim, Level, Report
from ..reading.slugs import slug
from ..reading.values import Words
from .computed_names import FACTOR, OVERALL, PLACES
from .nearest import did_you_mean, misnamed, nearest_name
from .question_references import advice_of
from .typed_words import number_in_words

RULES = {
    "reference-unknown": (
        "A sentence names a figure that does not exist. Figures are named as $key/claim, $key/claim/level, a field of "
        "these by its id, or $question/overall/name and $question/factor/name with a name from the list on this page. "
        "Correct the name. Basis: the format of this guide; common practice, no source."
    ),
    "figure-misplaced": (
        "A hand-written page names a figure in a heading or inside a link. A figure is itself a link to its passage, "
        "and headings are repeated in tables of contents and in search results, where nothing can prove it. Move it "
        "into a sentence. Basis: the format of this guide; common practice, no source."
    ),
    "number-typed": (
        "A sentence contains a typed number of a kind that only a source can give: a percentage, one number out of "
        "another, a ratio, a P value, in figures or in words (three in four, half of them). Typed numbers have no "
        "proof and stay the same when the evidence changes; name the claim instead. Dates, numbers of a chart and "
        "definitions may be typed, and times and sizes in advice whose basis is not a study. About a quarter of "
        "references in medical papers misquote their source (Jergas and Baethge 2015, PeerJ 3:e1364)."
    ),
}

_N = r"(?<![\w.,/$-])[0-9]+(?:[.,·][0-9]+)?"
_WORD = r"\b(?i:ten|twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety|hundred)(?:-[a-z]+)?"
_RATIO = r"(?:OR|HR|RR|[Oo]dds ratio|[Hh]azard ratio|[Rr]isk ratio|[Rr]elative risk)"
_EVIDENCE = (
    rf"{_N} ?(?:%|per ?cent\b)|{_WORD} per ?cent\b|{_N} (?:of|in|out of) (?:the |these |every )?[0-9]+(?![0-9/-])"
    rf"|{_N}/[0-9]+(?![0-9/-])"
    rf"|\b{_RATIO}(?: of| was| is|:| =|=)? ?[0-9.]+|\b[Pp] ?[<=>≤≥] ?[0-9.]+"
)
_SIGNS = frozenset("0123456789<=>≤≥")
_STEMS = ("cent", "OR", "HR", "RR", "ratio", "risk")
"""One of them stands in all of it."""
_find_time_or_size = late(rf"{_N} ?(?:months?|years?|weeks?|days?|minutes?|hours?|mm|cm)\b").search


_find_evidence = late(_EVIDENCE).search
_find_before_words = late(rf"{_N} ").finditer


@lru_cache(maxsize=8)
def _words_counted(lexicon: Lexicon) -> tuple[str, ...]:
    """Words behind a number that say it is a count, of whatever this compendium counts."""
    return tuple(sorted({word for unit in lexicon.units.values() for word in (unit.one, unit.many)} | {"cases"}))


def _find_count(text: str, lexicon: Lexicon) -> tuple[int, int] | None:
    """The first "47 eyes". A pattern of all these words would be compiled anew in every process."""
    for number in _find_before_words(text):
        for word in _words_counted(lexicon):
            end = number.end() + len(word)
            if text.startswith(word, number.end()) and not _is_of_word(text[end : end + 1]):
                return number.start(), end
    return None


def _is_of_word(letter: str) -> bool:
    return letter.isalnum() or letter == "_"


def _evidence_typed(text: str, lexicon: Lexicon) -> str:
    """The first number of a sentence that only a source can give, in figures or else in words; "" without one."""
    may_be = not _SIGNS.isdisjoint(text) or holds_any(text, _STEMS)
    found = _find_evidence(text) if may_be else None
    count = _find_count(text, lexicon) if may_be else None
    if count is not None and (found is None or count[0] < found.start()):
        return text[slice(*count)]
    return found[0] if found is not None else number_in_words(text, lexicon)


def find_in_question(
    question: Question, declared: DeclaredNames, ids: Collection[str], unproved: bool
) -> Iterator[Problem]:
    """The sentences of one question. ids: of all proved figures; unproved: some figure found no proof."""
    for words, is_evidence in _sentences(question):
        yield from find_in_words(words, is_evidence, declared, ids, unproved)


def find_in_urgent(urgent: Urgent, declared: DeclaredNames, ids: Collection[str], unproved: bool) -> Iterator[Problem]:
    """The sentences of one urgent matter."""
    for words in (urgent.title, *urgent.signs):
        yield from find_in_words(words, False, declared, ids, unproved)
    for advice in (advice for _, entries in urgent.advice for advice in entries):
        for words, is_evidence in _of_advice(advice):
            yield from find_in_words(words, is_evidence, declared, ids, unproved)


def _sentences(question: Question) -> Iterator[tuple[Words, bool]]:
    # True: a time or size in it speaks of evidence too. Reasons and dissent stay as their authors typed them.
    yield question.title, True
    if question.answer is not None:
        yield question.answer, True
    for advice in advice_of(question):
        yield from _of_advice(advice)
    for field in question.situation:
        yield field.ask, False
    for option in question.options:
        yield option.title, False
        for words in option.ready:
            yield words, False
    if question.patient is not None:
        for words in (*question.patient.chair, *question.patient.afterwards):
            yield words, False
    if question.recall is not None:
        for words in (*question.recall.record, *question.recall.failing):
            yield words, False


def _of_advice(advice: Advice) -> Iterator[tuple[Words, bool]]:
    rests_on_study = advice.basis.kind.text == "study"
    yield advice.words, rests_on_study
    if advice.caution is not None:
        yield advice.caution, rests_on_study


def find_in_words(
    words: Words, is_evidence: bool, declared: DeclaredNames, ids: Collection[str], unproved: bool
) -> Iterator[Problem]:
    """One sentence: the figures it names, and the numbers it types."""
    for part in split_references(words.text):
        if isinstance(part, Reference):
            yield from find_reference(part, words.position, declared, ids, unproved)
        else:
            found = _evidence_typed(part, declared.lexicon)
            if not found and is_evidence and (told := _find_time_or_size(part)) is not None:
                found = told[0]
            if found:
                yield typed(found, words.position, declared)


def typed(number: str, position: Position, declared: DeclaredNames) -> Problem:
    """The problem of a number that nothing proves."""
    tells = f'"{number.strip()}" is typed in a sentence: name the figure instead, as $key/claim, so that it is proved'
    found = _claims_with(number, declared)
    hint = (
        f"where it is that figure: ${found}" if found else "$KEY/CLAIM: the key of the report, and the id of its claim"
    )
    return error(position, "number-typed", tells, hint)


_find_numbers = late(r"[0-9][0-9.,]*%?").findall


def _claims_with(number: str, declared: DeclaredNames) -> str:
    """The first claim that has the counts or the percentage of a sentence, as prose names it; "" for none."""
    printed = set(_find_numbers(number))
    if not printed:
        return ""
    for key, report in sorted(declared.reports.items()):
        for claim in report.claims:
            rows: list[tuple[str, Claim | Level]] = [("", claim)]
            rows += [(f"/{slug(level.level.text)}", level) for level in claim.levels]
            for level, row in rows:
                values = {getattr(each, "text", "") for each in (row.events, row.total, row.rate, row.success_rate)}
                if printed <= values:
                    return f"{key}/{claim.id.text}{level}"
    return ""


_find_unscanned = compiled(
    r"```.*?```|`[^`\n]*`|<data\b.*?</data>|<time\b.*?</time>|<!--.*?-->|\]\([^)\n]*\)|<[^>\n]*>|https?://\S+",
    re.DOTALL,
).sub

_find_letters = compiled(r"[^\n]").sub


def find_in_page(page: Page, declared: DeclaredNames, ids: Collection[str], unproved: bool) -> Iterator[Problem]:
    """A hand-written page, outside of its code and of numbers marked as no evidence."""
    text = _find_unscanned(lambda found: _find_letters(" ", found[0]), page.text)
    typed_lines = page.text.split("\n")
    for number, line in enumerate(text.split("\n"), start=1):
        at = 0
        for part in split_references(line):
            if isinstance(part, Reference):
                at = part.offset
                place = Position(page.file, number, at + 1)
                yield from find_reference(part, place, declared, ids, unproved)
                if _is_heading(line) or _is_in_link(typed_lines[number - 1], at):
                    tells = f'"${part.text}" is in a heading or a link'
                    yield error(place, "figure-misplaced", tells, "put the figure into a sentence of its own")
            elif found := _evidence_typed(part, declared.lexicon):
                column = line.find(found, at)
                yield typed(found, Position(page.file, number, max(column, 0) + 1), declared)


_match_heading = compiled(r" {0,3}#{1,6}(?:\s|$)|\s*<h[1-6]\b").match


def _is_heading(line: str) -> bool:
    return _match_heading(line) is not None


def _is_in_link(line: str, at: int) -> bool:
    opened = line.rfind("[", 0, at)
    return opened >= 0 and "]" not in line[opened:at] and re.search(r"\](?:\(|\[)", line[at:]) is not None


def find_reference(
    reference: Reference, position: Position, declared: DeclaredNames, ids: Collection[str], unproved: bool
) -> Iterator[Problem]:
    """One figure named in prose that is not there."""
    steps = reference.steps
    first = steps[0]
    if first in declared.questions:
        yield from _computed(reference, position, declared)
    elif first in declared.reports:
        yield from _quoted(reference, declared.reports[first], position, declared, ids, unproved)
    elif not any(declared.is_unreadable(kind, first) for kind in ("report", "source", "question")):
        names = (*declared.reports, *declared.questions)
        tells = f'"${reference.text}" names nothing: no claim file and no question is called "{first}"'
        yield misnamed(position, "reference-unknown", tells, first, names, "write $$ for a dollar")


def _computed(reference: Reference, position: Position, declared: DeclaredNames) -> Iterator[Problem]:
    steps = reference.steps
    shown = f'"${reference.text}"'
    if len(steps) != 3:
        tells = f"{shown} begins with a question: it also needs a factor (or overall) and the name of a result"
        yield error(position, "reference-unknown", tells, f"${steps[0]}/overall/studies, or another name of a result")
        return
    _, factor, name = steps
    names = OVERALL if factor in PLACES else FACTOR
    if names is FACTOR and factor not in declared.factors and factor not in CHART_FACTORS:
        if not declared.is_unreadable("factor", factor):
            names_of_places = (*declared.factors, *PLACES)
            tells = f'{shown}: vocabulary.yaml has no factor "{factor}"'
            yield misnamed(position, "reference-unknown", tells, factor, names_of_places)
    elif COUNTED_NAMES.get(name, name) not in names:
        meant = did_you_mean(name, names) or f"; the names are {', '.join(names)}"
        hint = f"type {near}" if (near := nearest_name(name, names)) else "type one of them"
        yield error(position, "reference-unknown", f'{shown}: no computed result is called "{name}"{meant}', hint)


def _quoted(
    reference: Reference,
    report: Report,
    position: Position,
    declared: DeclaredNames,
    ids: Collection[str],
    unproved: bool,
) -> Iterator[Problem]:
    steps = reference.steps
    shown = f'"${reference.text}"'
    if reference.text in ids:
        return
    if steps[1] == "studies":
        named = steps[2] if len(steps) > 2 else ""
        if not unproved and not declared.is_unreadable("study", named):
            tells = f"{shown} does not name a figure of a study in {report.file}"
            hint = f"${report.key}/studies/ID/flow/examined, or another field of its flow"
            yield error(position, "reference-unknown", tells, hint)
        return
    claim = report.claim(steps[1])
    if claim is None:
        if not declared.is_unreadable("claim", f"{report.key}/{steps[1]}"):
            claims = [each.id.text for each in report.claims]
            tells = f'{shown}: {report.file} has no claim "{steps[1]}"'
            yield misnamed(position, "reference-unknown", tells, steps[1], claims)
        return
    if len(steps) == 2 or (len(steps) == 3 and steps[2] in _named_in(claim)):
        return
    if not unproved:
        own_figures = [
            *_named_in(claim),
            *(_tail(each, claim, report) for each in ids if _is_of(each, claim, report)),
        ]
        name = "/".join(steps[2:])
        tells = f'{shown}: claim "{claim.id.text}" has no level or figure "{name}"'
        yield misnamed(position, "reference-unknown", tells, name, own_figures)


def _named_in(claim: Claim) -> set[str]:
    names = {slug(level.level.text) for level in claim.levels}
    for grades in (claim.grades, *(level.grades for level in claim.levels)):
        names |= {slug(word.text) for grade in grades if (word := grade.outcome or grade.words) is not None}
    return names


def _is_of(figure: str, claim: Claim, report: Report) -> bool:
    return figure.startswith(f"{report.key}/{claim.id.text}/")


def _tail(figure: str, claim: Claim, report: Report) -> str:
    return figure.removeprefix(f"{report.key}/{claim.id.text}/")
