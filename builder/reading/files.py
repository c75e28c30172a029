"""Which files there are, and their texts: what is not a readable text of this folder has a defined outcome."""

from __future__ import annotations

import os
from collections.abc import Iterable, Iterator
from pathlib import Path

from ..problems import Position, Problem, error
from ..records import NamedTuple
from .limits import FILE, LARGEST_FILE
from .slide_template import NAME as TEMPLATE, template_problem
from .unread import Unread, entries_of, name_fault, shown_name, unread_at_root, unread_beside

TOP = ("compendium", "vocabulary", "urgent", "local", "status")
"""Files at the top of evidence/, without their ending."""

WRITTEN_DIR = "site_src"
"""Folder of the hand-written pages, below the root that holds evidence/."""

_FOLDERS = {"sources": ".bib", "claims": ".yaml", "questions": ".yaml", "pictures": ".svg"}


class FoundFile(NamedTuple):
    """A file of the evidence."""

    folder: str
    """sources, claims, questions, pictures, site_src, or "" at the top of evidence/."""
    name: str
    """Without its ending; a file of site_src keeps its path from there, and its ending."""
    file: str
    """Path from the root, with "/"."""
    text: str | None
    """None where it cannot be read; then a problem says why. With "\\n" line ends and without byte-order mark. "" for
    a file of site_src that is no page: a picture, say."""
    hint: str
    """What the text of an unreadable file seems to be, so that the names in it stay known."""


def missing_compendium(root: Path) -> str:
    """Why nothing can be read there, in plain words; "" where the folder holds the one file that must exist."""
    if (root / "evidence" / "compendium.yaml").is_file():
        return ""
    return f"there is no evidence/compendium.yaml in {root}: name the folder that holds evidence/"


def find_files(root: Path, problems: list[Problem]) -> list[FoundFile]:
    """All files of the evidence and of site_src in order of folder and name, each read once.

    Raises FileNotFoundError where root/evidence/compendium.yaml does not exist.
    """
    evidence = root / "evidence"
    if not os.path.lexists(evidence / "compendium.yaml"):
        raise FileNotFoundError(str(evidence / "compendium.yaml"))
    real_root = os.path.realpath(root)
    found = []
    for entry in _fit(entries_of(evidence), "evidence", problems):
        name, ending = os.path.splitext(entry.name)
        file = f"evidence/{entry.name}"
        if entry.name in _FOLDERS:
            found += _folder(entry, file, real_root, problems)
        elif ending == ".yaml" and name in TOP:
            found.append(_read("", name, file, entry, real_root, problems))
        elif entry.name == TEMPLATE and entry.is_file():
            fault = template_problem(entry.path)
            problems.extend([fault] if fault is not None else [])
        else:
            found += _unread(unread_beside(entry, file, "", _WHERE), problems)
    found += _unread(unread_at_root(entries_of(root)), problems)
    pages = root / WRITTEN_DIR
    if pages.is_dir():
        found += _pages(pages, WRITTEN_DIR, _Walk(real_root, problems, set()), (os.path.realpath(pages),))
    return found


def _folder(folder: os.DirEntry[str], path: str, real_root: str, problems: list[Problem]) -> list[FoundFile]:
    if not folder.is_dir():
        mend = "give the file another name, and make a folder of this one"
        problems.append(error(Position(path, 1, 1), "unreadable-file", f"{path} should be a folder", mend))
        return []
    if folder.is_symlink() and not _is_inside(folder.path, real_root):
        tells = f"{path} is a link that leads out of this folder"
        problems.append(error(Position(path, 1, 1), "file-outside", tells, "put the folder itself there"))
        return []
    ending = _FOLDERS[folder.name]
    found = []
    for entry in _fit(entries_of(folder.path), path, problems):
        name, its_ending = os.path.splitext(entry.name)
        file = f"{path}/{entry.name}"
        if its_ending == ending:
            found.append(_read(folder.name, name, file, entry, real_root, problems))
        else:
            found += _unread(unread_beside(entry, file, folder.name, _WHERE), problems)
    return found


def _fit(entries: list[os.DirEntry[str]], path: str, problems: list[Problem]) -> Iterator[os.DirEntry[str]]:
    """Those whose names can be read; of all others it is said why not."""
    for entry in entries:
        fault = name_fault(entry.name)
        if fault is None:
            yield entry
            continue
        file = f"{path}/{shown_name(entry.name)}"
        problems.append(error(Position(file, 1, 1), "unfit-name", f"this file is not read: {fault[0]}", fault[1]))


class _Walk(NamedTuple):
    """What every folder of the pages asks for."""

    real_root: str
    problems: list[Problem]
    followed: set[str]
    """Real paths of the folders that links led to."""


