"""What was drawn from a report: each claim with its findings, how they were counted, and what stands beside them."""

from __future__ import annotations

from ...audit.own_words import quotations_of_claim
from ...numerals.lexicon import ANY_UNIT
from ...reading.model import Candidates, Claim, Pairs, Report, Source
from ...reading.values import Missing, Words
from ..findings.direction import Side, side_of_row
from ..findings.findings import Catalogue, Finding
from ..findings.report_relations import reversals_of
from ..findings.which_way import direction_between, direction_of_measured, share_good
from ..numbers.mean_differences import difference_line
from ..saying.labels import digits_as_letters
from ..saying.source_passages import proof_line, quoted_words, words_read
from ..saying.source_reference import source_link
from ..saying.titles import claim_title, factor_title
from ..saying.wording import contrast, definition, estimate, interval, n_of_n, percent, rate, timing, unit_word
from ..sections.one_study import which_way
from ..sections.pairs_table import pairs_table
from ..sentences.prose import withdrawn
from ..values.document import Block, Details, Facts, Line, Link, Marked, Paragraph, Section, joined, line, typed
from .source_studies import flow_table
from .source_tables import absolute_line, grades_table, levels_table, p_line, pooled_line, test_line
from .source_ties import ties_block

# Without these a number says more than it should: they stand beside it, all else one tap away.
_OPEN = tuple(
    line(term)
    for term in ("When", "Only among", "Speaks of", "Groups differed at the start in", "What became of it later")
)


def claim_sections(catalogue: Catalogue, report: Report, source: Source) -> tuple[Section, ...]:
    """One section a claim, in the order of the form."""
    return tuple(
        _claim(catalogue, report, source, claim, findings)
        for claim in report.claims
        if (findings := catalogue.of_claim(f"{report.key}/{claim.id.text}")) or _outcome_known(catalogue, claim)
    )


def _outcome_known(catalogue: Catalogue, claim: Claim) -> bool:
    return claim.outcome.text in catalogue.evidence.vocabulary.outcomes


def _claim(catalogue: Catalogue, report: Report, source: Source, claim: Claim, findings: list[Finding]) -> Section:
    base = f"{report.key}/{claim.id.text}"
    blocks: list[Block] = []
    blocks.extend(_found(catalogue, claim, findings, base))
    facts = _facts(catalogue, report, source, claim, findings, base)
    blocks.append(Facts(tuple(row for row in facts if row[0] in _OPEN)))
    closed: list[Block] = [Facts(tuple(row for row in facts if row[0] not in _OPEN))]
    closed.extend(ties_block(catalogue, report, claim))
    if claim.flow is not None:
        unit = findings[0].counted if findings else ANY_UNIT
        label = f"How many stand behind the claim {digits_as_letters(claim.id.text)}"
        closed.append(flow_table(catalogue, claim.flow, f"{base}/flow", unit, label))
    blocks.append(Details("Definition, proof and readers", tuple(closed)))
    return Section(claim_title(catalogue, claim), f"claim-{claim.id.text}", tuple(blocks), "claim")


def _found(catalogue: Catalogue, claim: Claim, findings: list[Finding], base: str) -> list[Block]:
    blocks: list[Block] = []
    label = digits_as_letters(claim.id.text)
    rows = [finding for finding in findings if finding.level is not None and finding.kind != "grade"]
    for finding in findings:
        if finding.level is None and not _shown_otherwise(claim, finding):
            blocks.append(Paragraph(whole_line(catalogue, finding), "finding"))
    if rows:
        reference = next((row for row in rows if _is_reference(claim, row)), None)
        cells = [(row, level_line(row), _beside_reference(row, reference)) for row in rows]
        blocks.append(levels_table(claim, cells, f"Levels of the claim {label}"))
    for level in claim.levels:
        if level.grades:
            blocks.append(grades_table(catalogue, claim, level, base, label))
    if claim.grades:
        blocks.append(grades_table(catalogue, claim, None, base, label))
    if claim.pairs is not None:
        blocks.append(_pairs(catalogue, claim.pairs, base, label))
    if claim.contrast is not None and claim.contrast.absolute is not None:
        blocks.append(Paragraph(absolute_line(catalogue, claim.contrast.absolute, base), "finding"))
    for number, test in enumerate(claim.tests, start=1):
        step = "test" if len(claim.tests) == 1 else f"test/{number}"
        blocks.append(Paragraph(test_line(test, catalogue.book.quoted(f"{base}/{step}/p")), "finding"))
    return blocks


