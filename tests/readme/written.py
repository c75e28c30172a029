"""The compendium that README.md shows: its own blocks, laid beside the few files that it does not print."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

ROOT = Path(__file__).parent.parent.parent
KEY = "quillby2020floor"


def blocks(language: str) -> list[str]:
    """The fenced blocks of README.md in one language, in order."""
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    return re.findall(rf"^```{language}\n(.*?)^```$", text, re.MULTILINE | re.DOTALL)


def write_shown(folder: Path, *, mistyped: bool = False) -> None:
    """Writes evidence/ below the folder; mistyped: with the slip that README.md shows the answer to."""
    shutil.copytree(Path(__file__).parent / "evidence", folder / "evidence")
    (entry,), (claim,) = blocks("bibtex"), blocks("yaml")
    (folder / "evidence" / "sources").mkdir()
    (folder / "evidence" / "claims").mkdir()
    (folder / "evidence" / "sources" / "floor.bib").write_text(entry, encoding="utf-8")
    if mistyped:
        claim = claim.replace("events: 43", "events: 34")
    (folder / "evidence" / "claims" / f"{KEY}.yaml").write_text(claim, encoding="utf-8")
