"""Every number that a report quotes: its figure id, value, unit, and what the passage must show beside it."""

from __future__ import annotations

from collections.abc import Mapping

from ...numerals import Token, read_numerals
from ...problems import Position
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
    Pairs,
    Pooled,
    Recall,
    Report,
    Shares,
    Study,
)
from ...reading.slugs import slug
from ...reading.values import Ends, Length, Missing, Number, Percentage, PValue, Range, Words
from .claim_words import mentions_of, roles_named, side_of_claim, side_of_grade
from .field_roles import ROLES, Quoted, Scope

_new = tuple.__new__
"""A number is a plain tuple of its class: the NamedTuple's own constructor costs as much again as all the rest."""


def quoted_scopes(
    report: Report, units: Mapping[str, str] | None = None, outcomes: Mapping[str, Outcome] | None = None
) -> list[Scope]:
    """The numbers of every study and claim of a report, in the order of the form.

    units: what each study counts ("tooth"), by its id, where another report of the study tells it. outcomes: of the
    vocabulary, by id.
    """
    outcomes = outcomes or {}
    known = dict(units or {})
    for study in report.studies:
        if study.unit is not None and type(study.unit.unit) is Words:
            known[study.id.text] = study.unit.unit.text
    scopes = [
        _study(f"{report.key}/studies/{study.id.text}", study, known.get(study.id.text, "")) for study in report.studies
    ]
    whole = {known.get(study.id.text, "") for study in report.studies}
    all_of_file = whole.pop() if len(whole) == 1 else ""
    for claim in report.claims:
        if claim.study:
            own = {known.get(name.text, "") for name in claim.study}
            unit = own.pop() if len(own) == 1 else ""
        else:
            unit = all_of_file
        scopes.append(_claim(f"{report.key}/{claim.id.text}", claim, unit, outcomes))
    return scopes


def _study(name: str, study: Study, unit: str) -> Scope:
    rows: list[Quoted] = []
    where = study.where
    if study.flow is not None:
        _flow(rows, f"{name}/flow", study.flow, unit, where)
    if study.patients is not None:
        _flow(rows, f"{name}/patients", study.patients, "patient", where)
    for shares in study.shares:
        _shares(rows, f"{name}/shares/{slug(shares.what.text)}", shares, unit, where)
    if where is not None:
        _count(rows, f"{name}/covers", "covers", study.covers, "covers", unit, where)
    return Scope(name, rows, [], tuple(part.level.text for shares in study.shares for part in shares.parts))


def _claim(name: str, claim: Claim, unit: str, outcomes: Mapping[str, Outcome]) -> Scope:
    rows: list[Quoted] = []
    side = side_of_claim(claim, outcomes)
    where = claim.where
    if type(claim.follow_up) is FollowUp:
        _follow_up(rows, f"{name}/follow_up", claim.follow_up, claim.follow_up.where or where)
    if type(claim.reference) is Words:
        _wording(rows, f"{name}/reference", "reference", claim.reference, where, "reference")
    for within in claim.within:
        _wording(rows, f"{name}/within/{within.factor.text}/level", "level", within.level, where)
    if claim.flow is not None:
        _flow(rows, f"{name}/flow", claim.flow, unit, where)
    _rate(rows, name, claim, unit, where, "", side)
    if claim.pooled is not None:
        _pooled(rows, f"{name}/pooled", claim.pooled, unit, where)
    for level in claim.levels:
        _level(rows, f"{name}/{slug(level.level.text)}", level, unit, level.where or where, side, outcomes)
    if claim.estimate is not None:
        _estimate(rows, f"{name}/estimate", claim.estimate, unit, claim.estimate.where or where, "")
    if claim.contrast is not None:
        _contrast(rows, f"{name}/contrast", claim.contrast, unit, claim.contrast.where or where)
    for number, test in enumerate(claim.tests, start=1):
        step = "test" if len(claim.tests) == 1 else f"test/{number}"
        if type(test.p) is PValue:
            _p(rows, f"{name}/{step}/p", test.p, test.where or where)
    if type(claim.pairs) is Pairs:
        _pairs(rows, f"{name}/pairs", claim.pairs, unit, claim.pairs.where or where)
    for grade in claim.grades:
        _grade(rows, name, grade, unit, where, "", outcomes)
    wordings = tuple(level.level.text for level in claim.levels)
    if type(claim.pairs) is Pairs:
        wordings += (claim.pairs.a.text, claim.pairs.b.text)
    return Scope(name, rows, mentions_of(claim), wordings, roles_named(claim, outcomes))


