"""MkDocs, and all of MkDocs that there is: the plugin, and `publish`, which runs it beside the old site and swaps."""

from __future__ import annotations

import contextlib
import datetime
import json
import logging
import os
import tempfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any, Literal

from mkdocs.commands.build import build as build_site
from mkdocs.commands.serve import serve as serve_site
from mkdocs.config import config_options, load_config
from mkdocs.config.base import Config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import Abort, ConfigurationError, PluginError
from mkdocs.plugins import BasePlugin, get_plugin_logger
from mkdocs.structure.files import File, Files, InclusionLevel
from mkdocs.structure.nav import Navigation
from mkdocs.structure.pages import Page
from mkdocs.utils.templates import TemplateContext

from .build import Built, build_files
from .guide.values.guide import Guide
from .placing import leave_list, refusal
from .problems import Problem, as_text, counted
from .reading.files import WRITTEN_DIR
from .rendering.frame import Frame, frame_of, problems_markdown, with_urgent_bar
from .rendering.offline import service_worker
from .rendering.pages import page_path, written_title
from .rendering.search import search_entries
from .rendering.served import served_assets
from .rendering.written import marked_numbers

log = get_plugin_logger(__name__)
preview_log = logging.getLogger(__name__)

THEME_DIR = Path(__file__).parent / "theme"
DEFAULT_EDIT_URI = f"edit/main/{WRITTEN_DIR}/"

# The pages a visitor finds in the navigation beside the questions; all others are reached from these.
_MAIN_PAGES = ("urgent/", "gaps/", "changes/", "upkeep/", "methods/", "contribute/", "data/")


class EvidenceConfig(Config):
    """Options of the plugin in mkdocs.yml."""

    root = config_options.Dir(exists=True, default=".")
    """The folder that holds evidence/, relative to mkdocs.yml."""


