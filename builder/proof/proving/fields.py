"""Every number that a report quotes: its figure id, value, unit, and what the passage must show beside it."""

from __future__ import annotations

from collections.abc import Mapping

from ...numerals import FORMAT_1, Lexicon
from ...reading.measured_levels import measured_unit
from ...reading.model import Outcome
from ...reading.report_model import (
    Candidates,
    Claim,
    Contrast,
    Estimate,
    Flow,
    FollowUp,
    Grade,
    Level,
    Margin,
    Pairs,
    Pooled,
    Report,
    Shares,
    Study,
)
from ...reading.slugs import slug
from ...reading.values import Length, Missing, Number, Percentage, Words
from .claim_words import roles_named, said_in_passing, side_of_claim, side_of_grade
from .field_roles import Scope
from .gathering import Gathered


def quoted_scopes(
    report: Report,
    units: Mapping[str, str] | None = None,
    outcomes: Mapping[str, Outcome] | None = None,
    lexicon: Lexicon = FORMAT_1,
) -> list[Scope]:
    """The numbers of every study and claim of a report, in the order of the form.

    units: what each study counts ("eye"), by its id, where another report of the study tells it. outcomes: of the
    vocabulary, by id. lexicon: what is counted, and the words of the trade.
    """
    outcomes = outcomes or {}
    units = units or {}
    own = {
        study.id.text: study.unit.unit.text
        for study in report.studies
        if study.unit is not None and type(study.unit.unit) is Words
    }

    def counted(study: str) -> str:
        return own.get(study) or units.get(study, "")

    scopes = [
        _study(f"{report.key}/studies/{study.id.text}", study, counted(study.id.text), lexicon, report)
        for study in report.studies
    ]
    whole = {counted(study.id.text) for study in report.studies}
    all_of_file = whole.pop() if len(whole) == 1 else ""
    for claim in report.claims:
        if claim.study:
            named = {counted(name.text) for name in claim.study}
            unit = named.pop() if len(named) == 1 else ""
        else:
            unit = all_of_file
        scopes.append(_claim(f"{report.key}/{claim.id.text}", claim, unit, outcomes, lexicon, report))
    return scopes


def _pin(rows: Gathered, first: int, in_words: tuple[Words, ...], where: Words | None, *, strays: bool = False) -> None:
    """Leave the numbers gathered from this one on to the words quoted for their block, unless an inner block has its
    own words or a passage of its own."""
    if not in_words or where is None:
        return
    for at in range(first, len(rows.quoted)):
        row = rows.quoted[at]
        if not row.within_words and row.where.text == where.text:
            may_stray = strays or row.role.kind == "bound"
            rows.quoted[at] = row._replace(within_words=in_words, strays=may_stray)


def _study(name: str, study: Study, unit: str, lexicon: Lexicon, report: Report) -> Scope:
    rows = Gathered(lexicon, {})
    where = study.where
    if study.flow is not None:
        _flow(rows, f"{name}/flow", study.flow, unit, where)
    if study.patients is not None:
        _flow(rows, f"{name}/patients", study.patients, "patient", where)
    for shares in study.shares:
        _shares(rows, f"{name}/shares/{slug(shares.what.text)}", shares, unit, where)
    if where is not None:
        rows.count(f"{name}/covers", "covers", study.covers, "covers", unit, where)
        _pin(rows, 0, study.in_words, where)
    wordings = tuple(part.level.text for shares in study.shares for part in shares.parts)
    return Scope(name, rows.quoted, [], wordings, lexicon, study=study, report=report)