def _count(
    rows: list[Quoted], figure: str, name: str, value: object, role: str, unit: str, where: Words, level: str = "",
    side: str = "", *, leads: bool = False,
) -> None:  # fmt: skip
    if type(value) is Number:
        rows.append(
            _new(Quoted, (figure, value.position, name, value.text, value.value, value.decimals, unit, ROLES[role],
                          where, "", leads, level, "", side))
        )  # fmt: skip


def _percent(
    rows: list[Quoted], figure: str, name: str, value: object, role: str, where: Words, level: str = "", side: str = ""
) -> None:
    if type(value) is Percentage:
        rows.append(
            _new(Quoted, (figure, value.position, name, value.text, value.value, value.decimals, "%", ROLES[role],
                          where, "", False, level, "", side))
        )  # fmt: skip


def _ends(rows: list[Quoted], figure: str, value: object, unit: str, where: Words, level: str = "") -> None:
    if type(value) is Ends:
        for part, end, leads in (("low", value.low, True), ("high", value.high, False)):
            rows.append(
                Quoted(f"{figure}/{part}", end.position, "interval", end.text, end.value, end.decimals, unit,
                       ROLES["interval"], where, "", leads, level, part)
            )  # fmt: skip


def _p(rows: list[Quoted], figure: str, value: PValue, where: Words) -> None:
    rows.append(
        Quoted(
            figure,
            value.position,
            "p",
            value.text,
            value.value,
            value.decimals,
            "P",
            ROLES["p"],
            where,
            value.comparator,
        )
    )


def _length(
    rows: list[Quoted], figure: str, name: str, value: object, where: Words, part: str = "", *, leads: bool = False
) -> None:
    if type(value) is Length:
        rows.append(
            Quoted(f"{figure}/{name}", value.position, name, value.text, value.value, value.decimals, value.unit,
                   ROLES[name], where, "", leads, "", part)
        )  # fmt: skip


def _flow(rows: list[Quoted], figure: str, flow: Flow, unit: str, outer: Words | None) -> None:
    where = flow.where or outer
    if where is None:  # without a place nothing can be proved; the form reports the missing `where`
        return
    for name in _FLOW_FIELDS:
        value = getattr(flow, name)
        if value is not None:
            _count(rows, f"{figure}/{name}", name, value, name, unit, where)
    if type(flow.recall) is Recall:
        _percent(
            rows,
            f"{figure}/recall/rate",
            "rate",
            flow.recall.rate,
            "recall",
            getattr(flow.recall, "where", None) or where,
        )


_FLOW_FIELDS = (
    "eligible", "treated", "due", "examined", "lost", "discontinued", "died", "extracted_related", "extracted_other",
    "extracted",
)  # fmt: skip


def _shares(rows: list[Quoted], figure: str, shares: Shares, unit: str, outer: Words | None) -> None:
    where = shares.where or outer
    if where is None:
        return
    _count(rows, f"{figure}/of", "of", shares.of, "of", "", where)
    for part in shares.parts:
        step = f"{figure}/{slug(part.level.text)}"
        _count(rows, f"{step}/count", "count", part.count, "count", "", where, part.level.text)
        _percent(rows, f"{step}/share", "share", part.share, "share", where, part.level.text)


