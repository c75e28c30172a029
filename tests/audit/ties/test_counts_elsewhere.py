"""A ratio whose event or levels are exchanged, against counts that another claim of its report holds.

Chong et al. 2003, Int Endod J 36:520-526, at 12 months: 54 of 64 teeth healed with one material and 44 of 58 with the
other (counts derived from the printed percentages); odds ratio of healing 1.72, risk ratio of failure 0.65.
"""

from __future__ import annotations

import pytest

from .conftest import Asked

VOCABULARY = """\
factors:
  filling:
    title: Root-end filling
    role: treatment
    levels: [{id: silicate, title: silicate, synonyms: [MTA]}, {id: oxide, title: zinc oxide, synonyms: [IRM]}]
outcomes:
  healed: {title: healed, construct: success, strictness: strict, basis: film, threshold: normal space, good: yes}
  diseased: {title: diseased, construct: success, strictness: strict, basis: film, threshold: normal space, good: no}
  kept: {title: kept, construct: survival, strictness: not applicable, basis: seen, threshold: in place, good: yes}
"""
FILES = {"vocabulary.yaml": VOCABULARY}
PASSAGES = (
    "[p. 1] at 12 months and at 60 months\n[p. 2] {counted}\n[p. 3] {measure}, silicate against zinc oxide: {value}"
)
HEALED = "healed: silicate 54 of 64, zinc oxide 44 of 58"
HEAD = """\
  question: hole
  outcome: {outcome}
  factor: filling
  known_at: during
  reference: zinc oxide
  follow_up: {follow_up}
"""
SILICATE = "{level: silicate, events: 54, total: 64}"
OXIDE = "{level: zinc oxide, events: 44, total: 58}"


def at(months: int) -> str:
    return f"{{from: repair, timing: at, at: {months} months, tolerance: not reported, where: p. 1}}"


def counts(*levels: str, outcome: str = "healed", follow_up: str = at(12), name: str = "counts", more: str = "") -> str:
    head = HEAD.format(outcome=outcome, follow_up=follow_up)
    return f"- id: {name}\n{head}  levels: [{', '.join(levels)}]\n  where: p. 2\n{more}"


def ratio(
    value: str = "1.72",
    event: str = "good",
    measure: str = "odds ratio",
    levels: tuple[str, str] = ("silicate", "zinc oxide"),
    adjusted: str = "none",
    follow_up: str = at(12),
) -> str:
    level, reference = levels
    contrast = f"measure: {measure}, value: {value}, event_is: {event}, adjusted_for: {adjusted}"
    head = HEAD.format(outcome="healed", follow_up=follow_up)
    return f"- id: ratio\n{head}  contrast: {{{contrast}, level: {level}, reference: {reference}}}\n  where: p. 3\n"


def passages(value: str = "1.72", measure: str = "odds ratio", counted: str = HEALED) -> str:
    return PASSAGES.format(counted=counted, measure=measure, value=value)


TABLE = counts(SILICATE, OXIDE)
PRINTED = (
    ("odds ratio", "1.72", "good"),
    ("odds ratio", "0.58", "bad"),
    ("risk ratio", "1.11", "good"),
    ("risk ratio", "0.65", "bad"),
    ("risk difference", "0.085", "good"),
    ("prevented fraction", "35%", "bad"),
    ("hazard ratio", "1.60", "good"),
)


@pytest.mark.parametrize("order", ["counts first", "ratio first"])
@pytest.mark.parametrize(("measure", "value", "event"), PRINTED, ids=[" ".join(each) for each in PRINTED])
def test_a_ratio_of_the_other_event_is_asked_about_once(
    open_problems: Asked, measure: str, value: str, event: str, order: str
) -> None:
    def found(of: str) -> list[str]:
        parts = [TABLE, ratio(value, of, measure)]
        claims = "".join(parts if order == "counts first" else reversed(parts))
        return [problem.rule for problem in open_problems(passages(value, measure), claims, files=FILES)]

    assert found(event) == []
    assert found("bad" if event == "good" else "good") == ["ratio-direction"]


