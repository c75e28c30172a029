"""Whose site it is: the compendium's own, or somebody else's in which the guide is a guest; and what follows from that.

Here stands all of it that needs no MkDocs; the plugin asks.
"""

from __future__ import annotations

import json
import os
import re
from collections.abc import Collection, Iterable, Mapping
from importlib.metadata import version
from pathlib import Path
from typing import Any

from .problems import Position, Problem, error
from .reading.files import WRITTEN_DIR
from .reading.page_kinds import PAGES
from .records import NamedTuple
from .rendering.frame import Frame
from .rendering.inline import typed_html
from .rendering.offline import service_worker
from .rendering.pages import page_path, written_title
from .results.values.guide import Guide

FOUR_LINES: dict[str, object] = {
    "site_name": "Evidence",
    "docs_dir": "evidence",
    "theme": "material",
    "plugins": ["search", "evidence"],
}
"""All that mkdocs.yml needs, and what stands in for it where a folder of evidence has none."""

GUEST_ADDRESS = "evidence/"
"""Where the guide stands in a site with pages of its own, unless the option `at` of the plugin says otherwise."""

# Where the search of a site keeps its index.
INDEX = "search/search_index.json"
"""What MkDocs' search looks words up in, below the site or the guide."""
_SEARCH = "search"

THEME = "material"
"""The theme of a site of the compendium's own. In a site of somebody else any theme will do."""

STANDS_OVER = (
    "base.html",
    "partials/header.html",
    "partials/footer.html",
    "partials/nav.html",
    "partials/javascripts/base.html",
    "partials/javascripts/content.html",
    "partials/javascripts/palette.html",
)
"""Files of the theme that ours extend, include or stand over: without one of them a page is not what was tested."""

TESTED_WITH = "9.5.0 to 9.8.2"
"""Releases of the theme package that are known to have those files under those names."""

_MARKDOWN = (".md", ".markdown", ".mdown", ".mkdn", ".mkd")


class Place(NamedTuple):
    """Where in a site the guide stands."""

    address: str
    """From the root of the site: "" in a site of its own, "evidence/" as a guest."""
    is_own: bool
    """Whether the site is the compendium's own: then title, look, 404 page and clock are the guide's as well."""


def place_of_guide(at: str | None, docs: Path, root: Path) -> Place:
    """Where the guide stands.

    at: the plugin's option. docs: the site's folder of pages. root: the folder that holds evidence/.
    A site is the compendium's own where its folder of pages is site_src/, lies in evidence/ or holds no page.
    Raises ValueError, in plain words, for an address that cannot be.
    """
    is_written = is_same(docs, root / WRITTEN_DIR)
    if at is None:
        is_own = is_written or is_below(docs, root / "evidence") or not has_pages(docs)
        return Place("" if is_own else GUEST_ADDRESS, is_own)
    address = at.strip("/")
    if not re.fullmatch(r"[A-Za-z0-9_][\w.-]*(/[A-Za-z0-9_][\w.-]*)*", address) or address.startswith("templates/"):
        raise ValueError(f'the option "at" is "{at}", which is no address below a site: write one such as evidence/')
    if is_written:
        raise ValueError(
            f"{WRITTEN_DIR}/ holds the guide's own hand-written pages, and with the option at the site's pages stand "
            "beside the guide: name another folder with docs_dir, or leave the option out"
        )
    return Place(f"{address}/", False)


def refuse_shared(place: Place, folders: Iterable[str]) -> None:
    """Raises ValueError, in plain words, where the theme or the search of the site writes into the guide's folder.

    folders: those of the theme's own files. A page or a file of the site's own may stand beside the guide.
    """
    below = place.address.rstrip("/")
    taken = [os.path.join(folder, below) for folder in folders if below]
    if below == _SEARCH or any(os.path.isdir(path) for path in taken):
        raise ValueError(
            f'the option "at" is "{place.address}", a folder that the site\'s theme or search keeps for itself: write '
            f"another one such as {GUEST_ADDRESS}"
        )