def _claim(
    name: str, claim: Claim, unit: str, outcomes: Mapping[str, Outcome], lexicon: Lexicon, report: Report
) -> Scope:
    rows = Gathered(lexicon, outcomes)
    side = side_of_claim(claim, outcomes, lexicon)
    where = claim.where
    _setting(rows, name, claim, unit, where)
    # Of when, beside what and of whom the claim's own words may say nothing.
    _pin(rows, 0, claim.in_words, where, strays=True)
    first = len(rows.quoted)
    _rate(rows, name, claim, unit, where, "", side)
    if claim.pooled is not None:
        _pooled(rows, f"{name}/pooled", claim.pooled, unit, where)
    for level in claim.levels:
        _level(rows, f"{name}/{slug(level.level.text)}", level, unit, level.where or where, side)
        _measured(rows, f"{name}/{slug(level.level.text)}", level, measured_unit(claim.unit), level.where or where)
    _comparisons(rows, name, claim, unit, where)
    for grade in claim.grades:
        _grade(rows, name, grade, unit, where, "")
    _pin(rows, first, claim.in_words, where)
    wordings = tuple(level.level.text for level in claim.levels)
    if type(claim.pairs) is Pairs:
        wordings += (claim.pairs.a.text, claim.pairs.b.text)
    named = roles_named(claim, outcomes, lexicon)
    return Scope(name, rows.quoted, said_in_passing(claim), wordings, lexicon, named, claim=claim, report=report)


def _setting(rows: Gathered, name: str, claim: Claim, unit: str, where: Words) -> None:
    """When, beside what and of whom a claim speaks."""
    if type(claim.follow_up) is FollowUp:
        _follow_up(rows, f"{name}/follow_up", claim.follow_up, claim.follow_up.where or where)
    if type(claim.reference) is Words:
        rows.wording(f"{name}/reference", "reference", claim.reference, where, "reference")
    for within in claim.within:
        first = len(rows.quoted)
        rows.wording(f"{name}/within/{within.factor.text}/level", "level", within.level, where)
        _pin(rows, first, within.in_words, where)
    if claim.flow is not None:
        _flow(rows, f"{name}/flow", claim.flow, unit, where)


def _comparisons(rows: Gathered, name: str, claim: Claim, unit: str, where: Words) -> None:
    """Estimate, ratio, tests and pairs of a claim."""
    if claim.estimate is not None:
        _estimate(rows, f"{name}/estimate", claim.estimate, unit, claim.estimate.where or where, "")
    if claim.contrast is not None:
        _contrast(rows, f"{name}/contrast", claim.contrast, unit, claim.contrast.where or where)
    for number, test in enumerate(claim.tests, start=1):
        step = "test" if len(claim.tests) == 1 else f"test/{number}"
        first = len(rows.quoted)
        rows.p_value(f"{name}/{step}/p", test.p, test.where or where)
        _pin(rows, first, test.in_words, test.where or where)
    if type(claim.pairs) is Pairs:
        _pairs(rows, f"{name}/pairs", claim.pairs, unit, claim.pairs.where or where)


def _flow(rows: Gathered, figure: str, flow: Flow, unit: str, outer: Words | None) -> None:
    where = flow.where or outer
    if where is None:  # without a place nothing can be proved; the form reports the missing `where`
        return
    first = len(rows.quoted)
    for name in _FLOW_FIELDS:
        value = getattr(flow, name)
        if value is not None:
            rows.count(f"{figure}/{name}", name, value, name, unit, where)
    if flow.recall is not None:
        place = flow.recall.where or where
        own = len(rows.quoted)
        rows.percent(f"{figure}/recall/rate", "rate", flow.recall.rate, "recall", place)
        _pin(rows, own, flow.recall.in_words, place)
    _pin(rows, first, flow.in_words, where)


_FLOW_FIELDS = (
    "eligible", "treated", "due", "examined", "lost", "discontinued", "died", "extracted_related", "extracted_other",
    "extracted",
)  # fmt: skip


def _shares(rows: Gathered, figure: str, shares: Shares, unit: str, outer: Words | None) -> None:
    where = shares.where or outer
    if where is None:
        return
    first = len(rows.quoted)
    rows.count(f"{figure}/of", "of", shares.of, "of", "", where)
    for part in shares.parts:
        step = f"{figure}/{slug(part.level.text)}"
        own = len(rows.quoted)
        rows.count(f"{step}/count", "count", part.count, "count", "", where, part.level.text)
        rows.percent(f"{step}/share", "share", part.share, "share", where, part.level.text)
        _pin(rows, own, part.in_words, where)
    _pin(rows, first, shares.in_words, where)


