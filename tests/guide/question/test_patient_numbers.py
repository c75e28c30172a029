"""What may be told to a patient: both ways round, counted when small, of a hundred when large."""

from __future__ import annotations

import pytest
from guide.compendium import catalogue_of, figures, report, said
from passageproof.guide.question.patient_numbers import (
    drawing,
    format_of,
    patient_numbers,
    probable,
    refusal,
    seen_again,
)
from passageproof.guide.question.patient_sentence import sentence
from passageproof.results.findings.findings import Catalogue, Finding

QUESTION = {"questions/hole.yaml": "id: hole\ntitle: There is a hole\n"}
AT = "{from: repair, timing: at, at: 24 months, tolerance: 6 months, where: 'p. 2'}"


def rate_of(events: int, total: int, outcome: str = "healed") -> tuple[Catalogue, Finding]:
    """One rate of one study."""
    counts = f"events: {events}, total: {total}"
    claims = f"- {{id: all, question: hole, outcome: {outcome}, {counts}, where: 'p. 3', follow_up: {AT}}}"
    files = report(
        "marlow2019", claims, "[p. 2] seen at 24 months, give or take 6 months", f"[p. 3] {events} of {total} teeth"
    )
    catalogue = catalogue_of(QUESTION | files)
    return catalogue, catalogue.of_claim("marlow2019/all")[0]


def estimate_of(text: str, passage: str, outcome: str = "lost") -> tuple[Catalogue, Finding]:
    """One estimate at a time of one study."""
    claims = (
        f"- {{id: all, question: hole, outcome: {outcome}, where: 'p. 3', follow_up: not applicable, estimate: {text}}}"
    )
    catalogue = catalogue_of(QUESTION | report("marlow2019", claims, f"[p. 3] {passage}"))
    return catalogue, catalogue.of_claim("marlow2019/all")[0]


def test_below_fifty_the_real_count_is_said():
    catalogue, finding = rate_of(17, 20)
    item = patient_numbers(catalogue, "hole", finding, format_of([finding]))
    assert said(sentence(item)) == "17 of 20 teeth in one study: healed; 3 not so."


def test_below_fifty_nothing_is_said_of_a_hundred():
    catalogue, finding = rate_of(17, 20)
    assert "100" not in said(probable(patient_numbers(catalogue, "hole", finding, format_of([finding]))))


def test_from_fifty_it_is_so_many_of_a_hundred():
    catalogue, finding = rate_of(43, 50)
    item = patient_numbers(catalogue, "hole", finding, format_of([finding]))
    assert (
        said(sentence(item)) == "43 of 50 teeth in one study: healed. That is 86 of every 100; 14 of every 100 not so."
    )


def test_limits_of_a_hundred_are_those_of_wilson():
    # Newcombe 1998, Stat Med 17:857-872, Table I, method 3: 81/263 gives 0.2553 to 0.3662 (digits recomputed, the
    # printed table was not at hand).
    catalogue, finding = rate_of(81, 263)
    item = patient_numbers(catalogue, "hole", finding, format_of([finding]))
    assert said(probable(item)) == "healed: probably between 26 and 37 of 100 (reckoned from the counts)."


def test_an_interval_that_the_report_prints_is_the_one_that_is_told():
    claims = (
        "- {id: all, question: hole, outcome: healed, events: 94, total: 110, success_rate: 85%, interval: 79% to 92%, "
        f"where: 'p. 3', follow_up: {AT}}}"
    )
    files = report(
        "marlow2019", claims, "[p. 2] seen at 24 months, give or take 6 months",
        "[p. 3] 94 of 110 teeth healed (85%; 95% CI 79% to 92%)",
    )  # fmt: skip
    catalogue = catalogue_of(QUESTION | files)
    (finding,) = catalogue.of_claim("marlow2019/all")
    item = patient_numbers(catalogue, "hole", finding, format_of([finding]))
    assert said(probable(item)) == "healed: probably between 79 and 92 of 100 (the report's own interval)."
    assert item.low is not None
    assert item.low.derived_from == ("marlow2019/all/interval/low",)


def test_all_of_hundreds_but_one_is_never_said_to_be_all():
    catalogue, finding = rate_of(399, 400)
    item = patient_numbers(catalogue, "hole", finding, format_of([finding]))
    assert (
        said(sentence(item))
        == "399 of 400 teeth in one study: healed. That is over 99 of every 100; under 1 of every 100 not so."
    )


@pytest.mark.parametrize(("events", "total"), [(171, 200), (57, 200), (1, 200), (100, 200), (94, 110)])
def test_the_two_frames_add_up_to_the_hundred(events: int, total: int):
    catalogue, finding = rate_of(events, total)
    item = patient_numbers(catalogue, "hole", finding, format_of([finding]))
    assert item.counted is not None
    assert item.others is not None
    assert item.counted.number + item.others.number == 100


