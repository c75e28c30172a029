"""The page of one factor: which way each level goes, the levels side by side, what pools, and why the rest does not."""

from __future__ import annotations

from collections.abc import Sequence, Set

from ...reading.model import Factor, Question
from ...results.findings.allotment import not_randomised
from ...results.findings.comparable import Superseded, reason_not_compared
from ...results.findings.direction import Compared
from ...results.findings.findings import Catalogue, Finding
from ...results.numbers.absolute import AbsoluteRisk, absolute_line, absolutes
from ...results.numbers.clustering import clustering_block
from ...results.numbers.number_needed import number_needed_section
from ...results.numbers.pooling import RatePool, not_pooled_line
from ...results.numbers.ratio_pool_lines import hint_line
from ...results.numbers.sensitivity import rate_sensitivity
from ...results.saying.reasons_once import told_once
from ...results.saying.reversals import reversal_line, reversals
from ...results.saying.source_reference import source_link
from ...results.saying.titles import factor_title, levels_of, with_synonyms
from ...results.saying.wording import timing
from ...results.values.document import Block, Details, Items, Page, Paragraph, Section, StudyRows
from ...results.values.line import Line, Link, joined, line, typed
from ..sections.by_chance import by_chance
from ..sections.closed import closed
from ..sections.compared_levels import compared_title, comparisons, leading
from ..sections.comparison import answer_line, comparison_blocks, figures_lines, how_to_read, outcome_conflicts
from ..sections.how_combined import SynthesisSteps, methods_box
from ..sections.how_sure import ledgers_section
from ..sections.level_rates import LevelRates, level_rates
from ..sections.level_summary import not_known
from ..sections.not_counted import (
    animals_and_bench_section,
    is_not_people,
    not_counted_section,
    reviews_section,
    subgroups_section,
)
from ..sections.ratio_pools import RatioPools, ratio_pools
from ..sections.several_studies import direction_counts
from ..sentences.prose import NamedResult
from .levels import pools_said, rates_rows, reasons_across
from .means import means_section
from .ratios import per_unit_section, ratios_section
from .would_change import would_change_section


def factor_page(catalogue: Catalogue, question: Question, factor: str, named: NamedResult) -> Page:
    """Everything this guide knows of one factor of one question.

    factor: a vocabulary id, or one of those that a number of the chart sets.
    """
    del named  # no sentence of people stands on this page
    title = factor_title(catalogue, factor)
    findings = [finding for finding in catalogue.of_question(question.id) if finding.factor == factor]
    items = comparisons(catalogue, question, factor)
    lead = leading(question, items)
    rates = level_rates(catalogue, question, factor)
    pools = [ratio_pools(catalogue, question, item, item is lead) for item in items]
    counted = [finding for row in rates for finding in row.comparability.counted]
    blocks: list[Block] = [*_answer(catalogue, question, lead), _definition(catalogue, factor, findings)]
    blocks.extend(_reversals(catalogue, question, counted))
    blocks.extend(_directions(catalogue, question, items, lead))
    told = [side for item in items for side in (*item.sides, *item.reaching)]
    blocks.extend(by_chance(catalogue, question.id, factor, told))
    behind: list[Block] = []
    is_compared = any(pool.is_shown for item in pools for pool in (item.crude, item.adjusted))
    told_why: set[tuple[str, ...]] = set()
    when = {(side.finding.key, timing(side.finding)) for side in told}
    behind.extend(_levels(catalogue, question, factor, rates, told_why, when, is_compared=is_compared))
    behind.extend(means_section(catalogue, question, factor))
    behind.extend(_ratios(catalogue, question, factor, pools, told_why))
    risks = absolutes(catalogue, question, factor)
    behind.extend(_absolute(catalogue, risks))
    behind.extend(number_needed_section(catalogue, question.id, factor, items, risks))
    hints = _hints(catalogue, question, items, pools, rates)
    compared = [side.finding for item in items for side in item.sides]
    clusters = clustering_block(catalogue, f"{question.id}/{factor}", [*counted, *compared])
    behind.append(ledgers_section(catalogue, question, factor, hints, clusters))
    behind.extend(would_change_section(catalogue, items, rates))
    behind.extend(reviews_section(catalogue, findings))
    behind.extend(subgroups_section(catalogue, findings))
    behind.extend(animals_and_bench_section(catalogue, findings, catalogue.main_unit(question.id)))
    behind.extend(not_counted_section(catalogue, findings, _superseded(rates), among="the rates by level"))
    behind.append(methods_box(_synthesis_steps(question, factor, items, rates, pools, findings, catalogue)))
    blocks.extend(closed(behind))
    factor_entry = catalogue.evidence.vocabulary.factors.get(factor)
    return Page(
        address=f"{question.id}/{factor}/",
        kind="factor",
        title=title,
        blocks=told_once(tuple(block for block in blocks if block)),
        description="Which way each level goes in the studies read here, with every number proved and how sure.",
        edit=factor_entry.position.file if factor_entry is not None else "",
        trail=((f"{question.id}/", question.title.text),),
        search=_found_by(factor_entry) if factor_entry is not None else (),
        touched_by=tuple(sorted({finding.key for finding in findings})),
    )


