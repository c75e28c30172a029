"""Which files were saved since somebody looked the last time."""

from __future__ import annotations

import os
import time
from collections.abc import Iterable, Iterator
from hashlib import sha256
from pathlib import Path

# A file may be saved twice within the grain of the clock, at one length: that long its content tells, not its date.
_GRAIN = 2_000_000_000

_Stamp = tuple[tuple[int, ...], bytes | None]
"""Dates, size and number of a file; its digest where these may not tell a second save from the first."""


class Watch:
    """Looks at files and at all files below folders; those whose name begins with a dot are nobody's."""

    def __init__(self) -> None:
        self._seen: dict[str, _Stamp] = {}

    def changed(self, watched: Iterable[Path]) -> dict[str, bool]:
        """Path of every file that was saved, made or taken away since the last look, and whether it stood there before
        and still does."""
        before, self._seen = self._seen, {}
        for path in _files(watched):
            stamp = _stamp(path, before.get(path))
            if stamp is not None:
                self._seen[path] = stamp
        paths = before.keys() | self._seen.keys()
        return {
            path: path in before and path in self._seen
            for path in paths
            if not _is_same(before.get(path), self._seen.get(path))
        }


def _files(watched: Iterable[Path]) -> Iterator[str]:
    waiting = [str(path) for path in watched]
    walked: set[str] = set()
    while waiting:
        path = waiting.pop()
        if os.path.isdir(path):
            real = os.path.realpath(path)
            if real in walked:  # a link may lead back to a folder above it
                continue
            walked.add(real)
            try:
                waiting += [entry.path for entry in os.scandir(path) if not entry.name.startswith(".")]
            except OSError:
                continue
        else:
            yield path


def _stamp(path: str, before: _Stamp | None) -> _Stamp | None:
    try:
        stat = os.stat(path)
        dates = (stat.st_mtime_ns, stat.st_ctime_ns, stat.st_size, stat.st_ino)
        is_fresh = time.time_ns() - max(stat.st_mtime_ns, stat.st_ctime_ns) < _GRAIN
        if not is_fresh and (before is None or before[0] != dates or before[1] is None):
            return dates, None
        digest = sha256(Path(path).read_bytes()).digest()
    except OSError:
        return None
    # Read once more after the grain, it can only be saved again at another date.
    return dates, digest if is_fresh or before is None or before[1] != digest else None


def _is_same(one: _Stamp | None, other: _Stamp | None) -> bool:
    if one is None or other is None:
        return one is other
    return one[0] == other[0] and (one[1] is None or other[1] is None or one[1] == other[1])