def test_a_bad_ending_is_counted_as_bad():
    catalogue, finding = rate_of(10, 50, "lost")
    item = patient_numbers(catalogue, "hole", finding, format_of([finding]))
    assert (
        said(sentence(item))
        == "10 of 50 teeth in one study: healing lost. That is 20 of every 100; 80 of every 100 not so."
    )


def test_filled_marks_are_those_who_did_well_even_of_a_bad_ending():
    catalogue, finding = rate_of(10, 50, "lost")
    plot = drawing(patient_numbers(catalogue, "hole", finding, format_of([finding])))
    assert plot is not None
    assert (plot.filled, plot.total) == (80, 100)


def test_small_groups_are_drawn_as_they_were_counted():
    catalogue, finding = rate_of(17, 20)
    plot = drawing(patient_numbers(catalogue, "hole", finding, format_of([finding])))
    assert plot is not None
    assert (plot.filled, plot.total) == (17, 20)


def test_fewer_than_ten_are_not_drawn():
    catalogue, finding = rate_of(7, 9)
    assert drawing(patient_numbers(catalogue, "hole", finding, format_of([finding]))) is None


def test_caption_repeats_the_figures_of_the_sentence():
    catalogue, finding = rate_of(43, 50)
    item = patient_numbers(catalogue, "hole", finding, format_of([finding]))
    plot = drawing(item)
    assert plot is not None
    assert set(figures(plot.finding)) <= set(figures(sentence(item)))
    assert set(figures(plot.finding)) == {item.counted.id, item.others.id} if item.counted and item.others else False


def test_of_a_hundred_is_a_figure_of_its_own_derived_from_both_counts():
    catalogue, finding = rate_of(43, 50)
    item = patient_numbers(catalogue, "hole", finding, format_of([finding]))
    assert item.counted is not None
    assert item.counted.id == "hole/overall/patient-marlow2019-all-per-100"
    assert item.counted.derived_from == ("marlow2019/all/events", "marlow2019/all/total")
    assert item.counted.formula.startswith("per 100")


def test_survival_keeps_its_printed_interval():
    catalogue, finding = estimate_of(
        "{kind: survival, at: 5 years, value: 71%, interval: 55% to 85%, starting: 80, at_risk: 21, from: repair}",
        "of 80 teeth 71% at 5 years (95% CI 55 to 85), 21 at risk",
        "kept",
    )
    item = patient_numbers(catalogue, "hole", finding, format_of([finding]))
    # The share of a curve is no count, and whoever left it before its end is told of whether or not a reason is.
    assert said(sentence(item)) == (
        "In one study of 80 teeth, about 71 of every 100 were still there; 29 of every 100 were not. "
        "Some teeth could not be watched to the end; 21 were still followed by then."
    )
    assert said(probable(item)) == "still there: probably between 55 and 85 of 100 (the report's own interval)."


def test_survival_of_something_bad_counts_those_it_spared():
    catalogue, finding = estimate_of(
        "{kind: survival, at: 5 years, value: 71%, starting: 80, at_risk: 21, from: healing}",
        "of 80 teeth 71% at 5 years, 21 at risk",
    )
    item = patient_numbers(catalogue, "hole", finding, format_of([finding]))
    assert (
        said(sentence(item))
        == "In one study of 80 teeth, about 71 of every 100: without healing lost; 29 of every 100 with it. "
        "Some teeth could not be watched to the end; 21 were still followed by then."
    )


def test_other_endings_are_said_and_nothing_is_drawn_where_they_blur_the_rest():
    catalogue, finding = estimate_of(
        "{kind: cumulative incidence, at: 5 years, value: 26%, starting: 80, at_risk: 21, from: healing, "
        "competing: [death]}",
        "of 80 teeth 26% at 5 years, 21 at risk",
    )
    item = patient_numbers(catalogue, "hole", finding, format_of([finding]))
    assert "could not be watched to the end; 21 were still followed by then." in said(sentence(item))
    assert drawing(item) is None


def test_interval_that_was_not_reported_is_said_to_be_missing():
    catalogue, finding = estimate_of(
        "{kind: survival, at: 5 years, value: 71%, interval: not reported, starting: 80, at_risk: 21, from: repair}",
        "of 80 teeth 71% at 5 years, 21 at risk",
        "kept",
    )
    item = patient_numbers(catalogue, "hole", finding, format_of([finding]))
    assert said(probable(item)) == "How far off this may be is not reported."


def test_small_estimate_stays_in_words_since_it_has_no_counts():
    catalogue, finding = estimate_of(
        "{kind: survival, at: 5 years, value: 71%, starting: 39, at_risk: 21, from: repair}",
        "of 39 teeth 71% at 5 years, 21 at risk",
        "kept",
    )
    item = patient_numbers(catalogue, "hole", finding, format_of([finding]))
    assert said(sentence(item)).startswith("In one study, 5 years after repair: tooth there: 71% still so (")


