"""Spare slides: what somebody may ask, answered from the guide or with the word that nothing is known."""

from __future__ import annotations

from collections.abc import Iterator

from ...audit.question_references import advice_of
from ...reading.model import Flow, Question, Study
from ...results.findings.findings import Catalogue, Finding, unit_of
from ...results.findings.report_relations import relations
from ...results.numbers.pooling import not_pooled_line
from ...results.saying.people import person_name
from ...results.saying.source_reference import source_link, source_links
from ...results.saying.wording import definition, main_part, timing
from ...results.values.line import Line, date, joined, line, typed
from ...results.values.talk import Said, Slide
from ..question.over_time import rates_by_outcome
from ..question.way_to_go_on import way_to_go_on
from ..sections.compared_levels import comparisons
from ..sections.comparison import outcome_conflicts
from ..sections.level_summary import not_known
from ..sentences.advice import basis_line, is_withdrawn
from ..sentences.prose import NamedResult, prose
from ..source.source_studies import flow_line
from .paragraphs import groups_of, passages_of, said_of, with_below


def in_short(catalogue: Catalogue, question: Question, named: NamedResult) -> Slide:
    """The guide's own answer."""
    text = question.answer.text if question.answer is not None else ""
    said = with_below(prose(text, catalogue, named, is_always_sure=True)) if text else [Said(not_known(question))]
    return _spare(catalogue, "in-short", "In short, what does the guide say?", said)


def definitions(catalogue: Catalogue, question: Question) -> Slide:
    """Healed by which definition."""
    outcomes = {item.outcome.id: item.outcome for item in _standing(catalogue, question) if item.kind != "test"}
    rows = [row.outcome.id for row in rates_by_outcome(catalogue, question)]
    ordered = [*(outcomes[name] for name in rows if name in outcomes), *(
        outcome for name, outcome in sorted(outcomes.items()) if name not in rows
    )]  # fmt: skip
    said = [Said(definition(outcome)) for outcome in ordered] or [Said(not_known(question))]
    lead = Said(line("No two of these are one number; a stricter one gives lower shares of the same images."), "quiet")
    return _spare(catalogue, "definitions", "By which definition?", [*said, lead])


def came_back(catalogue: Catalogue, question: Question) -> Slide:
    """How many came back, study by study."""
    said: list[Said] = []
    for key, study, flow, base in _flows(catalogue, question):
        unit = unit_of(catalogue.units, getattr(study.unit.unit, "text", "") if study.unit is not None else "")
        said.append(Said(line(source_link(key, catalogue), ": ", flow_line(catalogue, flow, base, unit))))
    nothing = [Said(line("No report of this question tells how many came back."))]
    lead = Said(line("Who did not come is unknown, and neither healed nor failed."), "quiet")
    return _spare(catalogue, "came-back", "How many came back?", [*said, lead] if said else nothing)


def _flows(catalogue: Catalogue, question: Question) -> Iterator[tuple[str, Study, Flow, str]]:
    seen: set[str] = set()
    for item in _standing(catalogue, question):
        for facts in item.studies:
            if facts.id in seen or facts.study is None or facts.species not in ("human", ""):
                continue
            seen.add(facts.id)
            if facts.study.flow is not None and catalogue.standing(facts.key) != "retracted":
                yield facts.key, facts.study, facts.study.flow, f"{facts.key}/studies/{facts.id}/flow"


def same_patients(catalogue: Catalogue, question: Question) -> Slide:
    """Which reports are about the same patients, and who counts once."""
    ties = relations(catalogue)
    said: list[Said] = []
    for study in sorted({facts.id for item in _standing(catalogue, question) for facts in item.studies}):
        sharing = [key for key in ties.by_study.get(study, ()) if catalogue.standing(key) != "retracted"]
        if len(sharing) > 1:
            said.append(Said(line(source_links(catalogue, sharing), ": the same patients, counted once")))
    if not said:
        said = [Said(line("No two reports of this question are known to share patients."))]
    return _spare(catalogue, "same-patients", "The same patients, or others?", said)


def other_ways(catalogue: Catalogue, question: Question, named: NamedResult) -> Iterator[Slide]:
    """A slide a way: what speaks for it and against it. Why it was not taken is the speaker's to say."""
    for option in question.options:
        # What to have ready is no reason.
        said = said_of(way_to_go_on(option._replace(ready=()), catalogue, question, named).blocks)
        title = line("Why not this: ", typed(option.title.text))
        yield _spare(catalogue, f"way-{option.id.text}", title, said)


def failing(catalogue: Catalogue, question: Question, named: NamedResult) -> Slide:
    """When it is failing, and what then."""
    plan = question.recall
    said: list[Said] = []
    if plan is not None and plan.failing:
        said.append(Said(line("It may be failing:"), "lead"))
        said.extend(Said(line(typed(word.text, "instruction")), "item") for word in plan.failing)
    if question.call:
        said.append(Said(line("Then somebody is called, and so where:"), "lead"))
        for item in question.call:
            said.extend(with_below(prose(item.words.text, catalogue, named, "instruction")))
    if not said:
        said = [Said(line("No sign of failing has been written down for this question; ask locally."))]
    lead = Said(line("What is done then follows local protocol and whoever is called."), "quiet")
    return _spare(catalogue, "failing", "When is it failing, and what then?", [*said, lead])