class EvidencePlugin(BasePlugin[EvidenceConfig]):
    """Builds the guide from the evidence and hands it to MkDocs, page by page."""

    serving = False
    root: Path | None = None
    """The folder that holds evidence/; from the options where nobody set it."""
    handed: Built | None = None
    """What the next run publishes; composed in `on_config` where nobody handed it in."""
    built: Built | None = None
    """What this run publishes."""
    last_good: Built | None = None
    """While serving: the last guide without a fault."""
    _written: frozenset[str] = frozenset()
    _clock: str | None = None
    _is_clock_set = False

    def __init__(self) -> None:
        super().__init__()
        self._ready: dict[str, str] = {}

    def on_startup(self, *, command: Literal["build", "gh-deploy", "serve"], dirty: bool) -> None:
        """Keeps this object over the rebuilds of a live preview."""
        self.serving = command == "serve"

    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        """Composes the guide, or fails before MkDocs has emptied the site."""
        root = self.root or Path(self.config.root)
        config.watch.append(str(root / "evidence"))
        self.built = self.handed or build_files(root)
        self.handed = None
        _settle(config)
        if self.built.guide is None:
            self._fault(self.built.problems)
            return config
        self.last_good = self.built
        _name(config, self.built.guide)
        self._set_clock(self.built.guide)
        return config

    def _set_clock(self, guide: Guide) -> None:
        """The evidence date stands in for today until the run ends (reproducible-builds.org, SOURCE_DATE_EPOCH)."""
        day = datetime.datetime.combine(guide.evidence_date, datetime.time(), datetime.UTC)
        if not self._is_clock_set:
            self._clock = os.environ.get("SOURCE_DATE_EPOCH")
            self._is_clock_set = True
        os.environ["SOURCE_DATE_EPOCH"] = str(int(day.timestamp()))

    def _restore_clock(self) -> None:
        if not self._is_clock_set:
            return
        self._is_clock_set = False
        if self._clock is None:
            os.environ.pop("SOURCE_DATE_EPOCH", None)
        else:
            os.environ["SOURCE_DATE_EPOCH"] = self._clock

    def on_build_error(self, *, error: Exception) -> None:
        """Today comes back after a fault too."""
        self._restore_clock()

    def _fault(self, problems: tuple[Problem, ...]) -> None:
        for problem in problems:
            if problem.is_open:
                # MkDocs counts what its own loggers say, and would end a strict preview for it.
                (preview_log if self.serving else log).error("%s", as_text(problem))
        # Raising while serving would end the preview or leave the browser waiting: there a page shows the problems.
        if not self.serving:
            raise PluginError(f"the evidence has {counted(problems)}")

    def on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        """Adds every file of the guide, and the style sheets."""
        assert self.built is not None
        for path in [path for path in files.src_uris if path.startswith(("stylesheets/", "javascripts/"))]:
            # What lies in the theme are the parts of what is served.
            if (THEME_DIR / path).is_file():
                files.remove(files.src_uris[path])
        for path, text in served_assets(THEME_DIR).items():
            _replace(files, File.generated(config, path, content=text))
        if self.built.guide is None:
            self._show_problems(files, config)
            return files
        guide = self.built.guide
        edits = {page_path(page): page.edit for page in guide.pages}
        written = self._written = frozenset(page.path for page in guide.written)
        in_nav = {"index.md", *(f"{entry.id}/index.md" for entry in guide.questions)}
        in_nav |= {f"{address}index.md" for address in _MAIN_PAGES}
        for path, text in self.built.files.items():
            inclusion = InclusionLevel.INCLUDED
            if path.endswith(".md") and path not in in_nav and path not in written:
                # The navigation stands in every page: with leaves in it the site grows with the square of its pages.
                inclusion = InclusionLevel.NOT_IN_NAV
            file = File.generated(config, path, content=text, inclusion=inclusion)
            if path in written:
                file.edit_uri = path
            elif edits.get(path):
                file.edit_uri = f"../{edits[path]}"
            _replace(files, file)
        config.nav = _nav(guide, self.built.files, files)
        return files

    def _show_problems(self, files: Files, config: MkDocsConfig) -> None:
        """While serving: every address that was good shows what is wrong now."""
        assert self.built is not None
        text = problems_markdown(self.built.problems)
        shown = self.last_good.files if self.last_good is not None else {"index.md": ""}
        for file in list(files.documentation_pages()):
            files.remove(file)
        for path in shown:
            if path.endswith(".md"):
                _replace(files, File.generated(config, path, content=text, inclusion=InclusionLevel.NOT_IN_NAV))
        config.nav = [{"What has to be mended": "index.md"}]

    def on_page_context(
        self, context: TemplateContext, *, page: Page, config: MkDocsConfig, nav: Navigation
    ) -> TemplateContext:
        """Hands the templates what stands in the frame of every page."""
        context["frame"] = self._frame()  # type: ignore[typeddict-unknown-key]
        return context

    def on_env(self, env: object, *, config: MkDocsConfig, files: Files) -> None:
        """The same for templates without a page, like the one for unknown addresses."""
        env.globals["frame"] = self._frame()  # type: ignore[attr-defined]

    def _frame(self) -> Frame:
        assert self.built is not None
        good = self.built if self.built.guide is not None else self.last_good
        return frame_of(good.guide if good is not None else None)

    def on_page_markdown(self, markdown: str, *, page: Page, config: MkDocsConfig, files: Files) -> str:
        """A hand-written page gets a kind and the frame for written pages unless its front matter names one."""
        page.meta.setdefault("kind", "written")
        page.meta.setdefault("template", "main.html")
        page.meta["search"] = {"exclude": True}
        if page.file.src_uri in self._written:
            return markdown
        # A page of the guide is HTML already: reading it as Markdown would change nothing and take most of the time.
        self._ready[page.file.src_uri] = markdown
        return ""

    def on_page_content(self, html: str, *, page: Page, config: MkDocsConfig, files: Files) -> str:
        """The page of the guide as it was rendered, or the hand-written one as Markdown made it."""
        ready = self._ready.pop(page.file.src_uri, None)
        return marked_numbers(html) if ready is None else ready

    def on_post_page(self, output: str, *, page: Page, config: MkDocsConfig) -> str:
        """The theme's own frame has no place for attributes of the body or for a door before everything else."""
        if page.meta.get("template") != "main.html":
            return output
        return with_urgent_bar(output, str(page.meta["kind"]), self._frame(), page.url)

    def on_post_build(self, *, config: MkDocsConfig) -> None:
        """Writes the search index, and tells the service worker what was published."""
        self._restore_clock()
        site = Path(config.site_dir)
        index = site / "search" / "search_index.json"
        if index.is_file() and self.built is not None and self.built.guide is not None:
            # The entries are the guide's own: the search plugin takes every word that stands below a nested element.
            searched = json.loads(index.read_text("utf-8")) | {"docs": search_entries(self.built.guide)}
            index.write_text(json.dumps(searched, ensure_ascii=False, separators=(",", ":")), encoding="utf-8")
        worker = site / "service-worker.js"
        others = [path for path in site.rglob("*") if path.is_file() and path != worker]
        published = ((path.relative_to(site).as_posix(), path.read_bytes()) for path in others)
        worker.write_text(service_worker(worker.read_text("utf-8"), published), encoding="utf-8")