def _pages(folder: Path | str, path: str, walk: _Walk, above: tuple[str, ...]) -> list[FoundFile]:
    """above: the real paths of this folder and of those it was reached through."""
    found = []
    for entry in _fit(entries_of(folder), path, walk.problems):
        file = f"{path}/{entry.name}"
        if entry.is_symlink() and not _is_inside(entry.path, walk.real_root):
            tells = f"{file} is a link that leads out of this folder"
            walk.problems.append(error(Position(file, 1, 1), "file-outside", tells, _MENDS["file-outside"]))
        elif entry.is_dir():
            real = os.path.realpath(entry.path) if entry.is_symlink() else os.path.join(above[-1], entry.name)
            if entry.is_symlink() and _leads_round(real, file, walk, above):
                continue
            found += _pages(entry.path, file, walk, (*above, real))
        elif entry.name.endswith(".md"):
            name = file[len(WRITTEN_DIR) + 1 :]
            found.append(_read(WRITTEN_DIR, name, file, entry, walk.real_root, walk.problems))
        else:
            found.append(FoundFile(WRITTEN_DIR, file[len(WRITTEN_DIR) + 1 :], file, "", ""))
    return found


def _leads_round(real: str, file: str, walk: _Walk, above: tuple[str, ...]) -> bool:
    """True once it is said that a link leads to a folder it stands in, or, below another link, to one read before."""
    is_below_a_link = not walk.followed.isdisjoint(above)
    if real in above or (is_below_a_link and real in walk.followed):
        tells = f"{file} is a link to a folder that it was reached through"
        mend = "delete the link, or put the files themselves there"
        walk.problems.append(error(Position(file, 1, 1), "link-leads-round", tells, mend))
        return True
    walk.followed.add(real)
    return False


def _unread(some: Iterable[Unread], problems: list[Problem]) -> Iterator[FoundFile]:
    """Files where none is read: named, and what they hold is still known by its name."""
    for each in some:
        problems.append(each.problem)
        if each.text:
            yield FoundFile(each.folder, each.name, each.problem.position.file, None, each.text)


_WHERE = "sources/*.bib, claims/*.yaml, questions/*.yaml, " + ", ".join(f"{name}.yaml" for name in TOP)


def _is_inside(path: str, real_root: str) -> bool:
    real = os.path.realpath(path)
    return real == real_root or real.startswith(real_root.rstrip(os.sep) + os.sep)


_MENDS = {
    "file-outside": "put the file itself there",
    "unreadable-file": "put a text file in its place",
    "file-too-large": "make two files of it",
    "not-utf-8": "where your editor saves the file, choose UTF-8 as its encoding",
}
"""By rule: what to do about a file that cannot be read."""


def _size(limit: int) -> str:
    """Bytes as people call them."""
    return f"{limit // 10**6} MB" if limit >= 10**6 else f"{limit // 1000} kB"


_USUAL = 1 << 16
"""Bytes that hardly any file has more of."""


def _read(
    folder: str, name: str, file: str, entry: os.DirEntry[str], real_root: str, problems: list[Problem]
) -> FoundFile:
    def refused(rule: str, message: str, text: str = "", line: int = 1, column: int = 1) -> FoundFile:
        mend = _MENDS[rule] if folder or rule != "file-too-large" else "leave out what is not needed"
        problems.append(error(Position(file, line, column), rule, message, mend))
        return FoundFile(folder, name, file, None, text)

    limit = FILE[os.path.splitext(entry.name)[1]] if folder else LARGEST_FILE
    if entry.is_symlink() and not _is_inside(entry.path, real_root):
        return refused("file-outside", f"{file} is a link that leads out of this folder")
    try:
        # A pipe or device would never end.
        if not entry.is_file():
            return refused("unreadable-file", f"{file} is not an ordinary file")
        with open(entry.path, "rb") as stream:
            data = stream.read(_USUAL)  # room for a whole limit, made for each file, takes longer than to read it
            if len(data) == _USUAL:
                data += stream.read(limit + 1 - _USUAL)
    except OSError as fault:
        return refused("unreadable-file", f"{file} cannot be opened: {fault.strerror or 'no reason given'}")
    if len(data) > limit:
        message = f"{file} is larger than {_size(limit)}{': split it' if folder else ''}"
        return refused("file-too-large", message, data.decode("utf-8", "replace"))
    try:
        text = data.decode("utf-8")
    except UnicodeDecodeError as fault:
        before = data[: fault.start].decode("utf-8").removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n")
        line, column = before.count("\n") + 1, len(before) - before.rfind("\n")
        message = f"byte {data[fault.start]:#04x} is not UTF-8: save this file as UTF-8"
        return refused("not-utf-8", message, data.decode("latin-1"), line, column)
    if text[:1] == "\ufeff":
        text = text[1:]
    if "\r" in text:
        text = text.replace("\r\n", "\n").replace("\r", "\n")
    return FoundFile(folder, name, file, text, "")
