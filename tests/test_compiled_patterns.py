"""Regular expressions kept from the last run: the same patterns in less time, and whatever is wrong with what is kept
is as if nothing were."""

from __future__ import annotations

import marshal
import os
import re
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from re import _compiler  # type: ignore[attr-defined]
from types import SimpleNamespace

import passageproof.compiled_patterns as kept
import pytest

ROOT = Path(__file__).parent.parent
TRIED = [
    (r"(?P<n>\d+) of (?P<all>\d+)", 0),
    (r"\bhealed\b|(a)(?P<b>é)?", re.IGNORECASE),
    ("^[^ -ſ]+ # x\n", re.VERBOSE | re.MULTILINE),
    ("(?i:up) to (?<!no )(?=mm)", re.ASCII),
    ("", re.DOTALL),
]


@pytest.fixture
def file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Nothing is kept, and what will be is kept here."""
    path = tmp_path / "cache" / "patterns.kept"
    for name, value in {"_file": str(path), "_kept": {}, "_missing": {}, "_OFF": False}.items():
        monkeypatch.setattr(kept, name, value)
    monkeypatch.setattr(sys, "dont_write_bytecode", False)
    return path


def _next_run() -> None:
    """What a new process begins with."""
    kept._kept, kept._missing = kept._read(), {}


def _nothing_is_compiled(monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*_: object) -> None:
        raise AssertionError("compiled once more")

    monkeypatch.setattr(kept.re, "compile", refuse)


@pytest.mark.parametrize(("pattern", "flags"), TRIED)
def test_a_pattern_that_is_kept_is_the_one_that_was_compiled(
    file: Path, monkeypatch: pytest.MonkeyPatch, pattern: str, flags: int
) -> None:
    whole = re.compile(pattern, flags)
    assert kept.compiled(pattern, flags) == whole
    kept.keep()
    _next_run()
    _nothing_is_compiled(monkeypatch)
    again = kept.compiled(pattern, flags)
    assert again == whole
    assert (again.pattern, again.flags, again.groups, again.groupindex) == (
        whole.pattern, whole.flags, whole.groups, whole.groupindex,
    )  # fmt: skip
    for text in ("39 of 47", "HEALED aé", "ſé # x\n", "up to mm", ""):
        for ours, theirs in zip(again.finditer(text), whole.finditer(text), strict=True):
            assert (ours.span(), ours.groups(), ours.lastgroup) == (theirs.span(), theirs.groups(), theirs.lastgroup)


def test_a_pattern_that_was_expected_is_kept_though_nobody_asked_it(
    file: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    kept.expect("asked later")
    kept.keep()
    _next_run()
    _nothing_is_compiled(monkeypatch)
    assert kept.compiled("asked later").search("asked later")


def test_the_same_pattern_under_other_flags_is_another(file: Path) -> None:
    kept.compiled("healed")
    kept.keep()
    _next_run()
    assert kept.compiled("healed", re.IGNORECASE).search("HEALED")
    assert not kept.compiled("healed").search("HEALED")


def _of_another_python() -> bytes:
    return marshal.dumps((("3.0", *kept._PYTHON[1:]), {("39", 0): kept._arguments("47", 0)}))


WRONG = {
    "torn": lambda whole: whole[: len(whole) // 2],
    "empty": lambda _: b"",
    "no marshal": lambda _: b"healed: 39 of 47",
    "of another shape": lambda _: marshal.dumps([1, 2]),
    "of another Python": lambda _: _of_another_python(),
    "code that cannot run": lambda _: marshal.dumps((kept._PYTHON, {("39", 0): (32, b"\xff" * 8, 0, {}, (None,))})),
    "code in half": lambda _: marshal.dumps((kept._PYTHON, {("39", 0): (32, b"\xff" * 7, 0, {}, (None,))})),
    "too few arguments": lambda _: marshal.dumps((kept._PYTHON, {("39", 0): (32, b"")})),
}


@pytest.mark.parametrize("wrong", WRONG)
def test_what_is_wrong_with_the_file_is_as_if_nothing_were_kept(file: Path, wrong: str) -> None:
    kept.compiled("39")
    kept.keep()
    file.write_bytes(WRONG[wrong](file.read_bytes()))
    _next_run()
    assert kept.compiled("39").search("39 of 47")
    assert not kept.compiled("39").search("47")
    kept.keep()  # mends it
    _next_run()
    assert list(kept._kept) == [("39", 0)]


def test_where_nothing_can_be_written_nothing_is_said(file: Path) -> None:
    file.parent.write_text("a file where the folder would be")
    kept.compiled("39")
    kept.keep()
    assert file.parent.is_file()


def test_python_that_writes_no_byte_code_keeps_no_patterns(file: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "dont_write_bytecode", True)
    kept.compiled("39")
    kept.keep()
    assert not file.exists()


def test_nothing_is_left_beside_the_file(file: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    kept.compiled("39")
    kept.keep()
    assert [path.name for path in file.parent.iterdir()] == [file.name]
    before = file.read_bytes()
    monkeypatch.setattr(kept.os, "replace", lambda *_: (_ for _ in ()).throw(OSError("no room")))
    kept.compiled("47")
    kept.keep()
    assert [path.name for path in file.parent.iterdir()] == [file.name]
    assert file.read_bytes() == before


@pytest.mark.parametrize(
    "code", [lambda *_: [1], lambda *_: "no code", lambda *_: _parse("47")], ids=["no more", "no code", "other"]
)
def test_where_python_compiles_in_another_way_nothing_is_kept(
    file: Path, monkeypatch: pytest.MonkeyPatch, code: Callable[..., object]
) -> None:
    monkeypatch.setattr(kept, "_compiler", SimpleNamespace(_code=code))
    kept.expect("39")
    kept.keep()
    assert kept._read() == {}


def _parse(pattern: str) -> object:
    """The code of another pattern, as a compiler with other ways may give it."""
    return _compiler._code(kept._parser.parse(pattern, 0), 0)


def test_a_file_does_not_grow_without_end(file: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(kept, "_MOST", 3)
    for run in range(5):
        _next_run()
        kept.compiled(f"{run}")
        kept.keep()
        assert (f"{run}", 0) in kept._read()
        assert len(kept._read()) <= 3


COUNTING = """
import re, sys
from re import _compiler
made, whole = [], _compiler.compile
def counting(pattern, flags=0):
    frame = sys._getframe(1)
    while frame.f_code.co_filename.startswith("<frozen") or frame.f_code.co_filename.endswith("re/__init__.py"):
        frame = frame.f_back
    if frame.f_code.co_filename.endswith("compiled_patterns.py"):
        made.append(pattern)
    return whole(pattern, flags)
