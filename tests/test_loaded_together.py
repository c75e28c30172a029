"""Byte code kept in one file: the same modules in less time, and whatever is wrong with it is as if none were kept."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
LOOK = (
    "import passageproof.commands.verbs, passageproof.audit.whole as whole, passageproof.reading as package; "
    "print(type(whole.__loader__).__name__, whole.__file__, whole.__cached__, package.__path__, "
    "whole.check.__code__.co_filename, hasattr(whole, 'ADDED'))"
)


@pytest.fixture(scope="module")
def copy(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with a package of its own, which was copied with what was kept of ours, and a small compendium."""
    folder = tmp_path_factory.mktemp("copy").resolve()
    run([sys.executable, "-m", "builder", "check", "--root", "tests/published"], ROOT)
    shutil.copytree(ROOT / "builder", folder / "passageproof")
    return folder


def run(command: list[str], folder: Path) -> str:
    environment = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    environment |= {"PYTHONPATH": str(folder)} if folder != ROOT else {}
    return subprocess.run(command, cwd=folder, env=environment, capture_output=True, text=True, check=False).stdout


def check(folder: Path) -> None:
    """Whatever is missing is kept at its end."""
    said = run([sys.executable, "-m", "passageproof", "check", "--root", str(ROOT / "tests/published")], folder)
    assert "figures quoted" in said


def look(folder: Path) -> list[str]:
    return run([sys.executable, "-c", LOOK], folder).split()


def kept(folder: Path) -> Path:
    (found,) = (folder / "passageproof/__pycache__").glob("loaded_together.*.kept")
    return found


def as_ever(folder: Path) -> list[str]:
    """What is looked at, where nothing is kept, less who loaded it."""
    kept(folder).unlink()
    loader, *told = look(folder)
    assert loader == "SourceFileLoader"
    return told


def test_what_is_kept_is_of_its_own_folder_and_the_same_module(copy: Path) -> None:
    # The copy brought the file of the folder that it was copied from.
    assert look(copy)[:2] == ["SourceFileLoader", str(copy / "passageproof/audit/whole.py")]
    check(copy)
    loader, *told = look(copy)
    assert loader == "_Loader"
    assert told == as_ever(copy)
    assert all(str(copy) in each for each in told[:4])


def test_a_source_that_was_changed_is_read_anew_and_kept_again(copy: Path) -> None:
    check(copy)
    source = copy / "passageproof/audit/whole.py"
    source.write_text(source.read_text("utf-8") + "\nADDED = True\n", "utf-8")
    assert (look(copy)[0], look(copy)[-1]) == ("SourceFileLoader", "True")
    check(copy)
    assert (look(copy)[0], look(copy)[-1]) == ("_Loader", "True")


def test_a_file_that_was_torn_or_holds_something_else_is_as_none(copy: Path) -> None:
    check(copy)
    whole = kept(copy).read_bytes()
    for damaged in (whole[: len(whole) // 2], b"", b"\xff" * 4000):
        kept(copy).write_bytes(damaged)
        assert look(copy)[0] == "SourceFileLoader"
    kept(copy).write_bytes(whole[: -len(whole) // 2] + b"?" * (len(whole) // 2))
    assert look(copy)[1] == str(copy / "passageproof/audit/whole.py")
    check(copy)


def test_nothing_is_kept_where_python_keeps_no_byte_code(copy: Path) -> None:
    check(copy)
    kept(copy).unlink()
    command = [sys.executable, "-B", "-m", "passageproof", "check", "--root", str(ROOT / "tests/published")]
    run(command, copy)
    assert not list((copy / "passageproof/__pycache__").glob("loaded_together.*.kept"))