def pages_of_others(pages: Iterable[str]) -> str:
    """Why the guide cannot have the site for itself, in plain words; "" where no other plugin adds pages to it."""
    found = sorted(pages)
    if not found:
        return ""
    return (
        f"another plugin adds pages to this site ({found[0]}), and the guide would stand in their place: say where it "
        f"stands beside them, as in plugins: [{{evidence: {{at: {GUEST_ADDRESS}}}}}]"
    )


def is_same(path: str | Path, other: str | Path) -> bool:
    """True where both lead to one place; it need not exist."""
    return os.path.realpath(path) == os.path.realpath(other)


def is_unread(path: str, theme: Path, languages: Collection[str]) -> bool:
    """True for what no reader asks for: a part of what is served as one file, a map of the theme's scripts to their
    source, and the megabyte with which the theme's search reads languages other than English, where it reads none.

    theme: the folder of our own. languages: ISO 639-1, those of the site's search.
    """
    if path.startswith("assets/"):
        return path.endswith(".map") or (path.startswith("assets/javascripts/lunr/") and set(languages) <= {"en"})
    return path.startswith(("stylesheets/", "javascripts/")) and (theme / path).is_file()


def search_languages(plugins: Mapping[str, Any]) -> frozenset[str]:
    """What the site's search reads, by its plugin; none where it has no search."""
    found = (plugin for name, plugin in plugins.items() if name.rpartition("/")[2] == "search")
    return frozenset(lang for plugin in found for lang in plugin.config.get("lang") or ())


def is_below(path: str | Path, folder: str | Path) -> bool:
    """True for the folder and all that lies in it."""
    return Path(os.path.realpath(path)).is_relative_to(os.path.realpath(folder))


def has_pages(folder: Path) -> bool:
    """True where the folder or one below it holds a page in Markdown."""
    return any(name.endswith(_MARKDOWN) for _, _, names in os.walk(folder) for name in names)


def theme_fault(name: str | None, folders: Iterable[str]) -> str:
    """Why a site of the compendium's own cannot stand in this theme, in plain words; "" where it can.

    folders: those of the theme's own files.
    """
    if name != THEME:
        return (
            f'a site of the guide\'s own stands in the theme "{THEME}", and mkdocs.yml names "{name}": write '
            f"theme: {THEME}; beside pages of your own (docs_dir) the guide stands in any theme"
        )
    places = list(folders)
    missing = [file for file in STANDS_OVER if not any(os.path.isfile(os.path.join(place, file)) for place in places)]
    if missing:
        return (
            f"mkdocs-material {version('mkdocs-material')} has no {', '.join(missing)}, over which the guide's own "
            f"stands: install a release that is known to work ({TESTED_WITH})"
        )
    return ""


def own_look(features: Iterable[str]) -> dict[str, Any]:
    """Settings of the theme in a site of the compendium's own. features: those that mkdocs.yml asks for."""
    return {
        "favicon": "assets/mark.svg",
        # The policy of every page forbids what comes from elsewhere.
        "font": False,
        "features": list(dict.fromkeys([*features, "content.action.edit"])),
    }


def own_identity(guide: Guide, edit_uri: str | None) -> dict[str, Any]:
    """What the evidence says about itself always wins over mkdocs.yml in a site of the compendium's own."""
    return {
        "site_name": guide.title,
        "copyright": f"{guide.programme}. Text {guide.licence_text}, data {guide.licence_data}.",
        "repo_url": guide.repository or None,
        # Without a repository there is nothing to edit, and MkDocs warns of an address that leads nowhere.
        "edit_uri": (edit_uri or f"edit/main/{WRITTEN_DIR}/") if guide.repository else None,
    }


def default_config(root: Path, pages: Path) -> str:
    """The text of a mkdocs.yml for a folder of evidence that has none. pages: folder of hand-written pages."""
    plugins = ["search", {"evidence": {"root": str(root)}}]
    # JSON is YAML.
    return json.dumps({**FOUR_LINES, "plugins": plugins, "docs_dir": str(pages)})


