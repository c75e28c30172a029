"""What the desk needs beside its page: Python for browsers, this program, and the evidence to check a paper against."""

from __future__ import annotations

import hashlib
import os
from collections.abc import Callable, Iterator
from functools import partial
from importlib.util import find_spec
from pathlib import Path

from ..reading.evidence import read_evidence
from ..reading.files import WRITTEN_DIR
from ..reading.page_kinds import DESK
from ..reading.site_settings import SETTINGS
from ..rendering.site import Pieces
from .abridged import FILE, abridged, packed
from .archive import zipped

RUNTIME = "node_modules/pyodide"
"""Where `npm ci` puts Python for browsers, below the folder that holds evidence/."""

_HASHES = {
    "pyodide.js": "7f832a350240263d9946a9c3c877f7bcdab6c37d6dc65f72cd3be5905dca62dd",
    "pyodide.asm.js": "356c42f69e1695397e9d8670bd3c2e678248cde76e18bdae1731e848537b47d7",
    "pyodide.asm.wasm": "54309a5a2cfd757b1f0fdbc9093c92503f7b341500110329d932487183912718",
    "python_stdlib.zip": "831fd1e535084b972f87c6a35275de3d236efd5166f5e77ce89497710635e73c",
    "pyodide-lock.json": "14d2c2dba101277999e17135e653d8f15389ad1437f53eae213bf0c3cdff723d",
}
"""SHA-256 of every file that is published of it: those of the release that the desk was tried with."""

_LIBRARIES = ("yaml", "bibtexparser", "pylatexenc", "rispy")
"""What reading needs of others, all of it Python."""

_LEFT_OUT = frozenset(("__pycache__", "theme", "commands", "impact", "compendium"))
_PIECE = 1 << 16


def runtime_of(root: Path) -> Path | None:
    """The folder of the runtime, where every file in it is the one that was tried; None where it was not fetched.

    Raises ValueError where a file there is another one.
    """
    folder = root / RUNTIME
    if not (folder / "pyodide.asm.wasm").is_file():
        return None
    for name, wanted in _HASHES.items():
        path = folder / name
        found = _digest(path) if path.is_file() else "missing"
        if found != wanted:
            raise ValueError(f"{RUNTIME}/{name} is not the file that the desk was tried with: run `npm ci` again")
    return folder


def _digest(path: Path) -> str:
    with path.open("rb") as stream:
        return hashlib.file_digest(stream, "sha256").hexdigest()


def size_of(root: Path) -> int:
    """Bytes that somebody's device fetches when the desk is opened, unpacked; 0 where there is no runtime."""
    folder = runtime_of(root)
    if folder is None:
        return 0
    return sum((folder / name).stat().st_size for name in _HASHES)


def shipped_files(root: Path) -> dict[str, Pieces]:
    """What is published beside the desk, by path in the site, made when it is written; nothing without a runtime."""
    folder = runtime_of(root)
    if folder is None:
        return {}
    out: dict[str, Pieces] = {f"{DESK}python/{name}": partial(_read, folder / name) for name in _HASHES}
    out[f"{DESK}program.zip"] = partial(_in_one, _program)
    out[f"{DESK}evidence.zip"] = partial(_in_one, partial(_evidence, root))
    out[f"{DESK}near.zip"] = partial(_in_one, partial(_near, root))
    return out


def _read(path: Path) -> Iterator[bytes]:
    with path.open("rb") as stream:
        while piece := stream.read(_PIECE):
            yield piece


def _in_one(files: Callable[[], Iterator[tuple[str, bytes]]]) -> Iterator[bytes]:
    yield zipped(files())


def _program() -> Iterator[tuple[str, bytes]]:
    own = __name__.partition(".")[0]
    for name in (own, *_LIBRARIES):
        found = find_spec(name)
        if found is None or not found.submodule_search_locations:
            raise ValueError(f"{name} is not installed as Python that a browser could run")
        yield from _below(Path(found.submodule_search_locations[0]), name, (".py",))


def _evidence(root: Path) -> Iterator[tuple[str, bytes]]:
    yield from _below(root / "evidence", "evidence", (".yaml", ".bib", ".svg"))
    yield from _below(root / WRITTEN_DIR, WRITTEN_DIR, (".md",))
    settings = root / SETTINGS
    if settings.is_file():
        yield SETTINGS, settings.read_bytes()


def _near(root: Path) -> Iterator[tuple[str, bytes]]:
    """What one report is checked against while it is typed: all but the other reports, and what these are called."""
    for name, data in _evidence(root):
        if not name.startswith(("evidence/claims/", "evidence/sources/")):
            yield name, data
    yield FILE, packed(abridged(read_evidence(root)))


def _below(folder: Path, name: str, endings: tuple[str, ...]) -> Iterator[tuple[str, bytes]]:
    for parent, folders, files in os.walk(folder):
        folders[:] = sorted(each for each in folders if each not in _LEFT_OUT)
        for file in sorted(files):
            if file.endswith(endings):
                path = Path(parent) / file
                yield f"{name}/{path.relative_to(folder).as_posix()}", path.read_bytes()
