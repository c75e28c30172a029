"""Which files a change touches, and which of them are no evidence."""

from __future__ import annotations

import os
from collections.abc import Iterable
from pathlib import Path

from ..impact.bases import KEPT, NoBase, said_by_git
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
    changed = said_by_git(root, "diff", "--name-only", "-z", "--relative", "--end-of-options", base, "--", ".")
    fresh = said_by_git(root, "ls-files", "-z", "--others", "--exclude-standard")
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