def _found_by(factor: Factor) -> tuple[str, ...]:
    """Other names of the factor, and each level that has others with all of its own."""
    levels = (with_synonyms(level.title, level.synonyms) for level in factor.levels if level.synonyms)
    return (*(word.text for word in factor.synonyms), *levels)


def _answer(catalogue: Catalogue, question: Question, lead: Compared | None) -> list[Block]:
    if lead is None:
        return [Paragraph(not_known(question), "answer")]
    return [
        Paragraph(answer_line(catalogue, question, lead), "answer"),
        *figures_lines(catalogue, question, lead),
        Paragraph(line("These things went together; that does not prove that one brings about the other."), "caution"),
    ]


def _definition(catalogue: Catalogue, factor: str, findings: Sequence[Finding]) -> Paragraph:
    known = catalogue.evidence.vocabulary.factors.get(factor)
    definition: Line = line()
    if known is not None and known.definition is not None:
        definition = line(typed(known.definition.text, "definition"), ". ")
    words = [typed(title, "definition") for _, title in levels_of(catalogue, factor)]
    levels = line("Levels: ", joined([line(word) for word in words], "; "), ". ") if words else line()
    times = {finding.claim.known_at.text for finding in findings if finding.claim.known_at is not None}
    late = line("Known only afterwards, so it cannot help to decide beforehand. ") if times == {"after"} else line()
    role = line()
    if known is not None and known.role is not None:
        role = line(_role(catalogue, factor, known.role.text, times))
    return Paragraph(line(definition, levels, late, role), "quiet")


def _role(catalogue: Catalogue, factor: str, role: str, times: Set[str]) -> str:
    """What can be chosen, by its role or as a way to go on, is never called something found.

    times: when studies say that it was known.
    """
    ways = (option.is_factor for question in catalogue.evidence.questions.values() for option in question.options)
    if role == "treatment":
        return "It is chosen by whoever treats."
    if any(word is not None and word.text == factor for word in ways):
        return "It can be chosen, and is one of the ways to go on."
    return "It is something found, not chosen." if times == {"before"} else "Studies looked at it."


def _reversals(catalogue: Catalogue, question: Question, counted: Sequence[Finding]) -> list[Block]:
    rows = [reversal_line(catalogue, finding) for finding in reversals(catalogue, question.id, counted)]
    if not rows:
        return []
    title = "Early is not lasting: what these studies found later"
    return [Details(title, (Items(tuple(rows)),), "part", anchor="reversals")]


