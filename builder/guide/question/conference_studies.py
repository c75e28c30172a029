"""Studies and findings of one question as lists to take to a case discussion; people, animals and the bench apart."""

from __future__ import annotations

from collections.abc import Iterable

from ...reading.model import Question
from ...reading.values import Missing, Words
from ...results.findings.comparable import has_original_in_guide
from ...results.findings.direction import side_of_row, sides_of
from ...results.findings.findings import Catalogue, Finding, StudyFacts, unit_of
from ...results.findings.one_a_study import decided_by_counts
from ...results.saying.short_words import opened_timing, short_timing
from ...results.saying.source_passages import readers_line
from ...results.saying.source_reference import source_link, source_links, standing_of
from ...results.saying.titles import factor_title
from ...results.saying.wording import definition, depth_mark, field_words, main_part, n_of_n, timing, with_withdrawn
from ...results.values.document import Details, Items, StudyRow, StudyRows
from ...results.values.line import Line, joined, line, typed
from ..sections.one_study import which_way
from ..sections.several_studies import unplanned_words
from ..sections.study_rows import report_marks, row_name, told

ALL = "all of them"


def studies_rows(
    catalogue: Catalogue, studies: list[StudyFacts], by_study: dict[str, list[str]], label: str
) -> StudyRows:
    """One row a study: its design; a tap opens whom, where, and each report of it with who read it and how it stands.

    by_study: keys of the reports of each study that this question uses.
    """
    rows = []
    every = [key for facts in studies for key in by_study.get(facts.id, [])]
    standings = {standing_of(catalogue, key).line for key in every}
    # One standing of several reports is told once, above them.
    shared = line("; of each report: ", *standings) if len(standings) == 1 and len(every) > 1 else ()
    for facts in studies:
        keys = by_study.get(facts.id, [])
        also = source_links(catalogue, keys[1:])
        opened = told(
            (
                *((("Title", _title(catalogue, keys[0])),) if keys else ()),
                ("Whom and where", whom_and_where(catalogue, facts)),
                *(("Report", _report_line(catalogue, key, is_standing_told=bool(shared))) for key in keys),
            )
        )
        # How far the others were read stands with their names.
        depths = [_depth(catalogue, key) if key == keys[0] else "full text" for key in keys]
        marks = [
            word
            for key, depth in zip(keys, depths, strict=True)
            for word in report_marks(catalogue.standing(key), depth)
        ]
        also_read = [line("also ", also)] if also else []
        also_read.extend(line(word) for word in dict.fromkeys(marks))
        name = row_name(catalogue, keys[0]) if keys else facts.id
        rows.append(StudyRow(name, _design(facts), joined(also_read), opened))
    caption = line("One row a study, however many reports it has; a tap opens all of it", shared)
    return StudyRows(caption, label, tuple(sorted(rows, key=lambda row: row.name.casefold())))


def _title(catalogue: Catalogue, key: str) -> Line:
    return line(typed(catalogue.readable(catalogue.evidence.sources[key], "title") or "not reported", "reference"))


def _depth(catalogue: Catalogue, key: str) -> str:
    return catalogue.evidence.reports[key].read.depth.text


def _report_line(catalogue: Catalogue, key: str, *, is_standing_told: bool) -> Line:
    report = catalogue.evidence.reports[key]
    depth, what = report.read.depth.text, report.read.what
    # A report that was not read whole says so with its name.
    said = line(depth, ", ") if not depth_mark(depth) else line(typed(what.text), ", ") if what is not None else ()
    return line(
        source_link(key, catalogue), ": ", *said, readers_line(catalogue, report),
        line("; ", standing_of(catalogue, key).line) if not is_standing_told else None,
    )  # fmt: skip


def _design(facts: StudyFacts) -> Line:
    study = facts.study
    if study is None:
        return line("not described in this guide")
    said = [word.text for word in (study.species, study.design) if word is not None]
    selection = study.selection.text if study.selection is not None else "not applicable"
    if selection != "not applicable":
        said.append(f"selection {selection}" if selection in ("unclear", "not reported") else selection)
    return line(typed(", ".join(said) or "not reported"))


def whom_and_where(catalogue: Catalogue, facts: StudyFacts) -> Line:
    """Population, setting and unit as typed."""
    study = facts.study
    if study is None:
        return line("not reported")
    unit = study.unit
    counted = unit_of(catalogue.units, unit.unit.text if unit is not None else "")
    parts = [f"{field_words(catalogue, name, counted)}: {value.text}" for name, value in study.population.items()]
    if isinstance(study.setting, dict):
        parts.extend(f"{name}: {value.text}" for name, value in study.setting.items())
    elif isinstance(study.setting, Missing):
        parts.append(f"setting: {study.setting.text}")
    if unit is not None and isinstance(unit.unit, Words):
        rule = (
            f" ({unit.rule.text} of its {unit_of(catalogue.units, unit.per.text).one})"
            if unit.rule and unit.per
            else ""
        )
        parts.append(f"counted: {counted.many}{rule}")
    return line(typed("; ".join(parts) or "not reported"))


