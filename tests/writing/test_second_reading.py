"""A second reader gets no value of the first, and both are laid side by side only when the second is done."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
import yaml
from passageproof.commands.verbs import main
from passageproof.writing.second_reading import compare
from passageproof.writing.starting import write_compendium

KEY = "example2024call"
PLACES = ("source", "id", "where")


@pytest.fixture
def root(tmp_path: Path) -> Path:
    write_compendium(tmp_path / "ours")
    return tmp_path / "ours"


def second(root: Path, key: str = KEY) -> int:
    return main("python -m builder", ["second", key, "--root", str(root)])


def first_text(root: Path) -> str:
    return (root / f"evidence/claims/{KEY}.yaml").read_text("utf-8")


def fill_in(root: Path, text: str) -> None:
    (root / "second-readings").mkdir(exist_ok=True)
    (root / f"second-readings/{KEY}.yaml").write_text(text, "utf-8")


def by_another(text: str) -> str:
    return re.sub(r"(read:\s*\{\s*by: )\w+|(?<=  by: )\w+", lambda found: f"{found[1] or ''}ZZ", text, count=1)


def values(node: object, name: str = "") -> list[tuple[str, str]]:
    if isinstance(node, dict):
        return [found for key, value in node.items() for found in values(value, str(key))]
    if isinstance(node, list):
        return [found for value in node for found in values(value, name)]
    return [(name, str(node))] if node is not None else []


def test_blank_form_has_names_places_and_passages_and_no_value(root: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert second(root) == 0
    assert "fill it in from the paper" in capsys.readouterr().out
    blank = (root / f"second-readings/{KEY}.yaml").read_text("utf-8")
    typed = values(yaml.load(blank, yaml.BaseLoader))
    assert {name for name, value in typed if value} == set(PLACES)
    ours = values(yaml.load(first_text(root), yaml.BaseLoader))
    assert [found for found in typed if found[1]] == [found for found in ours if found[0] in PLACES]
    assert "# [p. 5, Table 1] called: 52 of 60 patients came (87%)" in blank
    assert "acknowledged" not in blank
    # The check knows nothing of it.
    assert main("python -m builder", ["check", "--root", str(root)]) == 0


def test_reading_that_is_not_done_shows_nothing_of_the_first(root: Path, capsys: pytest.CaptureFixture[str]) -> None:
    second(root)
    capsys.readouterr()
    assert second(root) == 1
    said = capsys.readouterr()
    assert said.out == ""
    assert re.findall(rf"second-readings/{KEY}\.yaml:\d+:\d+: nothing is typed here yet", said.err)
    shown = re.sub(r"second-readings\S+", "", said.err)
    assert not re.search(r"\d|cohort|trial|called", shown)


def test_two_readings_that_agree_are_told_to_and_what_to_add(root: Path, capsys: pytest.CaptureFixture[str]) -> None:
    fill_in(root, by_another(first_text(root)))
    assert second(root) == 0
    said = capsys.readouterr().out
    found = re.match(r"(\d+) of (\d+) fields that both typed agree \(100%\)", said)
    assert found is not None
    assert int(found[1]) == int(found[2]) > 15
    assert "add `checked: {by: , on: }`" in said


def test_one_person_is_no_second_reader(root: Path, capsys: pytest.CaptureFixture[str]) -> None:
    fill_in(root, first_text(root))
    assert second(root) == 1
    assert "a second one is another person's" in capsys.readouterr().err


def test_each_disagreement_stands_on_its_line_with_both_values(root: Path, capsys: pytest.CaptureFixture[str]) -> None:
    text = by_another(first_text(root)).replace("events: 41", "events: 14")
    line = next(number for number, typed in enumerate(text.split("\n"), 1) if "events: 14" in typed)
    column = text.split("\n")[line - 1].index("14") + 1
    fill_in(root, text)
    assert second(root) == 1
    said = capsys.readouterr().out
    assert re.search(
        rf'^second-readings/{KEY}\.yaml:{line}:{column}: claims, [^:]*, events: "14" in the second', said, re.M
    )
    assert f'"41" in the first (evidence/claims/{KEY}.yaml:{line})' in said
    assert re.search(r"^  events: 1 of 2 \(50%\)$", said, re.MULTILINE)


FIRST = """
source: k
studies:
  - {id: s, design: cohort, selection: consecutive, flow: {treated: 40, due: 38}}
claims:
  - {id: a, events: 10, total: 20, success_rate: 50.0%, levels: [{level: small, events: 3}, {level: large, events: 7}]}
  - {id: b, adjusted_for: [age, size], timing: at}
  - {id: c, timing: last recall}
"""


def test_numbers_by_value_words_without_capitals_lists_in_any_order_and_levels_by_name() -> None:
    other = FIRST.replace("50.0%", "50%").replace("cohort", "Cohort").replace("[age, size]", "[size, age]")
    other = other.replace(
        "{level: small, events: 3}, {level: large, events: 7}", "{level: Large, events: 7}, {level: small, events: 3.0}"
    )
    found = compare(("a", FIRST), ("b", other))
    assert found.differing == ()
    assert found.alike == found.both == 14


def test_field_of_one_reader_alone_is_told_and_counts_for_no_agreement() -> None:
    found = compare(("a", FIRST), ("b", FIRST.replace("due: 38", "lost: 2")))
    told = {(each.path, each.first, each.second) for each in found.differing}
    assert told == {("studies, s, flow, due", "38", ""), ("studies, s, flow, lost", "", "2")}
    assert found.alike == found.both == 13


def test_kappa_of_a_closed_list_is_that_of_the_table() -> None:
    """Two readers on 50 papers, 20 both yes, 5 and 10 apart, 15 both no: kappa .4 (a table of this size is worked in
    many textbooks of Cohen's kappa, from memory; reckoned by hand: observed .7, by chance .5)."""

    def reading(words: list[str]) -> str:
        return "source: k\nclaims:\n" + "".join(f"  - {{id: c{n}, timing: {word}}}\n" for n, word in enumerate(words))

    first = ["at"] * 25 + ["last recall"] * 25
    other = ["at"] * 20 + ["last recall"] * 5 + ["at"] * 10 + ["last recall"] * 15
    found = compare(("a", reading(first)), ("b", reading(other)))
    [timing] = found.fields
    assert (timing.alike, timing.both) == (35, 50)
    assert timing.kappa == pytest.approx(0.4)


@pytest.mark.parametrize(
    ("key", "text", "words"),
    [
        ("nobody2020none", "", "a first reading has to be there"),
        ("../claims/x", "", '"../claims/x" cannot name a file of claims'),
        (KEY, "source: [", f"second-readings/{KEY}.yaml cannot be read: 2:1: a value is missing here"),
        (KEY, "- a list\n", f"second-readings/{KEY}.yaml cannot be read"),
    ],
)
def test_what_cannot_be_compared_is_told(
    root: Path, key: str, text: str, words: str, capsys: pytest.CaptureFixture[str]
) -> None:
    if text:
        fill_in(root, text)
    assert second(root, key) == 1
    assert words in capsys.readouterr().err
