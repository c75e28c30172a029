"""A compendium to start from: one worked report that says it is invented, and all that publishing it takes."""

from __future__ import annotations

import os
import tempfile
from importlib.metadata import version
from pathlib import Path

from .schemas import schema_files

_TEMPLATE = Path(__file__).parent / "compendium"
# Packaging leaves names with a leading dot out.
_DOT = "dot-"
# Stands for the release that writes the files.
_VERSION = "VERSION"


class CannotWrite(Exception):
    """Nothing was written; the message says why."""


def compendium_files() -> dict[str, str]:
    """Text of every file by its path below the new folder; the same bytes from the same release."""
    paths = sorted(path for path in _TEMPLATE.rglob("*") if path.is_file())
    return {_named(path.relative_to(_TEMPLATE)): _filled(path) for path in paths} | schema_files()


def write_compendium(folder: Path) -> None:
    """Writes the files into a new or an empty folder, all of them or none.

    Raises CannotWrite where the folder holds anything, is a file or cannot be written; it is as it was then.
    """
    place = Path(os.path.realpath(folder))
    if place.exists() and not place.is_dir():
        raise CannotWrite(f"{folder} is a file: name a new folder")
    try:
        is_there = place.is_dir()
        if is_there and any(place.iterdir()):
            raise CannotWrite(f"{folder} holds files, and nothing is ever overwritten: name a new or an empty folder")
        if not is_there:
            place.parent.mkdir(parents=True, exist_ok=True)
        # Inside an empty folder, since a terminal may stand in it and it may be a disk of its own; else beside.
        with tempfile.TemporaryDirectory(prefix=".new-", dir=place if is_there else place.parent) as beside:
            fresh = Path(beside) / "compendium"
            _write(fresh)
            if is_there:
                _move_into(fresh, place)
            else:
                fresh.rename(place)
    except OSError as fault:
        raise CannotWrite(f"{folder} could not be written: {fault.strerror or fault}") from fault


def _write(fresh: Path) -> None:
    for name, text in compendium_files().items():
        file = fresh / name
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(text, encoding="utf-8", newline="\n")


def _move_into(fresh: Path, place: Path) -> None:
    moved: list[Path] = []
    try:
        for entry in sorted(fresh.iterdir()):
            if os.path.lexists(place / entry.name):
                raise FileExistsError(None, f"somebody else has just written {entry.name}")
            moved.append(entry.rename(place / entry.name))
    except OSError:
        for entry in moved:
            entry.rename(fresh / entry.name)
        raise


def _named(path: Path) -> str:
    name = path.as_posix()
    return f".{name.removeprefix(_DOT)}" if name.startswith(_DOT) else name


def _filled(path: Path) -> str:
    return path.read_text("utf-8").replace(_VERSION, version("passageproof"))
