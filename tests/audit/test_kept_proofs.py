"""Proofs kept on this machine change nothing but the time of a check, whatever somebody edits in between."""

from __future__ import annotations

import os
import random
import re
import shutil
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from typing import Any

import passageproof.two_processes as two_processes
import pytest
from bench.generated import write_compendium
from passageproof.audit.whole import CheckResult, check
from passageproof.commands.verbs import main
from passageproof.proof import kept_proofs
from passageproof.proof.kept_proofs import KeptProofs, file_for
from passageproof.proof.report_proof import Proved, prove_reports
from passageproof.reading.evidence import evidence_of
from passageproof.reading.files import find_files
from passageproof.reading.report_model import Report, Source

EXAMPLE = Path(__file__).parents[1] / "example" / "evidence"
MARLOW, ARDEN = "marlow2019furcal", "arden2023recall"


class Folder:
    """Evidence that is checked again and again, and what was proved for it."""

    def __init__(self, root: Path, monkeypatch: pytest.MonkeyPatch) -> None:
        self.root, self.file = root, root / "kept" / "proofs.json"
        self.proved: list[str] = []
        """Keys of the reports that the last check proved itself."""

        def noted(reports: Sequence[tuple[Report, Source]], *given: Any, **named: Any) -> list[Proved]:
            self.proved.extend(report.key for report, _ in reports)
            return prove_reports(reports, *given, **named)

        monkeypatch.setattr(kept_proofs, "prove_reports", noted)

    def check(self, many: int = 1000) -> CheckResult:
        """What is told with what was kept, which is what is told without."""
        problems: list[Any] = []
        files = find_files(self.root, problems)
        evidence = evidence_of(files, problems)
        kept = KeptProofs(self.file, {each.file: each.text for each in files if each.text is not None})
        self.proved.clear()
        found = check(evidence, many, kept)
        kept.keep()
        assert found == check(evidence)
        return found

    def edit(self, name: str, old: str, new: str) -> None:
        file = self.root / "evidence" / name
        text = file.read_text("utf-8")
        assert old in text, f"{name} holds no {old!r}"
        file.write_text(text.replace(old, new, 1), "utf-8")