def front_matter(typed: Mapping[str, Any], place: Place) -> dict[str, Any]:
    """What a page of the guide says to the site around it. typed: its own front matter, that of a written page too."""
    template = typed.get("template", "main.html")
    if not place.is_own:
        # The theme around the site's own pages is not ours: all of the guide stands in its own frame there.
        template = "passageproof/reading.html"
    return {"kind": typed.get("kind", "written"), "template": template, "search": {"exclude": True}}


def taken_in_host(ours: Iterable[str], theirs: Mapping[str, str]) -> list[Problem]:
    """An address that the site and the guide both want.

    ours: paths below the site that the guide publishes. theirs: file of the site, from the root, by its path there.
    """
    wanted = {path.casefold() for path in ours}
    out = []
    for path, file in theirs.items():
        if path.casefold() in wanted:
            address = "/" + path.removesuffix("index.html")
            message = f"this file of the site and the guide both want the address {address}"
            hint = 'give the file another name, or name another place for the guide with the option "at" of the plugin'
            out.append(error(Position(file, 1, 1), "address-taken", message, hint))
    return out


def frame_in(frame: Frame, place: Place, host: str) -> Frame:
    """The frame of a page of the guide in the site it stands in. host: what that site calls itself."""
    return frame if place.is_own else frame._replace(at=place.address, host_html=typed_html(host))


def nav_entries(guide: Guide, made: Mapping[str, str], place: Place) -> list[Any]:
    """The guide's part of a navigation: the front page, every question, the main pages, the hand-written ones.

    All other pages are reached from these.
    """
    titles = {address: page.title for address, page in guide.pages.heads.items()}
    entries = [("Questions", "index.md")]
    entries += [(entry.title, f"{entry.id}/index.md") for entry in guide.questions if f"{entry.id}/index.md" in made]
    main = [page.address for page in PAGES if page.is_main and page.address in titles]
    entries += [(titles[address], f"{address}index.md") for address in main]
    entries += [(written_title(made[page.path], page.path), page.path) for page in guide.written]
    return [{title: place.address + path} for title, path in entries]


def edit_uris(guide: Guide, place: Place, docs: Path, root: Path) -> dict[str, str]:
    """For each page of the guide the file behind it, seen from where the site's edit links count from.

    docs: the site's folder of pages. root: the folder that holds evidence/ and site_src/.
    """
    # In a site of its own the links count from site_src, whether that exists or not.
    to_root = ".." if place.is_own else Path(os.path.relpath(root, docs)).as_posix()
    edits = {page_path(page): f"{to_root}/{page.edit}" for page in guide.pages.heads.values() if page.edit}
    return edits | {page.path: f"{to_root}/{WRITTEN_DIR}/{page.path}" for page in guide.written}


def files_beside_written(root: Path) -> dict[str, str | bytes]:
    """What lies beside the hand-written pages in site_src, pictures say, by the path below it."""
    folder = root / WRITTEN_DIR
    paths = [Path(parent, name) for parent, _, names in os.walk(folder) for name in names]
    return {
        path.relative_to(folder).as_posix(): path.read_bytes() for path in sorted(paths) if path.suffix not in _MARKDOWN
    }


def nav_of_host(
    nav: list[Any], entries: list[Any], title: str, place: Place, pages: Collection[str] = frozenset()
) -> list[Any]:
    """The site's own navigation with the guide in it.

    Where an entry leads to the guide's address (`- Evidence: evidence/`) the guide's pages stand there as a section,
    named as that entry is or by `title`. Where the site names pages of the guide itself, by their file or by their
    address, nothing is added. Else the section comes last.

    pages: those of the guide, as MkDocs names them.
    """
    others = set(pages) - {f"{place.address}index.md"}
    with_section: list[Any]
    with_section, is_placed = _placed(_by_file(nav, others), entries, title, place.address)
    if is_placed or any(path.startswith(place.address) for path in _paths(nav)):
        return with_section
    return [*with_section, {title: entries}]


