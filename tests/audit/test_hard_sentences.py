"""A patient's sheet that is too hard to read is asked about at its hardest sentence."""

from __future__ import annotations

import pytest
import textstat
from passageproof.audit.hard_sentences import counts_of

QUESTION = "id: hole\ntitle: There is a hole\n"
HARD = (
    "Radiographic surveillance of the periapical region is recommended at regular intervals.",
    "Instrumentation complications necessitate interdisciplinary evaluation of the periradicular tissues.",
    "Subsequent management depends upon individual circumstances and therapeutic preferences.",
)
EASY = (
    "There is a small hole in your tooth, and we can close it today or when you come again.",
    "It may hurt for a day or two. Ring us if it gets worse, or if your face swells.",
)
ANSWER = 'acknowledged:\n  - {{rule: sheet-hard-to-read, printed: "{}", by: IM, reason: "no other words will do"}}\n'


def sheet(name: str, *sentences: str) -> str:
    return f"{QUESTION}patient:\n  {name}:\n" + "".join(f"    - {each}\n" for each in sentences)


@pytest.mark.parametrize("name", ["chair", "afterwards"])
def test_the_hardest_sentence_is_named_on_its_line(audited, name: str) -> None:
    (problem,) = audited({"questions/hole.yaml": sheet(name, *HARD)}).problems
    assert (str(problem.position), problem.rule, problem.severity) == (
        "evidence/questions/hole.yaml:6:7",
        "sheet-hard-to-read",
        "ask",
    )
    assert f"the sentences under `{name}` read like grade" in problem.message
    assert "at the top of evidence/questions/hole.yaml" in problem.hint


@pytest.mark.parametrize(
    "sentences", [EASY, HARD[:1], (*EASY, EASY[0], HARD[1])], ids=["easy", "few words", "one hard word among easy ones"]
)
def test_what_is_easy_or_too_short_to_tell_is_not_asked_about(audited, sentences) -> None:
    assert audited({"questions/hole.yaml": sheet("chair", *sentences)}).problems == ()


def test_an_answer_stands_at_the_top_of_the_question_file(audited) -> None:
    text = sheet("chair", *HARD)
    (problem,) = audited({"questions/hole.yaml": text + ANSWER.format(HARD[1])}).problems
    assert problem.acknowledged == "no other words will do"
    problems = audited({"questions/hole.yaml": text + ANSWER.format(HARD[0])}).problems
    assert [each.rule for each in problems if each.is_open] == [
        "sheet-hard-to-read",
        "acknowledgement-without-question",
    ]
    unknown = audited({"questions/hole.yaml": text + ANSWER.format(HARD[1]).replace("IM", "XX")}).problems
    assert [each.rule for each in unknown if each.is_open] == ["person-unknown"]


# Smith & Senter 1967, AMRL-TR-66-220; Coleman & Liau 1975, J Appl Psychol 60:283-284: as the library textstat has them,
# which counts stops and commas among the letters of the first.
@pytest.mark.parametrize("sentences", [EASY, HARD, EASY + HARD])
def test_the_measures_are_those_of_a_library(sentences) -> None:
    text = " ".join(sentences)
    both = textstat.automated_readability_index(text), textstat.coleman_liau_index(text)
    assert counts_of(text).grade == pytest.approx(min(both), abs=0.7)


def test_a_figure_that_is_named_counts_as_no_word() -> None:
    assert counts_of("Most ($marlow2019furcal/overall) heal.") == counts_of("Most () heal.")
