"""The question page: what not to do now, is it really this, the situation, ways to go on, steps, factors."""

from __future__ import annotations

import re
from collections.abc import Iterator

from ...reading.model import Advice, Question
from ...reading.prose import reports_named_in
from ...results.findings.findings import Catalogue
from ...results.saying.people import person_name
from ...results.saying.reversals import COUNTED_TWICE, is_counted_twice, reversal_line, reversals
from ...results.saying.review_date import review_due
from ...results.saying.small_numbers import in_words
from ...results.saying.titles import factor_title, with_synonyms
from ...results.values.document import AdviceList, Block, Blocks, Details, Facts, Items, Page, Paragraph, Section
from ...results.values.line import Line, Link, date, joined, line, typed
from ..sections.by_chance import by_chance
from ..sections.contact import contact_blocks
from ..sections.tray_card import tray_card
from ..sentences.advice import advice_list, question_ratified
from ..sentences.prose import NamedResult, prose
from .situation import sides_shown, situation
from .way_to_go_on import way_to_go_on
from .ways_table import ways_side_by_side

# What fits on the first screens of a phone; the order is that of the evidence.
_STOPS_SHOWN = 4
_SIGNS_SHOWN = 3
_REASONS_SHOWN = 3


# Read on paper alone: what stands on the screen and not there.
_NOT_PRINTED = Paragraph(
    line(
        "Not on this paper, but at the address below: answers not chosen before printing, ways compared, more pages, "
        "workings."
    ),
    "paper",
)


def question_page(catalogue: Catalogue, question: Question, named: NamedResult) -> Page:
    """The page a resident opens beside the chair, in the order of need."""
    blocks: list[Block] = [*_first(catalogue, question, named)]
    if question.situation:
        said = "Tap what you see. Each answer stands alone."
        lead = Paragraph(line(said), "quiet")
        blocks.append(
            Section(
                "What do you see?",
                "situation",
                (lead, situation(catalogue, question, named)),
                "situation-section",
            )
        )
    if question.options:
        shown_options = tuple(way_to_go_on(item, catalogue, question, named) for item in question.options)
        beside = ways_side_by_side(catalogue, question, named)
        # What nobody knows of the ways stands before all numbers of them, and not below them.
        unknown, _ = _split_answer(question)
        first: Blocks = (Paragraph(prose(unknown, catalogue, named), "lead"),) if unknown else ()
        ways: Blocks = (*first, *((beside,) if beside is not None else ()), *shown_options)
        blocks.append(Section("Ways to go on", "ways", ways))
    blocks.extend(_steps_after(catalogue, question, named))
    blocks.extend(_evidence(catalogue, question, named))
    blocks.extend((_more(catalogue, question), _NOT_PRINTED))
    card = tray_card(catalogue, question, named)
    blocks.append(Details("A card to print small", (card,), "to-print", anchor="tray-card"))
    return Page(
        address=f"{question.id}/",
        kind="question",
        title=question.title.text,
        blocks=tuple(blocks),
        description="What not to do, what is known, and how sure.",
        edit=question.position.file,
        search=search_words(catalogue, question),
        review_due=review_due(catalogue, question),
        touched_by=touched_by(catalogue, question),
    )


def _first(catalogue: Catalogue, question: Question, named: NamedResult) -> Iterator[Block]:
    """What a tired reader has to see before anything else: do not, do, call, is it really this, whom it may harm."""
    if question.stop:
        listed = _advice(question.stop, "stop", catalogue, question, named)
        listed = listed._replace(shown=_STOPS_SHOWN, rest="more not to do")
        yield Section("Do not", "stop", (listed,), "stop")
    now = question.steps_due("now")
    if now:
        # Whoever is led here by the bar is led on to what stands above.
        above: Blocks = (Paragraph(line(Link("#stop", ("What not to do",))), "back"),) if question.stop else ()
        yield Section("Do now", "now", (*above, _advice(now, "now", catalogue, question, named, ordered=True)), "now")
    yield Section("Call", "call", tuple(_call(catalogue, question, named)), "call")
    if question.is_it_this:
        listed = _advice(question.is_it_this, "is-it-this", catalogue, question, named)
        listed = listed._replace(shown=_SIGNS_SHOWN, rest="more ways to tell")
        yield Section("Is it really this?", "is-it-this", (listed,))
    if question.medical:
        defer = Paragraph(
            line("Local protocol and the patient's physician decide; these are prompts to ask."), "caution"
        )
        shown = _advice(question.medical, "medical", catalogue, question, named)
        yield Details("Medical history: ask first", (defer, shown), "part", anchor="medical")


