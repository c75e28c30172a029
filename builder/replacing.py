"""A new site in place of an old one, all or nothing; and a day that stands in for today while it is made."""

from __future__ import annotations

import contextlib
import datetime
import os
import tempfile
from collections.abc import Iterator
from pathlib import Path

_TODAY = "SOURCE_DATE_EPOCH"


@contextlib.contextmanager
def replacement(site: Path) -> Iterator[Path]:
    """An empty folder to make the new site in; it takes the place of the old one where the block ends without a fault.

    site: where the site is put, links in it resolved. Raises OSError where it cannot be written; the old one stands.
    """
    site.parent.mkdir(parents=True, exist_ok=True)
    # Beside the old one, so that the swap stays on one filesystem and is two renames.
    with tempfile.TemporaryDirectory(prefix=f".{site.name}-", dir=site.parent) as beside:
        fresh = Path(beside) / "new"
        fresh.mkdir()
        yield fresh
        _swap(fresh, site, Path(beside) / "old")


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
