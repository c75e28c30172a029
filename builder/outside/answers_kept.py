"""Answers kept on this machine, so that nobody is asked twice for the same; what cannot be read is asked for anew."""

from __future__ import annotations

import contextlib
import datetime
import hashlib
import json
import os
from pathlib import Path

from ..records import NamedTuple
from ..writing.saving import save


class Kept(NamedTuple):
    """An answer as it came."""

    doi: str
    asked: datetime.datetime
    """In UTC."""
    etag: str
    """What the service calls this version of its answer (RFC 9110, section 8.8.3); "" where it said nothing."""
    body: bytes


class AnswersKept:
    """A folder with one file a DOI; None: nothing is kept."""

    def __init__(self, folder: Path | None) -> None:
        self._folder = folder

    def find(self, doi: str) -> Kept | None:
        """What was answered the last time."""
        if self._folder is None:
            return None
        try:
            held = json.loads(self._file(doi).read_text("utf-8"))
            found = Kept(
                held["doi"], datetime.datetime.fromisoformat(held["asked"]), held["etag"], held["body"].encode()
            )
        except (OSError, ValueError, KeyError, TypeError, AttributeError):
            return None
        is_whole = isinstance(found.etag, str) and found.asked.tzinfo is not None
        return found if is_whole and found.doi == doi.casefold() else None

    def keep(self, doi: str, asked: datetime.datetime, etag: str, body: bytes) -> None:
        """Keeps an answer that was understood. Where it cannot be written nothing is kept, and nothing is lost."""
        if self._folder is None:
            return
        held = {"doi": doi.casefold(), "asked": asked.isoformat(), "etag": etag, "body": body.decode()}
        file = self._file(doi)
        with contextlib.suppress(OSError):
            self._folder.mkdir(parents=True, exist_ok=True)
            save(file, json.dumps(held))

    def _file(self, doi: str) -> Path:
        assert self._folder is not None
        return self._folder / f"{hashlib.sha256(doi.casefold().encode()).hexdigest()}.json"


def usual_folder() -> Path:
    """Where programs of this user keep what can be had again (XDG Base Directory Specification 0.8)."""
    said = os.environ.get("XDG_CACHE_HOME", "")
    base = Path(said) if said.startswith("/") else Path.home() / ".cache"
    return base / "passageproof" / "crossref"
