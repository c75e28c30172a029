"""Computed results that prose may name, $question/factor-or-overall/name, made when somebody asks for one."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from ..numerals.format_units import COUNTED_NAMES
from ..reading.model import Question
from ..results.findings.comparable import people_of
from ..results.findings.direction import Compared
from ..results.findings.findings import Catalogue, Finding, unit_of
from ..results.numbers.absolute import absolute_line, absolutes
from ..results.numbers.pooling import not_pooled_line, range_line
from ..results.numbers.rate_intervals import bounds_line
from ..results.numbers.ratio_pool_lines import ratio_pool_line
from ..results.numbers.sensitivity import rate_sensitivity
from ..results.numbers.shown_numbers import count
from ..results.saying.titles import levels_of
from ..results.saying.wording import unit_word
from ..results.values.figures import Figure
from ..results.values.line import Line, Marked, joined, line
from .question.over_time import OutcomeRates, overall_line, rates_by_outcome
from .sections.compared_levels import comparisons, leading
from .sections.level_summary import not_known
from .sections.ratio_pools import RatioPools, ratio_pools
from .sections.several_studies import direction_counts, directions_workings
from .sections.stated_times import latest
from .sentences.named_figures import with_below

OVERALL = "overall"


def named_result(catalogue: Catalogue, text: str) -> Line | None:
    """The line for "question/factor-or-overall/name"; None where question, factor or name is not known.

    A number that is refused gives "not pooled: " and why.
    """
    steps = text.split("/")
    question = catalogue.evidence.questions.get(steps[0])
    if question is None or len(steps) != 3:
        return None
    if steps[1] == OVERALL:
        maker = _OVERALL.get(steps[2])
        if maker is None:
            return None
        rows = rates_by_outcome(catalogue, question)
        return maker(catalogue, question, rows[0]) if rows else not_known(question)
    return _of_factor(catalogue, question, steps[1], steps[2])


def _rate(catalogue: Catalogue, question: Question, row: OutcomeRates) -> Line:
    return overall_line(catalogue, row)


def _range(catalogue: Catalogue, question: Question, row: OutcomeRates) -> Line:
    return range_line(row.pools[0]) or not_pooled_line(row.pools[0].reasons or ("fewer than two studies",))


def _counted(row: OutcomeRates) -> list[Finding]:
    return [item for item in row.comparability.counted if item.events is not None and item.total]


def _total(name: str, typed_as: str = "") -> Callable[[Catalogue, Question, OutcomeRates], Line]:
    """typed_as: the name that prose gave it and its id keeps, where that is another."""

    def made(catalogue: Catalogue, question: Question, row: OutcomeRates) -> Line:
        mine = _counted(row)
        inputs = [figure for item in mine for part in ("events", "total") if (figure := item.figure(part)) is not None]
        workings = catalogue.book.explain(
            f"{question.id}-overall-counted", f"Who was counted: {row.outcome.title.text}",
            "added up over the studies that count, one patient once; failures are those that did badly", inputs=inputs,
        )  # fmt: skip
        studies = {study.id for item in mine for study in item.studies}
        totals = {
            "studies": len(studies),
            "units": sum(item.total or 0 for item in mine),
            "failures": sum((item.total or 0) - (item.good_events or 0) for item in mine),
        }
        units = {item.unit for item in mine}
        unit = "study" if name == "studies" else (units.pop() or "none") if len(units) == 1 else "none"
        figure = count(
            catalogue.book, f"{question.id}/{OVERALL}/{typed_as or name}", totals[name], unit, workings, says=name
        )
        return line(figure, " ", unit_word(unit_of(catalogue.units, unit), figure))

    return made


def _unseen(catalogue: Catalogue, question: Question, row: OutcomeRates) -> Line:
    pool = row.pools[0]
    if pool.is_shown:
        rate_sensitivity(catalogue, pool, row.outcome.title.text)
        end = f"-{pool.suffix}" if pool.suffix else ""
        ends = [catalogue.book.get(f"{pool.place}/{name}-of-the-unseen{end}/rate") for name in ("none", "all")]
        if ends[0] is not None and ends[1] is not None:
            return line("between ", ends[0], " and ", ends[1], ", whatever became of those not seen")
    counted = row.comparability.counted
    rates = [finding for finding in counted if finding.kind == "rate"]
    if rates and len({study for finding in counted for study in people_of(finding)}) == 1:
        return bounds_line(rates[0], f"{question.id}/{OVERALL}")
    return line("not computable: how many were due is not known of every study")


def _latest(catalogue: Catalogue, question: Question, row: OutcomeRates) -> Line:
    found = latest(row.comparability.counted)
    return with_below([found[0]], catalogue) if found is not None else line("no rate belongs to one stated time")


def _of_pool(name: str) -> Callable[[Catalogue, Question, OutcomeRates], Line]:
    def made(catalogue: Catalogue, question: Question, row: OutcomeRates) -> Line:
        pool = row.pools[0]
        return _part(pool.figures, name) if pool.is_shown else not_pooled_line(pool.reasons)

    return made


def _part(figures: Mapping[str, Figure], name: str) -> Line:
    if name in figures:
        return line(figures[name])
    if f"{name}/low" in figures:
        return line(Marked("convention", "95%"), " ", figures[f"{name}/low"], " to ", figures[f"{name}/high"])
    return line("not computed")


_OVERALL: dict[str, Callable[[Catalogue, Question, OutcomeRates], Line]] = {
    "rate": _rate,
    "range": _range,
    "studies": _total("studies"),
    "units": _total("units"),
    "failures": _total("failures"),
    "unseen-bounds": _unseen,
    "interval": _of_pool("interval"),
    "prediction": _of_pool("prediction"),
    "tau": _of_pool("tau"),
    "latest": _latest,
}

_WAYS = {"better": "better", "worse": "worse", "no-clear-difference": "no clear difference", "not-stated": "not stated"}
_OF_RATIO = ("pooled", "interval", "prediction", "range", "tau")
FACTOR_NAMES = ("direction", "studies", *_WAYS, *_OF_RATIO, "sign-test", "absolute")
_OVERALL.update({typed_as: _total(name, typed_as) for typed_as, name in COUNTED_NAMES.items()})


def _of_factor(catalogue: Catalogue, question: Question, factor: str, name: str) -> Line | None:
    if name not in FACTOR_NAMES or not levels_of(catalogue, factor):
        return None
    if name == "absolute":
        rows = [absolute_line(catalogue, item) for item in absolutes(catalogue, question, factor)]
        return joined(rows) if rows else line("nothing absolute: the question file names no baseline")
    lead = leading(question, comparisons(catalogue, question, factor))
    if lead is None:
        return not_known(question)
    if name == "direction":
        return direction_counts(catalogue, question, lead)
    if name == "sign-test":
        return line("the sign test is given only in the workings, since it decides nothing")
    if name == "studies" or name in _WAYS:
        return _ways(catalogue, question, lead, name)
    return _of_ratio(ratio_pools(catalogue, question, lead, True), name)


def _ways(catalogue: Catalogue, question: Question, lead: Compared, name: str) -> Line:
    direction_counts(catalogue, question, lead)
    number = len(lead.sides) if name == "studies" else sum(side.direction == _WAYS[name] for side in lead.sides)
    workings = directions_workings(question, lead.factor)
    inputs = tuple(dict.fromkeys(figure for side in lead.sides for figure in side.figures))
    says = "studies that compare the levels" if name == "studies" else f"studies: {_WAYS[name]}"
    figure = count(
        catalogue.book, f"{question.id}/{lead.factor}/{name}", number, "study", workings, says=says, inputs=inputs
    )
    return line(figure, " ", unit_word(catalogue.units["study"], figure))


def _of_ratio(pools: RatioPools, name: str) -> Line:
    pool = pools.crude
    if name == "pooled":
        return ratio_pool_line(pool)
    if name == "range":
        if "range/low" not in pool.figures:
            return not_pooled_line(pool.reasons)
        return line("between ", pool.figures["range/low"], " and ", pool.figures["range/high"])
    return _part(pool.figures, name) if pool.is_shown else not_pooled_line(pool.reasons)
