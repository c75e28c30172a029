"""The schemas beside the evidence: an editor finds them there whatever site the guide stands in, built or not."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from ..describing.files import FILES
from ..describing.schema import schema_text

FOLDER = "evidence/schema"


def schema_files() -> dict[str, str]:
    """Text of each by its path below the root; the same bytes from the same release."""
    return {f"{FOLDER}/{file.name}.json": schema_text(file) for file in FILES}


def renew_schemas(root: Path) -> Iterator[str]:
    """Writes those that are missing or of another release, and gives the path of each from the root.

    Raises OSError where one cannot be written.
    """
    for name, text in schema_files().items():
        file = root / name
        if not file.is_file() or file.read_bytes() != text.encode():
            file.parent.mkdir(parents=True, exist_ok=True)
            file.write_text(text, encoding="utf-8", newline="\n")
            yield name