def test_one_small_level_brings_all_levels_to_counts():
    levels = "[{level: up to 3 mm, events: 70, total: 80}, {level: over 3 mm, events: 7, total: 12}]"
    claims = (
        f"- {{id: by-size, question: hole, outcome: healed, factor: size, known_at: before, reference: up to 3 mm, "
        f"where: 'p. 3', follow_up: {AT}, levels: {levels}}}"
    )
    files = report(
        "marlow2019", claims, "[p. 2] at 24 months, give or take 6 months",
        "[p. 3] up to 3 mm: 70 of 80 healed; over 3 mm: 7 of 12",
    )  # fmt: skip
    catalogue = catalogue_of(QUESTION | files)
    assert format_of(catalogue.of_claim("marlow2019/by-size")) == "counts"


@pytest.mark.parametrize(
    ("estimate", "passage", "reason"),
    [
        (
            "{kind: yearly rate, value: 2.6%, starting: 80}",
            "2.6% a year of 80 teeth",
            "a yearly rate is no number at a time",
        ),
        (
            "{kind: survival, at: 5 years, value: 71%, starting: not reported, at_risk: not reported}",
            "71% at 5 years",
            "neither the number at the start nor the number at risk is reported",
        ),
    ],
    ids=["yearly", "nobody-at-risk"],
)
def test_estimate_is_refused(estimate: str, passage: str, reason: str):
    _, finding = estimate_of(estimate, passage)
    assert refusal(finding) == reason


def test_incidence_of_something_good_is_refused_since_nobody_can_tell_which_share_did_well():
    _, finding = estimate_of(
        "{kind: cumulative incidence, at: 5 years, value: 71%, starting: 80, at_risk: 21, from: repair}",
        "of 80 teeth 71% at 5 years, 21 at risk",
        "kept",
    )
    assert refusal(finding) == "whether what it counts is good or bad is not clear"


def test_rate_without_a_time_is_refused():
    claims = (
        "- {id: all, question: hole, outcome: healed, events: 17, total: 20, where: 'p. 3', follow_up: not reported}"
    )
    catalogue = catalogue_of(QUESTION | report("marlow2019", claims, "[p. 3] 17 of 20 teeth"))
    assert refusal(catalogue.of_claim("marlow2019/all")[0]) == "when it was counted is not reported"


def test_animals_are_refused():
    claims = f"- {{id: all, question: hole, outcome: healed, events: 17, total: 20, where: 'p. 3', follow_up: {AT}}}"
    files = report(
        "marlow2019", claims, "[p. 2] at 24 months, give or take 6 months", "[p. 3] 17 of 20 teeth", species="animal"
    )
    assert refusal(catalogue_of(QUESTION | files).of_claim("marlow2019/all")[0]).startswith("not people")


def test_those_due_and_not_seen_are_named_beside_the_rate():
    claims = (
        f"- {{id: all, question: hole, outcome: healed, events: 17, total: 20, where: 'p. 3', follow_up: {AT}, "
        "flow: {due: 26, examined: 20, where: 'p. 4'}}"
    )
    files = report(
        "marlow2019", claims, "[p. 2] at 24 months, give or take 6 months", "[p. 3] 17 of 20 teeth",
        "[p. 4] 26 teeth due, 20 examined",
    )  # fmt: skip
    finding = catalogue_of(QUESTION | files).of_claim("marlow2019/all")[0]
    assert said(seen_again(finding)) == "20 of 26 teeth whose time had come were seen again"


@pytest.mark.parametrize(
    ("events", "total", "words"),
    [
        (20, 28, "20 of 28 teeth in one study: healed; 8 not so. That is about 7 of every 10."),
        (39, 40, "39 of 40 teeth in one study: healed; 1 not so. That is over 9 of every 10."),
        (1, 40, "1 of 40 teeth in one study: healed; 39 not so. That is under 1 of every 10."),
        (40, 40, "40 of 40 teeth in one study: healed; 0 not so. That is 10 of every 10."),
    ],
)
def test_small_groups_side_by_side_share_the_number_they_are_of(events: int, total: int, words: str):
    levels = (
        f"levels: [{{level: up to 3 mm, events: 9, total: 10}}, {{level: over 3 mm, events: {events}, total: {total}}}]"
    )
    claims = (
        "- {id: by-size, question: hole, factor: size, known_at: before, outcome: healed, reference: up to 3 mm, "
        f"where: 'p. 3', follow_up: {AT}, {levels}}}"
    )
    files = report(
        "marlow2019", claims, "[p. 2] seen at 24 months, give or take 6 months",
        f"[p. 3] up to 3 mm: 9 of 10 healed; over 3 mm: {events} of {total}",
    )  # fmt: skip
    catalogue = catalogue_of(QUESTION | files)
    wide = next(item for item in catalogue.of_claim("marlow2019/by-size") if item.level.level.text == "over 3 mm")
    assert said(sentence(patient_numbers(catalogue, "hole", wide, "counts"))) == words
