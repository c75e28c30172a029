"""The desk speaks of fields and passages, and of neither files nor lines nor the notation of a file."""

from __future__ import annotations

import copy
import re
from pathlib import Path
from typing import Any

import pytest
from desk.drafts import Draft, drafts_of, spoilt
from desk.test_session import copied
from passageproof.desk.choices import form
from passageproof.desk.session import Session
from passageproof.desk.wording import label, told
from passageproof.problems import Position, Problem
from passageproof.rendering.evidence_host import host_of, told_host

EXAMPLE = Path(__file__).parent.parent / "example"
OF_A_FILE = r"\.yaml|\.bib\b|evidence/|\blines? \d|[{}`]|\backnowledged\b|YAML|compendium|vocabulary"


@pytest.fixture(scope="module")
def session(tmp_path_factory: pytest.TempPathFactory) -> Session:
    return Session(copied(EXAMPLE, tmp_path_factory.mktemp("desk")))


@pytest.fixture(scope="module")
def drafts() -> dict[str, Draft]:
    return drafts_of(EXAMPLE)


def without_what_was_typed(text: str) -> str:
    return re.sub(r'"(?:[^"]|"(?=[^\s,;:?]))*"', "", text)


def test_no_message_of_three_hundred_drafts_names_a_file(session: Session, drafts: dict[str, Draft]) -> None:
    odd, told_of = [], set()
    for draft in spoilt(drafts, 300):
        for each in session.near(draft)["problems"]:
            if each.get("passage", 0) == -1:
                continue  # the entry is BibTeX at the desk too
            told_of.add(each["rule"])
            text = without_what_was_typed(" ".join([each["said"], *each["mend"]]))
            typed = re.search(r"(?:write it|type|:) [{\[].*", text)
            if re.search(OF_A_FILE, text) and not typed:
                odd.append(text)
            assert each["mend"], each
    assert odd == []
    assert len(told_of) > 15


def test_no_help_of_a_field_names_a_file() -> None:
    said: list[str] = []

    def walk(schema: Any, name: str) -> None:
        if isinstance(schema, dict):
            said.extend([text for text in [schema.get("description")] if isinstance(text, str) and name])
            for inner, each in schema.items():
                walk(each, inner if inner not in ("$defs", "properties") else "")
        elif isinstance(schema, list):
            for each in schema:
                walk(each, name)

    walk({name: each.get("properties", {}) for name, each in form()["$defs"].items()}, "")
    assert len(set(said)) > 50
    assert [text for text in said if re.search(r"\.yaml|\.bib\b|\bthis file\b|\bblock\b|_|brackets", text)] == []


@pytest.mark.parametrize(
    ("rule", "message", "hint", "said", "mend", "put", "meant"),
    [
        ("where-unknown", 'x2020y has no passage "p. 4" (evidence/sources/x2020y.bib:9)', 'where: "p. 46, Table 2"',
         'x2020y has no passage "p. 4"', "Where: p. 46, Table 2", (("where", "p. 46, Table 2"),), ""),
        ("not-a-percentage", '"80" is no percentage such as .5%', "did you mean 80%?",
         '"80" is no percentage such as .5%', "did you mean 80%?", (), "80%"),
        ("factor-unknown", 'vocabulary.yaml has no factor "siz"; did you mean size?',
         "type size; or define it under `factors` of evidence/vocabulary.yaml",
         'this guide has no factor "siz"; did you mean size?',
         "type size; or ask whoever keeps this guide to add it", (), "size"),
        ("missing-field", "a claim needs `known_at`", "known_at: before, during or after",
         "a claim needs “Known at”", "Known at: before, during or after", (), ""),
        ("figure-means-something-else", '"140" is typed for the number due (`due`)', "due: 152, examined: 140",
         '"140" is typed for the number due (“Due”)', "Due: 152; Examined: 140",
         (("due", "152"), ("examined", "140")), ""),
        ("event-opposite", '"2": the claim has `event_is: bad`', "event_is: good",
         '"2": the claim has “Event is: bad”', "Event is: good", (("event_is", "good"),), ""),
    ],
)  # fmt: skip
def test_what_to_type_is_told_by_labels_and_can_be_put_in(
    rule: str, message: str, hint: str, said: str, mend: str, put: tuple[tuple[str, str], ...], meant: str
) -> None:
    fields = {"where", "known_at", "due", "examined", "event_is"}
    found = told(Problem(Position("evidence/claims/x.yaml", 3, 1), rule, "error", message, hint), fields)
    assert (found.said, found.mend, found.put, found.meant) == (said, (mend,), put, meant)
    assert label("known_at") == "Known at"


def test_a_question_is_answered_in_its_own_place_and_counts_as_answered(
    session: Session, drafts: dict[str, Draft]
) -> None:
    """What the page types when somebody answers: rule and printed text as they were asked, reason and initials."""
    draft = copy.deepcopy(drafts["marlow2019furcal"])
    sound = session.near(draft)["proved"]
    draft["claims"]["claims"][0]["success_rate"] = "85%"
    draft["passages"][1]["text"] = draft["passages"][1]["text"].replace("83%", "85%")
    asked = next(each for each in session.near(draft)["problems"] if each["severity"] == "ask")
    assert asked["rule"] == "percent-impossible"
    # A number that is asked about is not counted as proved.
    assert session.near(draft)["proved"] < sound
    assert asked["place"].split("/")[1] == draft["claims"]["claims"][0]["id"]
    answer = {**asked["answer"], "by": "IM", "reason": "the table leaves one out"}
    draft["claims"]["claims"][0]["acknowledged"] = [answer]
    open_ones = [each for each in session.near(draft)["problems"] if each["acknowledged"] is None]
    assert open_ones == []
    assert session.near(draft)["proved"] == sound
    assert session.whole(draft)["passes"]


def test_what_a_study_lacks_is_told_at_the_block_that_lacks_it(session: Session, drafts: dict[str, Draft]) -> None:
    draft = copy.deepcopy(drafts["marlow2019furcal"])
    del draft["claims"]["studies"][0]["population"]["dentition"]
    [missing] = [each for each in session.near(draft)["problems"] if each["rule"] == "study-incomplete"]
    assert missing["path"] == ["studies", 0, "population"]
    assert missing["put"] == [("dentition", "not reported")] or list(missing["put"][0]) == ["dentition", "not reported"]


@pytest.mark.parametrize(
    ("repository", "new", "name", "value"),
    [
        ("https://github.com/fenwick/guide", "https://github.com/fenwick/guide/new/main", "filename", "value"),
        (
            "https://gitlab.example.org/a/b/guide.git",
            "https://gitlab.example.org/a/b/guide/-/new/main",
            "file_name",
            "",
        ),
        ("https://codeberg.org/fenwick/guide/", "https://codeberg.org/fenwick/guide/_new/main/", "filename", "value"),
    ],
)
def test_each_host_opens_a_new_file_in_its_own_way(repository: str, new: str, name: str, value: str) -> None:
    assert host_of(repository) == (new, name, value)
    assert ("paste" in told_host(repository)) == (not value)


@pytest.mark.parametrize("repository", ["", "https://example.org/a/b", "http://github.com/a/b", "https://github.com/a"])
def test_of_other_hosts_nothing_is_made_up(repository: str) -> None:
    assert host_of(repository) is None
    assert "copied" in told_host(repository)
