"""MkDocs run: a site published beside the old one and put in its place, or made file by file as it is asked for."""

from __future__ import annotations

import contextlib
import copy
import logging
import os
import tempfile
from collections.abc import Callable, Iterator
from functools import partial
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

from jinja2 import Environment
from mkdocs.commands.build import _build_page, _build_theme_template, _populate_page, build as build_site
from mkdocs.commands.serve import serve as serve_site
from mkdocs.config import load_config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import Abort, ConfigurationError, PluginError
from mkdocs.structure.files import File, Files, get_files, set_exclusions
from mkdocs.structure.nav import Navigation, get_navigation
from mkdocs.structure.pages import Page

from . import hosting
from .build import Built
from .lasting import CannotCopy, make_copy, place_copies
from .placing import PUBLISHED, leave_list, refusal
from .plugin import EvidencePlugin
from .reading.files import WRITTEN_DIR
from .reading.site_settings import without_pages
from .records import NamedTuple
from .replacing import replacement
from .results.values.guide import Guide

# The theme prints a notice of its end of life at every run; the ranges of releases are our answer to it.
os.environ.setdefault("NO_MKDOCS_2_WARNING", "1")


class CannotPublish(Exception):
    """MkDocs could not make the site; the message says why. The old site stands."""


class Published(NamedTuple):
    """What stands in a site."""

    pages: int
    """How many a reader can open, those of the site around the guide included."""
    at: str
    """Where the guide stands below the site; "" in a site of the compendium's own."""


def publish(
    root: Path, site: Path, built: Built | None = None, *, is_copy: bool = False, copies: Path | None = None
) -> Published:
    """Makes the site of one folder of evidence, all or nothing.

    root: the folder that holds evidence/. site: where it is put; an older one is replaced as a whole, and nothing else.
    built: what to publish; composed from root where it is left out. is_copy: make the lasting copy of this release, to
    be put at /vX.Y.Z/. copies: lasting copies to stand beside the guide, see place_copies.
    Raises CannotPublish, and then `site` is as it was.
    """
    site = Path(os.path.realpath(site))
    _may_take(root, site)
    try:
        with replacement(site) as fresh:
            at, guide = _run(root.resolve(), fresh, built, site)
            pages = sum(1 for page in fresh.rglob("*.html") if page != fresh / "404.html")
            if is_copy or copies is not None:
                _with_copies(fresh, at, guide, copies)
            # Making it took a while: what somebody has put there since is kept too.
            _may_take(root, site)
    except OSError as fault:
        raise CannotPublish(f"the site could not be written: {fault.strerror or fault}") from fault
    return Published(pages, at)


def _with_copies(site: Path, at: str, guide: Guide, copies: Path | None) -> None:
    """copies: None makes the site itself a lasting copy."""
    if at:
        # The same workflow publishes either kind of site.
        if copies is not None and not any(copies.iterdir()):
            return
        raise CannotPublish("lasting copies are made of a site of the guide's own: here it is another site's guest")
    try:
        if copies is None:
            make_copy(site, guide)
        else:
            place_copies(site, copies)
    except CannotCopy as fault:
        raise CannotPublish(str(fault)) from fault
    leave_list(site)


def _may_take(root: Path, site: Path) -> None:
    own = root / "mkdocs.yml"
    with _faults():
        pages = (os.path.relpath(_docs_dir(own), root),) if own.is_file() else ()
    reason = refusal(root, site, ("evidence", WRITTEN_DIR, *pages))
    if reason:
        raise CannotPublish(reason)


def serve_whole(root: Path) -> None:
    """A live preview of any site: MkDocs makes all of it again after every edit.

    root: the folder that holds evidence/. Ends when it is interrupted.
    Raises CannotPublish where MkDocs cannot start.
    """
    with _faults(), _configuration(root.resolve()) as (config_file, options):
        serve_site(config_file=config_file, **options)


def _run(root: Path, fresh: Path, built: Built | None, site: Path) -> tuple[str, Guide]:
    """Makes the site in `fresh`, to stand at `site`; gives where the guide stands below it, and the guide."""
    with _faults(), _configuration(root) as (config_file, options):
        config = load_config(config_file, site_dir=str(fresh), **options)
        plugin = _plugin(config)
        # MkDocs keeps a plugin over the runs of one process: what an earlier run left in it must not count.
        plugin.root, plugin.handed, plugin.replaces, plugin.last_good = root, built, site, None
        place = plugin.place(config)
        config.strict = config.strict or place.is_own
        config.plugins.on_startup(command="build", dirty=False)
        build_site(config)
        assert plugin.built is not None
        assert plugin.built.guide is not None
        return place.address, plugin.built.guide