def _directions(
    catalogue: Catalogue, question: Question, items: Sequence[Compared], lead: Compared | None
) -> list[Block]:
    """The comparison that heads the page open, each other one closed, with its sentence in front."""
    if lead is None:
        return []
    inner: list[Block] = []
    others: list[Block] = []
    seen: set[tuple[str, frozenset[str]]] = set()
    for item in items if lead is None else (lead, *(other for other in items if other is not lead)):
        # A test without numbers says of one level no more than of the other: it is told once.
        told = (item.outcome.id, frozenset(f"{side.finding.key}/{side.finding.claim.id.text}" for side in item.sides))
        is_silent = item.verdict == "not known" and not item.reaching and not item.elsewhere
        if is_silent and told in seen:
            continue
        seen.add(told)
        anchor, title = f"way-{item.name}", compared_title(catalogue, item)
        blocks = comparison_blocks(catalogue, question, item)
        if item is lead:
            inner.append(Section(title, anchor, (*blocks, how_to_read()), "comparison"))
            continue
        said = Paragraph(answer_line(catalogue, question, item), "finding")
        blocks = [said, *figures_lines(catalogue, question, item), *blocks]
        others.append(Details(title, tuple(blocks), "part", anchor=anchor))
    inner.extend(Paragraph(conflict, "warning") for conflict in outcome_conflicts(catalogue, items))
    return [Section("Which way the studies point", "directions", (*inner, *others), "directions")]


def _levels(
    catalogue: Catalogue,
    question: Question,
    factor: str,
    rates: Sequence[LevelRates],
    told_why: set[tuple[str, ...]],
    when: Set[tuple[str, Line]],
    *,
    is_compared: bool,
) -> list[Block]:
    """when: by report what the comparisons above say of when it was counted."""
    place = f"{question.id}/{factor}"
    by_outcome: dict[str, list[LevelRates]] = {}
    for row in rates:
        if row.comparability.counted:
            by_outcome.setdefault(row.outcome.id, []).append(row)
    unit = catalogue.main_unit(question.id)
    sections: list[Block] = []
    for outcome_id, mine in by_outcome.items():
        blocks: list[Block] = [rates_rows(catalogue, place, mine, when)]
        said = pools_said(mine, told_why)
        if any(row.pool.is_shown for row in mine):
            said.append(line(f"A pooled rate is that of the study in the middle, not of the average {unit.one}."))
        blocks.append(Items(tuple(said), kind="pools"))
        for row in mine:
            name = f"{row.wording}, {row.outcome.title.text}"
            table = rate_sensitivity(catalogue, row.pool, name, _lenient(row, rates), each_left_out=not is_compared)
            if table is not None:
                blocks.append(Details(f"How far it moves: {row.wording}", (table,), "more"))
        sections.append(Section(mine[0].outcome.title.text, f"levels-{outcome_id}", tuple(blocks)))
    across = reasons_across(rates)
    between = line("Between these tables: ", not_pooled_line(across, told_why), ".")
    not_counted = [Paragraph(between, "pool")] if across else []
    if not sections:
        return []
    lead: list[Block] = []
    if any(way.is_factor is not None and way.is_factor.text == factor for way in question.options):
        # Studies of one way alone are most of what is known of it, and stand on another page.
        others = Link(f"{question.id}/over-time/", ("over time",))
        said_of = line("Of studies that compared these ways; those of one way alone stand ", others, ".")
        lead.append(Paragraph(said_of, "quiet"))
    return [Section("Levels side by side", "levels", (*lead, *sections, *not_counted), "levels")]


def _lenient(row: LevelRates, rates: Sequence[LevelRates]) -> tuple[tuple[str, RatePool], ...]:
    """The same level by the definition that is lenient of this one."""
    return tuple(
        (f"counted as {other.outcome.title.text}", other.pool)
        for other in rates
        if other.wording == row.wording
        and other.outcome.lenient_of is not None
        and other.outcome.lenient_of.text == row.outcome.id
    )


