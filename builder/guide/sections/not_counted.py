"""What stands apart from a page's numbers: reviews' own pools, animals and bench, the withdrawn, the superseded."""

from __future__ import annotations

from collections.abc import Iterable

from ...numerals import Unit as CountedUnit
from ...results.findings.comparable import Superseded, reason_not_compared
from ...results.findings.findings import Catalogue, Finding
from ...results.saying.source_reference import source_link, source_links
from ...results.saying.wording import (
    against,
    contrast,
    cut,
    differed,
    estimate,
    main_part,
    pooled,
    rate,
    timing,
    with_withdrawn,
)
from ...results.values.document import Block, Items, Paragraph, Section, Table
from ...results.values.line import Line, line, typed
from ..sentences.prose import withdrawn

SELECTED = "a selected series carries no rate"


def is_not_people(finding: Finding) -> bool:
    """True for animals and the bench: described, and not people."""
    species = {study.species for study in finding.studies}
    return bool(species) and "" not in species and species != {"human"}


def reviews_section(catalogue: Catalogue, findings: Iterable[Finding]) -> list[Block]:
    """What reviews pooled themselves: said, never recomputed, never pooled again, never added to a count."""
    shown = [
        item for item in findings if item.claim.pooled is not None and not item.is_withdrawn and not is_not_people(item)
    ]
    # A pooled ratio is a contrast and a pooled finding of one claim: the ratio says more.
    ratios = {item.base for item in shown if item.kind == "contrast"}
    rows = [item for item in shown if item.kind == "contrast" or item.base not in ratios]
    if not rows:
        return []
    cells = tuple(
        (line(source_link(item.key, catalogue)), _outcome(item), line(_pooled(item), _noted(item)), timing(item))
        for item in rows
    )
    header = tuple(line(cell) for cell in ("Review", "Outcome", "Its own result", "When"))
    says = line("The studies behind them may be among those above, so nothing here is added to them.")
    table = Table(line("As the reviews print them"), header, cells, "What reviews pooled", "reviews")
    return [Section("What reviews pooled themselves", "reviews", (Paragraph(says, "quiet"), table), "reviews")]


def _noted(finding: Finding) -> Line:
    """What the reader of the review noted about its pool, which nobody should read without it."""
    return line("; note: ", typed(finding.claim.note.text)) if finding.claim.note is not None else ()


def _pooled(finding: Finding) -> Line:
    if finding.kind != "contrast":
        return pooled(finding)
    studies, units = finding.figure("pooled/studies"), finding.figure("pooled/of")
    over = line(", pooled by the review over ", studies, " studies") if studies else line(", pooled by the review")
    return line(contrast(finding), over, line(" and ", units, " units") if units else None, with_withdrawn(finding))


def _outcome(finding: Finding) -> Line:
    return line(typed(finding.outcome.title.text, "definition"))


def animals_and_bench_section(catalogue: Catalogue, findings: Iterable[Finding], unit: CountedUnit) -> list[Block]:
    """Animals and bench in a lane of their own. unit: what is counted in people."""
    rows = [
        item
        for item in findings
        if is_not_people(item) and not item.is_withdrawn and item.kind not in ("test", "pairs")
    ]
    if not rows:
        return []
    cells = tuple(
        (line(source_link(item.key, catalogue)), line(", ".join(sorted({study.species for study in item.studies}))),
         _outcome(item), _said(item), timing(item))
        for item in rows
    )  # fmt: skip
    header = tuple(line(cell) for cell in ("Report", "Studied in", "Outcome", "Found", "When"))
    whose = f"a person's {unit.one}" if unit.of else "a person"
    says = line(f"Animals and bench may explain; they never count, and no number of theirs stands for {whose}.")
    table = Table(line("Not people"), header, cells, "Animals and bench", "lane")
    return [
        Section("Animals and bench: may explain, never counts", "lane", (Paragraph(says, "caution"), table), "lane")
    ]


def _said(finding: Finding) -> Line:
    if finding.kind == "contrast":
        return contrast(finding)
    said = estimate(finding) if finding.kind == "estimate" else rate(finding)
    if finding.kind == "words":
        said = main_part(finding)
    if finding.level is None:
        return said
    return line(typed(finding.level.level.text, "definition"), ": ", said, cut(finding))