@contextlib.contextmanager
def _faults() -> Iterator[list[str]]:
    """What MkDocs cannot do becomes one kind of fault; what it logged before is given, and is part of the message."""
    heard: list[str] = []
    listener = logging.Handler(logging.WARNING)
    listener.emit = lambda record: heard.append(record.getMessage())  # type: ignore[method-assign]
    logger = logging.getLogger("mkdocs")
    logger.addHandler(listener)
    try:
        yield heard
    except (Abort, ConfigurationError, PluginError) as fault:
        said = str(fault).strip()
        raise CannotPublish("\n".join([*heard, *([said] if said else [])]) or "MkDocs could not run") from fault
    finally:
        logger.removeHandler(listener)


def _plugin(config: MkDocsConfig) -> EvidencePlugin:
    for plugin in config.plugins.values():
        if isinstance(plugin, EvidencePlugin):
            return plugin
    raise ConfigurationError('mkdocs.yml has no plugin "evidence": add it to the list of plugins, behind "search"')


@contextlib.contextmanager
def _configuration(root: Path) -> Iterator[tuple[str, dict[str, Any]]]:
    """The folder's own mkdocs.yml, else the default one in a temporary folder; and options over it.

    Where there is no site_src and no other folder of pages is named, the pages come from an empty temporary folder,
    which lies outside the site. Raises ConfigurationError where mkdocs.yml names another folder that is not there.
    """
    with tempfile.TemporaryDirectory(prefix="guide-") as folder:
        pages = root / WRITTEN_DIR
        if not pages.is_dir():
            pages = Path(folder) / "pages"
            pages.mkdir()
        own = root / "mkdocs.yml"
        if own.is_file():
            named = _docs_dir(own)
            reason, hint = without_pages(root, os.path.relpath(named, root))
            if reason:
                raise ConfigurationError(f"mkdocs.yml: {reason}: {hint}")
            yield str(own), {} if named.is_dir() else {"docs_dir": str(pages)}
            return
        default = Path(folder) / "mkdocs.yml"
        default.write_text(hosting.default_config(root, pages), encoding="utf-8")
        yield str(default), {}


def _docs_dir(config_file: Path) -> Path:
    """The folder of pages that a mkdocs.yml names."""
    config = MkDocsConfig(config_file_path=str(config_file))
    with config_file.open("rb") as stream:
        config.load_file(stream)
    return config_file.parent / str(config["docs_dir"])


WORKER = "service-worker.js"
_LOOK = ("stylesheets/", "javascripts/", "assets/")
_SIMPLE = ("passageproof.", "material.plugins.search.", "mkdocs.contrib.search")
"""Plugins that look at one page at a time."""


