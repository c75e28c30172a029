"""What was drawn from a report: each claim with its findings, how they were counted, and what stands beside them."""

from __future__ import annotations

from collections.abc import Iterator

from ...audit.own_words import quotations_of_claim
from ...numerals.lexicon import ANY_UNIT
from ...reading.model import Candidates, Claim, Outcome, Pairs, Report, Source
from ...reading.values import Missing, Words
from ...records import NamedTuple
from ...results.findings.findings import Catalogue, Finding
from ...results.findings.report_relations import reversals_of
from ...results.findings.spoken_outcomes import strictness_words
from ...results.saying.labels import digits_as_letters
from ...results.saying.source_passages import quoted_words, words_read
from ...results.saying.source_reference import source_link
from ...results.saying.titles import claim_title, factor_title
from ...results.saying.wording import contrast, estimate, interval, n_of_n, percent, rate, timing, unit_word
from ...results.values.document import Block, Blocks, Details, Facts, Paragraph
from ...results.values.line import Line, Link, Marked, joined, line, plain_text, typed
from ..sections.pairs_table import pairs_table
from ..sentences.prose import withdrawn
from .source_studies import flow_line
from .source_tables import absolute_line, grades_table, p_line, pooled_line, test_line
from .source_ties import ties_line


class Shared(NamedTuple):
    """What all claims of a report say alike, and is said once."""

    questions: tuple[str, ...] | None
    """Ids of the questions; None where the claims answer different ones."""
    when: Line
    """When what was counted was counted; empty where that differs."""


def claim_blocks(catalogue: Catalogue, report: Report, source: Source) -> Blocks:
    """What all claims share, then each one tap away, in the order of the form, then how each outcome was counted."""
    told = [
        (claim, findings)
        for claim in report.claims
        if (findings := catalogue.of_claim(f"{report.key}/{claim.id.text}")) or _outcome_known(catalogue, claim)
    ]
    if not told:
        return ()
    shared = _shared(told)
    rows: list[tuple[Line, Line]] = []
    if shared.questions is not None:
        rows.append((line("For the question"), joined([_question(catalogue, name) for name in shared.questions])))
    if shared.when:
        rows.append((line("When"), shared.when))
    if later := _reversals(catalogue, [finding for _, findings in told for finding in findings]):
        rows.append((line("What became of it later"), later))
    blocks: list[Block] = [Facts(tuple(rows))] if rows else []
    blocks.extend(_claim(catalogue, report, source, claim, findings, shared) for claim, findings in told)
    outcomes = dict.fromkeys(claim.outcome.text for claim, _ in told)
    counted = [
        (line(typed(outcome.title.text, "definition")), _counted_as(outcome))
        for name in outcomes
        if (outcome := catalogue.evidence.vocabulary.outcomes.get(name)) is not None
    ]
    if counted:
        blocks.append(Details("How each was counted", (Facts(tuple(counted)),), "part"))
    return tuple(blocks)


def _counted_as(outcome: Outcome) -> Line:
    said = strictness_words(outcome)
    return line(
        typed(outcome.threshold.text, "definition"), ", by ", typed(outcome.basis.text, "definition"),
        f", {said}" if said else None, "; ", "good" if outcome.good else "bad", " for the patient",
    )  # fmt: skip


def _shared(told: list[tuple[Claim, list[Finding]]]) -> Shared:
    questions = {tuple(word.text for word in claim.question) for claim, _ in told}
    times = [when for claim, findings in told if (when := _when(claim, findings))]
    return Shared(
        next(iter(questions)) if len(questions) == 1 else None,
        times[0] if len(times) > 1 and len({plain_text(when) for when in times}) == 1 else (),
    )


def _outcome_known(catalogue: Catalogue, claim: Claim) -> bool:
    return claim.outcome.text in catalogue.evidence.vocabulary.outcomes


def _claim(
    catalogue: Catalogue, report: Report, source: Source, claim: Claim, findings: list[Finding], shared: Shared
) -> Details:
    base = f"{report.key}/{claim.id.text}"
    blocks: list[Block] = _found(catalogue, claim, findings, base)
    blocks.append(Facts(tuple(_facts(catalogue, report, claim, findings, shared))))
    bracket = source.passage(claim.where.text)
    where = bracket.bracket if bracket is not None else claim.where.text
    return Details(
        claim_title(catalogue, claim), tuple(blocks), "claim", anchor=f"claim-{claim.id.text}", locator=where
    )


def _found(catalogue: Catalogue, claim: Claim, findings: list[Finding], base: str) -> list[Block]:
    blocks: list[Block] = []
    label = digits_as_letters(claim.id.text)
    rows = [finding for finding in findings if finding.level is not None and finding.kind != "grade"]
    for finding in findings:
        if finding.level is None and not _shown_otherwise(claim, finding):
            blocks.append(Paragraph(whole_line(catalogue, finding), "finding"))
    if rows:
        reference = next((row for row in rows if _is_reference(claim, row)), None)
        blocks.append(Facts(tuple((_level(row, reference), level_line(row)) for row in rows), "levels"))
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