_compiler.compile = counting
import passageproof.audit.whole
from passageproof.compiled_patterns import keep
print(len(made))
keep()
"""


def test_the_second_process_compiles_none_of_them(tmp_path: Path) -> None:
    environment = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    environment["PYTHONPYCACHEPREFIX"] = str(tmp_path)

    def compiled_with(switch: str) -> int:
        command, variables = [sys.executable, "-c", COUNTING], environment | {"PASSAGEPROOF_PATTERNS": switch}
        ran = subprocess.run(command, cwd=ROOT, env=variables, check=True, capture_output=True, text=True)
        return int(ran.stdout)

    first = compiled_with("anew")
    assert first > 100
    assert not list(tmp_path.rglob("*.kept"))
    assert compiled_with("") == first
    assert len(list(tmp_path.rglob("*.kept"))) == 1
    assert compiled_with("") == 0
    assert compiled_with("anew") == first


def test_what_others_compile_while_they_are_imported_is_kept_as_well(
    file: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    re.purge()
    with kept.lent():
        theirs = re.compile("theirs [0-9]+", re.IGNORECASE)
    kept.keep()
    _next_run()
    re.purge()
    with monkeypatch.context() as patch, kept.lent():
        patch.setattr(kept, "_missing", None)  # whoever compiled it would note it as missing
        again = re.compile("theirs [0-9]+", re.IGNORECASE)
    assert again == theirs
    assert again.search("Theirs 12") is not None
    before = _compiler.compile
    with kept.lent():
        assert _compiler.compile is not before
    assert _compiler.compile is before