class LiveSite:
    """A site of the compendium's own, of which each file is made when it is asked for, as `publish` would make it."""

    def __init__(self, root: Path) -> None:
        self._root = root.resolve()
        self._state = contextlib.ExitStack()
        self._folder = Path()
        self._makers: dict[str, Callable[[], None]] = {}
        self._made: set[str] = set()
        self._early: Callable[[str], bytes | None] = lambda path: None
        self._plugin: EvidencePlugin | None = None
        self._theme: tuple[tuple[str, ...], Environment, tuple[tuple[str, str], ...]] | None = None
        own = ("evidence", WRITTEN_DIR, "mkdocs.yml")
        self.watched: tuple[Path, ...] = tuple(self._root / name for name in own)
        """Files and folders that the site is made from."""
        self.mount = "/"
        """Where the site stands on its host: its address without the host's name."""
        self.at = ("127.0.0.1", 8000)
        """Host and port at which mkdocs.yml wants a preview."""

    def close(self) -> None:
        """Leaves nothing behind."""
        if self._plugin is not None:
            self._plugin.on_build_error(error=Exception())
        self._state.close()

    def renew(self) -> bool:
        """Reads everything again, and forgets what was made. False where the site is a guest's or has plugins that may
        look at all pages at once: then only a whole run gives a page as it is published.

        Raises CannotPublish where MkDocs cannot make the site.
        """
        self._makers, self._made, self._early = {}, set(), lambda path: None
        self._state.close()
        self._folder = Path(self._state.enter_context(tempfile.TemporaryDirectory(prefix="preview-")))
        with _faults() as heard:
            config_file, options = self._state.enter_context(_configuration(self._root))
            config = load_config(config_file, site_dir=str(self._folder), **options)
            plugin = _plugin(config)
            if self._plugin is None:
                plugin.last_good = None
            self._plugin, plugin.root, plugin.handed = plugin, self._root, None
            others = {f"{type(other).__module__}." for other in config.plugins.values()}
            if not all(name.startswith(_SIMPLE) for name in others) or not plugin.place(config).is_own:
                return False
            self.watched = (*self.watched[:3], Path(config.docs_dir))
            self.mount = urlsplit(config.site_url or "/").path.rstrip("/") + "/"
            self.at = (config.dev_addr.host, config.dev_addr.port)
            config.plugins.on_startup(command="serve", dirty=False)
            self._lay_out(config.plugins.on_config(config), plugin)
            if heard:
                raise PluginError("")
        return True

    def _lay_out(self, config: MkDocsConfig, plugin: EvidencePlugin) -> None:
        """The steps of mkdocs.commands.build.build, up to where it would make all pages."""
        config.plugins.on_pre_build(config=config)
        files = get_files(config)
        env = self._add_theme(files, config)
        files = config.plugins.on_files(files, config=config)
        set_exclusions(files, config)
        nav = config.plugins.on_nav(get_navigation(files, config), config=config, files=files)
        pages = files.documentation_pages()

        def page_of(file: File) -> Page:
            page = file.page or Page(None, file, config)
            if page.content is None:
                _populate_page(page, config, files)
            return page

        # A link that leads nowhere stops a whole run: people's own pages are looked through at once.
        written = [page_of(file) for file in pages if plugin.is_written(file.src_uri)]
        env = config.plugins.on_env(env, config=config, files=files)

        def write_page(file: File) -> None:
            _build_page(page_of(file), config, pages, nav, env)

        def write_template(name: str) -> None:
            for file in pages:
                page_of(file)
            _build_theme_template(name, env, files, config, nav)

        for name in config.theme.static_templates:
            self._makers[name] = partial(write_template, name)
        self._makers["sitemap.xml.gz"] = self._makers["sitemap.xml"]
        for file in files:
            if file.inclusion.is_included():
                is_page = file.is_documentation_page()
                self._makers[file.dest_uri] = partial(write_page, file) if is_page else file.copy_file
        self._early = partial(self._write_early, config, plugin, files, nav, env)
        self._makers["search/search_index.json"] = partial(self._write_search, config, plugin)
        for page in written:
            for file in page.links_to_anchors or ():
                self.make(file.dest_uri)
            page.validate_anchor_links(files=files, log_level=config.validation.links.anchors)

    def _write_early(
        self, config: MkDocsConfig, plugin: EvidencePlugin, files: Files, nav: Navigation, env: Environment, path: str
    ) -> bytes | None:
        old = files.get_file_from_path(f"{path.removesuffix('.html')}.md")
        text = plugin.early_text(old.src_uri) if old is not None else None
        if old is None or text is None:
            return None
        file = copy.copy(old)
        file.content_string = text
        page = Page(None, file, config)
        _populate_page(page, config, files)
        _build_page(page, config, files.documentation_pages(), nav, env)
        # It belongs to what comes after the next `renew`: nobody may take it for a part of the whole.
        made = Path(file.abs_dest_path).read_bytes()
        self._made.discard(path)
        return made

    def is_early(self, path: str) -> bool:
        """True for a file of claims, sources or questions. path: of the file itself."""
        folders = ("claims", "sources", "questions")
        return Path(path).parent in [self._root / "evidence" / name for name in folders]

    def early(self, path: str) -> bytes | None:
        """One file as it is published now, where claims, sources or questions were saved since the last `renew`; None
        where only the next one tells.

        path: below the site.
        """
        if path.startswith(_LOOK):
            return self.make(path)
        return self._early(path)

    def _add_theme(self, files: Files, config: MkDocsConfig) -> Environment:
        """Adds the theme's files and gives its templates; what files and templates there are is looked up once."""
        folders = tuple(config.theme.dirs)
        if self._theme is None or self._theme[0] != folders:
            env = config.theme.get_env()
            env.auto_reload = True
            alone = Files([])
            alone.add_files_from_theme(env, config)
            self._theme = (folders, env, tuple((file.src_uri, str(file.src_dir)) for file in alone))
        _, env, found = self._theme
        for path, folder in found:
            if files.get_file_from_path(path) is None:
                files.append(File(path, folder, config.site_dir, config.use_directory_urls))
        return env

    def _write_search(self, config: MkDocsConfig, plugin: EvidencePlugin) -> None:
        for other in config.plugins.values():
            if other is not plugin:
                other.on_post_build(config=config)
        plugin.write_search(config)

    @property
    def parts(self) -> tuple[str, ...]:
        """Path of every file but those that tell of all others."""
        return tuple(path for path in self._makers if path != WORKER)

    def make(self, path: str) -> bytes | None:
        """One file as it is published; None where there is none at this path. Of those that tell of all others, only
        what the parts made before give: make every part first.

        path: below the site, "some-question/index.html".
        """
        # A browser may ask for anything; what is no file of the site is never looked for on this machine.
        if path not in self._makers and path != PUBLISHED:
            return None
        if path not in self._made:
            if path == PUBLISHED and self._makers:
                leave_list(self._folder)
            elif path in self._makers:
                self._makers[path]()
                if path == WORKER:
                    hosting.fill_worker(self._folder)
            self._made.add(path)
        file = self._folder / path
        return file.read_bytes() if file.is_file() else None
