"""Lasting copies of releases: each stays at /vX.Y.Z/ as it was published, says so, and leads to the newest guide.

What people read stands at the root of the site, and /latest/ leads there from any page's address. A copy has no service
worker: offline nobody is given another publication than the newest.
"""

from __future__ import annotations

import gzip
import json
import re
import tarfile
from collections.abc import Iterator
from html import escape
from pathlib import Path

from .placing import damaged
from .reading.parsing import RELEASE
from .rendering.inline import marked_html
from .results.values.guide import Guide

LATEST = "latest"
"""Below the site: every page's address leads to that page of the newest guide."""

_find_name = re.compile(rf"v({RELEASE})(\.tar\.gz)?").fullmatch
# What would answer for a copy in the place of the newest guide, or lead a search there.
_LEFT_OUT = ("service-worker.js", "manifest.webmanifest", "sitemap.xml", "sitemap.xml.gz", "404.html")


class CannotCopy(Exception):
    """A lasting copy cannot be made, or one that was handed in is not whole; the message says which and why."""


def make_copy(site: Path, guide: Guide) -> None:
    """Turns a built site into the lasting copy of its release, which is put at /vX.Y.Z/. site: changed in place."""
    for name in _LEFT_OUT:
        (site / name).unlink(missing_ok=True)
    for page in sorted(site.rglob("*.html")):
        address = page.relative_to(site).as_posix().removesuffix("index.html")
        page.write_text(_as_copy(page.read_text("utf-8"), address, guide), encoding="utf-8")


def _as_copy(html: str, address: str, guide: Guide) -> str:
    """One page that says what it is. address: of the page, from the copy's root."""
    newest = "../" * (address.count("/") + 1)
    head = "" if 'name="robots"' in html else '<meta name="robots" content="noindex">\n'
    # Where the site's address is known the page has it already: it is that of the newest guide.
    head += "" if 'rel="canonical"' in html else f'<link rel="canonical" href="{newest}{escape(address)}">\n'
    html = re.sub(r'<link rel="manifest"[^>]*>\n?', "", html)
    html = html.replace("</title>", f"</title>\n{head}", 1)
    said = (
        f'<p class="notice">This is the lasting copy of release {marked_html("identifier", guide.release)}, with '
        f"evidence of {marked_html('date', guide.evidence_date.isoformat())}. It is not kept up: "
        f'<a href="{newest}">the newest guide is here</a>.</p>'
    )
    return re.sub(r'<(?:main|div) id="main">', lambda found: f"{found[0]}\n{said}", html, count=1)


def place_copies(site: Path, copies: Path) -> list[str]:
    """Puts lasting copies beside the newest guide, and /latest/; gives their releases, the newest first.

    site: a built one, changed in place. copies: holds vX.Y.Z folders, or vX.Y.Z.tar.gz with what such a folder holds.
    Raises CannotCopy where one is not whole, and OSError.
    """
    _lead_to_newest(site)
    releases = []
    for entry in sorted(copies.iterdir()):
        named = _find_name(entry.name)
        if named is None or bool(named[2]) != entry.is_file():
            raise CannotCopy(f"{entry}: a lasting copy is a folder named v1.2.0, or a file v1.2.0.tar.gz")
        if named[1] in releases:
            raise CannotCopy(f"{entry}: there are two copies of release {named[1]}")
        folder = site / f"v{named[1]}"
        folder.mkdir()
        if named[2]:
            _unpack(entry, folder)
        else:
            _take(entry, folder)
        _must_be_whole(entry, folder, named[1])
        releases.append(named[1])
    return sorted(releases, key=lambda release: [int(part) for part in release.split(".")], reverse=True)


def pack(folder: Path, archive: Path) -> None:
    """A lasting copy as one file; the same bytes from the same files."""
    with (
        archive.open("wb") as raw,
        gzip.GzipFile("", "wb", mtime=0, fileobj=raw) as zipped,
        tarfile.open(fileobj=zipped, mode="w", format=tarfile.PAX_FORMAT) as packed,
    ):
        for file in sorted(path for path in folder.rglob("*") if path.is_file()):
            member = tarfile.TarInfo(file.relative_to(folder).as_posix())
            member.size, member.mode = file.stat().st_size, 0o644
            with file.open("rb") as stream:
                packed.addfile(member, stream)


def _unpack(archive: Path, folder: Path) -> None:
    try:
        with tarfile.open(archive) as packed:
            packed.extractall(folder, filter="data")
    except (tarfile.TarError, EOFError) as fault:
        raise CannotCopy(f"{archive} cannot be unpacked: {fault}") from fault


def _take(copy: Path, folder: Path) -> None:
    for path in sorted(copy.rglob("*")):
        if path.is_file() and not path.is_symlink():
            place = folder / path.relative_to(copy)
            place.parent.mkdir(parents=True, exist_ok=True)
            place.write_bytes(path.read_bytes())


def _must_be_whole(entry: Path, folder: Path, release: str) -> None:
    """Every file as it was published, and nothing beside them; of that very release; and without a worker."""
    reason = damaged(folder)
    if reason:
        raise CannotCopy(f"{entry}: {reason}")
    try:
        told = json.loads((folder / "data/standing.json").read_text("utf-8"))["release"]
    except (OSError, ValueError, KeyError, TypeError):
        told = None
    if told != release:
        raise CannotCopy(f"{entry}: it holds release {told or 'of no guide'}, not {release}")
    if any((folder / name).exists() for name in _LEFT_OUT):
        raise CannotCopy(f"{entry}: it is a site and no lasting copy: `build --copy` makes one")


def _lead_to_newest(site: Path) -> None:
    """/latest/ and whatever stands below it: a short page that leads to the same one at the root."""
    for page in sorted(_pages(site)):
        address = page.removesuffix("index.html")
        newest = "../" * (address.count("/") + 1) + address
        file = site / LATEST / page
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(_way(escape(newest)), encoding="utf-8")


def _pages(site: Path) -> Iterator[str]:
    for page in site.rglob("*.html"):
        path = page.relative_to(site).as_posix()
        if path != "404.html":
            yield path


def _way(newest: str) -> str:
    return (
        '<!doctype html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n'
        '<meta http-equiv="Content-Security-Policy" content="default-src \'none\'">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n<title>The newest guide</title>\n'
        '<meta name="robots" content="noindex">\n'
        f'<link rel="canonical" href="{newest}">\n<meta http-equiv="refresh" content="0; url={newest}">\n</head>\n'
        f'<body>\n<main><h1>The newest guide</h1>\n<p><a href="{newest}">It is here</a></p></main>\n</body>\n</html>\n'
    )