def _pairs(catalogue: Catalogue, pairs: Pairs | Missing, base: str, label: str) -> Block:
    """The same units judged twice, or that how they pair is not reported."""
    if isinstance(pairs, Pairs):
        return pairs_table(catalogue, pairs, base, f"The same units judged twice, claim {label}")
    said = (
        "The same units were judged both ways; how they pair is not reported, so this is not a table of "
        "independent groups."
    )
    return Paragraph(line(said), "quiet")


def _shown_otherwise(claim: Claim, finding: Finding) -> bool:
    """True for what stands in a table of its own: pairs, tests, grades and the total that only the grades share."""
    return finding.kind in ("grade", "pairs", "test") or (bool(claim.grades) and claim.events is None)


def _is_reference(claim: Claim, row: Finding) -> bool:
    reference = claim.reference
    return isinstance(reference, Words) and row.level is not None and row.level.level.text == reference.text


def whole_line(catalogue: Catalogue, finding: Finding) -> Line:
    """A finding of a whole claim: the numbers, the interval as printed, and which side a ratio stands on."""
    outcome = typed(finding.outcome.title.text, "definition")
    if finding.kind == "contrast":
        return line(contrast(finding), p_line(finding), _model(finding), ". ", _which_way(finding, None), ".")
    if finding.kind == "pooled":
        return line(None if finding.claim.contrast else outcome, None if finding.claim.contrast else ": ",
                    pooled_line(catalogue, finding), ".")  # fmt: skip
    if finding.kind == "estimate":
        return line(outcome, ": ", _estimate_line(finding), ".")
    return line(outcome, ": ", counts_line(finding), ".")


def _estimate_line(finding: Finding) -> Line:
    said = finding.estimate
    kind = typed(said.kind.text) if said is not None else ""
    competing: Line = ()
    if said is not None and isinstance(said.competing, tuple) and not isinstance(said.competing, Missing):
        names = ", ".join(word.text for word in said.competing)
        competing = line("; competing with ", typed(names)) if names else ()
    return line(kind, " ", timing(finding), ": ", estimate(finding), competing)


def _model(finding: Finding) -> Line:
    item = finding.contrast
    if item is None:
        return ()
    model = line("; model: ", typed(item.model.text)) if item.model is not None else line()
    hazards = item.proportional
    if hazards is None:
        return model
    said = {"yes": "hazards proportional", "no": "hazards not proportional"}.get(hazards.text, "not reported")
    return line(model, "; ", said if said != "not reported" else "whether hazards are proportional is not reported")


def counts_line(finding: Finding) -> Line:
    """ "39 of 47 eyes (83%), 95% CI 62% to 80%"; a percentage whose counts were not printed stays in its passage."""
    if finding.figure("events", "total", "total/1") is None:
        share = finding.figure("success_rate", "rate")
        return line("counts not reported", "; the percentage is only in the passage" if share else None)
    ends = interval(finding)
    holder = finding.level or finding.claim
    why: Line = ()
    if isinstance(holder.total, Candidates):
        why = line("; ", typed(holder.total.reason.text))
    return line(rate(finding), line(", ", ends) if ends else None, why)


def level_line(finding: Finding) -> Line:
    """What one row of a table found."""
    if finding.kind == "estimate":
        return _estimate_line(finding)
    if finding.kind == "words":
        return line("in words only")
    if finding.kind == "measured":
        return rate(finding)
    if finding.level is not None and finding.level.grades and finding.events is None:
        total = finding.figure("total")
        of = line(", of ", total, f" {unit_word(finding.counted, total)}") if total is not None else None
        return line("by grade, in the table below", of)
    if finding.events is None and finding.total is not None:
        share = finding.figure("success_rate", "rate")
        return line(n_of_n(finding), line("; printed as ", percent(share)) if share is not None else None)
    return counts_line(finding)