def _rate(rows: list[Quoted], name: str, holder: Claim | Level, unit: str, where: Words, level: str, side: str) -> None:
    """Events, total and what is made of them, as a claim and a level both have them."""
    pair = type(holder.events) is Number and type(holder.total) is Number
    _count(rows, f"{name}/events", "events", holder.events, "events", unit, where, level, side, leads=pair)
    if type(holder.total) is Candidates:
        for number, candidate in enumerate(holder.total.candidates, start=1):
            _count(rows, f"{name}/total/{number}", "total", candidate, "candidate", unit, where, level)
    else:
        _count(rows, f"{name}/total", "total", holder.total, "total", unit, where, level)
    _percent(rows, f"{name}/rate", "rate", holder.rate, "rate", where, level, side)
    _percent(rows, f"{name}/success_rate", "success_rate", holder.success_rate, "rate", where, level, "good")
    _ends(rows, f"{name}/interval", holder.interval, "%", where, level)
    _percent(rows, f"{name}/confidence", "confidence", holder.confidence, "confidence", where, level)


def _level(
    rows: list[Quoted], name: str, level: Level, unit: str, where: Words, side: str, outcomes: Mapping[str, Outcome]
) -> None:
    wording = level.level.text
    _wording(rows, f"{name}/level", "level", level.level, where)
    if level.range is not None:
        _range(rows, f"{name}/range", level.range, where)
    _rate(rows, name, level, unit, where, wording, side)
    if level.estimate is not None:
        _estimate(rows, f"{name}/estimate", level.estimate, unit, level.estimate.where or where, wording)
    for grade in level.grades:
        _grade(rows, name, grade, unit, where, wording, outcomes)


def _grade(
    rows: list[Quoted], name: str, grade: Grade, unit: str, where: Words, level: str, outcomes: Mapping[str, Outcome]
) -> None:
    named = grade.outcome or grade.words
    step = f"{name}/{slug(named.text)}" if named is not None else name
    side = side_of_grade(grade, outcomes)
    _count(rows, f"{step}/events", "events", grade.events, "events", unit, where, level, side)
    _percent(rows, f"{step}/rate", "rate", grade.rate, "rate", where, level, side)


def _follow_up(rows: list[Quoted], figure: str, block: FollowUp, where: Words) -> None:
    _length(rows, figure, "at", block.at, where)
    _length(rows, figure, "tolerance", block.tolerance, where)
    ends = type(block.minimum) is Length and type(block.maximum) is Length
    _length(rows, figure, "minimum", block.minimum, where, "low", leads=ends)
    _length(rows, figure, "maximum", block.maximum, where, "high")
    _length(rows, figure, "mean", block.mean, where)
    _length(rows, figure, "median", block.median, where)
    _length(rows, figure, "sd", block.sd, where)


def _estimate(rows: list[Quoted], figure: str, estimate: Estimate, unit: str, where: Words, level: str) -> None:
    _length(rows, figure, "at", estimate.at, where)
    _percent(rows, f"{figure}/value", "value", estimate.value, "rate", where, level)
    _ends(rows, f"{figure}/interval", estimate.interval, "%", where, level)
    _percent(rows, f"{figure}/confidence", "confidence", estimate.confidence, "confidence", where, level)
    _count(rows, f"{figure}/starting", "starting", estimate.starting, "starting", unit, where, level)
    _count(rows, f"{figure}/at_risk", "at_risk", estimate.at_risk, "at_risk", unit, where, level)


def _pooled(rows: list[Quoted], figure: str, pooled: Pooled, unit: str, outer: Words) -> None:
    where = pooled.where or outer
    _count(rows, f"{figure}/studies", "studies", pooled.studies, "studies", "study", where)
    _count(rows, f"{figure}/of", "of", pooled.of, "of", unit, where)
    _percent(rows, f"{figure}/i2", "i2", pooled.i2, "i2", where)
    _percent(rows, f"{figure}/sd", "sd", pooled.sd, "pooled_sd", where)


