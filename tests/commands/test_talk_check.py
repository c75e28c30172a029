"""`talk --check`: what it prints of an edited text, and the exit code for a script."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parents[2]


def talk(*arguments: str) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-m", "builder", "talk", *arguments]
    return subprocess.run(command, cwd=ROOT, capture_output=True, text=True, encoding="utf-8")


def test_a_text_with_a_wrong_number_exits_1_and_says_which(tmp_path: Path) -> None:
    file = tmp_path / "talk.md"
    file.write_text("Dovrell 2017: 94 of 110 teeth healed.\nDovrell 2017: 94 of 120 teeth healed.\n", "utf-8")
    done = talk("--check", str(file))
    assert done.returncode == 1, done.stderr
    assert 'talk.md, line 2: "94 of 120": not in this guide: Dovrell 2017 has 94 of 110' in done.stdout
    told = json.loads(talk("--check", str(file), "--format", "json").stdout)
    assert [(item["place"], item["verdict"]) for item in told["numbers"]] == [
        ("line 1", "in this guide"), ("line 2", "not in this guide"),
    ]  # fmt: skip


def test_a_text_of_right_numbers_exits_0_and_one_that_cannot_be_read_2(tmp_path: Path) -> None:
    file = tmp_path / "talk.txt"
    file.write_text("Dovrell 2017: 94 of 110 teeth (85%) healed.\n", "utf-8")
    assert talk("--check", str(file)).returncode == 0
    missing = talk("--check", str(tmp_path / "none.txt"))
    assert (missing.returncode, missing.stdout) == (2, "")
    assert "none.txt" in missing.stderr
    assert talk("--check", str(file), "--root", str(tmp_path)).returncode == 2