def _call(catalogue: Catalogue, question: Question, named: NamedResult) -> Iterator[Block]:
    """Whom to call, when, and what is worse than the question."""
    yield from contact_blocks(catalogue, at_question=True)
    if question.call:
        listed = _advice(question.call, "call", catalogue, question, named)
        yield Paragraph(line("When to call"), "lead")
        # Their words alone: what each rests on is one tap away, and paper has it in place of these.
        yield Items(tuple(item.words for item in listed.entries[:_REASONS_SHOWN]), kind="screen")
        number = len(listed.entries)
        title = f"All {in_words(number)} reasons to call" if number > 1 else "Why to call"
        yield Details(title, (listed,))
    dangers = _dangers(catalogue, question)
    if dangers.items:
        yield Details("Something worse, by its name", (dangers,))


def _steps_after(catalogue: Catalogue, question: Question, named: NamedResult) -> Iterator[Block]:
    """What is done after the first steps; their numbers go on."""
    before = len(question.steps_due("now"))
    for when, title, anchor in (("this visit", "This visit, step by step", "steps"), ("later", "Later", "later")):
        due = question.steps_due(when)
        if due:
            listed = advice_list(due, "steps", catalogue, named, question.ratified, ordered=True, start=before + 1)
            # Where nothing is marked as to be done now, all that there is stands open.
            yield Details(title, (listed,), "part", is_open=before == 0 and when == "this visit", anchor=anchor)
        before += len(due)


_SENTENCES = re.compile(r"(?<=[.!?])\s+(?=[A-Z])")


def _split_answer(question: Question) -> tuple[str, str]:
    """Of the answer the sentences that say of what nothing is known, and the others; where all are such, no first."""
    sentences = _SENTENCES.split(question.answer.text.strip()) if question.answer is not None else []
    unknown = [said for said in sentences if "$" not in said and "not known" in said]
    known = [said for said in sentences if said not in unknown]
    return (" ".join(unknown), " ".join(known)) if known else ("", " ".join(unknown))


def _evidence(catalogue: Catalogue, question: Question, named: NamedResult) -> Iterator[Block]:
    unknown, known = _split_answer(question)
    said = known if question.options else f"{unknown} {known}".strip()
    if said:
        answer = Paragraph(prose(said, catalogue, named, is_always_sure=True), "answer")
        yield Section("In short", "in-short", (answer,))
    yield from _reversed_results(catalogue, question)
    yield from _factors(catalogue, question)


def _dangers(catalogue: Catalogue, question: Question) -> Items:
    """Links to the urgent page: this question's dangers first, the others after them."""
    own = [word.text for word in question.urgent]
    ids = own + [name for name in sorted(catalogue.evidence.urgent) if name not in own]
    rows: list[Line] = []
    for name in ids:
        item = catalogue.evidence.urgent.get(name)
        if item is not None:
            rows.append(line(Link(f"urgent/#{name}", (typed(item.title.text),), "target danger")))
    return Items(tuple(rows), kind="dangers")


def _advice(
    entries: tuple[Advice, ...],
    kind: str,
    catalogue: Catalogue,
    question: Question,
    named: NamedResult,
    *,
    ordered: bool = False,
) -> AdviceList:
    return advice_list(entries, kind, catalogue, named, question.ratified, ordered=ordered)


def _reversed_results(catalogue: Catalogue, question: Question) -> list[Block]:
    """Where a rate stands, every estimate of the same patients that takes it back stands on that page."""
    rows = reversals(catalogue, question.id, catalogue.of_question(question.id))
    if not rows:
        return []
    said = Paragraph(line("Early is not lasting. What the studies of rates in this guide found later:"), "warning")
    lines = Items(tuple(reversal_line(catalogue, row) for row in rows), kind="reversals")
    twice = [Paragraph(line(COUNTED_TWICE), "quiet")] if is_counted_twice(rows) else []
    return [Details("Early is not lasting", (said, lines, *twice), "part", anchor="lost-again")]