def not_counted_section(
    catalogue: Catalogue,
    findings: Iterable[Finding],
    superseded: Iterable[Superseded],
    *,
    are_drawn: bool = False,
    among: str = "",
) -> list[Block]:
    """Reports that count for nothing here, each with its reason; the withdrawn by name and day, without a number.

    are_drawn: the superseded already stand elsewhere on the page. among: as for superseded_lines.
    """
    rows: list[Line] = []
    gone: dict[str, Line] = {}
    reasons: dict[tuple[str, str], Line] = {}
    for item in findings:
        if item.is_withdrawn:
            gone[item.key] = line(source_link(item.key, catalogue), ": ", withdrawn(item.key, catalogue))
            continue
        reason = reason_not_compared(item)
        if not reason or is_not_people(item) or item.claim.pooled is not None:
            continue
        text = line(source_link(item.key, catalogue), ": ", reason)
        if reason == SELECTED:
            text = line(text, "; which way it points may be said, how many may not")
        reasons[(item.key, reason)] = text
    rows.extend(gone[key] for key in sorted(gone))
    rows.extend(reasons[name] for name in sorted(reasons))
    if not are_drawn:
        rows.extend(superseded_lines(catalogue, superseded, among))
    if not rows:
        return []
    return [Section("Not counted here, and why", "not-counted", (Items(tuple(rows)),), "not-counted")]


def superseded_lines(catalogue: Catalogue, superseded: Iterable[Superseded], among: str = "") -> list[Line]:
    """Claims about patients whom other reports count, each report once an outcome, with all that count for it.

    among: what was put in order, where a page holds more than that, "the rates by level".
    """
    found: dict[tuple[str, bool, str], tuple[Finding, dict[str, None]]] = {}
    for item in superseded:
        finding = item.finding
        is_own = finding.key == item.by.key
        keys = found.setdefault((finding.key, is_own, finding.outcome.id), (finding, {}))[1]
        keys.update(dict.fromkeys(held.key for held in item.counting if held.key != finding.key))
    within = f"among {among} " if among else ""
    out = []
    for (_, is_own, _), (finding, keys) in sorted(found.items(), key=lambda pair: pair[0]):
        links = source_links(catalogue, sorted(keys), " and ")
        where = line("by another claim of the same report") if is_own else line("now by ", links)
        out.append(
            line(
                source_link(finding.key, catalogue), f": {within}the same patients are counted ", where, " (",
                _outcome(finding), ")",
            )
        )  # fmt: skip
    return out


def subgroups_section(catalogue: Catalogue, findings: Iterable[Finding]) -> list[Block]:
    """What studies report within a subgroup of their own: never crossed with another factor by us."""
    rows = [
        item
        for item in findings
        if item.claim.within
        and not reason_not_compared(item)
        and item.kind in ("rate", "grade", "estimate", "contrast")
    ]
    if not rows:
        return []
    cells = tuple(
        (line(source_link(item.key, catalogue)), _within(item), _found(item), timing(item), line(_planned(item)))
        for item in rows
    )
    header = tuple(line(cell) for cell in ("Report", "Only in", "Found", "When", "Planned"))
    table = Table(line("Subgroups that a study itself reports"), header, cells, "Subgroups", "subgroups")
    says = line("Subgroups stand here alone; no level of one factor is crossed with a level of another.")
    return [Section("Within subgroups", "subgroups", (Paragraph(says, "quiet"), table), "subgroups")]


def _found(finding: Finding) -> Line:
    """Its numbers, with how its groups differed and where a cut came from."""
    return line(_said(finding), differed(finding), None if finding.kind == "contrast" else cut(finding))


def _planned(finding: Finding) -> str:
    return finding.claim.planned.text if finding.claim.planned else "not reported"


def _within(finding: Finding) -> Line:
    words = ", ".join(item.level.text for item in finding.claim.within)
    return line(typed(words, "definition"), line("; ", against(finding)) if finding.kind == "contrast" else None)