def _ratios(
    catalogue: Catalogue,
    question: Question,
    factor: str,
    pools: Sequence[RatioPools],
    told_why: set[tuple[str, ...]],
) -> list[Block]:
    found: list[Section] = []
    for item in pools:
        anchor = f"ratios-{item.item.name}"
        section = ratios_section(catalogue, question, item, anchor, told_why)
        if section is not None:
            found.append(section)
    other = per_unit_section(catalogue, question.id, factor)
    if other is not None:
        found.append(other)
    if not found:
        return []
    if not any(isinstance(block, StudyRows) and block.scale for section in found for block in section.blocks):
        # Differences alone, each in what it was measured in.
        return [Section("Differences, as reported", "ratios", tuple(found), "ratios")]
    lead = Paragraph(
        line(
            "Crude and adjusted ratios are kept apart. No ratio is multiplied by another, of this factor or any other."
        ),
        "quiet",
    )
    return [Section("Ratios", "ratios", (lead, *found), "ratios")]


def _absolute(catalogue: Catalogue, risks: Sequence[AbsoluteRisk]) -> list[Block]:
    rows = [absolute_line(catalogue, item) for item in risks]
    if not rows:
        return []
    said = Paragraph(
        line("For a group like the one studied, at the baseline that the question file names; never for one patient."),
        "quiet",
    )
    return [Section("What a ratio would mean in risks", "absolute", (said, Items(tuple(rows))), "absolute")]


def _hints(
    catalogue: Catalogue,
    question: Question,
    items: Sequence[Compared],
    pools: Sequence[RatioPools],
    rates: Sequence[LevelRates],
) -> dict[tuple[str, str], Line]:
    """Directions, the width of what is pooled or why nothing is, and who stands behind several reports."""
    out: dict[tuple[str, str], Line] = {}
    for item, found in zip(items, pools, strict=True):
        parts: list[Line] = [direction_counts(catalogue, question, item)]
        shown = [pool for pool in (found.crude, found.adjusted) if pool.is_shown]
        parts.extend(line(typed(pool.measure), " ", hint_line(pool)) for pool in shown)
        if not shown:
            parts.append(line("not pooled"))
        if any(row.comparability.superseded for row in rates if row.outcome.id == item.outcome.id):
            parts.append(line("some reports are about the same patients, who count once"))
        out.setdefault((item.outcome.id, item.level), joined(parts))
    return out


def _superseded(rates: Sequence[LevelRates]) -> list[Superseded]:
    return [item for row in rates for item in row.comparability.superseded]


def _synthesis_steps(
    question: Question,
    factor: str,
    items: Sequence[Compared],
    rates: Sequence[LevelRates],
    pools: Sequence[RatioPools],
    findings: Sequence[Finding],
    catalogue: Catalogue,
) -> SynthesisSteps:
    shown = [pool for item in pools for pool in (item.crude, item.adjusted) if pool.is_shown]
    reasons = dict.fromkeys(reasons_across(rates))
    reasons.update(dict.fromkeys(reason for row in rates if row.comparability.counted for reason in row.pool.reasons))
    reasons.update(dict.fromkeys(reason for item in pools for reason in item.crude.reasons if item.crude.rows))
    not_counted = {reason_not_compared(item) for item in findings if not is_not_people(item)} - {""}
    crude, is_all_crude = not_randomised(catalogue, [side.finding for item in items for side in item.sides])
    titles = dict.fromkeys(item.outcome.title.text for item in items)
    titles.update(dict.fromkeys(row.outcome.title.text for row in rates if row.comparability.counted))
    return SynthesisSteps(
        outcomes=tuple(titles),
        levels=tuple(title for _, title in levels_of(catalogue, factor)),
        pooled_rates=tuple(f"{row.wording} ({row.outcome.title.text})" for row in rates if row.pool.is_shown),
        pooled_ratios=tuple(dict.fromkeys(pool.measure for pool in shown)),
        reasons=tuple(reasons) or ("no two studies report the same",),
        superseded=len(_superseded(rates)),
        not_counted=tuple(sorted(not_counted)),
        has_adjusted=any(item.adjusted for item in items),
        not_randomised=tuple(line(source_link(key, catalogue)) for key in crude),
        is_randomised=not is_all_crude,
        is_judged=any(item.factor is not None and item.factor.text == factor for item in question.certainty),
        has_conflict=any(item.verdict == "mixed" for item in items),
    )
