"""What would move if a report were retracted, held against whole builds of evidence whose status.yaml says so."""

from __future__ import annotations

import json
import os
import random
import shutil
from pathlib import Path

import pytest
import yaml
from demo import before_demo, demo_built, demo_evidence
from impact.test_complete import ROOT, as_published, changed, whole
from passageproof.build import build_files
from passageproof.commands.verbs import main
from passageproof.impact.retracting import compare_retracted
from passageproof.impact.told import as_markdown
from passageproof.impact.touched import Version
from yaml_values import CoreLoader

EXAMPLE = Path(__file__).parent.parent / "example" / "evidence"
KEYS = sorted(path.stem for path in (ROOT / "evidence/claims").glob("*.yaml"))
"""Every report of the demonstration; `make prove` looks at all, the tests at some, by a seed."""
SOME = KEYS if os.environ.get("ALL_REPORTS") else sorted(random.Random(13).sample(KEYS, 3))


def retract(root: Path, key: str) -> None:
    """As status.yaml would say it: the same day, or that of the newest status; no notice yet."""
    path = root / "evidence/status.yaml"
    statuses = yaml.load(path.read_text("utf-8"), CoreLoader)
    known = statuses.get(key, {"on": max(str(each["on"]) for each in statuses.values()), "by": "hand"})
    if known.get("state") != "retracted":
        statuses[key] = {"state": "retracted", "on": str(known["on"]), "by": known["by"]}
    path.write_text(yaml.dump(statuses, allow_unicode=True, sort_keys=False), "utf-8")


@pytest.fixture(scope="module")
def now() -> Version:
    return Version(demo_evidence(), before_demo().read.texts)


@pytest.fixture(scope="module")
def old(now) -> tuple[dict[str, str], dict[str, object]]:
    return whole(demo_built())


@pytest.mark.parametrize("key", SOME)
def test_it_is_the_difference_of_two_ledgers_and_of_all_pages(key, tmp_path, now, old) -> None:
    before = before_demo()
    told = compare_retracted(now, [key], before.proved).impact
    assert told is not None
    pages, rows = whole(build_files(changed(lambda root: retract(root, key), tmp_path), before))
    differing = {name for name in rows.keys() | old[1].keys() if rows.get(name) != old[1].get(name)}
    assert {move.id for move in told.figures} == differing
    for move in told.figures:
        for said, row in ((move.before, old[1].get(move.id)), (move.after, rows.get(move.id))):
            assert (said and said["text"]) == (row and row["text"])
    moved = {as_published(path) for path in pages.keys() | old[0].keys() if pages.get(path) != old[0].get(path)}
    assert {page.path for page in told.pages} == moved
    assert {part.path for part in told.parts} <= moved


@pytest.fixture
def example(tmp_path: Path) -> Path:
    shutil.copytree(EXAMPLE, tmp_path / "evidence")
    return tmp_path


def asked(root: Path, *words: str) -> int:
    return main("x", ["impact", "--root", str(root), *words])


def test_the_reports_are_named_and_no_file_is_written(example, capsys) -> None:
    before = {path: path.read_bytes() for path in example.rglob("*") if path.is_file()}
    assert asked(example, "--retract", "marlow2019furcal") == 0
    told = capsys.readouterr().out
    assert told.startswith("# What moves if marlow2019furcal were retracted\n")
    assert "sources/marlow2019furcal/index.html, changed: Retracted: " in told
    assert "## Sheets" in told
    assert {path: path.read_bytes() for path in example.rglob("*") if path.is_file()} == before


def test_several_at_once_move_what_each_moves(example, capsys) -> None:
    def gone(*keys: str) -> set[str]:
        assert asked(example, "--format", "json", "--retract", *keys) == 0
        told = json.loads(capsys.readouterr().out)
        assert told["retracted"] == list(keys)
        return {row["id"] for row in told["figures"] if row["after"] is None and row["before"]["kind"] == "quoted"}

    one, other = gone("marlow2019furcal"), gone("arden2023recall")
    assert one - other
    assert other - one
    assert gone("marlow2019furcal", "arden2023recall") == one | other


def test_a_report_that_is_retracted_already_moves_nothing(tmp_path, capsys, now) -> None:
    told = compare_retracted(now, ["elwick2014cements", "wraxley2008ultrasonic"], before_demo().proved).impact
    assert told is not None
    assert told.is_nothing
    assert "Nothing would move" in as_markdown(told, "", ["elwick2014cements"])


def test_a_key_that_no_entry_has_is_told_with_the_one_that_was_meant(example, capsys) -> None:
    assert asked(example, "--retract", "marlow2019furcl") == 2
    told = capsys.readouterr()
    assert told.out == ""
    assert told.err == ('no entry in evidence/sources/ has the key "marlow2019furcl"; did you mean marlow2019furcal?\n')


@pytest.mark.parametrize("words", [(), ("main", "--retract", "marlow2019furcal")], ids=["neither", "both"])
def test_a_base_or_keys_and_never_both(words, example, capsys) -> None:
    assert asked(example, *words) == 2
    assert "BASE or --retract KEY" in capsys.readouterr().err
