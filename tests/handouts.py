"""The sheets of a built site read back: the ids of the figures that each says it holds."""

from __future__ import annotations

import json
from pathlib import Path

from pypdf import PdfReader


def sheets_in(site: Path) -> dict[str, set[str]]:
    """Ids of figures by the path of each sheet below the site."""
    out = {}
    for file in sorted(site.glob("*/talk/handout.pdf")):
        (attached,) = PdfReader(file).attachments["figures.jsonl"]
        lines = attached.decode("utf-8").splitlines()
        out[file.relative_to(site).as_posix()] = {json.loads(line)["id"] for line in lines}
    return out