def _contrast(rows: list[Quoted], figure: str, contrast: Contrast, unit: str, where: Words) -> None:
    value = contrast.value
    measure = contrast.measure.text
    if type(value) is Number:
        role = "value"
        if isinstance(contrast.adjusted_for, tuple) and not isinstance(contrast.adjusted_for, (Words, Missing)):
            role = "value, adjusted"
        elif type(contrast.adjusted_for) is Words:  # `none`
            role = "value, crude"
        rows.append(
            Quoted(f"{figure}/value", value.position, "value", value.text, value.value, value.decimals, measure,
                   ROLES[role], where)
        )  # fmt: skip
    else:
        _percent(rows, f"{figure}/value", "value", value, "value, per cent", where)
    _ends(rows, f"{figure}/interval", contrast.interval, "%" if type(value) is Percentage else measure, where)
    _percent(rows, f"{figure}/confidence", "confidence", contrast.confidence, "confidence", where)
    if type(contrast.p) is PValue:
        _p(rows, f"{figure}/p", contrast.p, where)
    if contrast.level is not None:
        _wording(rows, f"{figure}/level", "level", contrast.level, where)
    if type(contrast.reference) is Words:
        _wording(rows, f"{figure}/reference", "reference", contrast.reference, where, "reference")
    if contrast.per is not None and contrast.per.text.split(" ", 1)[0] not in ("1", "one"):
        _wording(rows, f"{figure}/per", "per", contrast.per, where)
    absolute = contrast.absolute
    if absolute is not None:
        place = absolute.where or where
        _count(rows, f"{figure}/absolute/per", "per", absolute.per, "per", "none", place)
        for name in ("reference", "level"):
            _count(rows, f"{figure}/absolute/{name}", name, getattr(absolute, name), "absolute", "none", place)
        _ends(rows, f"{figure}/absolute/interval", absolute.interval, "none", place)
    if contrast.pooled is not None:
        _pooled(rows, f"{figure}/pooled", contrast.pooled, unit, where)


def _pairs(rows: list[Quoted], figure: str, pairs: Pairs, unit: str, where: Words) -> None:
    for name, role, level in (
        ("both", "both", ""),
        ("only_a", "only", pairs.a.text),
        ("only_b", "only", pairs.b.text),
        ("neither", "neither", ""),
    ):
        _count(rows, f"{figure}/{name}", name, getattr(pairs, name), role, unit, where, level)


def _wording(rows: list[Quoted], figure: str, name: str, words: Words, where: Words, role: str = "bound") -> None:
    """The numbers in the words of a level: "over 3 mm"."""
    text = words.text
    tokens = _numbers_in(text)
    ends = len(tokens) == 2 and tokens[0].pair == 1
    open_end = ">=" if len(tokens) == 1 and text.startswith("from ") else ""
    for number, token in enumerate(tokens, start=1):
        step = figure
        if len(tokens) == 2:
            step = f"{figure}/{'low' if number == 1 else 'high'}"
        elif len(tokens) > 2:
            step = f"{figure}/{number}"
        file, line, column = words.position
        rows.append(
            Quoted(step, Position(file, line, column + token.start), name, text, token.value, token.decimals,
                   token.unit, ROLES[role], where, token.comparator or open_end, ends and number == 1, "", token.part)
        )  # fmt: skip


_read: dict[str, tuple[Token, ...]] = {}


def _numbers_in(text: str) -> tuple[Token, ...]:
    """The same few wordings stand in every claim of a compendium: each is read once."""
    tokens = _read.get(text)
    if tokens is None:
        if len(_read) > 4096:
            _read.clear()
        tokens = _read[text] = read_numerals(text)
    return tokens


def _range(rows: list[Quoted], figure: str, bounds: Range, where: Words) -> None:
    both = bounds.low is not None and bounds.high is not None
    for part, value, sign in (
        ("low", bounds.low, ">=" if bounds.low_included else ">"),
        ("high", bounds.high, "<=" if bounds.high_included else "<"),
    ):
        if value is not None:
            exponent = value.as_tuple().exponent
            decimals = -exponent if isinstance(exponent, int) and exponent < 0 else 0
            rows.append(
                Quoted(f"{figure}/{part}" if both else figure, bounds.position, "range", bounds.text, value, decimals,
                       bounds.unit, ROLES["bound"], where, "" if both else sign, both and part == "low", "", part if
                       both else "")
            )  # fmt: skip