def _rate(rows: Gathered, name: str, holder: Claim | Level, unit: str, where: Words, level: str, side: str) -> None:
    """Events, total and what is made of them, as a claim and a level both have them."""
    pair = type(holder.events) is Number and type(holder.total) is Number
    rows.count(f"{name}/events", "events", holder.events, "events", unit, where, level, side, leads=pair)
    first = len(rows.quoted)
    if type(holder.total) is Candidates:
        for number, candidate in enumerate(holder.total.candidates, start=1):
            rows.count(f"{name}/total/{number}", "total", candidate, "candidate", unit, where, level)
        _pin(rows, first, holder.total.in_words, where)
    else:
        rows.count(f"{name}/total", "total", holder.total, "total", unit, where, level)
    rows.percent(f"{name}/rate", "rate", holder.rate, "rate", where, level, side)
    rows.percent(f"{name}/success_rate", "success_rate", holder.success_rate, "rate", where, level, "good")
    rows.ends(f"{name}/interval", holder.interval, "%", where, level)
    rows.percent(f"{name}/confidence", "confidence", holder.confidence, "confidence", where, level)


def _level(rows: Gathered, name: str, level: Level, unit: str, where: Words, side: str) -> None:
    first = len(rows.quoted)
    wording = level.level.text
    rows.wording(f"{name}/level", "level", level.level, where)
    if level.range is not None:
        rows.range(f"{name}/range", level.range, where)
    _rate(rows, name, level, unit, where, wording, side)
    if level.estimate is not None:
        _estimate(rows, f"{name}/estimate", level.estimate, unit, level.estimate.where or where, wording)
    for grade in level.grades:
        _grade(rows, name, grade, unit, where, wording)
    _pin(rows, first, level.in_words, where)


def _measured(rows: Gathered, name: str, level: Level, unit: str, where: Words) -> None:
    """What was measured in a level, in the claim's unit."""
    first = len(rows.quoted)
    wording = level.level.text
    for field in ("mean", "sd", "median"):
        rows.measured(f"{name}/{field}", field, getattr(level, field), unit, where, wording)
    rows.quartiles(f"{name}/iqr", level.iqr, unit, where, wording)
    _pin(rows, first, level.in_words, where)


def _grade(rows: Gathered, name: str, grade: Grade, unit: str, where: Words, level: str) -> None:
    named = grade.outcome or grade.words
    step = f"{name}/{slug(named.text)}" if named is not None else name
    side = side_of_grade(grade, rows.outcomes, rows.lexicon)
    first = len(rows.quoted)
    rows.count(f"{step}/events", "events", grade.events, "events", unit, where, level, side)
    rows.percent(f"{step}/rate", "rate", grade.rate, "rate", where, level, side)
    _pin(rows, first, grade.in_words, where)


def _follow_up(rows: Gathered, figure: str, block: FollowUp, where: Words) -> None:
    first = len(rows.quoted)
    rows.length(figure, "at", block.at, where)
    rows.length(figure, "tolerance", block.tolerance, where)
    ends = type(block.minimum) is Length and type(block.maximum) is Length
    rows.length(figure, "minimum", block.minimum, where, "low", leads=ends)
    rows.length(figure, "maximum", block.maximum, where, "high")
    rows.length(figure, "mean", block.mean, where)
    rows.length(figure, "median", block.median, where)
    rows.length(figure, "sd", block.sd, where)
    _pin(rows, first, block.in_words, where)


def _estimate(rows: Gathered, figure: str, estimate: Estimate, unit: str, where: Words, level: str) -> None:
    first = len(rows.quoted)
    rows.length(figure, "at", estimate.at, where)
    rows.percent(f"{figure}/value", "value", estimate.value, "rate", where, level)
    rows.ends(f"{figure}/interval", estimate.interval, "%", where, level)
    rows.percent(f"{figure}/confidence", "confidence", estimate.confidence, "confidence", where, level)
    rows.count(f"{figure}/starting", "starting", estimate.starting, "starting", unit, where, level)
    rows.count(f"{figure}/at_risk", "at_risk", estimate.at_risk, "at_risk", unit, where, level)
    _pin(rows, first, estimate.in_words, where)