def test_both_readings_and_the_mend_are_told_at_the_ratio(open_problems: Asked) -> None:
    (problem,) = open_problems(passages(), TABLE + ratio(event="bad"), files=FILES)
    assert problem.position.line == 28
    assert problem.message == (
        '"1.72": the passage typed from p. 3 (evidence/sources/x.bib:6) has it, while claim counts (line 12) has 54 of '
        '64 for "silicate" and 44 of 58 for "zinc oxide" with the good event: by these it is a ratio of the good '
        'event, or one for "zinc oxide" against "silicate", the claim makes it one of the bad event for "silicate" '
        'against "zinc oxide"; which is meant?'
    )
    assert problem.hint.startswith("event_is: good, or level: zinc oxide, reference: silicate\n")


def test_levels_that_are_exchanged_are_asked_about_once(open_problems: Asked) -> None:
    exchanged = ratio(levels=("zinc oxide", "silicate"))
    silent = passages().replace("silicate against zinc oxide", "silicate, zinc oxide")
    for printed in (passages(), silent):
        (problem,) = open_problems(printed, TABLE + exchanged, files=FILES)
        assert problem.rule == "ratio-direction"


OTHER_FORMS = {
    "each level in a claim of its own": (counts(SILICATE) + counts(OXIDE, name="others"), HEALED),
    "another wording of the level": (
        TABLE.replace("level: silicate", "level: MTA")
        .replace("level: zinc", "level: IRM #")
        .replace("IRM # oxide", "IRM"),
        HEALED.replace("silicate", "MTA").replace("zinc oxide", "IRM"),
    ),
    "the opposite outcome": (
        counts(
            "{level: silicate, events: 10, total: 64}", "{level: zinc oxide, events: 14, total: 58}", outcome="diseased"
        ),
        "diseased: silicate 10 of 64, zinc oxide 14 of 58",
    ),
    "no time told": (TABLE.replace(at(12), "not reported"), HEALED),
}


@pytest.mark.parametrize("form", OTHER_FORMS)
def test_counts_decide_wherever_they_stand(open_problems: Asked, form: str) -> None:
    table, counted = OTHER_FORMS[form]
    printed = passages(counted=counted)
    assert open_problems(printed, table + ratio(), files=FILES) == []
    (problem,) = open_problems(printed, table + ratio(event="bad"), files=FILES)
    assert problem.rule == "ratio-direction"


OF_SOMETHING_ELSE = {
    "another outcome": (TABLE.replace("outcome: healed", "outcome: kept"), HEALED.replace("healed", "kept")),
    "other people": (TABLE + "  within: [{factor: filling, level: MTA}]\n", HEALED + " (MTA)"),
}


@pytest.mark.parametrize("what", OF_SOMETHING_ELSE)
def test_counts_of_something_else_decide_nothing(open_problems: Asked, what: str) -> None:
    table, counted = OF_SOMETHING_ELSE[what]
    found = open_problems(passages(counted=counted), table + ratio(event="bad"), files=FILES)
    assert "ratio-direction" not in [problem.rule for problem in found]


def test_at_another_time_only_the_very_ratio_of_the_other_event_is_asked_about(open_problems: Asked) -> None:
    later = ratio(event="bad", follow_up=at(60))
    assert [each.rule for each in open_problems(passages(), TABLE + later, files=FILES)] == ["ratio-direction"]
    honest = ratio("0.81", follow_up=at(60))
    assert open_problems(passages("0.81"), TABLE + honest, files=FILES) == []


FAR = ("{level: silicate, events: 50, total: 60}", "{level: zinc oxide, events: 10, total: 60}")
FAR_COUNTED = "healed: silicate 50 of 60, zinc oxide 10 of 60"


def test_an_adjusted_ratio_is_asked_about_only_where_both_are_clear(open_problems: Asked) -> None:
    wrong = ratio("8.2", "bad", "hazard ratio", adjusted="[age]")
    printed = passages("8.2; adjusted for age", "hazard ratio", FAR_COUNTED)
    (problem,) = open_problems(printed, counts(*FAR) + wrong, files=FILES)
    assert problem.rule == "ratio-direction"
    weak = ratio("1.4", "bad", "hazard ratio", adjusted="[age]")
    printed = passages("1.4; adjusted for age", "hazard ratio", FAR_COUNTED)
    assert open_problems(printed, counts(*FAR) + weak, files=FILES) == []


def test_the_table_of_the_ratio_itself_is_no_second_question(open_problems: Asked) -> None:
    contrast = next(line for line in ratio(event="bad").splitlines() if "contrast" in line).rstrip("}")
    (problem,) = open_problems(passages(), counts(SILICATE, OXIDE, more=f"{contrast}, where: p. 3}}\n"), files=FILES)
    assert problem.rule == "ratio-direction"
