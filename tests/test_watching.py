"""Which files were saved, made and taken away since the last look."""

from __future__ import annotations

import os
import time
from pathlib import Path

from passageproof.watching import Watch

LONG_AGO = time.time_ns() - 60_000_000_000


def test_what_was_saved_made_and_taken_away(tmp_path: Path) -> None:
    (tmp_path / "claims").mkdir()
    one, two, hidden = tmp_path / "claims" / "one.yaml", tmp_path / "two.yaml", tmp_path / ".two.yaml.swp"
    one.write_text("a", "utf-8")
    watch = Watch()
    assert watch.changed([tmp_path]) == {str(one): False}
    assert watch.changed([tmp_path]) == {}
    one.write_text("ab", "utf-8")
    two.write_text("c", "utf-8")
    hidden.write_text("c", "utf-8")
    assert watch.changed([tmp_path]) == {str(one): True, str(two): False}
    one.unlink()
    assert watch.changed([tmp_path, tmp_path / "nowhere"]) == {str(one): False}


def test_a_second_save_of_the_same_date_and_length_is_seen(tmp_path: Path) -> None:
    file = tmp_path / "one.yaml"
    watch = Watch()
    for text in ("a", "b", "c"):
        file.write_text(text, "utf-8")
        assert list(watch.changed([tmp_path])) == [str(file)]


def test_a_file_that_only_grows_old_has_not_changed(tmp_path: Path) -> None:
    file = tmp_path / "one.yaml"
    file.write_text("a", "utf-8")
    watch = Watch()
    watch.changed([tmp_path])
    deadline = time.monotonic() + 2.5
    while time.monotonic() < deadline:
        assert watch.changed([tmp_path]) == {}
        time.sleep(0.25)


def test_an_old_file_that_is_put_back_is_seen(tmp_path: Path) -> None:
    file = tmp_path / "one.yaml"
    file.write_text("a", "utf-8")
    os.utime(file, ns=(LONG_AGO, LONG_AGO))
    watch = Watch()
    watch.changed([tmp_path])
    file.write_text("b", "utf-8")
    os.utime(file, ns=(LONG_AGO, LONG_AGO))
    assert list(watch.changed([tmp_path])) == [str(file)]


def test_a_link_to_a_folder_above_it_is_walked_once(tmp_path: Path) -> None:
    (tmp_path / "page.md").write_text("A page")
    for name in "ab":
        (tmp_path / name).symlink_to(tmp_path)
    assert len(Watch().changed([tmp_path])) == 1
