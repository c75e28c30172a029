"""What a first visit keeps: pages and what is small, and nothing that few people ask for."""

from __future__ import annotations

import io
import json
import random
import re

from passageproof.rendering.offline import service_worker


def kept(files: dict[str, bytes]) -> list[str]:
    template = 'const CACHE = "DIGEST"; const KEPT = [/* KEPT */];'
    script = service_worker(template, files, lambda path: io.BytesIO(files[path]))
    found = re.search(r"KEPT = (\[.*?\]);", script)
    assert found is not None
    return list(json.loads(found[1]))


def test_small_files_to_take_along_are_kept_and_large_ones_are_not() -> None:
    noise = random.Random(3).randbytes(80 * 1024)
    assert kept({"data/sources.bib": b"@article{x}", "data/claims.csv": noise, "data/figures.jsonl": b"{}"}) == [
        "data/sources.bib"
    ]


def test_pages_are_kept_by_their_address_and_the_lines_of_the_search_with_them() -> None:
    files = {"index.html": b"", "q/index.html": b"", "search/lines.json": b"{}", "sitemap.xml": b"", "a/b.js.map": b""}
    assert kept(files) == ["", "q/", "search/lines.json"]