def _factors(catalogue: Catalogue, question: Question) -> Iterator[Block]:
    """Every factor by its page: what is known of each answer stands in the situation, or there."""
    links = tuple(
        line(Link(f"{question.id}/{word.text}/", (typed(factor_title(catalogue, word.text), "definition"),)))
        for word in question.factors
    )
    chance = by_chance(catalogue, question.id, "overall", sides_shown(catalogue, question))
    if not links:
        yield from chance
    else:
        blocks: Blocks = (*chance, Items(links, kind="ways-on"))
        yield Details("What was compared, by factor", blocks, "part", anchor="factors")


def _more(catalogue: Catalogue, question: Question) -> Section:
    root = f"{question.id}/"
    unit = catalogue.main_unit(question.id)
    links: Blocks = (
        Items(
            (
                line(Link(f"{root}over-time/", (f"How such {unit.many} do over time",))),
                line(Link(f"{root}patient/", ("Words for the patient",))),
                line(Link(f"{root}recall/", (f"Recall: when to see the {unit.one} again",))),
                line(Link(f"{root}conference/", ("All studies, to take along",))),
            ),
            kind="ways-on",
        ),
        Details("About this page", (Facts(tuple(_about(catalogue, question)), "about"),)),
    )
    dissent: tuple[Block, ...] = tuple(
        Paragraph(
            line(
                "Dissent: ", typed(item.words.text), " (", typed(person_name(item.by.text, catalogue)), ", ",
                date(item.on.value), ")",
            ),
            "dissent",
        )
        for item in question.dissent
    )  # fmt: skip
    differing = (Details("Dissent", dissent, anchor="dissent"),) if dissent else ()
    return Section("More", "more", (*links, *differing))


def _about(catalogue: Catalogue, question: Question) -> list[tuple[Line, Line]]:
    rows: list[tuple[Line, Line]] = []
    if question.about:
        words = ", ".join(f"{name}: {value.text}" for name, value in question.about.items())
        rows.append((line("About"), line(typed(words))))
    searched = question.searched
    if searched is None:
        rows.append((line("Searched"), line("search not recorded")))
    else:
        where = joined([line(typed(word.text)) for word in searched.where], ", ")
        by = line(", by ", typed(person_name(searched.by.text, catalogue))) if searched.by else line()
        rows.append((line("Searched"), line(date(searched.on.value), " in ", where, by)))
    each = "; each list says for itself" if question.ratified is None else None
    rows.append((line("This page as a whole"), line(question_ratified(question, catalogue), each)))
    due = review_due(catalogue, question)
    if due is not None:
        rows.append((line("Review due"), line(date(due))))
    return rows


def touched_by(catalogue: Catalogue, question: Question) -> tuple[str, ...]:
    """Reports whose figures or words the question leans on."""
    keys = {finding.key for finding in catalogue.of_question(question.id)}
    if question.answer is not None:
        keys |= reports_named_in(question.answer.text)
    return tuple(sorted(keys & set(catalogue.evidence.sources)))


# A figure named in prose, with the bracket around it: the index holds no number without what it counts.
_IN_BRACKET = re.compile(r"\s*\([^()$]*\$[^()]*\)")
_REFERENCE = re.compile(r"\$[\w/.-]*\w")


def search_words(catalogue: Catalogue, question: Question) -> tuple[str, ...]:
    """What residents may type to find it: its answer, ways to go on, factors, levels and outcomes with synonyms."""
    words = [question.title.text]
    if question.answer is not None:
        words.append(_REFERENCE.sub("…", _IN_BRACKET.sub("", question.answer.text)))
    words.extend(option.title.text for option in question.options)
    for name in sorted({finding.outcome.id for finding in catalogue.of_question(question.id)}):
        outcome = catalogue.evidence.vocabulary.outcomes.get(name)
        if outcome is not None:
            words.append(with_synonyms(outcome.title, outcome.synonyms))
    for word in question.factors:
        factor = catalogue.evidence.vocabulary.factors.get(word.text)
        if factor is not None:
            words.append(with_synonyms(factor.title, factor.synonyms))
            words.extend(with_synonyms(level.title, level.synonyms) for level in factor.levels)
    return tuple(dict.fromkeys(words))