def _settle(config: MkDocsConfig) -> None:
    """Our templates come before the theme's, whatever mkdocs.yml says."""
    if str(THEME_DIR) not in config.theme.dirs:
        config.theme.dirs.insert(0, str(THEME_DIR))
    config.theme["favicon"] = "assets/mark.svg"
    config.extra.setdefault("generator", False)


def _name(config: MkDocsConfig, guide: Guide) -> None:
    """What the evidence says about itself always wins over mkdocs.yml."""
    config.site_name = guide.title
    config.copyright = f"{guide.programme}. Text {guide.licence_text}, data {guide.licence_data}."
    config.repo_url = guide.repository or None
    # Without a repository there is nothing to edit, and MkDocs warns of an address that leads nowhere.
    config.edit_uri = (config.edit_uri or DEFAULT_EDIT_URI) if guide.repository else None


def _replace(files: Files, file: File) -> None:
    """Appending a path that exists would replace it with a warning: take the old one out first."""
    old = files.get_file_from_path(file.src_uri)
    if old is not None:
        files.remove(old)
    files.append(file)


def _nav(guide: Guide, made: dict[str, str], files: Files) -> list[dict[str, object]]:
    titles = {page.address: page.title for page in guide.pages}
    nav: list[dict[str, object]] = [{"Questions": "index.md"}]
    nav.extend({entry.title: f"{entry.id}/index.md"} for entry in guide.questions if f"{entry.id}/index.md" in made)
    nav.extend({titles[address]: f"{address}index.md"} for address in _MAIN_PAGES if address in titles)
    nav.extend({written_title(made[page.path], page.path): page.path} for page in guide.written)
    return nav


# The theme prints a notice of its end of life at every run; the pinned versions are our answer to it.
os.environ.setdefault("NO_MKDOCS_2_WARNING", "1")

DEFAULT_CONFIG: dict[str, object] = {
    "site_name": "Evidence",
    "theme": {"name": "material", "font": False},
    "use_directory_urls": True,
    "strict": True,
    "markdown_extensions": [{"tables": {"use_align_attribute": True}}, "attr_list"],
    "plugins": ["search", "evidence"],
    "validation": {
        "nav": {"omitted_files": "warn"},
        "links": {"anchors": "warn", "unrecognized_links": "warn"},
    },
}
"""What stands in for mkdocs.yml where a folder of evidence has none."""


class CannotPublish(Exception):
    """MkDocs could not make the site; the message says why. The old site stands."""


