"""An answer holds for its rule, its place and its printed text alone."""

from __future__ import annotations

import pytest
from passageproof.problems import as_texts

BIB = (
    "@article{x, author = {Marlow, Ines}, title = {T}, year = 2016, annotation = {[p. 1] a cohort, 110 teeth treated "
    "[p. 2] healed: 29% of 26 teeth [p. 3] healed: 29% of 26 teeth}}\n"
)
CLAIM = """\
- id: a
  question: hole
  outcome: healed
  events: not reported
  total: 26
  rate: 29%
  where: p. 2
  follow_up: not reported
"""
ANSWER = (
    '{rule: percent-impossible, printed: 29% of 26, by: IM, reason: "five teeth are left out, as the footnote says"}'
)


@pytest.fixture
def problems(audited, report_text):
    """The problems of one claim file."""

    def found(claims: str, top: str = "", bib: str = BIB, **more: str):
        files = {"claims/x.yaml": report_text("x", claims, top=top), "sources/x.bib": bib}
        return audited(files | {name.replace("_", "/") + ".yaml": text for name, text in more.items()})

    return found


def test_answered_question_stays_visible_and_fails_nothing(problems):
    result = problems(f"{CLAIM}  acknowledged: [{ANSWER}]\n")
    (problem,) = result.problems
    assert problem.acknowledged == "five teeth are left out, as the footnote says"
    assert result.passes


def test_open_question_fails_and_prints_the_block_ready_to_paste(problems):
    result = problems(CLAIM)
    (problem,) = result.problems
    assert not result.passes
    pasted = problem.hint.split("\n", 1)[1].replace("YOUR INITIALS", "IM")
    indented = "".join(f"  {line}\n" for line in pasted.splitlines())
    assert problems(CLAIM + indented).passes


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("29% of 26", "28% of 26"),
        ("percent-impossible", "percent-rounding"),
    ],
    ids=["another print", "another rule"],
)
def test_answer_to_something_else_is_an_error_and_answers_nothing(problems, old, new):
    result = problems(f"{CLAIM}  acknowledged: [{ANSWER.replace(old, new)}]\n")
    assert sorted(each.rule for each in result.problems) == ["acknowledgement-without-question", "percent-impossible"]
    assert not result.passes


def test_answer_in_another_claim_answers_nothing(problems):
    other = CLAIM.replace("id: a", "id: b").replace("p. 2", "p. 3")
    result = problems(f"{CLAIM}  acknowledged: [{ANSWER}]\n{other}")
    assert [each.acknowledged is None for each in result.problems] == [False, True]


def test_answer_whose_question_is_gone_is_an_error(problems):
    result = problems(f"{CLAIM}  acknowledged: [{ANSWER}]\n".replace("rate: 29%\n", "rate: not reported\n"))
    (problem,) = result.problems
    assert problem.rule == "acknowledgement-without-question"
    assert problem.position.column > 10


def test_answer_waits_while_its_figures_find_no_proof(problems):
    result = problems(
        f"{CLAIM}  acknowledged: [{ANSWER}]\n", bib=BIB.replace("29% of 26 teeth [p. 3]", "29% of 36 teeth [p. 3]")
    )
    assert not [each for each in result.problems if each.rule == "acknowledgement-without-question"]


def test_answer_to_an_error_says_that_an_error_takes_none(problems):
    answer = "{rule: figure-not-in-passage, printed: 28%, by: IM, reason: read so}"
    result = problems(f"{CLAIM.replace('29%', '28%')}  acknowledged: [{answer}]\n")
    (told,) = [problem for problem in result.problems if problem.rule == "acknowledgement-without-question"]
    (met,) = [problem for problem in result.problems if problem.rule == "figure-not-in-passage"]
    assert (told.severity, told.hint) == ("error", "mend it and delete the block")
    assert f"figure-not-in-passage is an error here (line {met.position.line})" in told.message


def test_advice_that_questions_of_one_claim_share_is_told_once(problems):
    first = problems(CLAIM).problems[0]
    texts = as_texts([first, first._replace(hint=first.hint.replace("29%", "30%")), first._replace(place="x/b")])
    assert ["look at the paper again" in text for text in texts] == [True, False, True]
    assert ["  - {rule: percent-impossible" in text for text in texts] == [True, True, True]


def test_blanks_of_the_printed_text_are_collapsed(problems):
    assert problems(f"{CLAIM}  acknowledged: [{ANSWER.replace('29% of 26', '29%  of   26')}]\n").passes


HUMAN = (
    "- {{id: {}, species: human, design: cohort, population: {{dentition: permanent}}, setting: {{centre: "
    "Fenwick, recruited: 1999 to 2009}}, unit: tooth, where: p. 1, flow: {{treated: 110}}}}"
)


@pytest.mark.parametrize("place", ["top", "study"])
def test_question_about_two_reports_is_answered_in_the_later_file(audited, report_text, place):
    answer = "{rule: looks-like-one-cohort, printed: t and s, with: x, by: IM, reason: two clinics of one name}"
    later = HUMAN.format("t")
    top = "nothing_claimed: read for its people\n"
    if place == "top":
        top += f"acknowledged: [{answer}]\n"
    else:
        later = later.removesuffix("}") + f", acknowledged: [{answer}]}}"
    bib = BIB + BIB.replace("{x,", "{y,")
    first = report_text("x", "[]", HUMAN.format("s"), "nothing_claimed: read\n").replace("claims:\n  []", "claims: []")
    second = report_text("y", "[]", later, top).replace("claims:\n  []", "claims: []")
    result = audited({"claims/x.yaml": first, "claims/y.yaml": second, "sources/x.bib": bib})
    (problem,) = result.problems
    assert problem.position.file == "evidence/claims/y.yaml"
    assert problem.acknowledged == "two clinics of one name"


def test_question_of_the_reading_is_answered_at_the_top(problems):
    bib = BIB.replace("a cohort", "a cohort [sic 5]")
    assert not problems(CLAIM.replace("29%", "not reported"), bib=bib).passes
    answer = 'acknowledged: [{rule: doubtful-bracket, printed: "[sic 5]", by: IM, reason: so printed}]\n'
    assert problems(CLAIM.replace("29%", "not reported"), top=answer, bib=bib).passes


@pytest.mark.parametrize(
    ("text", "quoted"),
    [
        ("29% of 26", "29% of 26"),
        ("2.9 (1.2 to 7.1), P .02", '"2.9 (1.2 to 7.1), P .02"'),
        ("a: b", '"a: b"'),
        ("-2.0", '"-2.0"'),
    ],
)
def test_printed_text_is_quoted_where_yaml_needs_it(text, quoted):
    from passageproof.proof.asking import in_yaml

    assert in_yaml(text) == quoted
