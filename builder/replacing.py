"""A new site in place of an old one, all or nothing; and a day that stands in for today while it is made."""

from __future__ import annotations

import contextlib
import datetime
import os
import shutil
import tempfile
from collections.abc import Iterator
from pathlib import Path

try:
    import fcntl
except ImportError:  # not everywhere; there leftovers stay where they are
    fcntl = None  # type: ignore[assignment]

_NEW, _OLD, _LOCK = "new", "old", "lock"
_TODAY = "SOURCE_DATE_EPOCH"


@contextlib.contextmanager
def replacement(site: Path) -> Iterator[Path]:
    """An empty folder to make the new site in; it takes the place of the old one where the block ends without a fault.

    site: where the site is put, links in it resolved. Raises OSError where it cannot be written; the old one stands.
    """
    site.parent.mkdir(parents=True, exist_ok=True)
    finish_swaps(site)
    # Beside the old one, so that the swap stays on one filesystem and is two renames.
    place = tempfile.TemporaryDirectory(prefix=f".{site.name}-", dir=site.parent)
    with place as beside, _held(Path(beside) / _LOCK):
        fresh = Path(beside) / _NEW
        fresh.mkdir()
        yield fresh
        _make_readable(fresh)
        _swap(fresh, site, Path(beside) / _OLD)


def finish_swaps(site: Path) -> list[str]:
    """Mends what a process left that was killed while it made a site: where it had moved the old one away and not yet
    put the new one there, the new one is put there; what else it left is removed. What was done, in plain words.

    site: where the site is put, links in it resolved. A process that is still at work is left alone.
    """
    done: list[str] = []
    if not site.parent.is_dir():
        return done
    for left in sorted(site.parent.glob(f".{site.name}-*")):
        if not _is_left_behind(left):
            continue
        if not os.path.lexists(site) and (left / _OLD).is_dir():
            # The old one is moved away only when the new one is whole.
            found = left / _NEW if (left / _NEW).is_dir() else left / _OLD
            found.rename(site)
            done.append(f"{site}: the last build was ended while it put this site in place, which is now done")
        shutil.rmtree(left, ignore_errors=True)
        done.append(f"{left}: left by a build that was ended, and removed")
    return done


def _is_left_behind(folder: Path) -> bool:
    """True for a folder that `replacement` made, of a process that has ended."""
    if fcntl is None or folder.is_symlink() or not (folder / _LOCK).is_file():
        return False
    if not {entry.name for entry in folder.iterdir()} <= {_NEW, _OLD, _LOCK}:
        return False
    with (folder / _LOCK).open("rb") as lock:
        try:
            fcntl.flock(lock, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except OSError:
            return False
    return True


@contextlib.contextmanager
def _held(path: Path) -> Iterator[None]:
    """The lock of this process, which its system lets go of however it ends."""
    with path.open("wb") as lock:
        if fcntl is not None:
            fcntl.flock(lock, fcntl.LOCK_EX)
        yield


def _make_readable(folder: Path) -> None:
    """Whoever serves the site reads it, whatever this process keeps from others (umask)."""
    for path in (folder, *folder.rglob("*")):
        if not path.is_symlink():
            path.chmod(path.stat().st_mode | (0o755 if path.is_dir() else 0o644))


def _swap(fresh: Path, site: Path, old: Path) -> None:
    if not site.exists():
        fresh.rename(site)
        return
    site.rename(old)
    try:
        fresh.rename(site)
    except OSError:
        old.rename(site)
        raise


class Clock:
    """The evidence date in place of today (reproducible-builds.org, SOURCE_DATE_EPOCH), until it is given back."""

    def __init__(self) -> None:
        self._before: str | None = None
        self._is_set = False

    def set(self, day: datetime.date) -> None:
        """From now on it is midnight UTC of this day."""
        if not self._is_set:
            self._before = os.environ.get(_TODAY)
            self._is_set = True
        midnight = datetime.datetime.combine(day, datetime.time(), datetime.UTC)
        os.environ[_TODAY] = str(int(midnight.timestamp()))

    def restore(self) -> None:
        """Today comes back; nothing happens where no day was set."""
        if not self._is_set:
            return
        self._is_set = False
        if self._before is None:
            os.environ.pop(_TODAY, None)
        else:
            os.environ[_TODAY] = self._before
