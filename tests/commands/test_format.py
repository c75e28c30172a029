"""The files of a compendium come into one layout; what cannot be read is left, and nothing else is touched."""

from __future__ import annotations

from pathlib import Path

import pytest
from passageproof.commands.verbs import main
from passageproof.writing.starting import write_compendium

WIDE = "urgent-matter:\n      title:   One is unwell   # as told\n      signs: [ pain,fever ]\n      until_help: []\n"
LAID_OUT = "urgent-matter:\n  title: One is unwell # as told\n  signs: [pain, fever]\n  until_help: []\n"


@pytest.fixture
def root(tmp_path: Path) -> Path:
    write_compendium(tmp_path / "ours")
    return tmp_path / "ours"


def formatted(root: Path, *names: str) -> int:
    return main("python -m builder", ["format", *names, "--root", str(root)])


def contents(folder: Path) -> dict[str, bytes]:
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def test_what_new_writes_stays_as_it_is(root: Path, capsys: pytest.CaptureFixture[str]):
    before = contents(root)
    assert formatted(root) == 0
    assert contents(root) == before
    assert capsys.readouterr() == ("", "0 of 7 files were laid out anew\n")


def test_one_file_is_laid_out_and_named_and_the_check_says_the_same(root: Path, capsys: pytest.CaptureFixture[str]):
    path = root / "evidence/urgent.yaml"
    path.write_bytes(b"\xef\xbb\xbf" + WIDE.replace("\n", "\r\n").encode())
    path.chmod(0o640)
    main("python -m builder", ["check", "--root", str(root)])
    said = capsys.readouterr().out
    assert formatted(root) == 0
    assert capsys.readouterr().out == "evidence/urgent.yaml\n"
    assert path.read_bytes() == LAID_OUT.encode()
    assert path.stat().st_mode & 0o777 == 0o640
    main("python -m builder", ["check", "--root", str(root)])
    assert capsys.readouterr().out == said
    assert formatted(root) == 0
    assert not list(root.glob("evidence/.*"))


def test_what_cannot_be_read_is_left_and_the_others_are_laid_out(root: Path, capsys: pytest.CaptureFixture[str]):
    (root / "evidence/urgent.yaml").write_text(WIDE, "utf-8")
    (root / "evidence/local.yaml").write_text("call: {name: [\n", "utf-8")
    assert formatted(root) == 1
    assert "evidence/local.yaml cannot be read, and was left as it is" in capsys.readouterr().err
    assert (root / "evidence/local.yaml").read_text("utf-8") == "call: {name: [\n"
    assert (root / "evidence/urgent.yaml").read_text("utf-8") == LAID_OUT


def test_only_the_files_that_are_named_are_touched(root: Path, capsys: pytest.CaptureFixture[str]):
    (root / "evidence/urgent.yaml").write_text(WIDE, "utf-8")
    assert formatted(root, "status") == 0
    assert (root / "evidence/urgent.yaml").read_text("utf-8") == WIDE
    assert formatted(root, "urgent", "nowhere") == 1
    assert "there is no file of the evidence called nowhere.yaml" in capsys.readouterr().err
    assert (root / "evidence/urgent.yaml").read_text("utf-8") == LAID_OUT
    assert formatted(root / "none") == 2
