"""How long after a save a page of the preview is there, whole, as a browser gets it."""

from __future__ import annotations

import statistics
import sys
import time
from pathlib import Path

from passageproof.preview import Preview, answer_to

ROUNDS = 6


def bench_preview(name: str, root: Path) -> None:
    """Saves one claim file after the other and asks at once for the pages that it changes. Whole: reading until the
    last byte of every page, which is what a preview that makes everything takes at least."""
    claims = sorted((root / "evidence" / "claims").glob("*.yaml"))
    preview = Preview(root)
    preview.start()
    seconds: dict[str, list[float]] = {"source": [], "question": [], "factor": []}
    try:
        for number, file in enumerate(claims[:: len(claims) // ROUNDS][:ROUNDS]):
            text = file.read_text("utf-8")
            question = text.partition("question: ")[2].split()[0]
            factor = text.partition("factor: ")[2].split()[0]
            pages = {"source": f"sources/{file.stem}/", "question": f"{question}/", "factor": f"{question}/{factor}/"}
            for kind, address in pages.items():
                file.write_text(f"# saved {number} {kind}\n{text}", "utf-8")
                start = time.perf_counter()
                assert answer_to(preview, f"/{address}").body
                seconds[kind].append(time.perf_counter() - start)
                preview.file("index.html")
            file.write_text(text, "utf-8")
        start = time.perf_counter()
        for path in preview.site.parts:
            preview.file(path)
        whole = time.perf_counter() - start
    finally:
        preview.close()
    for kind, taken in seconds.items():
        median = statistics.median(taken)
        print(
            f"preview, {name}: {kind} page {median:.2f} s after a save (aim 1 s), {median / whole:.2f} x of all files"
        )


if __name__ == "__main__":
    bench_preview(sys.argv[1], Path(sys.argv[1]))
