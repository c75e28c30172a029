"""Where a site may be put: an absent or empty place, or one that holds a site of ours and nothing else."""

from __future__ import annotations

import hashlib
import json
import os
from collections.abc import Iterable, Iterator
from pathlib import Path

from .records import NamedTuple

PUBLISHED = "data/published.json"
"""Below the guide's address: every other file of the site with its digest, so that the next site may take its place."""
_WRITTEN_BY = "passageproof"

# What an operating system leaves in a folder that somebody looked into; nobody's document.
_LEFT_BEHIND = frozenset((".DS_Store", "Thumbs.db", "desktop.ini"))
_NAMED = 3


def refusal(root: Path, site: Path, kept: tuple[str, ...]) -> str:
    """Why a site may not be put there, in words that say what to do; "" where it may.

    root: the folder that holds evidence/. site: the place, links in it resolved. kept: folders of root with what people
    write, which a site would replace.
    """
    if site.exists() and not site.is_dir():
        return f"{site.name} is a file, and a site is a folder: name another place"
    if root.resolve().is_relative_to(site):
        return f"{site.name} holds the evidence itself, which the site would replace: name another place"
    for name in kept:
        folder = Path(os.path.realpath(root / name))
        if site.is_relative_to(folder) or folder.is_relative_to(site):
            return f"{site.name} lies in {name}, which the site would replace: name another place"
    found = sorted(_files(site)) if site.exists() else []
    if not found:
        return ""
    listed = _listed(site, found)
    if listed is None:
        return (
            f"{site} holds files and is no site that this program built ({_names(found)}): "
            "name another place, or empty this one"
        )
    # A file of the same name may be somebody's own by now.
    foreign = [path for path in found if path != listed.path and listed.files.get(path) != _digest(site / path)]
    if foreign:
        return (
            f"{site} holds files that were not published with the site there ({_names(foreign)}), and would be lost: "
            "move them out, or name another place"
        )
    return ""


def other_kind(site: Path, at: str) -> str:
    """Why a site of one kind may not take the place of one of the other kind, in words that say what to do; "" where it
    is of the same kind, or none of ours.

    at: where the guide will stand below the site; "" in a site of the compendium's own.
    """
    found = sorted(_files(site)) if site.is_dir() else []
    listed = _listed(site, found)
    before = listed.at if listed is not None else None
    if before is None or bool(before) == bool(at):
        return ""
    if at:
        return (
            f"{site} holds a site of the guide alone, and what would take its place is a site with pages of its own "
            f"and the guide at /{at}: empty it first if that is meant, or name another place"
        )
    return (
        f"{site} holds a site with pages of its own and the guide at /{before}, and what would take its place is the "
        "guide alone: name the folder of those pages with docs_dir in mkdocs.yml; if the guide alone is meant, empty "
        f"{site.name} first"
    )


def leave_list(site: Path, at: str = "") -> None:
    """Writes the list of all that a fresh site holds into it; the same bytes for the same files.

    at: where the guide stands below the site; "" in a site of the compendium's own.
    """
    files = {path: _digest(site / path) for path in sorted(_files(site)) if path != at + PUBLISHED}
    listed = site / at / PUBLISHED
    listed.parent.mkdir(parents=True, exist_ok=True)
    text = json.dumps({"written_by": _WRITTEN_BY, "at": at, "files": files}, ensure_ascii=False, indent=0)
    listed.write_text(text + "\n", encoding="utf-8")


def damaged(site: Path) -> str:
    """Why a site of the compendium's own is not as it was published, in plain words; "" where every byte is."""
    found = set(_files(site))
    listed = _list_in(site, PUBLISHED)
    if listed is None:
        return f"it has no list of what was published ({PUBLISHED})"
    missing = sorted(set(listed.files) - found)
    if missing:
        return f"files are missing ({_names(missing)})"
    foreign = sorted(path for path in found - {PUBLISHED} if listed.files.get(path) != _digest(site / path))
    return f"files are not as they were published ({_names(foreign)})" if foreign else ""


def _files(site: Path) -> Iterator[str]:
    """Every file and every link below the site, by its path there; links are not followed."""
    for folder, folders, files in os.walk(site):
        below = Path(folder).relative_to(site)
        links = [name for name in folders if os.path.islink(os.path.join(folder, name))]
        for name in (*files, *links):
            if name not in _LEFT_BEHIND:
                yield (below / name).as_posix()


class _List(NamedTuple):
    """The list of a site."""

    path: str
    """Its own place below the site."""
    at: str
    """Where the guide stands."""
    files: dict[str, str]
    """The digest of each file by its path."""


def _listed(site: Path, found: Iterable[str]) -> _List | None:
    """What was published with the site; None where it holds no list of ours. found: all that it holds."""
    for path in found:
        # A copy of an older site below this one has a list too, which tells of that folder alone.
        if path == PUBLISHED or path.endswith(f"/{PUBLISHED}"):
            listed = _list_in(site, path)
            if listed is not None:
                return listed
    return None


def _list_in(site: Path, path: str) -> _List | None:
    try:
        said = json.loads((site / path).read_text("utf-8"))
    except (OSError, ValueError):
        return None
    if not isinstance(said, dict) or said.get("written_by") != _WRITTEN_BY:
        return None
    at, files = said.get("at"), said.get("files")
    if not isinstance(at, str) or not isinstance(files, dict) or path != at + PUBLISHED:
        return None
    return _List(path, at, files)


def _digest(file: Path) -> str:
    """What a file holds, as SHA-256; "" for a link, which no site holds."""
    if file.is_symlink():
        return ""
    with file.open("rb") as stream:
        return hashlib.file_digest(stream, "sha256").hexdigest()


def _names(paths: list[str]) -> str:
    further = len(paths) - _NAMED
    return ", ".join(paths[:_NAMED]) + (f" and {further} more" if further > 0 else "")