def _which_way(row: Finding, reference: Finding | None) -> Line:
    """The side of the point estimate in the event's words, and how clear it is."""
    side = side_of_row(row, reference)
    place = f"{row.claim.question[0].text}/{row.factor or 'overall'}"
    return which_way(side, place) if side is not None else ()


def compared_sides(catalogue: Catalogue, report: Report) -> list[Side]:
    """Every comparison with a row of reference, or by a ratio, that the page of a report tells."""
    out: list[Side] = []
    for claim in report.claims:
        findings = catalogue.of_claim(f"{report.key}/{claim.id.text}")
        rows = [finding for finding in findings if finding.level is not None and finding.kind != "grade"]
        reference = next((row for row in rows if _is_reference(claim, row)), None)
        told = [row for row in rows if row is not reference] + [item for item in findings if item.kind == "contrast"]
        out.extend(side for row in told if (side := side_of_row(row, reference)) is not None)
    return out


def direction_line(row: Finding, reference: Finding | None) -> Line:
    """The side of the point estimate and how clear it is, and what the reader typed."""
    if row is reference:
        return line("reference")
    level = row.level
    said = level.direction.text if level is not None and level.direction is not None else ""
    derived = direction_of_measured(row, reference)
    if derived is None and reference is not None:
        derived = direction_between(share_good(row), share_good(reference))
    if derived is None and not said and level is not None and level.grades:
        return line("by grade, in the table below")
    if derived is None:
        return line(said, " (as typed)") if said and said != "not stated" else line("not stated")
    typed_too = f" (typed: {said})" if said else None
    return line(_which_way(row, reference), typed_too)


def _beside_reference(row: Finding, reference: Finding | None) -> Line:
    """The side of a row, and of means the difference."""
    said = direction_line(row, reference)
    if row.kind != "measured" or row is reference:
        return said
    place = f"{row.claim.question[0].text}/{row.factor}"
    return line(said, "; difference ", difference_line(row, reference, place))


def _facts(
    catalogue: Catalogue, report: Report, source: Source, claim: Claim, findings: list[Finding], base: str
) -> list[tuple[Line, Line]]:
    rows: list[tuple[Line, Line]] = [(line("For the question"), _questions(catalogue, claim))]
    outcome = catalogue.evidence.vocabulary.outcomes.get(claim.outcome.text)
    if outcome is not None:
        good = "an event good for the patient" if outcome.good else "an event bad for the patient"
        rows.append((line("Counted as"), line(definition(outcome), "; ", good)))
    rows.append((line("When"), _when(claim, findings)))
    if claim.study:
        rows.append((line("Study"), line(typed(", ".join(word.text for word in claim.study)))))
    if claim.within:
        rows.append((line("Only among"), joined([
            line(typed(factor_title(catalogue, item.factor.text)), ": ", typed(item.level.text, "definition"))
            for item in claim.within
        ])))  # fmt: skip
    if claim.given is not None:
        rows.append((line("Speaks of"), line(typed(claim.given.text))))
    if claim.factor is not None:
        rows.append((line("Factor"), _factor(catalogue, claim)))
    if claim.differ_in:
        rows.append((line("Groups differed at the start in"), joined([line(typed(w.text)) for w in claim.differ_in])))
    if claim.quotes is not None:
        rows.append((line("Quoted"), quoted_line(catalogue, report.key, claim.quotes.text)))
    reversals = _reversals(catalogue, findings)
    if reversals:
        rows.append((line("What became of it later"), reversals))
    if claim.note is not None:
        rows.append((line("Note"), line(typed(claim.note.text))))
    if claim.counted_as:
        rows.append((line("In the paper's words"), quoted_words([claim.counted_as])))
    rows += words_read(catalogue, report, (pieces for pieces, _ in quotations_of_claim(claim)))
    rows.append((line("Proof"), proof_line(catalogue, report, source, _brackets(claim))))
    rows.append((line("Named in sentences as"), line(Marked("identifier", f"${base}"))))
    return rows


