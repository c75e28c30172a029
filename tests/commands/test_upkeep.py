"""What `upkeep` tells a person and a scheduled job, and that the page has the same."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import pytest
from demo import ROOT, demo_built
from passageproof.commands.verbs import main
from passageproof.results.values.document import Details, Table, walk
from passageproof.results.values.line import above_and_below, plain_text

EXAMPLE = Path(__file__).parent.parent / "example" / "evidence"


@pytest.fixture
def example(tmp_path: Path) -> Path:
    shutil.copytree(EXAMPLE, tmp_path / "evidence")
    return tmp_path


def asked(root: Path, *words: str) -> int:
    return main("x", ["upkeep", "--root", str(root), *words])


@pytest.mark.parametrize(
    ("on", "code"), [((), 0), (("--on", "2028-10-01"), 0), (("--on", "2028-10-02"), 1)],
    ids=["no day", "the last day", "the day after"],
)  # fmt: skip
def test_something_is_overdue_once_its_day_has_passed(on, code, example, capsys) -> None:
    # Ratified on 2026-10-01, to be looked at again after 24 months; the day of a status that is due sooner is left out.
    (example / "evidence/status.yaml").unlink()
    assert asked(example, *on) == code
    told = capsys.readouterr().out
    assert ("Overdue on 2028-10-02: 1" in told) == bool(code)
    assert "review due 2028-10-01" in told


def test_the_json_holds_every_row_with_its_day(example, capsys) -> None:
    assert asked(example, "--format", "json", "--on", "2026-11-21") == 1
    told = json.loads(capsys.readouterr().out)
    assert told["overdue"] == 1
    (late,) = (row for row in told["waits"] if row["overdue"])
    assert (late["kind"], late["due"], late["since"]) == ("dates", "2026-11-20", "2026-10-20")
    assert asked(example, "--format", "json") == 0
    again = json.loads(capsys.readouterr().out)
    assert {row["overdue"] for row in again["waits"]} == {None}
    assert len(again["waits"]) == len(told["waits"])


def test_a_day_that_is_none_is_wrong_use(example, capsys) -> None:
    with pytest.raises(SystemExit) as left:
        asked(example, "--on", "tomorrow")
    assert left.value.code == 2
    assert 'type a day as year, month and day, 2026-12-01 say; found "tomorrow"' in capsys.readouterr().err


def test_evidence_that_does_not_pass_is_told_and_nothing_is_called_overdue(example, capsys) -> None:
    path = example / "evidence/questions/root-perforation.yaml"
    path.write_text(path.read_text("utf-8").replace("title: ", "titel: ", 1), "utf-8")
    assert asked(example, "--on", "2030-01-01") == 2
    told = capsys.readouterr()
    assert told.out == ""
    assert "evidence that passes its check" in told.err


def test_the_page_and_the_command_tell_the_same(capsys) -> None:
    assert asked(ROOT, "--format", "json") == 0
    told: dict[str, list[tuple[str, str]]] = {}
    for row in json.loads(capsys.readouterr().out)["waits"]:
        told.setdefault(row["kind"], []).append((row["where"], row["what"]))
    guide = demo_built().guide
    assert guide is not None
    doors = {item.anchor: item for item in walk(guide.pages["upkeep/"].blocks) if isinstance(item, Details)}
    few = {kind: rows for kind, rows in told.items() if len(rows) <= 24}
    assert len(few) > 8
    for kind, rows in few.items():
        (table,) = (block for block in doors[kind].blocks if isinstance(block, Table))
        assert [(plain_text(row[0]), plain_text(above_and_below(row[1])[0])) for row in table.rows] == rows
    for kind in told.keys() - few.keys():
        shown = [
            plain_text(item)
            for fold in doors[kind].blocks if isinstance(fold, Details)
            for item in fold.blocks[1].items
        ]  # fmt: skip
        assert sorted(shown) == sorted(what for _, what in told[kind])