def guideline(catalogue: Catalogue, question: Question, named: NamedResult) -> Slide:
    """What a guideline says, as far as lines of this question rest on one."""
    cited = [item for item in advice_of(question) if item.basis.kind.text == "guideline"]
    said: list[Said] = []
    for item in cited:
        if not is_withdrawn(item, catalogue):
            first, *below = with_below(prose(item.words.text, catalogue, named, "instruction"))
            said.extend((first, *below, Said(basis_line(item.basis, catalogue), "quiet")))
    if not said:
        said = [Said(line("No line of this question rests on a guideline. ", *not_known(question), "."))]
    return _spare(catalogue, "guideline", "What does a guideline say?", said)


def disagreements(catalogue: Catalogue, question: Question) -> Slide:
    """Where studies, outcomes or people do not agree."""
    said: list[Said] = []
    for word in question.factors:
        items = comparisons(catalogue, question, word.text)
        for item in items:
            if item.verdict == "mixed":
                keys = dict.fromkeys(side.finding.key for side in item.sides)
                said.append(
                    Said(
                        line(
                            typed(item.outcome.title.text, "definition"), ": some studies lie on either side (",
                            source_links(catalogue, keys), "). Nothing here decides between them.",
                        )
                    )
                )  # fmt: skip
        said.extend(Said(conflict) for conflict in outcome_conflicts(catalogue, items))
    for dissent in question.dissent:
        who = typed(person_name(dissent.by.text, catalogue))
        said.append(Said(line("Dissent of ", who, ", ", date(dissent.on.value), ": ", typed(dissent.words.text))))
    if not said:
        said = [Said(line("No disagreement is recorded: neither of studies nor of those who wrote this."))]
    return _spare(catalogue, "disagreements", "Who does not agree?", said)


def pooled_or_not(catalogue: Catalogue, question: Question) -> Slide:
    """Why numbers were put together, or were not."""
    said: list[Said] = []
    for row in rates_by_outcome(catalogue, question):
        pool = row.pools[0]
        title = typed(row.outcome.title.text, "definition")
        why = line("put together, see the page over time") if pool.is_shown else not_pooled_line(tuple(pool.reasons))
        said.append(Said(line(title, ": ", why)))
    return _spare(catalogue, "pooled", "Why no single number?", said or [Said(not_known(question))])


def study_table(catalogue: Catalogue, question: Question) -> Slide:
    """One line a study of people: its design, and what it counted of all who were in it."""
    rows: dict[str, Line] = {}
    for item in _standing(catalogue, question):
        facts = item.studies[0] if item.studies else None
        if facts is None or facts.study is None or facts.species not in ("human", "") or facts.id in rows:
            continue
        words = [word.text for word in (facts.study.design, facts.study.selection) if word is not None]
        told = _overall(catalogue, question, facts.id)
        rows[facts.id] = line(source_link(item.key, catalogue), ": ", typed(", ".join(words)), told)
    said = [Said(row) for row in rows.values()] or [Said(not_known(question))]
    return _spare(catalogue, "studies", "Which studies are there?", said)


def _overall(catalogue: Catalogue, question: Question, study: str) -> Line:
    """The first rate of a study that the over-time page counts; empty where it has none."""
    for row in rates_by_outcome(catalogue, question):
        for item in row.comparability.counted:
            if any(facts.id == study for facts in item.studies):
                return line(
                    "; ", typed(row.outcome.title.text, "definition"), ": ", main_part(item), ", ", timing(item)
                )
    return ()


def _standing(catalogue: Catalogue, question: Question) -> list[Finding]:
    return [item for item in catalogue.of_question(question.id) if not item.is_withdrawn]


def _spare(catalogue: Catalogue, name: str, title: Line | str, said: list[Said]) -> Slide:
    heading = line(title) if isinstance(title, str) else title
    body = groups_of(said)
    return Slide(name, "Text", heading, body, tuple(passages_of(catalogue, body)), is_spare=True)


def how_to_cite(catalogue: Catalogue, question: Question) -> Slide:
    """This version by title, programme, release, date and page."""
    compendium = catalogue.evidence.compendium
    said: list[Said] = []
    if compendium is not None:
        day, release = compendium.evidence_date.value.isoformat(), compendium.release.text
        address = compendium.repository.text if compendium.repository else ""
        text = (
            f"{compendium.programme.text}. {compendium.title.text}: {question.title.text}. Release {release}, evidence "
            f"to {day}. Page {question.id}/conference/" + (f" of {address}" if address else "") + "."
        )
        said.append(Said(line(typed(text, "reference"))))
    said.append(Said(line("Cite the reports themselves for their numbers; cite the guide for what was put together.")))
    searched = question.searched
    if searched is not None:
        where = joined([line(typed(word.text)) for word in searched.where], ", ")
        said.append(Said(line("Searched ", date(searched.on.value), " in ", where, "."), "quiet"))
    else:
        said.append(Said(line("search not recorded"), "quiet"))
    return _spare(catalogue, "cite", "How to cite this", said)
