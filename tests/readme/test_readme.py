"""What README.md shows is what happens."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path

import pytest
from readme.written import KEY, ROOT, blocks, write_shown

README = (ROOT / "README.md").read_text(encoding="utf-8")


def run(*words: str, folder: Path) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-m", "passageproof", *words]
    return subprocess.run(command, cwd=folder, capture_output=True, text=True, timeout=120)


def test_the_job_comes_first_in_one_paragraph() -> None:
    title, job = README.split("\n\n")[:2]
    assert title.startswith("# ")
    assert not job.startswith(("#", "!", "-", "```"))
    assert "passage" in job


def test_the_entry_and_the_claim_it_shows_agree(tmp_path: Path) -> None:
    write_shown(tmp_path)
    done = run("check", folder=tmp_path)
    assert done.returncode == 0, done.stdout
    assert done.stdout.startswith("0 errors, 0 questions")


def test_the_slip_it_shows_is_answered_as_printed(tmp_path: Path) -> None:
    write_shown(tmp_path, mistyped=True)
    done = run("check", folder=tmp_path)
    assert done.returncode == 1
    (shown,) = blocks("text")
    assert " ".join(shown.split()) == " ".join(done.stdout.split())


def test_the_page_it_shows_has_the_sentence_it_prints(tmp_path: Path) -> None:
    write_shown(tmp_path)
    assert run("build", folder=tmp_path).returncode == 0
    page = (tmp_path / "site" / "hole" / "index.html").read_text(encoding="utf-8")
    assert f'href="../sources/{KEY}/#p-15-table-2"' in page
    words = " ".join(re.sub(r"<[^>]+>", "", page).split())
    (sentence,) = re.findall(r"^> (.+)$", README, re.MULTILINE)
    assert sentence in words


@pytest.mark.parametrize(
    "target", re.findall(r"\]\(([^)#]+)\)|src=\"([^\"]+)\"", README), ids=lambda pair: "".join(pair)
)
def test_every_file_it_leads_to_is_there(target: tuple[str, str]) -> None:
    path = "".join(target)
    assert path.startswith("https://") or (ROOT / path).exists()
