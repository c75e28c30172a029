"""The service worker of one publication: what a first visit keeps, and a digest over all that is published."""

from __future__ import annotations

import gzip
import hashlib
import json
import re
from collections.abc import Callable, Iterable
from typing import BinaryIO

# Downloads, source maps and the theme's bundle with its languages are kept when somebody opens them, not beforehand.
_KEPT_OUT = re.compile(
    r"\.map$|^data/(?!standing\.json$|index\.html$)|^sitemap|^404\.html$|^assets/(?:stylesheets|javascripts|images)/"
    r"|/talk/(?:slides\.pptx|handout\.pdf)$|^javascripts/slides\.|^contribute/desk/|^(?:stylesheets|javascripts)/desk"
)

_TAKEN_ALONG = frozenset({"data/sources.bib", "data/claims.csv"})
_SMALL = 64 * 1024
"""House rule, bytes compressed: what people take along from a page is kept beforehand up to this size. What is not kept
says that it needs the network."""


def service_worker(template: str, paths: Iterable[str], opened: Callable[[str], BinaryIO]) -> str:
    """The worker's script with its two blanks filled in.

    template: the script with "DIGEST" and [/* KEPT */]. paths: of every other file. opened: one of them, to be read;
    the largest holds every figure, and is never held as a whole.
    """
    digest = hashlib.sha256()
    kept = []
    for path in sorted(paths):
        # What is packed says nothing new, and its header may hold a time.
        if not path.endswith(".gz"):
            with opened(path) as stream:
                digest.update(path.encode() + b"\0" + hashlib.file_digest(stream, "sha256").digest())  # type: ignore[arg-type]
                if not _KEPT_OUT.search(path) or (path in _TAKEN_ALONG and _is_small(stream)):
                    kept.append(re.sub(r"(^|/)index\.html$", r"\1", path))
    filled = template.replace('"DIGEST"', json.dumps(digest.hexdigest()[:16]))
    return filled.replace("[/* KEPT */]", json.dumps(kept, ensure_ascii=False))


def _is_small(stream: BinaryIO) -> bool:
    stream.seek(0)
    return len(gzip.compress(stream.read(), 6)) <= _SMALL
