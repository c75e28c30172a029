"""What somebody does wrong who adds a first report: told once, on its line, in plain words, with what to type."""

from __future__ import annotations

import json
from collections import Counter
from pathlib import Path
from typing import Any

import pytest
from passageproof.commands.verbs import main

from .table import ENOUGH, Mistake, compendium, make, mend, mistakes, words_of, words_to_type

TABLE = mistakes()
MECHANICAL = [each for each in TABLE if "mended" in each.row]
GROUPS = {
    "yaml", "fields", "places", "files", "bibtex", "passages", "numbers", "studies", "levels", "questions", "prose"
}  # fmt: skip


@pytest.fixture
def checked(tmp_path: Path, capsys: pytest.CaptureFixture[str]):
    """The folder of a compendium, and what the command says of it: its exit code and its problems."""
    root = compendium(tmp_path / "root")

    def check() -> tuple[int, list[dict[str, Any]]]:
        code = main("check", ["check", "--root", str(root), "--format", "json"])
        told = capsys.readouterr()
        assert told.err == ""
        return code, json.loads(told.out)["problems"]

    return root, check


def name_of(mistake: Mistake) -> str:
    return f"{mistake.group}: {mistake.name}"


def test_the_table_has_many_mistakes_of_every_kind() -> None:
    assert len({each.name for each in TABLE}) == len(TABLE) >= ENOUGH
    assert {each.group for each in TABLE} == GROUPS
    assert len(MECHANICAL) > len(TABLE) / 2


def test_the_report_as_it_should_be_is_clean(checked) -> None:
    _, check = checked
    assert check() == (0, [])


@pytest.mark.parametrize("mistake", TABLE, ids=name_of)
def test_a_mistake_is_told_once_on_its_line_with_its_mend(checked, mistake: Mistake) -> None:
    root, check = checked
    place = make(mistake.row, root)
    code, problems = check()
    assert code == 1
    assert [(each["file"], each["line"]) for each in problems] == [place], [each["message"] for each in problems]
    (problem,) = problems
    assert [words for words in mistake.row["says"] if words not in problem["message"]] == [], problem["message"]
    assert problem["hint"]
    whole = f"{problem['message']}\n{problem['hint']}"
    assert [words for words in mistake.row["mend"] if words not in whole] == [], whole


@pytest.mark.parametrize("mistake", MECHANICAL, ids=name_of)
def test_whoever_types_what_the_message_says_has_mended_it(checked, mistake: Mistake) -> None:
    root, check = checked
    make(mistake.row, root)
    _, problems = check()
    told = words_of(" ".join(f"{each['message']} {each['hint']}" for each in problems))
    assert words_to_type(mistake.row) - told == set()
    mend(mistake.row, root)
    assert check() == (0, [])


def test_no_two_rows_make_the_same_mistake() -> None:
    made = Counter(json.dumps({**each.row, "mistake": ""}, sort_keys=True) for each in TABLE)
    assert [row for row, count in made.items() if count > 1] == []
