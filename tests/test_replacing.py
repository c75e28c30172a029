"""A site is put in place of an old one whatever happens to the process that does it."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest
from passageproof.replacing import finish_swaps, replacement

# Ends itself without a word at the rename of that number, as a kill would.
KILLED = """
import os, sys
from pathlib import Path
from passageproof.replacing import replacement

renames = 0
rename = Path.rename

def counted(self, target):
    global renames
    renames += 1
    if renames == int(sys.argv[2]):
        os.kill(os.getpid(), 9)
    return rename(self, target)

Path.rename = counted
with replacement(Path(sys.argv[1])) as fresh:
    (fresh / "index.html").write_text("new")
    if sys.argv[2] == "0":
        os.kill(os.getpid(), 9)
"""


def _killed(site: Path, at: int) -> None:
    ran = subprocess.run([sys.executable, "-c", KILLED, str(site), str(at)], check=False)
    assert ran.returncode == -signal.SIGKILL


@pytest.mark.parametrize(("at", "stands"), [(0, "old"), (1, "old"), (2, "new")], ids=["before", "first", "between"])
def test_kill_at_any_rename_is_mended_at_the_next_start(tmp_path: Path, at: int, stands: str) -> None:
    site = tmp_path / "s"
    site.mkdir()
    (site / "index.html").write_text("old")
    _killed(site, at)
    said = finish_swaps(site)
    assert (site / "index.html").read_text() == stands
    assert [path.name for path in tmp_path.iterdir()] == ["s"]
    assert len(said) == (2 if at == 2 else 1)
    assert all("\n" not in line for line in said)
    assert finish_swaps(site) == []


def test_folder_of_somebody_else_and_of_a_process_at_work_stay(tmp_path: Path) -> None:
    site = tmp_path / "s"
    (tmp_path / ".s-notes").mkdir()
    (tmp_path / ".s-notes" / "lock").write_text("")
    (tmp_path / ".s-notes" / "mine.txt").write_text("kept")
    with replacement(site) as fresh:
        assert finish_swaps(site) == []
        assert fresh.is_dir()
    assert (tmp_path / ".s-notes" / "mine.txt").read_text() == "kept"


def test_site_is_readable_whatever_the_process_keeps_from_others(tmp_path: Path) -> None:
    before = os.umask(0o077)
    try:
        with replacement(tmp_path / "s") as fresh:
            (fresh / "data").mkdir()
            (fresh / "data" / "a.json").write_text("{}")
    finally:
        os.umask(before)
    modes = [oct((tmp_path / "s" / path).stat().st_mode & 0o777) for path in (".", "data", "data/a.json")]
    assert modes == ["0o755", "0o755", "0o644"]
