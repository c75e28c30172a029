"""The desk tells what the command tells, and puts each thing at its field."""

from __future__ import annotations

import shutil
from pathlib import Path
from typing import Any

import pytest
from desk.drafts import Draft, drafts_of, spoilt
from passageproof.audit.whole import check
from passageproof.desk.session import Session, draft_of
from passageproof.reading.evidence import read_evidence

ROOT = Path(__file__).parent.parent.parent
EXAMPLE = Path(__file__).parent.parent / "example"


def told_by_the_command(root: Path, draft: Draft) -> list[tuple[Any, ...]]:
    """Every problem of the evidence with the draft's two files in it, as `check` finds them."""
    files = draft_of(draft).files
    for path, text in files.items():
        (root / path).write_text(text, "utf-8")
    try:
        found = check(read_evidence(root)).problems
    finally:
        for path in files:
            (root / path).unlink()
    return [
        (str(each.position), each.rule, each.severity, each.message, each.hint, each.acknowledged) for each in found
    ]


_SAID = ("rule", "severity", "message", "hint", "acknowledged")


def told_by_the_desk(answer: dict[str, Any]) -> list[tuple[Any, ...]]:
    return [
        (f"{each['file']}:{each['line']}:{each['column']}", *(each[name] for name in _SAID))
        for each in answer["problems"]
    ]


def copied(root: Path, folder: Path) -> Path:
    shutil.copytree(root / "evidence" if (root / "evidence").is_dir() else root, folder / "evidence")
    return folder


def test_three_hundred_drafts_are_told_as_the_command_tells_them(tmp_path: Path) -> None:
    root = copied(EXAMPLE, tmp_path)
    session, drafts = Session(root), drafts_of(root)
    told = set()
    for draft in spoilt(drafts, 300):
        answer = session.whole(draft)
        assert told_by_the_desk(answer) == told_by_the_command(root, draft)
        told |= {each["rule"] for each in answer["problems"]}
    assert len(told) > 20, "the mistakes should be of many kinds"


def test_drafts_beside_a_whole_guide_are_told_as_the_command_tells_them(tmp_path: Path) -> None:
    root = copied(ROOT, tmp_path)
    session = Session(root)
    for draft in spoilt(drafts_of(root), 18, seed=7):
        assert told_by_the_desk(session.whole(draft)) == told_by_the_command(root, draft)


def test_each_problem_stands_at_a_field_that_was_typed(tmp_path: Path) -> None:
    root = copied(EXAMPLE, tmp_path)
    session = Session(root)
    for draft in spoilt(drafts_of(root), 60, seed=3):
        claims, sources = sorted(draft_of(draft).files)
        for each in session.near(draft)["problems"]:
            assert each["file"] in (claims, sources)
            if each["file"] == claims:
                value: Any = draft["claims"]
                for step in each["path"]:
                    if step == "source":
                        break
                    value = value[step]
            else:
                assert -1 <= each["passage"] < len(draft["passages"])


def test_a_sound_report_is_silent_and_its_page_has_its_numbers(tmp_path: Path) -> None:
    root = copied(EXAMPLE, tmp_path)
    session, drafts = Session(root), drafts_of(root)
    while session.prove_some():
        pass
    for draft in drafts.values():
        near = session.near(draft)
        assert [each for each in near["problems"] if each["severity"] == "error"] == []
        assert near["proved"] > 0
        whole = session.whole(draft)
        for passage in near["passages"]:
            for number in passage["numbers"]:
                assert passage["text"][number["start"] : number["end"]]
                assert number["text"] in whole["page"]


@pytest.mark.parametrize("entry", ["", "nothing", "@article{}", "@article{../../x, title = {y}}"])
def test_without_a_key_there_is_no_file(tmp_path: Path, entry: str) -> None:
    session = Session(copied(EXAMPLE, tmp_path))
    answer = session.near({"entry": entry, "passages": [], "claims": {}})
    assert answer["files"] == []
    assert session.whole({"entry": entry, "passages": [], "claims": {}})["passes"] is False
