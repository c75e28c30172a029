"""Which files a change touches, and which of them are no evidence."""

from __future__ import annotations

import os
import subprocess
from collections.abc import Iterable
from pathlib import Path

from ..impact.bases import KEPT, NoBase
from ..reading.files import WRITTEN_DIR

_WORDS = ("evidence/", f"{WRITTEN_DIR}/", "releases/", "README.md", "CITATION.cff", "LICENSE")
"""What people write for readers; all else runs when a site is made."""


def changed_since(root: Path, base: str) -> frozenset[str]:
    """Paths from root of all files that are not as they were. base: a revision of git, or a folder with evidence/.

    Raises NoBase.
    """
    folder = Path(base)
    if (folder / "evidence").is_dir():
        found = {path for each in (root, folder) for path in _kept_files(each)}
        return frozenset(path for path in found if _bytes(root / path) != _bytes(folder / path))
    changed = _git(root, "diff", "--name-only", "-z", "--relative", "--end-of-options", base, "--", ".")
    fresh = _git(root, "ls-files", "-z", "--others", "--exclude-standard")
    if changed is None or fresh is None:
        raise NoBase(f'"{base}" is neither a folder that holds evidence/ nor a revision that git knows here')
    return frozenset(path for path in (changed + fresh).decode("utf-8", "replace").split("\0") if path)


def code_among(files: Iterable[str]) -> list[str]:
    """Those that are no evidence: what runs, and what settles how."""
    return sorted(path for path in files if not path.startswith(_WORDS))


def _kept_files(root: Path) -> list[str]:
    single = [name for name in KEPT if (root / name).is_file()]
    inner = [
        os.path.relpath(os.path.join(folder, name), root).replace(os.sep, "/")
        for top in KEPT
        for folder, _, names in os.walk(root / top)
        for name in names
    ]
    return [*single, *inner]


def _bytes(path: Path) -> bytes | None:
    try:
        return path.read_bytes()
    except OSError:
        return None


def _git(root: Path, *words: str) -> bytes | None:
    try:
        done = subprocess.run(["git", "-C", str(root), *words], capture_output=True, check=False)
    except FileNotFoundError as none:
        raise NoBase("git is not installed here: name a folder that holds evidence/ as it was") from none
    return None if done.returncode else done.stdout
