"""Who was studied: flows, recall rates, facts told twice, and what must be told."""

from __future__ import annotations

import pytest

from .conftest import STUDY

CLAIM = "- {id: a, question: hole, outcome: healed, events: 1, total: 2, where: p. 2, follow_up: not applicable}"


def flow(text: str) -> str:
    return f"- {{id: a, species: bench, where: p. 1, flow: {{{text}}}}}"


@pytest.mark.parametrize(
    ("text", "found"),
    [
        # Farzaneh et al. 2004, J Endod 30:627-633 (pages from memory); the conference abstract of the same teeth, 2003.
        ("treated: 523, lost: 395, extracted: 25, examined: 103", []),
        ("treated: 524, discontinued: 144, lost: 251, extracted: 25, examined: 104", []),
        # De Chevigny et al. 2008, J Endod 34:258-263: those discontinued are among the 430 lost.
        ("treated: 582, lost: 430, discontinued: 99, extracted: 15, examined: 137", []),
        (
            "treated: 523, lost: 395, extracted: 26, examined: 103",
            ["flow-does-not-add-up: 103 examined + 395 lost + 26 extracted of 523"],
        ),
        ("treated: 58, due: 55, examined: 47, lost: 8", []),
        ("treated: 58, examined: 47, lost: 12", ["flow-does-not-add-up: 47 examined + 12 lost of 58"]),
        ("treated: 58, examined: 47, lost: 9, died: not reported", []),
        ("treated: 58, due: 59", ["flow-does-not-add-up: 59 due of 58 treated"]),
        ("due: 55, examined: 56", ["flow-does-not-add-up: 56 examined of 55 due"]),
    ],
)
def test_counts_of_a_flow_fit_each_other(asked, text, found):
    assert asked(CLAIM, flow(text)) == found


@pytest.mark.parametrize(
    ("text", "found"),
    [
        # Mente et al. 2010, J Endod 36:208-213: 21 of 26; Krupp et al. 2013: 90 of 128; Farzaneh et al. 2004: 34 %.
        ("treated: 26, examined: 21, recall: {rate: 81%}", []),
        ("treated: 128, examined: 90, recall: {rate: 70.3%, of: [treated]}", []),
        ("treated: 523, examined: 103, recall: {rate: 34%}", ["recall-disagrees: 34% of 523"]),
        (
            "treated: 523, discontinued: 144, examined: 103, extracted: 25, "
            "recall: {rate: 34%, seen: [examined, extracted], of: [treated], less: [discontinued]}",
            [],
        ),
        ("due: 55, treated: 58, examined: 47, recall: {rate: 85%}", []),
        ("due: 55, treated: 58, examined: 47, recall: {rate: 81%}", ["recall-disagrees: 81% of 55"]),
        ("treated: not reported, examined: 47, recall: {rate: 81%}", []),
    ],
)
def test_recall_rate_is_made_of_its_counts(asked, text, found):
    assert asked(CLAIM, flow(text)) == found


def test_more_people_than_teeth_is_asked(asked):
    study = "- {id: a, species: bench, unit: tooth, where: p. 1, flow: {treated: 50}, patients: {treated: 60}}"
    assert asked(CLAIM, study) == ["flow-does-not-add-up: 60 patients, 50 tooth"]


@pytest.mark.parametrize(
    ("study", "lacking"),
    [
        (
            "- {id: a, species: human, population: {dentition: not reported}, setting: not reported, unit: not "
            "reported, where: p. 1}",
            "",
        ),
        (
            "- {id: a, species: human, population: {age: adults}, setting: not reported, unit: tooth, where: p. 1}",
            "dentition",
        ),
        ("- {id: a, species: human, population: {dentition: permanent}, unit: tooth, where: p. 1}", "setting"),
        (
            "- {id: a, species: human, population: {dentition: permanent}, setting: {operators: residents}, "
            "where: p. 1}",
            "unit",
        ),
        ("- {id: a, species: animal, where: p. 1}", ""),
    ],
)
def test_a_study_in_people_tells_who_they_were(reckoned, study, lacking):
    found = reckoned(CLAIM, study)
    assert [each.rule for each in found] == (["study-incomplete"] if lacking else [])
    assert all(lacking in each.message for each in found)