def _questions(catalogue: Catalogue, claim: Claim) -> Line:
    out: list[Line] = []
    for word in claim.question:
        question = catalogue.evidence.questions.get(word.text)
        if question is None:
            out.append(line(typed(word.text)))
            continue
        link = Link(f"{question.id}/", (typed(question.title.text),))
        title = typed(factor_title(catalogue, claim.factor.text)) if claim.factor is not None else ""
        page = Link(f"{question.id}/{claim.factor.text}/", (title,)) if claim.factor is not None else None
        out.append(line(link, line(" (", page, ")") if page is not None else None))
    return joined(out)


def _when(claim: Claim, findings: list[Finding]) -> Line:
    if isinstance(claim.follow_up, Missing):
        if claim.estimate is not None or any(level.estimate is not None for level in claim.levels):
            return line("at the time of the estimate")
        return line(claim.follow_up.text)
    rows = [finding for finding in findings if finding.kind != "estimate"]
    return timing((rows or findings)[0]) if findings else line("follow-up not reported")


def _factor(catalogue: Catalogue, claim: Claim) -> Line:
    if claim.factor is None:
        return ()
    known = f", known {claim.known_at.text} treatment" if claim.known_at is not None else ""
    planned = {"yes": ", planned beforehand", "no": ", not planned beforehand"}.get(
        claim.planned.text if claim.planned is not None else "", ", whether planned beforehand is unclear"
    )
    reference = line("; reference: ", typed(claim.reference.text, "definition")) if claim.reference else line()
    said = claim.cut.text if claim.cut is not None else ""
    where_from = "; where it was cut is not reported" if said == "not reported" else f"; cut {said}" if said else ""
    return line(typed(factor_title(catalogue, claim.factor.text)), known, planned, reference, where_from)


def quoted_line(catalogue: Catalogue, by: str, quoted: str) -> Line:
    """Both names: who printed the figure first, and who took it over. It is counted once."""
    key, _, claim = quoted.partition("/")
    has_page = key in catalogue.evidence.sources
    first: Line = line(source_link(key, catalogue)) if has_page else line(Marked("identifier", key))
    gone = line("; the quoted report was ", withdrawn(key, catalogue)) if catalogue.standing(key) == "retracted" else ()
    there = catalogue.evidence.reports.get(key)
    link = (
        line(" (", Link(f"sources/{key}/#claim-{claim}", ("its own claim",)), ")")
        if _has_claim(there, claim)
        else line()
    )
    if gone:
        link = line()
    return line("quoted from ", first, link, " by ", source_link(by, catalogue), "; counted once", gone)


def _has_claim(report: Report | None, claim: str) -> bool:
    return report is not None and report.claim(claim) is not None


def _reversals(catalogue: Catalogue, findings: list[Finding]) -> Line:
    # One link a report and outcome: its estimates at several times stand below each other there.
    found: dict[tuple[str, str], Finding] = {}
    for finding in findings:
        for other in reversals_of(catalogue, finding):
            found.setdefault((other.key, other.outcome.id), other)
    links = []
    for _, other in sorted(found.items(), key=lambda item: item[0]):
        target = f"sources/{other.key}/#claim-{other.claim.id.text}"
        title = (typed(other.outcome.title.text, "definition"),)
        links.append(line(Link(target, title), " in ", source_link(other.key, catalogue)))
    return joined(links)


def _brackets(claim: Claim) -> list[str]:
    """Every locator that a claim names, its own first."""
    found = [claim.where.text]
    for part in (claim.flow, claim.estimate, claim.contrast, claim.pooled, *claim.levels, *claim.tests, *claim.grades):
        where = getattr(part, "where", None)
        if isinstance(where, Words):
            found.append(where.text)
    for holder in (claim.pairs, claim.follow_up, claim.total):
        where = getattr(holder, "where", None)
        if isinstance(where, Words):
            found.append(where.text)
    return found
