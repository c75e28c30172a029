"""Who was studied: what must be told of a study, its counts from treated to examined, and facts told twice."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import combinations

from ..numerals import Unit as CountedUnit
from ..problems import Problem, error
from ..proof.asking import ask
from ..proof.declared_names import DescribedStudy
from ..proof.figures_of import count, scaled
from ..reading.flows import COUNTS
from ..reading.folded import folded
from ..reading.report_model import Flow, Recall, Report, Source, Study
from ..reading.values import Missing, Number, Percentage, Words
from .nearest import did_you_mean
from .percents import fits

RULES = {
    "study-incomplete": (
        "A study in people is described without setting or unit, or without what its unit asks of the population. "
        "These decide which studies may be compared: adults and children, specialists and residents, units and "
        "patients are not the same. Type what the paper says, or `not reported`. Basis: QUIPS, domain of study "
        "participation (Hayden et al. 2013, Ann Intern Med 158:280-286, from memory)."
    ),
    "design-unknown": (
        "The design of a study holds no word for a design that is known here (cohort, case series, randomised or other "
        "trial, case-control, cross-sectional, survey, registry, case report, review, experiment and their kin), so "
        "it may be a slip of the pen; what may be pooled depends on it. Correct it, or answer that this is its name. "
        "Basis: common practice, no source."
    ),
    "recall-disagrees": (
        "The counts do not give the printed recall rate. Say with `seen`, `of` and `less` from which counts it was "
        "worked out: a recall of 34 % from 103 of 523 treated is (103 + 25 removed) of (523 less 144 discontinued). "
        "Basis: arithmetic. Example: Farzaneh et al. 2004 (doi 10.1097/01.don.0000121607.87969.6e, from memory)."
    ),
    "flow-does-not-add-up": (
        "The counts of one flow do not fit together: more were examined than due or treated, or those examined, lost, "
        "discontinued, dead and removed do not add up to those treated or due. Those discontinued may be part of "
        "those lost or counted beside them; those who died or in whom the unit was removed may be among the examined. "
        "Basis: arithmetic; STROBE item 13 asks for these numbers (von Elm et al. 2007, Lancet 370:1453-1457, from "
        "memory)."
    ),
    "facts-of-study-disagree": (
        "One study is described twice, and the two descriptions differ. Facts belong to the people, so one report "
        "gives them and the others give the id alone; where two must give them, they have to agree. A later report of "
        "the same people that counts fewer treated than an earlier one is asked about: some were left out, or the two "
        "are not the same people. Basis: Cochrane Handbook 5.1, section 7.2.2, on several reports of one study."
    ),
}


_BESIDE = ("discontinued", "died", "extracted", "extracted_related", "extracted_other")


def find_in_report(report: Report, units: Mapping[str, CountedUnit]) -> Iterator[Problem]:
    """The studies of one claim file, and the flows of its claims. units: what may be counted."""
    for study in report.studies:
        place = f"{report.key}/studies/{study.id.text}"
        if study.design is not None and not _is_design(study.design.text):
            yield _unknown_design(study.design, place)
        if study.species is not None and study.species.text == "human":
            yield from _incomplete(study, units)
        if study.flow is not None:
            yield from find_in_flow(study.flow, place)
        if study.patients is not None:
            yield from find_in_flow(study.patients, place)
            if study.flow is not None:
                yield from _people(study.flow, study.patients, _counted(study, units), place)
    for claim in report.claims:
        if claim.flow is not None:
            yield from find_in_flow(claim.flow, f"{report.key}/{claim.id.text}")


_DESIGNS = (
    "cohort", "case series", "randomised trial", "non-randomised trial", "case-control", "cross-sectional", "survey",
    "case report", "systematic review", "experiment",
)  # fmt: skip
_STEMS = (
    "cohort", "series", "trial", "random", "rct", "control", "cross", "survey", "case", "report", "review", "meta",
    "experiment", "regist", "prospective", "retrospective", "longitudinal", "follow", "observ", "vitro", "vivo",
    "bench", "animal", "laborator", "audit", "database", "record", "questionnaire", "interview", "qualitative",
    "diagnostic", "accuracy", "before", "split", "comparative", "historical", "guideline", "statement", "consensus",
    "position", "pilot", "study", "simulation", "model", "analysis", "not reported", "not applicable",
    "could not access",
)  # fmt: skip
"""One of these stands in every name of a design that is common (practice, no source)."""


def _is_design(text: str) -> bool:
    lowered = text.lower()
    return any(stem in lowered for stem in _STEMS)


def _unknown_design(design: Words, place: str) -> Problem:
    tells = f"no word for a design is known in it, such as {', '.join(_DESIGNS)}{did_you_mean(design.text, _DESIGNS)}"
    return ask(design.position, "design-unknown", design.text, tells, place, closing="is that its name?")


def _counted(study: Study, units: Mapping[str, CountedUnit]) -> CountedUnit | None:
    return units.get(study.unit.unit.text) if study.unit is not None else None


def _incomplete(study: Study, units: Mapping[str, CountedUnit]) -> Iterator[Problem]:
    # Where the unit is missing too, the one that this compendium names first tells what else will be asked.
    counted = next(iter(units.values())) if study.unit is None else _counted(study, units)
    needs = counted.needs if counted is not None else ()
    lacking = [f"{name} (in population)" for name in needs if name not in study.population]
    if study.setting is None:
        lacking.append("setting")
    if study.unit is None:
        lacking.append("unit")
    if lacking:
        tells = f'study "{study.id.text}" is in people but does not give {", ".join(lacking)}'
        lines = "\n".join(f"{name.partition(' ')[0]}: not reported" for name in lacking)
        yield error(study.position, "study-incomplete", tells, f"type what the paper says, or, one a line:\n{lines}")


def find_in_flow(flow: Flow, place: str) -> Iterator[Problem]:
    """One flow: its steps, its sum, its recall rate."""
    treated, due, examined = count(flow.treated), count(flow.due), count(flow.examined)
    if examined is not None:
        for name, above, typed in (("due", due, flow.due), ("treated", treated, flow.treated)):
            if above is not None and examined > above and flow.examined is not None and typed is not None:
                printed = f"{flow.examined.text} examined of {typed.text} {name}"
                yield ask(flow.examined.position, "flow-does-not-add-up", printed, f"more examined than {name}", place)
                break
    if treated is not None and due is not None and due > treated and flow.due is not None:
        printed = f"{due} due of {treated} treated"
        yield ask(flow.due.position, "flow-does-not-add-up", printed, "more due than treated", place)
    yield from _sum(flow, place)
    if flow.recall is not None:
        yield from _recall(flow, place)


def _sum(flow: Flow, place: str) -> Iterator[Problem]:
    lost, examined = count(flow.lost), count(flow.examined)
    starts = [number for number in (count(flow.treated), count(flow.due), count(flow.eligible)) if number is not None]
    if lost is None or examined is None or not starts or flow.lost is None:
        return
    if any(isinstance(getattr(flow, name), Missing) for name in _BESIDE):
        return
    fixed = examined + lost
    beside = {"discontinued": count(flow.discontinued), "died": count(flow.died)}
    whole = count(flow.extracted)
    if whole is not None:
        beside["extracted"] = whole
    else:
        beside["extracted_related"] = count(flow.extracted_related)
        beside["extracted_other"] = count(flow.extracted_other)
    others = [number for number in beside.values() if number]
    sums = {fixed + sum(some) for size in range(len(others) + 1) for some in combinations(others, size)}
    if sums.isdisjoint(starts):
        parts = [f"{examined} examined", f"{lost} lost"]
        parts += [f"{number} {name.replace('_', ' ')}" for name, number in beside.items() if number]
        printed = f"{' + '.join(parts)} of {starts[0]}"
        tells = f"they add up to {fixed + sum(others)}"
        yield ask(flow.lost.position, "flow-does-not-add-up", printed, tells, place)


def _steps_of_recall(flow: Flow, recall: Recall) -> tuple[list[str], list[str], list[str]]:
    """Names of the counts that a recall is of: seen, of how many, less those who could not come."""
    seen = [word.text for word in recall.seen] or ["examined"]
    of = [word.text for word in recall.of] or ["due"]
    if of == ["due"] and not isinstance(flow.due, Number) and isinstance(flow.treated, Number):
        of = ["treated"]
    return seen, of, [word.text for word in recall.less]


def _recall(flow: Flow, place: str) -> Iterator[Problem]:
    recall = flow.recall
    if recall is None or type(recall.rate) is not Percentage:
        return
    seen, of, less = _steps_of_recall(flow, recall)
    if any(name not in COUNTS for name in (*seen, *of, *less)):
        return  # the form says so
    counts = {name: count(getattr(flow, name)) for name in (*seen, *of, *less)}
    if any(number is None for number in counts.values()):
        return
    numerator = sum(counts[name] or 0 for name in seen)
    denominator = sum(counts[name] or 0 for name in of) - sum(counts[name] or 0 for name in less)
    rate = recall.rate
    if denominator > 0 and numerator <= denominator and fits(scaled(rate), rate.decimals, numerator, denominator):
        return
    share = f"{100 * numerator / denominator:.1f}%" if denominator > 0 else "no share"
    made = f"{' + '.join(seen)} of {' + '.join(of)}" + (f" less {' + '.join(less)}" if less else "")
    tells = (
        f"{made} is {numerator} of {denominator}, {share}; `seen`, `of` and `less` say from which counts it is "
        "worked out"
    )
    yield ask(rate.position, "recall-disagrees", f"{rate.text} of {denominator}", tells, place)


def _people(flow: Flow, patients: Flow, counted: CountedUnit | None, place: str) -> Iterator[Problem]:
    if counted is None or not counted.of:
        return
    for name in ("treated", "due", "examined"):
        units, people = count(getattr(flow, name)), count(getattr(patients, name))
        if units is not None and people is not None and people > units:
            printed = f"{people} patients, {units} {counted.id}"
            tells = f"more patients than units {name}, although each patient has at least one"
            yield ask(getattr(patients, name).position, "flow-does-not-add-up", printed, tells, place)


def find_facts(described: list[DescribedStudy], sources: dict[str, Source]) -> Iterator[Problem]:
    """One study as its reports describe it, in order of key."""
    first = described[0]
    for later in described[1:]:
        yield from _words_disagree(first, later)
    dated = sorted(described, key=lambda each: (_year(each.key, sources), each.key))
    for index, later in enumerate(dated):
        for earlier in dated[:index]:
            if _year(earlier.key, sources) == _year(later.key, sources):
                continue
            problem = _fewer(earlier, later)
            if problem is not None:
                yield problem
                break


def _facts(study: Study) -> Iterator[tuple[str, Words | Missing]]:
    for name, word in (("species", study.species), ("design", study.design), ("selection", study.selection)):
        if word is not None:
            yield name, word
    for name, word in study.population.items():
        yield f"population {name}", word
    if isinstance(study.setting, dict):
        for name, word in study.setting.items():
            yield f"setting {name}", word
    if study.unit is not None:
        yield "unit", study.unit.unit


def _words_disagree(first: DescribedStudy, later: DescribedStudy) -> Iterator[Problem]:
    earlier_facts = dict(_facts(first.study))
    for name, word in _facts(later.study):
        other = earlier_facts.get(name)
        # Two "not reported" are never equal, and one says nothing against what the other report tells.
        if other is None or other.text == "not reported" or word.text == "not reported":
            continue
        if folded(other.text) != folded(word.text):
            study = later.study.id.text
            yield error(
                word.position,
                "facts-of-study-disagree",
                f'{name} of study "{study}" is "{word.text}" here and "{other.text}" in {other.position.file}',
                "give it once: the other report lists the study by its id alone",
            )


def _fewer(earlier: DescribedStudy, later: DescribedStudy) -> Problem | None:
    one, other = earlier.study.flow, later.study.flow
    if one is None or other is None:
        return None
    for name in ("treated", "eligible"):
        before, after = count(getattr(one, name)), count(getattr(other, name))
        if before is not None and after is not None and after < before:
            lower, upper = sorted((earlier, later), key=lambda each: each.key)
            value = getattr(upper.study.flow, name)
            printed = f"{after} {name}, {before} {name}"
            tells = f'the later report of study "{later.study.id.text}", {later.key}, counts fewer than {earlier.key}'
            place = f"{upper.key}/studies/{upper.study.id.text}"
            return ask(value.position, "facts-of-study-disagree", printed, tells, place, lower.key)
    return None


def _year(key: str, sources: dict[str, Source]) -> str:
    source = sources.get(key)
    field = source.fields.get("year") or source.fields.get("date") if source is not None else None
    return field.text[:4] if field is not None else ""
