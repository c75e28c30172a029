"""Whom a report studied: design, people, setting, how many were followed, and who they were."""

from __future__ import annotations

from ...audit.own_words import quotations_of_study
from ...numerals import Unit as CountedUnit
from ...numerals.lexicon import ANY_UNIT
from ...reading.model import Flow, Report, Shares, Source, Study, Unit
from ...reading.slugs import slug
from ...reading.values import Missing, Words
from ..findings.findings import Catalogue, unit_of
from ..findings.report_relations import relations
from ..saying.source_passages import locator_link, words_read
from ..saying.source_reference import source_link
from ..saying.wording import field_words, percent, unit_word
from ..values.document import Block, Details, Facts, Line, Paragraph, Section, Table, joined, line, typed
from ..values.figures import Figure

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


def study_sections(catalogue: Catalogue, report: Report, source: Source) -> tuple[Section, ...]:
    """One section a study of the report."""
    return tuple(_study(catalogue, report, source, study, _letter(index)) for index, study in enumerate(report.studies))


def _letter(index: int) -> str:
    """a, b, ... z, aa: names tables of one page apart without a number."""
    name = ""
    index += 1
    while index:
        index, rest = divmod(index - 1, 26)
        name = chr(ord("a") + rest) + name
    return name


def _study(catalogue: Catalogue, report: Report, source: Source, study: Study, letter: str) -> Section:
    base = f"{report.key}/studies/{study.id.text}"
    shown: list[Block] = []
    if study.species is not None and study.species.text != "human":
        shown.append(Paragraph(line("Not people: it may explain, it does not count."), "lane"))
    blocks: list[Block] = [Facts(tuple(_facts(catalogue, report, source, study, base)))]
    blocks.extend(_flows(catalogue, source, study, base, letter))
    for index, shares in enumerate(study.shares):
        blocks.append(_shares(catalogue, source, shares, base, f"{letter}, {_letter(index)}"))
    shown.append(Details("Design, people, setting and counts", tuple(blocks)))
    return Section(f"Study {study.id.text}", f"study-{study.id.text}", tuple(shown))


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
        links = joined([line(source_link(key, catalogue)) for key in keys], ", ")
        out.append(line(typed(word.text), line(" (", links, ")") if keys else " (outside this guide)"))
    return joined(out)


def _flows(catalogue: Catalogue, source: Source, study: Study, base: str, letter: str) -> list[Block]:
    columns: list[tuple[str, Flow, str]] = []
    unit = _unit_of(catalogue, study)
    if study.flow is not None:
        columns.append((unit.many, study.flow, f"{base}/flow"))
    if study.patients is not None:
        columns.append((catalogue.units["patient"].many, study.patients, f"{base}/patients"))
    if not columns:
        return []
    rows = []
    for field, words in _STEPS:
        values = [getattr(flow, field) for _, flow, _ in columns]
        if any(value is not None for value in values):
            cells = [
                _cell(catalogue.book.quoted(f"{prefix}/{field}"), value)
                for (_, _, prefix), value in zip(columns, values, strict=True)
            ]
            rows.append((_step(catalogue, field, words, unit), *cells))
    if any(flow.recall is not None for _, flow, _ in columns):
        rows.append((line("recall"), *(_recall(catalogue, flow, prefix, unit) for _, flow, prefix in columns)))
    header = (line("Step"), *(line(name.capitalize()) for name, _, _ in columns))
    where = [flow.where or study.where for _, flow, _ in columns]
    typed_from = joined([locator_link(source, word.text) for word in dict.fromkeys(where) if word is not None])
    caption = line("How many were treated, due and examined, from ", typed_from) if typed_from else line("How many")
    return [Table(caption, header, tuple(rows), f"How many were treated, due and examined, study {letter}", "flow")]


def flow_table(catalogue: Catalogue, flow: Flow, base: str, unit: CountedUnit, label: str) -> Table:
    """A claim's own flow, in place of its study's."""
    rows = [
        (_step(catalogue, field, words, unit), _cell(catalogue.book.quoted(f"{base}/{field}"), getattr(flow, field)))
        for field, words in _STEPS
        if getattr(flow, field) is not None
    ]
    if flow.recall is not None:
        rows.append((line("recall"), _recall(catalogue, flow, base, unit)))
    header = (line("Step"), line(unit.many.capitalize()))
    return Table(line("How many stand behind this claim"), header, tuple(rows), label, "flow")


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


def _shares(catalogue: Catalogue, source: Source, shares: Shares, base: str, letters: str) -> Table:
    step = f"{base}/shares/{slug(shares.what.text)}"
    of = catalogue.book.quoted(f"{step}/of")
    rows = []
    for part in shares.parts:
        name = f"{step}/{slug(part.level.text)}"
        share = catalogue.book.quoted(f"{name}/share")
        rows.append(
            (
                line(typed(part.level.text, "definition")),
                _cell(catalogue.book.quoted(f"{name}/count"), part.count),
                percent(share) if share is not None else _cell(None, part.share),
            )
        )
    where = shares.where
    caption = line(
        "Who they were, by ", typed(shares.what.text),
        line(", of ", of) if of is not None else None,
        line(", from ", locator_link(source, where.text)) if where is not None else None,
    )  # fmt: skip
    header = (line("Part"), line("Count"), line("Share"))
    return Table(caption, header, tuple(rows), f"Who they were, study {letters}", "shares")