def _level(row: Finding, reference: Finding | None) -> Line:
    wording = row.level.level.text if row.level is not None else ""
    return line(typed(wording, "definition"), ", the reference" if row is reference else None)


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
    """A finding of a whole claim, below its title: the numbers and the interval as printed."""
    if finding.kind == "contrast":
        return line(contrast(finding), p_line(finding), _model(finding), ".")
    if finding.kind == "pooled":
        return line(pooled_line(catalogue, finding), ".")
    return line(_estimate_line(finding) if finding.kind == "estimate" else counts_line(finding), ".")


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
        said = finding.level.direction.text if finding.level is not None and finding.level.direction else "not stated"
        return line(f"{said}, in words only")
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


def _facts(
    catalogue: Catalogue, report: Report, claim: Claim, findings: list[Finding], shared: Shared
) -> Iterator[tuple[Line, Line]]:
    """What holds of this claim and is not said of all."""
    base = f"{report.key}/{claim.id.text}"
    if shared.questions is None:
        yield line("For the question"), joined([_question(catalogue, word.text) for word in claim.question])
    if not shared.when and (when := _when(claim, findings)):
        yield line("When"), when
    if claim.within:
        yield line("Only among"), joined([
            line(typed(factor_title(catalogue, item.factor.text)), ": ", typed(item.level.text, "definition"))
            for item in claim.within
        ])  # fmt: skip
    if claim.given is not None:
        yield line("Speaks of"), line(typed(claim.given.text))
    if claim.differ_in:
        yield line("Groups differed at the start in"), joined([line(typed(word.text)) for word in claim.differ_in])
    if claim.factor is not None:
        yield line("Compared"), _factor(catalogue, claim)
    if claim.flow is not None:
        unit = findings[0].counted if findings else ANY_UNIT
        yield line("How many stand behind it"), flow_line(catalogue, claim.flow, f"{base}/flow", unit)
    if claim.quotes is not None:
        yield line("Quoted"), quoted_line(catalogue, report.key, claim.quotes.text)
    if claim.note is not None:
        yield line("Note"), line(typed(claim.note.text))
    if claim.counted_as:
        yield line("In the paper's words"), quoted_words([claim.counted_as])
    yield from words_read(catalogue, report, (pieces for pieces, _ in quotations_of_claim(claim)))
    if told := ties_line(catalogue, report, claim):
        yield line("The passage itself says"), told


def _question(catalogue: Catalogue, name: str) -> Line:
    question = catalogue.evidence.questions.get(name)
    return line(Link(f"{name}/", (typed(question.title.text),)) if question is not None else typed(name))


def _when(claim: Claim, findings: list[Finding]) -> Line:
    """Empty where an estimate tells its time itself."""
    rows = [finding for finding in findings if finding.kind != "estimate"]
    if isinstance(claim.follow_up, Missing):
        said = "at no particular time" if claim.follow_up.text == "not applicable" else claim.follow_up.text
        return line(said) if rows or not findings else ()
    return timing((rows or findings)[0]) if findings else line("follow-up not reported")


def _factor(catalogue: Catalogue, claim: Claim) -> Line:
    """By what, with a way to the page that says how the levels compare, and how that was planned."""
    if claim.factor is None:
        return ()
    factor = claim.factor.text
    title = typed(factor_title(catalogue, factor))
    pages = [
        line(Link(f"{word.text}/{factor}/", (title,)) if word.text in catalogue.evidence.questions else title)
        for word in claim.question
    ]
    known = f", known {claim.known_at.text} treatment" if claim.known_at is not None else ""
    planned = {"yes": ", planned beforehand", "no": ", not planned beforehand"}.get(
        claim.planned.text if claim.planned is not None else "", ", whether planned beforehand is unclear"
    )
    reference = line("; reference: ", typed(claim.reference.text, "definition")) if claim.reference else line()
    said = claim.cut.text if claim.cut is not None else ""
    where_from = "; where it was cut is not reported" if said == "not reported" else f"; cut {said}" if said else ""
    crude = "; counts by level are crude" if any(level.events is not None for level in claim.levels) else ""
    return line("by ", joined(pages), known, planned, reference, where_from, crude)


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
            # What this report itself says of later stands below.
            if other.key == finding.key:
                continue
            found.setdefault((other.key, other.outcome.id), other)
    links = []
    for _, other in sorted(found.items(), key=lambda item: item[0]):
        target = f"sources/{other.key}/#claim-{other.claim.id.text}"
        title = (typed(other.outcome.title.text, "definition"),)
        links.append(line(Link(target, title), " in ", source_link(other.key, catalogue)))
    return joined(links)
