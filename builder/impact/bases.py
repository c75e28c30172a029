"""The compendium as it was: a folder, or a revision that git keeps."""

from __future__ import annotations

import io
import subprocess
import tarfile
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from ..reading.files import WRITTEN_DIR, missing_compendium

KEPT = ("evidence", WRITTEN_DIR, "mkdocs.yml")
"""What a guide is made of, below its root."""


class NoBase(Exception):
    """There is nothing to compare with; the message says why, and what to type."""


@contextmanager
def base_folder(root: Path, base: str) -> Iterator[Path]:
    """A folder that holds the evidence as it was, for as long as the block runs; nothing is changed in the repository.

    root: of the compendium as it is now. base: a folder that holds evidence/, or a revision ("main", "v1.2.0",
    "HEAD~3"). Raises NoBase.
    """
    if base and (Path(base) / "evidence").is_dir():
        reason = missing_compendium(Path(base))
        if reason:
            raise NoBase(reason)
        yield Path(base)
        return
    packed = _packed(root, base)
    with tempfile.TemporaryDirectory(prefix="base-") as folder:
        with tarfile.open(fileobj=io.BytesIO(packed)) as archive:
            archive.extractall(folder, filter="data")
        reason = missing_compendium(Path(folder))
        if reason:
            raise NoBase(
                f'"{base}" holds no evidence/compendium.yaml at this place: name an earlier or a later revision'
            )
        yield Path(folder)


def _packed(root: Path, base: str) -> bytes:
    """What git keeps of the compendium at that revision, as a tar archive."""
    top = said_by_git(root, "rev-parse", "--show-toplevel")
    if top is None:
        raise NoBase(f"{root} is in no repository of git: name a folder that holds evidence/ as it was")
    revision = said_by_git(root, "rev-parse", "--verify", "--quiet", "--end-of-options", f"{base}^{{commit}}")
    if revision is None:
        raise NoBase(
            f'"{base}" is neither a folder that holds evidence/ nor a revision that git knows here: name one, '
            '"main" or "HEAD~1" say'
        )
    here = (said_by_git(root, "rev-parse", "--show-prefix") or b"").decode().strip().rstrip("/")
    # git reads paths from the folder it runs in.
    whole = Path(top.decode().rstrip("\n"))
    tree = f"{revision.decode().strip()}:{here}"
    names = (said_by_git(whole, "ls-tree", "--name-only", tree) or b"").decode().splitlines()
    kept = [name for name in KEPT if name in names]
    packed = said_by_git(whole, "archive", "--format=tar", tree, "--", *kept) if "evidence" in kept else None
    if packed is None:
        raise NoBase(f'"{base}" holds no evidence/ at this place: name an earlier or a later revision')
    return packed


def said_by_git(folder: Path, *words: str) -> bytes | None:
    """What git answers there; None where it says no. Raises NoBase where there is no git."""
    try:
        done = subprocess.run(["git", "-C", str(folder), *words], capture_output=True, check=False)
    except FileNotFoundError as none:
        raise NoBase("git is not installed here: name a folder that holds evidence/ as it was") from none
    return None if done.returncode else done.stdout