def entry(key: str, year: int, author: str = "Marlow, Ines") -> str:
    return (
        f"@article{{{key}, author = {{{author}}}, title = {{T}}, year = {year}, annotation = {{[p. 1] 110 "
        f"teeth treated, 124 teeth treated}}}}\n"
    )


@pytest.fixture
def two(audited, report_text):
    """What is asked about two reports, aa of 2016 and bb of 2022, of one study each."""

    def problems(first: str, second: str, author: str = "Marlow, Ines") -> list[str]:
        top = "nothing_claimed: read for the flow\n"
        files = {
            f"claims/{key}.yaml": report_text(key, "[]", study, top).replace("claims:\n  []", "claims: []")
            for key, study in (("aa", first), ("bb", second))
        }
        files["sources/x.bib"] = entry("aa", 2016) + entry("bb", 2022, author)
        found = audited(files).problems
        return [f"{each.position.file[-7:-5]} {each.rule}: {each.printed or each.message}" for each in found]

    return problems


HUMAN = (
    "- {{id: {id}, species: human, design: cohort, population: {{dentition: permanent{population}}}, "
    "setting: {{centre: {centre}, recruited: {recruited}}}, unit: tooth, where: p. 1, flow: {{treated: {treated}}}}}"
)


def human(
    id: str, treated: int = 110, centre: str = "Fenwick", recruited: str = "1999 to 2009", population: str = ""
) -> str:
    return HUMAN.format(id=id, treated=treated, centre=centre, recruited=recruited, population=population)


def test_a_study_that_grew_is_no_question(two):
    # Gorni et al. 2016 and 2022, J Endod: 110, then 124 of the same recruitment.
    assert two(human("s"), human("s", 124)) == []


def test_a_later_report_that_counts_fewer_is_asked(two):
    assert two(human("s", 124), human("s", 110)) == ["bb facts-of-study-disagree: 110 treated, 124 treated"]


def test_a_fact_given_twice_and_differently_is_an_error(two):
    (found,) = two(human("s"), human("s", centre="Brackwater"))
    assert found.startswith("bb facts-of-study-disagree: setting centre")


def test_same_centre_and_time_look_like_one_cohort(two):
    # Gorni et al. 2016 and 2022 give the same recruitment, 1999 to 2009.
    assert two(human("s"), human("t", 124)) == ["bb looks-like-one-cohort: t and s"]


@pytest.mark.parametrize(
    "other",
    [
        human("t", centre="Brackwater"),
        human("t", recruited="2010 to 2014"),
        human("t", population=", treatment: surgery"),
    ],
    ids=["another centre", "another time", "another treatment"],
)
def test_cohorts_that_differ_where_both_tell_it_are_two(two, other):
    assert two(human("s", population=", treatment: initial"), other) == []


def test_a_shared_author_and_time_are_asked_where_the_centre_is_not_told(two):
    unknown = human("t").replace("centre: Fenwick, ", "")
    assert two(human("s"), unknown) == ["bb looks-like-one-cohort: t and s"]
    assert two(human("s"), unknown, "Okafor, Tam") == []


def test_a_writer_who_lists_both_studies_told_them_apart(two):
    assert two(human("s"), human("t") + "\n- {id: s, where: p. 1}") == []


def test_a_review_is_no_cohort(two):
    assert two(human("s"), human("t").replace("design: cohort", "design: systematic review")) == []


DESIGNS = ("prospective cohort", "case series", "randomised trial", "not reported", "before-and-after study")


@pytest.mark.parametrize("design", [*DESIGNS, "RCT", "Registry", "in vitro", "network meta-analysis"])
def test_a_design_by_a_known_word_is_not_asked_about(asked, design):
    assert asked(CLAIM_OF_STUDY, STUDY.replace("cohort", design)) == []


def test_a_design_without_any_known_word_is_asked_about_in_its_study(reckoned):
    (problem,) = reckoned(CLAIM_OF_STUDY, STUDY.replace("cohort", "cohrt"))
    assert (problem.rule, problem.printed, problem.place) == ("design-unknown", "cohrt", "x/studies/fenwick")
    assert problem.message.endswith("; did you mean cohort?; is that its name?")


CLAIM_OF_STUDY = """\
- id: a
  question: hole
  outcome: healed
  events: 39
  total: 47
  where: p. 2
  follow_up: not reported
"""
