"""Whom a report studied: design, people, setting, how many were followed, and who they were."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from ...audit.own_words import quotations_of_study
from ...numerals import Unit as CountedUnit
from ...numerals.lexicon import ANY_UNIT
from ...reading.model import Flow, Report, Shares, Source, Study, Unit
from ...reading.slugs import slug
from ...reading.values import Missing, Words
from ...results.findings.findings import Catalogue, unit_of
from ...results.findings.report_relations import relations
from ...results.saying.source_passages import locator_link, words_read
from ...results.saying.source_reference import source_link, source_links
from ...results.saying.titles import study_name
from ...results.saying.wording import field_words, percent, unit_word
from ...results.values.document import Block, Blocks, Details, Facts, Paragraph
from ...results.values.figures import Figure
from ...results.values.line import Line, joined, line, typed

_STEPS = (
    ("eligible", "eligible"),
    ("treated", "treated"),
    ("due", "due to be seen"),
    ("examined", "examined"),
    ("lost", "not seen again"),
    ("discontinued", "discontinued"),
    ("died", "died"),
    *((name, "") for name in ("extracted_related", "extracted_other", "extracted")),
)
"""Fields of a flow as readers know them; those that the unit has its own words for are left to it."""


def _step(catalogue: Catalogue, field: str, words: str, unit: CountedUnit) -> Line:
    return line(words or field_words(catalogue, field, unit))


def study_blocks(catalogue: Catalogue, report: Report, source: Source) -> Blocks:
    """Each study of the report, one tap away; that it is not of people stands."""
    return tuple(block for study in report.studies for block in _study(catalogue, report, source, study))


def _study(catalogue: Catalogue, report: Report, source: Source, study: Study) -> Iterator[Block]:
    base = f"{report.key}/studies/{study.id.text}"
    if study.species is not None and study.species.text != "human":
        yield Paragraph(line("Not people: it may explain, it does not count."), "lane")
    facts = [
        *_facts(catalogue, report, source, study, base),
        *_flows(catalogue, source, study, base),
        *(_shares(catalogue, source, shares, base) for shares in study.shares),
    ]
    name = f": {study_name(catalogue, study.id.text)}" if len(report.studies) > 1 else ""
    yield Details(f"Whom it studied{name}", (Facts(tuple(facts)),), "part", anchor=f"study-{study.id.text}")


def _facts(catalogue: Catalogue, report: Report, source: Source, study: Study, base: str) -> list[tuple[Line, Line]]:
    rows: list[tuple[Line, Line]] = []
    described = catalogue.study(study.id.text)
    if described.key and described.key != report.key:
        rows.append((line("Described by"), line(source_link(described.key, catalogue))))
    for name, words in (("Species", study.species), ("Design", study.design), ("Selection", study.selection)):
        if words is not None:
            said = typed(words.text)
            if words.text == "selected":
                rows.append((line(name), line(said, ": a selected series carries no rate")))
            else:
                rows.append((line(name), line(said)))
    if study.population:
        rows.append((line("Population"), _named(catalogue, study.population, _unit_of(catalogue, study))))
    if isinstance(study.setting, Missing):
        rows.append((line("Setting"), line(study.setting.text)))
    elif study.setting:
        rows.append((line("Setting"), _named(catalogue, study.setting, _unit_of(catalogue, study))))
    if study.unit is not None:
        rows.append((line("Counted"), unit_line(catalogue, study.unit)))
    if study.covers is not None:
        covers = catalogue.book.quoted(f"{base}/covers")
        of = line(covers, " of the study's ", unit_word(_unit_of(catalogue, study), covers)) if covers else None
        rows.append((line("This report covers"), of or line(study.covers.text)))
    if study.includes:
        rows.append((line("Includes the studies"), _included(catalogue, study)))
    rows += words_read(catalogue, report, (pieces for pieces, _ in quotations_of_study(study)))
    if study.where is not None:
        rows.append((line("Typed from"), locator_link(source, study.where.text)))
    return rows


def _named(catalogue: Catalogue, words: dict[str, Words], unit: CountedUnit) -> Line:
    return joined(
        [line(typed(field_words(catalogue, name, unit)), ": ", typed(value.text)) for name, value in words.items()]
    )


def unit_line(catalogue: Catalogue, unit: Unit) -> Line:
    """What was counted, and which one where another unit has several."""
    if isinstance(unit.unit, Missing):
        return line("unit ", unit.unit.text)
    per = line(", of each ", typed(unit_of(catalogue.units, unit.per.text).one)) if unit.per is not None else line()
    said = {"worst": " the worst", "best": " the best", "each": " every one"}
    rule = line(said.get(unit.rule.text, f" {unit.rule.text}")) if unit.rule is not None else line()
    return line(
        typed(unit_of(catalogue.units, unit.unit.text).many), per, line(",") if rule and not per else None, rule
    )


def _unit_of(catalogue: Catalogue, study: Study) -> CountedUnit:
    for known in (study, catalogue.study(study.id.text).study):
        if known is not None and known.unit is not None and isinstance(known.unit.unit, Words):
            return unit_of(catalogue.units, known.unit.unit.text)
    return ANY_UNIT


def _included(catalogue: Catalogue, study: Study) -> Line:
    by_study = relations(catalogue).by_study
    out: list[Line] = []
    for word in study.includes:
        keys = by_study.get(word.text, ())
        links = source_links(catalogue, keys)
        held = line(" (", links, _withdrawn(catalogue, keys), ")") if keys else " (outside this guide)"
        out.append(line(typed(word.text), held))
    return joined(out)


def _withdrawn(catalogue: Catalogue, keys: Iterable[str]) -> str:
    return ", withdrawn" if any(catalogue.standing(key) == "retracted" for key in keys) else ""


def _flows(catalogue: Catalogue, source: Source, study: Study, base: str) -> Iterator[tuple[Line, Line]]:
    unit = _unit_of(catalogue, study)
    flows = (
        (study.flow, f"{base}/flow", unit),
        (study.patients, f"{base}/patients", catalogue.units["patient"]),
    )
    for flow, prefix, counted in flows:
        if flow is not None:
            where = flow.where
            from_there = line(" (from ", locator_link(source, where.text), ")") if where is not None else None
            yield line(f"How many {counted.many}"), line(flow_line(catalogue, flow, prefix, unit), from_there)


def flow_line(catalogue: Catalogue, flow: Flow, base: str, unit: CountedUnit) -> Line:
    """ "treated 58; due to be seen 55; examined 47; recall 85% (examined of due)": what the report tells, in order.

    base: what the ids of its figures begin with. unit: whose words name what became of those not examined.
    """
    steps = [
        line(_step(catalogue, field, words, unit), " ", _cell(catalogue.book.quoted(f"{base}/{field}"), value))
        for field, words in _STEPS
        if (value := getattr(flow, field)) is not None
    ]
    if flow.recall is not None:
        steps.append(line("recall ", _recall(catalogue, flow, base, unit)))
    return joined(steps)


def _cell(figure: Figure | None, value: object) -> Line:
    if figure is not None:
        return line(figure)
    return line(value.text) if isinstance(value, Missing) else line("not stated")


def _recall(catalogue: Catalogue, flow: Flow, prefix: str, unit: CountedUnit) -> Line:
    recall = flow.recall
    if recall is None:
        return line("not stated")
    rate = catalogue.book.quoted(f"{prefix}/recall/rate")
    seen, of, less = (
        ", ".join(field_words(catalogue, word.text, unit) for word in names)
        for names in (recall.seen, recall.of, recall.less)
    )
    said = line(" (", typed(f"{seen} of {of}" + (f" less {less}" if less else "")), ")")
    return line(percent(rate) if rate is not None else "not reported", said)


def _shares(catalogue: Catalogue, source: Source, shares: Shares, base: str) -> tuple[Line, Line]:
    """ "Who they were, by age, of 26": "under 40 12 (46%); 40 and over 14 (54%)"."""
    step = f"{base}/shares/{slug(shares.what.text)}"
    of = catalogue.book.quoted(f"{step}/of")
    parts = []
    for part in shares.parts:
        name = f"{step}/{slug(part.level.text)}"
        share = catalogue.book.quoted(f"{name}/share")
        said = percent(share) if share is not None else _cell(None, part.share) if part.share is not None else ()
        counted = _cell(catalogue.book.quoted(f"{name}/count"), part.count) if part.count is not None else ()
        parts.append(
            line(
                typed(part.level.text, "definition"), " ", counted,
                line(" (", said, ")") if said and counted else said,
            )
        )  # fmt: skip
    where = shares.where
    head = line("Who they were, by ", typed(shares.what.text))
    return head, line(
        line("of ", of, ": ") if of is not None else None, joined(parts),
        line(" (from ", locator_link(source, where.text), ")") if where is not None else None,
    )  # fmt: skip
