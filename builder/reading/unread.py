"""Files that were written for the evidence and that nothing reads: by their ending, their place, or what they hold."""

from __future__ import annotations

import os
import re
from collections.abc import Iterable, Iterator
from pathlib import Path

from ..compiled_patterns import compiled
from ..problems import Position, Problem, error
from ..records import NamedTuple
from .limits import FILE_NAME

_OURS = (".bib", ".yaml", ".yml")
_DOCUMENTS = frozenset((".doc", ".docx", ".odt", ".pages", ".rtf"))
_TABLES = frozenset((".csv", ".ods", ".xls", ".xlsx"))
_EXPORTS = frozenset((".enw", ".nbib", ".ris"))
_PICTURES = frozenset((".gif", ".jpeg", ".jpg", ".png", ".webp"))
_COPIES = (".bak", ".orig", ".rej", ".swp", ".tmp", "~")
"""What editors and tools leave beside a file that is read."""
_FOR_READERS = ("readme", "license", "licence", "notice", "copying")
_has_entry = compiled(r"^\s*@\w+\s*\{", re.MULTILINE).search
_names_passages = compiled(r"^\s*annot(?:e|ation)\s*=", re.MULTILINE | re.IGNORECASE).search
_fields = compiled(r"^([a-z_]+):", re.MULTILINE).findall
_OF_QUESTIONS = frozenset(("about", "answer", "options", "patient", "situation", "steps", "stop"))
_NAMES = "give it the name of one of them, or move it out of evidence/"
_MOST = 200_000


class Unread(NamedTuple):
    """A file that nothing reads, though somebody may have meant it to be read."""

    problem: Problem
    folder: str = ""
    """Where it seems to belong: claims, questions, sources, or "" at the top or where nobody can tell."""
    name: str = ""
    """Without any ending."""
    text: str = ""
    """What it holds, so that the names in it stay known; "" where it is no text of ours."""


def unread_beside(entry: os.DirEntry[str], file: str, folder: str, where: str) -> Iterator[Unread]:
    """What nothing reads of a file or folder in evidence/.

    folder: claims, questions, ..., or "" at the top. where: which files are read. A README, a paper as PDF, and what
    editors leave behind are no affair of the check.
    """
    stem, ending = os.path.splitext(entry.name)
    if ending.lower() in _OURS:
        text = _text_of(entry)
        of_place = _place_of(text)
        if of_place not in ("", f"evidence/{folder}/", "evidence/"):
            mend = f"move it to {of_place}"
        else:
            named = f"{stem}{'.bib' if ending.lower() == '.bib' else '.yaml'}"
            is_deeper = file.count("/") > 2
            mend = f"move it to evidence/{folder}/{named}" if is_deeper else f"call it {named}" if folder else _NAMES
        yield _of_ours(text, stem, folder, _misplaced(file, f"the files of the evidence are {where}", mend))
    elif entry.is_dir():
        for inner in entries_of(entry.path):
            if _is_ours(inner.name):
                yield from unread_beside(inner, f"{file}/{inner.name}", folder, where)
    elif hint := _how_to_mend(stem, ending.lower(), folder, entry):
        problem = _misplaced(file, "a file of the evidence ends in .yaml or .bib, a drawing in .svg", hint)
        is_ours = _is_ours(stem) or ending.lower() in ("", ".txt")
        yield _of_ours(_text_of(entry), os.path.splitext(stem)[0], folder, problem) if is_ours else Unread(problem)


def _is_ours(name: str) -> bool:
    return os.path.splitext(name)[1].lower() in _OURS


def _of_ours(text: str, name: str, folder: str, problem: Problem) -> Unread:
    belongs = _place_of(text).removeprefix("evidence/").rstrip("/") or folder
    return Unread(problem, belongs, name, text)


def _how_to_mend(stem: str, ending: str, folder: str, entry: os.DirEntry[str]) -> str:
    """What to do with a file of this name; "" where nobody meant it for the evidence."""
    if ending in _COPIES or ending.endswith("~") or stem.lower().startswith(_FOR_READERS):
        return ""
    if _is_ours(stem):
        return f"take the last ending away, so that it is called {stem}"
    if ending in _DOCUMENTS or ending in _TABLES:
        return "type what it says into a .yaml file, with an editor for plain text"
    if ending in _EXPORTS:
        return "export the entry as BibTeX, into a .bib file of evidence/sources/"
    if folder == "pictures" and ending in _PICTURES:
        return "draw it as an .svg file; a photograph has no place here"
    if folder == "sources" and ending in ("", ".txt") and _has_entry(_text_of(entry)):
        return f"it holds an entry: call it {stem}.bib"
    if folder in ("claims", "questions") and ending in ("", ".txt"):
        return f"if it is one of the evidence, call it {stem}.yaml"
    return ""


def unread_at_root(entries: Iterable[os.DirEntry[str]]) -> Iterator[Unread]:
    """A report, a question or an entry with passages that stands beside evidence/ and not in it."""
    for entry in entries:
        is_other = not _is_ours(entry.name) or entry.name == "mkdocs.yml" or name_fault(entry.name) is not None
        if is_other or not entry.is_file():
            continue
        text = _text_of(entry)
        if place := _place_of(text):
            problem = _misplaced(entry.name, f"it looks like one of {place}", f"move it to {place}")
            yield _of_ours(text, os.path.splitext(entry.name)[0], "", problem)


def _text_of(entry: os.DirEntry[str]) -> str:
    try:
        # A pipe would never end, and a link may lead out of the folder.
        if not entry.is_file(follow_symlinks=False):
            return ""
        with open(entry.path, encoding="utf-8", errors="replace") as stream:
            return stream.read(_MOST)
    except OSError:
        return ""


def _place_of(text: str) -> str:
    """The folder where a file seems to belong, by what it holds; "" for a file of other tools."""
    if _has_entry(text) and _names_passages(text):
        return "evidence/sources/"
    names = set(_fields(text))
    if {"source", "claims"} <= names or {"source", "studies"} <= names:
        return "evidence/claims/"
    if {"id", "title"} <= names and names & _OF_QUESTIONS:
        return "evidence/questions/"
    return "evidence/" if {"format", "programme", "evidence"} <= names or {"factors", "outcomes"} <= names else ""


def _misplaced(file: str, tells: str, hint: str) -> Problem:
    return error(Position(file, 1, 1), "misplaced-file", f"{file} is not read: {tells}", hint)


def name_fault(name: str) -> tuple[str, str] | None:
    """Why a file or folder of this name cannot be read, and what to do; None where it can.

    A name becomes part of addresses, of messages and of other names.
    """
    try:
        size = len(name.encode("utf-8"))
    except UnicodeEncodeError:
        return "its name is not written in UTF-8", "give it a name of letters, digits and hyphens"
    if not name.isprintable():
        return "its name holds a character that nobody sees, or a line end", "give it a name on one line"
    if size > FILE_NAME:
        return f"its name has {size} bytes, and may have {FILE_NAME}", "give it a shorter name"
    return None


def shown_name(path: str) -> str:
    """A path on one line, whatever it holds."""
    if path.isprintable():
        return path
    plain = path.encode("utf-8", "backslashreplace").decode("utf-8")
    return "".join(sign if sign.isprintable() else sign.encode("unicode_escape").decode("ascii") for sign in plain)


def entries_of(folder: Path | str) -> list[os.DirEntry[str]]:
    """What stands in a folder and is not hidden, by name; nothing where it cannot be read."""
    try:
        with os.scandir(folder) as entries:
            return sorted((entry for entry in entries if not entry.name.startswith(".")), key=lambda entry: entry.name)
    except OSError:
        return []