def _placed(nav: Any, entries: list[Any], title: str, address: str) -> tuple[Any, bool]:
    if isinstance(nav, str):
        return ({title: entries}, True) if _leads_to(nav, address) else (nav, False)
    if isinstance(nav, dict):
        named = {
            name: (entries, True)
            if isinstance(inner, str) and _leads_to(inner, address)
            else _placed(inner, entries, title, address)
            if isinstance(inner, list)
            else (inner, False)
            for name, inner in nav.items()
        }
        return {name: inner for name, (inner, _) in named.items()}, any(found for _, found in named.values())
    if isinstance(nav, list):
        items = [_placed(item, entries, title, address) for item in nav]
        return [item for item, _ in items], any(found for _, found in items)
    return nav, False


def _by_file(nav: Any, pages: Collection[str]) -> Any:
    """The same with the file of a page of the guide where its address was written."""
    if isinstance(nav, str):
        file = f"{nav.strip('/')}/index.md"
        return file if file in pages else nav
    if isinstance(nav, dict):
        return {name: _by_file(inner, pages) for name, inner in nav.items()}
    return [_by_file(item, pages) for item in nav] if isinstance(nav, list) else nav


def _leads_to(path: str, address: str) -> bool:
    return path.strip("/") == address.rstrip("/")


def _paths(nav: Any) -> list[str]:
    if isinstance(nav, str):
        return [nav]
    inner = nav.values() if isinstance(nav, dict) else nav if isinstance(nav, list) else ()
    return [path for item in inner for path in _paths(item)]


INSTANT = "navigation.instant"
"""A feature of the theme whose script puts a page's parts into the page on show, for every address in the sitemap."""


def sitemap_without_guide(text: str, site_url: str, place: Place) -> str:
    """The site's sitemap.xml without the guide's pages.

    Their parts are no parts of the theme's page: with INSTANT a tap would show the old page under the new address.
    """
    ours = re.escape(site_url.rstrip("/") + "/" + place.address)
    return re.sub(rf"\s*<url>\s*<loc>{ours}[^<]*</loc>.*?</url>", "", text, flags=re.DOTALL)


def merged_search(index: str, entries: list[dict[str, str]], place: Place, pages: Iterable[str]) -> str:
    """The site's search index with the guide's entries in place of what was made of the guide's pages.

    index: JSON of the site's search. pages: addresses of the guide's pages, from the root of the site.
    The search of a site takes every word that stands below a nested element; the guide's entries are its own.
    """
    own = set(pages)
    searched = json.loads(index)
    theirs = [doc for doc in searched.get("docs", []) if doc["location"].partition("#")[0] not in own]
    ours = [{**entry, "location": place.address + entry["location"]} for entry in entries]
    # An index that was computed beforehand knows nothing of ours; without it the page computes its own.
    searched.pop("index", None)
    return _json(searched | {"docs": theirs + ours})


def write_search(site: Path, place: Place, entries: list[dict[str, str]], pages: Iterable[str]) -> None:
    """Puts the guide's entries into the site's search, and beside the guide's own search page where that is another."""
    index = site / INDEX
    own = site / place.address / INDEX
    if index.is_file():
        index.write_text(merged_search(index.read_text("utf-8"), entries, place, pages), encoding="utf-8")
    if own != index or not index.is_file():
        own.write_text(_json({"docs": entries}), encoding="utf-8")


def fill_worker(folder: Path) -> None:
    """Tells the service worker what was published below its folder; it answers for nothing else."""
    worker = folder / "service-worker.js"
    others = [path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file() and path != worker]
    script = service_worker(worker.read_text("utf-8"), others, lambda path: (folder / path).open("rb"))
    worker.write_text(script, encoding="utf-8")


def _json(value: object) -> str:
    return json.dumps(value, ensure_ascii=False, separators=(",", ":"))