@pytest.fixture
def example(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Folder:
    shutil.copytree(EXAMPLE, tmp_path / "evidence")
    return Folder(tmp_path, monkeypatch)


WORDS = ("kept", "healed", "over 3 mm", "up to 3 mm", "tooth", "crude", "overall", "not reported", "6 months", "&", "")


def edits(root: Path, seed: int) -> Iterator[Callable[[], None]]:
    """What people do to files, well or badly: other numbers and words, lines and files less or more, all put back."""
    chance = random.Random(seed)
    files = sorted(path for path in (root / "evidence").rglob("*") if path.suffix in (".yaml", ".bib"))
    sound = {path: path.read_bytes() for path in files}

    def another_piece(pattern: str, made: Callable[[str], str]) -> None:
        path = chance.choice(files)
        text = path.read_text("utf-8") if path.exists() else sound[path].decode()
        found = [*re.finditer(pattern, text)]
        if found:
            at = chance.choice(found)
            path.write_text(text[: at.start()] + made(at[0]) + text[at.end() :], "utf-8")

    def put_back() -> None:
        for path, content in sound.items():
            path.write_bytes(content)

    kinds: tuple[Callable[[], None], ...] = (
        lambda: another_piece(r"\d+", lambda found: str(int(found) + chance.choice((-1, 1, 10)))),
        lambda: another_piece(r"\d+", lambda found: found[::-1] + "0"),
        lambda: another_piece(r"\b[a-z][a-z -]{3,9}\b", lambda _: chance.choice(WORDS)),
        lambda: another_piece(r"\n", lambda _: "\n\n"),
        lambda: another_piece(r"\n[^\n]*", lambda _: ""),
        lambda: chance.choice(files).unlink(missing_ok=True),
        put_back,
        put_back,
    )
    while True:
        yield chance.choice(kinds)


@pytest.mark.parametrize("seed", [1, 2])
def test_fifty_edits_are_answered_as_if_nothing_were_kept(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, seed: int
) -> None:
    if seed == 1:
        shutil.copytree(EXAMPLE, tmp_path / "evidence")
    else:
        write_compendium(tmp_path, 8)
    folder = Folder(tmp_path, monkeypatch)
    answers, proved, reports = [], 0, 0
    for _, edit in zip(range(50), edits(tmp_path, seed), strict=False):
        if (tmp_path / "evidence" / "compendium.yaml").exists():
            answers.append(folder.check().passes)
            proved, reports = proved + len(folder.proved), reports + len(list((tmp_path / "evidence/claims").iterdir()))
        edit()
    assert set(answers) == {True, False}
    assert 0 < proved < reports / 2


def test_nothing_is_proved_twice_and_one_edit_asks_for_its_own_report(example: Folder) -> None:
    assert example.check().passes
    assert sorted(example.proved) == [ARDEN, MARLOW]
    assert example.check().passes
    assert example.proved == []
    example.edit(f"claims/{MARLOW}.yaml", "events: 39", "events: 38")
    assert not example.check().passes
    assert example.proved == [MARLOW]
    assert not example.check().passes  # what is asked and what found no proof is kept as well
    assert example.proved == []


RESTS_ON = {
    "the claim file": (f"claims/{ARDEN}.yaml", "source: ", "\nsource: ", [ARDEN]),
    "the entry's place": ("sources/furcal.bib", "@", "\n@", [ARDEN, MARLOW]),
    "the vocabulary": ("vocabulary.yaml", "outcomes:", "# a line more\noutcomes:", [ARDEN, MARLOW]),
    "species": (f"claims/{MARLOW}.yaml", "species: human", "species: animal", [ARDEN, MARLOW]),
    "design": (f"claims/{MARLOW}.yaml", "design: cohort", "design: registry", [ARDEN, MARLOW]),
    "population": (f"claims/{MARLOW}.yaml", "cause: treatment", "cause: decay", [ARDEN, MARLOW]),
    "setting": (f"claims/{MARLOW}.yaml", "centre: Fenwick", "centre: Linden", [ARDEN, MARLOW]),
    "unit": (f"claims/{MARLOW}.yaml", "unit: tooth", "unit: root", [ARDEN, MARLOW]),
    "a question": ("questions/root-perforation.yaml", "title: ", "title: Indeed, ", []),
    "who may sign": ("compendium.yaml", "IM:", "XX:", []),
}


@pytest.mark.parametrize(("name", "old", "new", "proved"), RESTS_ON.values(), ids=RESTS_ON)
def test_what_a_proof_rests_on(example: Folder, name: str, old: str, new: str, proved: list[str]) -> None:
    example.check()
    example.edit(name, old, new)
    example.check()
    assert sorted(example.proved) == proved


@pytest.mark.parametrize("made", ["_program", "_read"])
def test_another_program_or_a_lost_file_proves_all_again(
    example: Folder, monkeypatch: pytest.MonkeyPatch, made: str
) -> None:
    example.check()
    monkeypatch.setattr(kept_proofs, made, {"_program": lambda: ("another",), "_read": lambda _: {}}[made])
    example.check()
    assert sorted(example.proved) == [ARDEN, MARLOW]


def whole(content: bytes) -> bytes:
    return kept_proofs._digest(content) + b"\n" + content


DAMAGED: dict[str, Callable[[bytes], bytes]] = {
    "empty": lambda _: b"",
    "cut off": lambda held: held[:-20],
    "one letter": lambda held: held.replace(b"flow", b"glow", 1),
    "no digest": lambda held: held.partition(b"\n")[2],
    "no JSON": lambda _: whole(b"\xff{"),
    "a list": lambda _: whole(b"[1, 2]"),
    "other rows": lambda held: whole(re.sub(rb":\[\[.*?\]\](?=[,}])", b":[7]", held.partition(b"\n")[2])),
}


@pytest.mark.parametrize("damage", DAMAGED.values(), ids=DAMAGED)
def test_a_damaged_file_is_as_if_it_were_not_there(example: Folder, damage: Callable[[bytes], bytes]) -> None:
    example.check()
    held = example.file.read_bytes()
    example.file.write_bytes(damage(held))
    assert example.file.read_bytes() != held
    assert example.check().passes
    assert sorted(example.proved) == [ARDEN, MARLOW]
    assert example.file.read_bytes() == held


@pytest.mark.parametrize("open_to_others", ["folder", "file"])
def test_what_others_may_have_written_is_not_believed(example: Folder, open_to_others: str) -> None:
    example.check()
    assert example.file.parent.stat().st_mode & 0o777 == 0o700
    (example.file.parent if open_to_others == "folder" else example.file).chmod(0o777)
    assert example.check().passes
    assert sorted(example.proved) == [ARDEN, MARLOW]


def test_two_processes_keep_what_both_proved(example: Folder, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(os, "sched_getaffinity", lambda _: {0, 1}, raising=False)
    monkeypatch.setattr("threading.active_count", lambda: 1)
    monkeypatch.setattr(two_processes, "_SMALLEST", 1)
    here = os.getpid()

    def one_each(count: int) -> Iterator[int]:
        assert count == 2
        yield 0 if os.getpid() == here else 1

    monkeypatch.setattr("passageproof.audit.whole.turns", one_each)
    example.check(many=1)
    assert len(example.proved) == 1  # the other one by the worker
    example.check(many=1)
    assert example.proved == []
    example.check()
    assert example.proved == []


def test_only_folders_checked_last_are_kept(example: Folder) -> None:
    example.file.parent.mkdir(mode=0o700)
    for number in range(40):
        other = example.file.parent / f"{number}.json"
        other.write_bytes(b"")
        os.utime(other, (number, number))
    example.check()
    left = {path.name for path in example.file.parent.iterdir()}
    assert left == {"proofs.json", *(f"{number}.json" for number in range(21, 40))}


def test_nothing_but_the_check_takes_proofs_from_there() -> None:
    builder = Path(kept_proofs.__file__).parents[1]
    naming = {path for path in builder.rglob("*.py") if "kept_proofs" in path.read_text("utf-8")}
    # whole.py names the type alone, of what the command hands it.
    assert {path.relative_to(builder).as_posix() for path in naming} == {"commands/check.py", "audit/whole.py"}
    assert "if TYPE_CHECKING:\n    from ..proof.kept_proofs" in (builder / "audit" / "whole.py").read_text("utf-8")


def test_the_command_keeps_proofs_for_whoever_checks_at_home(
    example: Folder, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", str(example.root / "cache"))
    file = file_for(example.root)
    assert file is not None

    def said(*more: str) -> str:
        assert main("python -m passageproof", ["check", "--root", str(example.root), *more]) == 0
        return capsys.readouterr().out

    fresh = said("--fresh")
    monkeypatch.setenv("CI", "true")
    assert said() == fresh
    assert not file.parent.exists()
    monkeypatch.delenv("CI")
    assert said() == fresh
    assert file.parent.stat().st_mode & 0o777 == 0o700
    example.proved.clear()
    assert said() == fresh
    assert example.proved == []
    monkeypatch.setenv("CI", "true")
    monkeypatch.setattr(kept_proofs, "_read", lambda _: pytest.fail("a workflow has read what is kept"))
    assert said() == fresh