def findings_rows(
    catalogue: Catalogue, question: Question, findings: list[Finding], label: str, told_when: set[tuple[str, Line]]
) -> StudyRows:
    """One row a claim, its levels side by side.

    told_when: by report what the rows before it say of when, to which these are added: it is said once a page.
    """
    by_claim: dict[str, list[Finding]] = {}
    for finding in findings:
        by_claim.setdefault(f"{finding.key}/{finding.claim.id.text}", []).append(finding)
    rows = []
    for members in by_claim.values():
        first = members[0]
        opened = [("Report", line(source_link(first.key, catalogue)))]
        about = _about(first, catalogue)
        if about:
            opened.append(("About", about))
        which = _which_ways(catalogue, question, members)
        if which:
            opened.append(("Which way", which))
        when = (first.key, timing(first))
        if when not in told_when:
            told_when.add(when)
            opened.append(("When", opened_timing(first)))
        found = joined([_found(item) for item in members])
        title = typed(first.outcome.title.text, "definition")
        rows.append(
            StudyRow(
                row_name(catalogue, first.key), line(title, ", ", short_timing(first)),
                line(found, _caveats(catalogue, first)), told(opened),
            )
        )  # fmt: skip
    caption = line("One row a claim; every number leads to its passage")
    return StudyRows(caption, label, tuple(sorted(rows, key=lambda row: row.name.casefold())))


def definitions(findings: Iterable[Finding]) -> Details:
    """How each outcome of these was counted, one tap away, since every row names its own."""
    outcomes = {item.outcome.id: item.outcome for item in findings}
    return Details("How each was counted", (Items(tuple(definition(item) for item in outcomes.values())),), "part")


def group_title(catalogue: Catalogue, factor: str) -> str:
    """The title of a factor, and what is said where there is none."""
    return factor_title(catalogue, factor) if factor else ALL


def _about(finding: Finding, catalogue: Catalogue) -> Line:
    """What a claim is about beside the factor that heads its list; empty where that is all."""
    within = [
        line(typed(factor_title(catalogue, item.factor.text)), ": ", typed(item.level.text, "definition"))
        for item in finding.claim.within
    ]
    planned = finding.claim.planned
    parts = [line("only among ", joined(within))] if within else []
    if planned is not None and finding.factor:
        parts.append(line("planned: ", planned.text))
    return joined(parts, ", ")


def _found(finding: Finding) -> Line:
    if finding.kind == "test":
        return line("a test alone: see the page of the report")
    level: Line = ()
    if finding.level is not None:
        level = line(typed(finding.level.level.text, "definition"), ": ")
    if finding.kind == "contrast":
        return line(main_part(finding), _pooled_by_review(finding))
    if finding.kind == "estimate" and finding.estimate is not None:
        return line(level, typed(finding.estimate.kind.text), " ", main_part(finding))
    if finding.kind == "rate" and (finding.figure("events") is None or finding.figure("total") is None):
        # A percentage without its counts stays in its passage.
        return line(level, n_of_n(finding))
    return line(level, main_part(finding))


def _which_ways(catalogue: Catalogue, question: Question, members: list[Finding]) -> Line:
    """Which way each level of one claim goes beside its reference, and how clear."""
    place = f"{question.id}/{members[0].factor or 'overall'}"
    reference = members[0].claim.reference
    wording = reference.text if isinstance(reference, Words) else ""
    beside = next((item for item in members if item.level is not None and item.level.level.text == wording), None)
    parts: list[Line] = []
    for item in members:
        side = side_of_row(item, beside)
        if side is None or item is beside or (item.level is None and item.kind != "contrast"):
            continue
        many = item.level is not None and len(members) > 2
        level = line(typed(item.level.level.text, "definition"), ": ") if many and item.level is not None else None
        parts.append(line(level, which_way(side, place), _decided_elsewhere(catalogue, question, item)))
    return joined(parts)


def _decided_elsewhere(catalogue: Catalogue, question: Question, finding: Finding) -> str:
    """Said of an adjusted ratio beside which the counts of the same trial decide; "" for all others."""
    every = sides_of(catalogue, question.id, finding.factor) if finding.kind == "contrast" else []
    own = next((side for side in every if side.finding is finding), None)
    if own is None or not decided_by_counts(own, every):
        return ""
    return f"; {unplanned_words(own)}, so in this randomised trial the counts decide"


def _pooled_by_review(finding: Finding) -> Line:
    """A ratio that a review pooled is said to be one; it is never pooled again."""
    contrast = finding.contrast
    if finding.claim.pooled is None and (contrast is None or contrast.pooled is None):
        return ()
    studies = finding.figure("pooled/studies", "contrast/pooled/studies")
    over = line(" over ", studies, " studies") if studies else None
    return line(", pooled by the review", over, with_withdrawn(finding))


def _caveats(catalogue: Catalogue, finding: Finding) -> Line:
    """What must stand beside the numbers: of whom they speak, how groups differed, whose figure it is."""
    claim = finding.claim
    parts: list[Line] = []
    if claim.given is not None:
        parts.append(line("of ", typed(claim.given.text)))
    if claim.differ_in:
        parts.append(
            line("at the start the groups differed: ", typed(", ".join(word.text for word in claim.differ_in)))
        )
    if finding.level is not None and finding.kind != "words" and claim.contrast is None:
        parts.append(line("crude"))
        if claim.cut is not None and claim.cut.text == "chosen from the data":
            parts.append(line("cut chosen from the data"))
    if claim.quotes is not None:
        held = "counted there" if has_original_in_guide(finding) else "the report it comes from is not in this guide"
        parts.append(line("taken over from ", _quoted(catalogue, claim.quotes.text), f", {held}"))
    return line(" (", joined(parts), ")") if parts else ()


def _quoted(catalogue: Catalogue, text: str) -> Line:
    """The report that a figure is quoted from, by author and year where this guide has it."""
    key = text.partition("/")[0]
    return line(source_link(key, catalogue)) if key in catalogue.evidence.sources else line(typed(text, "identifier"))