def _pooled(rows: Gathered, figure: str, pooled: Pooled, unit: str, outer: Words) -> None:
    where = pooled.where or outer
    first = len(rows.quoted)
    rows.count(f"{figure}/studies", "studies", pooled.studies, "studies", "study", where)
    rows.count(f"{figure}/of", "of", pooled.of, "of", unit, where)
    rows.percent(f"{figure}/i2", "i2", pooled.i2, "i2", where)
    rows.percent(f"{figure}/sd", "sd", pooled.sd, "pooled_sd", where)
    _pin(rows, first, pooled.in_words, where)


def _contrast(rows: Gathered, figure: str, contrast: Contrast, unit: str, where: Words) -> None:
    first = len(rows.quoted)
    value = contrast.value
    measure = contrast.measure.text
    if type(value) is Number:
        role = "value"
        if isinstance(contrast.adjusted_for, tuple) and not isinstance(contrast.adjusted_for, (Words, Missing)):
            role = "value, adjusted"
        elif type(contrast.adjusted_for) is Words:  # `none`
            role = "value, crude"
        rows.ratio(f"{figure}/value", value, measure, role, where)
    else:
        rows.percent(f"{figure}/value", "value", value, "value, per cent", where)
    rows.ends(f"{figure}/interval", contrast.interval, "%" if type(value) is Percentage else measure, where)
    rows.percent(f"{figure}/confidence", "confidence", contrast.confidence, "confidence", where)
    rows.p_value(f"{figure}/p", contrast.p, where)
    if contrast.level is not None:
        rows.wording(f"{figure}/level", "level", contrast.level, where)
    if type(contrast.reference) is Words:
        rows.wording(f"{figure}/reference", "reference", contrast.reference, where, "reference")
    if contrast.per is not None and contrast.per.text.split(" ", 1)[0] not in ("1", "one"):
        rows.wording(f"{figure}/per", "per", contrast.per, where)
    absolute = contrast.absolute
    if absolute is not None:
        place = absolute.where or where
        own = len(rows.quoted)
        rows.count(f"{figure}/absolute/per", "per", absolute.per, "per", "none", place)
        for name in ("reference", "level"):
            rows.count(f"{figure}/absolute/{name}", name, getattr(absolute, name), "absolute", "none", place)
        rows.ends(f"{figure}/absolute/interval", absolute.interval, "none", place)
        _pin(rows, own, absolute.in_words, place)
    if contrast.margin is not None:
        _margin(rows, f"{figure}/margin", contrast.margin, contrast, where)
    if contrast.pooled is not None:
        _pooled(rows, f"{figure}/pooled", contrast.pooled, unit, where)
    _pin(rows, first, contrast.in_words, where)


def _margin(rows: Gathered, figure: str, margin: Margin, contrast: Contrast, outer: Words) -> None:
    where = margin.where or outer
    first = len(rows.quoted)
    if type(margin.value) is Number:
        rows.ratio(f"{figure}/value", margin.value, contrast.measure.text, "margin", where)
    else:
        rows.percent(f"{figure}/value", "value", margin.value, "margin, per cent", where)
    _pin(rows, first, margin.in_words, where)
    # It mostly stands elsewhere than the result.
    _pin(rows, first, contrast.in_words, outer, strays=True)


def _pairs(rows: Gathered, figure: str, pairs: Pairs, unit: str, where: Words) -> None:
    first = len(rows.quoted)
    for name, role, level in (
        ("both", "both", ""),
        ("only_a", "only", pairs.a.text),
        ("only_b", "only", pairs.b.text),
        ("neither", "neither", ""),
    ):
        rows.count(f"{figure}/{name}", name, getattr(pairs, name), role, unit, where, level)
    _pin(rows, first, pairs.in_words, where)
