"""A file in place of another, whole or not at all."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path


def save(path: Path, text: str) -> None:
    """Writes the text beside the file and puts it in its place, with the rights that the file has, if there is one."""
    handle, beside = tempfile.mkstemp(prefix=f".{path.name}-", dir=path.parent)
    try:
        with open(handle, "w", encoding="utf-8", newline="\n") as stream:
            stream.write(text)
        os.chmod(beside, path.stat().st_mode & 0o7777 if path.exists() else 0o644)
        os.replace(beside, path)
    except OSError:
        os.unlink(beside)
        raise
