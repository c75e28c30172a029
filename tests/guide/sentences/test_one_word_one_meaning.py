"""Whether somebody stands behind advice is said in one way, and of one thing never two ways."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from demo import demo_built, demo_evidence
from guide.compendium import catalogue_of, nothing_named, said
from passageproof.build import Built
from passageproof.guide.question.conference_page import conference_page
from passageproof.guide.question.question_page import question_page
from passageproof.guide.sentences.advice import advice_list, question_ratified

ROOT = Path(__file__).parents[3]
QUESTIONS = demo_evidence().questions
PEOPLE = "ratified: {by: [IM], on: 2026-10-01}"
UNSET = "{words: Stop., basis: {kind: local protocol, state: not set}%s}"


@pytest.fixture(scope="module")
def demo() -> Built:
    return demo_built()


def question(text: str) -> str:
    return f"id: hole\ntitle: There is a hole\n{text}"


@pytest.mark.parametrize("where", ["", PEOPLE], ids=["by nobody", "as a whole"])
@pytest.mark.parametrize("own", ["", f", {PEOPLE}"], ids=["", "by its own people"])
def test_advice_whose_local_protocol_is_not_set_is_not_called_ratified(where: str, own: str) -> None:
    catalogue = catalogue_of({"questions/hole.yaml": question(f"{where}\nstop: [{UNSET % own}]\n")})
    item = catalogue.evidence.questions["hole"]
    (entry,) = advice_list(item.stop, "stop", catalogue, nothing_named, item.ratified).entries
    assert said(entry.basis) == "local protocol, not set"
    assert entry.ratified == ()


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("stop: [{words: Stop., basis: {kind: common practice}}]", "not yet ratified"),
        (f"stop: [{{words: Stop., basis: {{kind: common practice}}, {PEOPLE}}}]", "ratified in part"),
        (f"options: [{{id: wait, title: Wait, {PEOPLE}}}]", "ratified in part"),
        (PEOPLE, "ratified by Ines Marlow on 2026-10-01"),
    ],
)
def test_every_page_of_a_question_says_the_same_of_it_as_a_whole(text: str, expected: str) -> None:
    catalogue = catalogue_of({"questions/hole.yaml": question(text)})
    item = catalogue.evidence.questions["hole"]
    assert said(question_ratified(item, catalogue)) == expected
    for make in (question_page, conference_page):
        assert expected in said(make(catalogue, item, nothing_named))


def lines(page: str) -> list[str]:
    """What each line of a page says, that of its list below it among them."""
    parts = re.findall(r"<(?:p|li|td|dd)\b[^>]*>(.*?)</(?:p|li|td|dd)>", page, re.DOTALL)
    return [" ".join(re.sub(r"<[^>]+>", " ", part).split()) for part in parts]


@pytest.mark.parametrize("name", QUESTIONS)
def test_no_line_of_the_demonstration_is_both_ratified_and_not_set(demo: Built, name: str) -> None:
    of_question = [path for path in demo.files if path.startswith(f"{name}/") and path.endswith("index.md")]
    assert len(of_question) > 5
    told = [line for path in of_question for line in lines(demo.files[path])]
    unset = [line for line in told if "local protocol, not set" in line]
    assert unset
    # What the line below a list says of its other entries is said of those.
    both = [
        line for line in unset if "ratified" in re.sub(r"A line with another basis is (?:not yet )?ratified", "", line)
    ]
    assert both == []
    conference = demo.files[f"{name}/conference/index.md"]
    assert "ratified in part" in conference
    assert "not yet ratified" not in conference


def test_no_second_word_says_that_somebody_stands_behind_advice(demo: Built) -> None:
    for path in demo.files:
        if path.endswith("index.md"):
            assert not re.search(r"\bapproved\b|\bagreed (?:on )?<time", demo.files[path]), path