def publish(root: Path, site: Path, built: Built | None = None) -> None:
    """Makes the site of one folder of evidence, all or nothing.

    root: the folder that holds evidence/. site: where it is put; an older one is replaced as a whole, and nothing else.
    built: what to publish; composed from root where it is left out.
    Raises CannotPublish, and then `site` is as it was.
    """
    site = Path(os.path.realpath(site))
    _may_take(root, site)
    try:
        site.parent.mkdir(parents=True, exist_ok=True)
        # Beside the old one, so that the swap stays on one filesystem and is two renames.
        with tempfile.TemporaryDirectory(prefix=f".{site.name}-", dir=site.parent) as beside:
            fresh = Path(beside) / "new"
            fresh.mkdir()
            _run(root.resolve(), fresh, built)
            leave_list(fresh)
            # Making it took a while: what somebody has put there since is kept too.
            _may_take(root, site)
            _swap(fresh, site, Path(beside) / "old")
    except OSError as fault:
        raise CannotPublish(f"the site could not be written: {fault.strerror or fault}") from fault


def _may_take(root: Path, site: Path) -> None:
    reason = refusal(root, site, ("evidence", WRITTEN_DIR))
    if reason:
        raise CannotPublish(reason)


def serve(root: Path) -> None:
    """A live preview on this machine; the evidence, the hand-written pages and mkdocs.yml are watched.

    root: the folder that holds evidence/. Ends when it is interrupted.
    Raises CannotPublish where MkDocs cannot start.
    """
    with _configuration(root.resolve()) as (config_file, options), _faults():
        serve_site(config_file=config_file, **options)


def _run(root: Path, fresh: Path, built: Built | None) -> None:
    with _configuration(root) as (config_file, options), _faults():
        config = load_config(config_file, site_dir=str(fresh), **options)
        plugin = _plugin(config)
        # MkDocs keeps a plugin over the runs of one process: what an earlier run left in it must not count.
        plugin.root, plugin.handed, plugin.last_good = root, built, None
        config.plugins.on_startup(command="build", dirty=False)
        build_site(config)


@contextlib.contextmanager
def _faults() -> Iterator[None]:
    """What MkDocs cannot do becomes one kind of fault; what it logged before is part of the message."""
    heard: list[str] = []
    listener = _Listener(heard)
    logger = logging.getLogger("mkdocs")
    logger.addHandler(listener)
    try:
        yield
    except (Abort, ConfigurationError, PluginError) as fault:
        said = str(fault).strip()
        raise CannotPublish("\n".join([*heard, *([said] if said else [])]) or "MkDocs could not run") from fault
    finally:
        logger.removeHandler(listener)


class _Listener(logging.Handler):
    """Keeps the warnings and errors of one run."""

    def __init__(self, heard: list[str]) -> None:
        super().__init__(logging.WARNING)
        self._heard = heard

    def emit(self, record: logging.LogRecord) -> None:
        self._heard.append(record.getMessage())


def _plugin(config: MkDocsConfig) -> EvidencePlugin:
    for plugin in config.plugins.values():
        if isinstance(plugin, EvidencePlugin):
            return plugin
    raise ConfigurationError('mkdocs.yml has no plugin "evidence": add it to the list of plugins, behind "search"')


def _swap(fresh: Path, site: Path, old: Path) -> None:
    if not site.exists():
        fresh.rename(site)
        return
    site.rename(old)
    try:
        fresh.rename(site)
    except OSError:
        old.rename(site)
        raise


@contextlib.contextmanager
def _configuration(root: Path) -> Iterator[tuple[str, dict[str, Any]]]:
    """The folder's own mkdocs.yml, else the default one in a temporary folder; and options over it.

    Without site_src the pages come from an empty temporary folder, which lies outside the site.
    """
    with tempfile.TemporaryDirectory(prefix="guide-") as folder:
        options: dict[str, Any] = {}
        pages = root / WRITTEN_DIR
        if not pages.is_dir():
            pages = Path(folder) / "pages"
            pages.mkdir()
            options["docs_dir"] = str(pages)
        own = root / "mkdocs.yml"
        if own.is_file():
            yield str(own), options
            return
        default = Path(folder) / "mkdocs.yml"
        plugins = ["search", {"evidence": {"root": str(root)}}]
        settings = {**DEFAULT_CONFIG, "plugins": plugins, "docs_dir": str(pages)}
        # JSON is YAML.
        default.write_text(json.dumps(settings), encoding="utf-8")
        yield str(default), options
