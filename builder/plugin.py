"""The plugin: what MkDocs asks of the guide at each step of making a site."""

from __future__ import annotations

import logging
import os
import re
from collections.abc import Collection
from pathlib import Path
from typing import Any, Literal

from jinja2 import ChoiceLoader, Environment, FileSystemLoader, PrefixLoader
from mkdocs.config import config_options
from mkdocs.config.base import Config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.plugins import BasePlugin, event_priority, get_plugin_logger
from mkdocs.structure.files import File, Files, InclusionLevel, file_sort_key, set_exclusions
from mkdocs.structure.nav import Navigation
from mkdocs.structure.pages import Page
from mkdocs.utils import nest_paths
from mkdocs.utils.templates import TemplateContext

from . import hosting
from .build import NO_FILES, Before, Built, build_files, early_markdown
from .desk.shipped import shipped_files
from .hosting import Place
from .placing import PUBLISHED, leave_list, other_kind
from .problems import Problem, as_texts, counted, in_order
from .reading.files import WRITTEN_DIR, missing_compendium
from .reading.published import published_address, published_path
from .rendering.frame import MENDING, Frame, frame_of, problem_pages, with_urgent_bar
from .rendering.pages import front_matter, page_path
from .rendering.search import search_entries
from .rendering.served import assets_of_guest, served_assets
from .rendering.site import Pieces
from .rendering.written import marked_numbers
from .replacing import Clock

log = get_plugin_logger(__name__)
preview_log = logging.getLogger(__name__)

THEME_DIR = Path(__file__).parent / "theme"

# What follows from the whole site comes after all other plugins, and what they add is known by then.
_LAST = -100


class EvidenceConfig(Config):
    """Options of the plugin in mkdocs.yml."""

    root = config_options.Dir(exists=True, default=".")
    """The folder that holds evidence/, relative to mkdocs.yml."""
    at = config_options.Optional(config_options.Type(str))
    """Where the guide stands in a site with pages of its own; hosting.GUEST_ADDRESS where it is left out."""


class EvidencePlugin(BasePlugin[EvidenceConfig]):
    """Builds the guide from the evidence and hands it to MkDocs, page by page."""

    serving = False
    root: Path | None = None
    """The folder that holds evidence/; from the options where nobody set it."""
    handed: Built | None = None
    """What the next run publishes; composed in `on_config` where nobody handed it in."""
    replaces: Path | None = None
    """Whose place the next run's site takes, where MkDocs makes it beside the old one."""
    built: Built | None = None
    """What this run publishes."""
    last_good: Built | None = None
    """While serving: the last guide without a fault."""
    _place = Place("", True)
    _host = ""
    """What a site that is not the compendium's own calls itself."""
    _is_written_dir = True
    """Whether the site's folder of pages is that of the guide's hand-written pages."""
    _written: frozenset[str] = frozenset()
    _pages: frozenset[str] = frozenset()
    """Pages of the guide, as MkDocs names them; all others are the site's own, and are left as they are."""
    _late: frozenset[str] = frozenset()
    """Those of them whose text is made when they are written."""

    def __init__(self) -> None:
        super().__init__()
        self._ready: dict[str, str] = {}
        self._asked: dict[str, set[str]] = {}
        """Anchors that links of Markdown lead to, by the page they stand in."""
        self._clock = Clock()
        self._before: Before | None = None

    def on_startup(self, *, command: Literal["build", "gh-deploy", "serve"], dirty: bool) -> None:
        """Keeps this object over the rebuilds of a live preview."""
        self.serving = command == "serve"
        if self.serving:
            self._before = self._before or Before()

    def place(self, config: MkDocsConfig) -> Place:
        """Where in this site the guide stands."""
        try:
            place = hosting.place_of_guide(self.config.at, Path(config.docs_dir), self._root())
            hosting.refuse_shared(place, config.theme.dirs)
        except ValueError as fault:
            raise PluginError(str(fault)) from fault
        return place

    def _root(self) -> Path:
        return self.root or Path(self.config.root)

    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        """Composes the guide, or fails before MkDocs has emptied the site."""
        root = self._root()
        config.watch += [str(root / name) for name in ("evidence", WRITTEN_DIR) if (root / name).is_dir()]
        self._place = self.place(config)
        self._may_replace(self.replaces or Path(config.site_dir))
        self.replaces = None
        self._host = config.site_name
        self._is_written_dir = hosting.is_same(config.docs_dir, root / WRITTEN_DIR)
        self.built = self.handed or build_files(root, self._before if self.serving else None)
        self.handed = None
        taken = self._taken(_pages_of_host(config, root)) if self.built.guide is not None else []
        if taken:
            self.built = Built(None, NO_FILES, tuple(in_order([*self.built.problems, *taken])))
        if self._place.is_own:
            _settle(config)
        if self.built.guide is None:
            self._fault(self.built.problems)
            return config
        self.last_good = self.built
        if self._place.is_own:
            config.update(hosting.own_identity(self.built.guide, config.edit_uri))
            self._clock.set(self.built.guide.evidence_date)
        return config

    def _may_replace(self, site: Path) -> None:
        """Raises PluginError where there is nothing to publish, or a site of the other kind in its place."""
        lacks = missing_compendium(self._root()) if self.handed is None else ""
        if lacks:
            raise PluginError(f'{lacks} with the option "root" of the plugin')
        # A preview is made elsewhere.
        reason = "" if self.serving else other_kind(site, self._place.address)
        if reason:
            raise PluginError(reason)

    def _taken(self, theirs: dict[str, str]) -> list[Problem]:
        """What of the site's own stands where the guide would. theirs: see hosting.taken_in_host."""
        assert self.built is not None
        ours = [published_path(path) for path in (*self.built.files, *self._assets(), hosting.INDEX, PUBLISHED)]
        return hosting.taken_in_host((self._place.address + path for path in ours), theirs)

    def _assets(self) -> dict[str, str | bytes | Pieces]:
        """What the guide publishes beside its pages and downloads, where MkDocs does not do it already."""
        assets = {**served_assets(THEME_DIR)} if self._place.is_own else assets_of_guest(THEME_DIR)
        assets |= {} if self._is_written_dir else hosting.files_beside_written(self._root())
        return {**assets, **shipped_files(self._root())}

    def on_build_error(self, *, error: Exception) -> None:
        """Today comes back after a fault too."""
        self._clock.restore()

    def _fault(self, problems: tuple[Problem, ...]) -> None:
        for text in as_texts(problem for problem in problems if problem.is_open):
            # MkDocs counts what its own loggers say, and would end a strict preview for it.
            (preview_log if self.serving else log).error("%s", text)
        # Raising while serving would end the preview or leave the browser waiting: there a page shows the problems.
        if not self.serving:
            raise PluginError(f"the evidence has {counted(problems)}")

    @event_priority(_LAST)
    def on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        """Adds every file of the guide, and its look."""
        assert self.built is not None
        self._clear(files, hosting.search_languages(config.plugins))
        host_nav = self._nav_beside(files, config)
        guide = self.built.guide
        made: dict[str, Any] = {**self._assets()}
        edits: dict[str, str] = {}
        fronts: dict[str, str] = {}
        if guide is None:
            # While serving: every address of the guide that was good shows what is wrong now.
            made |= problem_pages(self.built.problems, self.last_good.files if self.last_good is not None else ())
            entries: list[dict[str, str]] = [{MENDING: f"{self._place.address}index.md"}]
        else:
            # All pages together are many times what one of them is: beforehand MkDocs is handed what heads them.
            fronts = {page_path(head): front_matter(head, guide) for head in guide.pages.heads.values()}
            made |= {path: fronts.get(path) or self.built.files.text_or_pieces(path) for path in self.built.files}
            entries = hosting.nav_entries(guide, self.built.files, self._place)
            edits = hosting.edit_uris(guide, self._place, Path(config.docs_dir), self._root())
        # The navigation stands in every page: with leaves in it the site grows with the square of its pages.
        in_nav = {path for entry in entries for path in entry.values()} if self._place.is_own else set()
        for path, content in made.items():
            self._put(path, content, files, config, in_nav).edit_uri = edits.get(path)
        address = self._place.address
        self._written = frozenset(address + page.path for page in guide.written) if guide is not None else frozenset()
        self._pages = frozenset(address + path for path in made if path.endswith(".md"))
        self._late = frozenset(address + path for path in fronts)
        if host_nav is not None:
            title = guide.title if guide is not None else MENDING
            entries = hosting.nav_of_host(host_nav, entries, title, self._place, self._pages)
        config.nav = entries
        return files

    def _nav_beside(self, files: Files, config: MkDocsConfig) -> list[Any] | None:
        """The host's navigation, None in one of the compendium's own; no page may stand where another would."""
        theirs = files.documentation_pages()
        if self._place.is_own:
            fault = "" if self._is_written_dir else hosting.pages_of_others(file.src_uri for file in theirs)
            if fault:
                raise PluginError(fault)
            return None
        taken = self._taken({file.dest_uri: file.src_uri for file in files})
        if taken:
            self._fault(tuple(taken))
        # Where mkdocs.yml has none: what MkDocs would make of the site's own pages.
        listed = (file.src_uri for file in sorted(theirs, key=file_sort_key) if file.inclusion.is_in_nav())
        return list(nest_paths(listed) if config.nav is None else config.nav)

    def _clear(self, files: Files, languages: Collection[str]) -> None:
        """Not published: what no reader asks for, the evidence itself, and in a preview of faults any old page."""
        for file in list(files):
            source = file.abs_src_path
            is_part = hosting.is_unread(file.src_uri, THEME_DIR, languages)
            is_old = self.built is not None and self.built.guide is None and file.is_documentation_page()
            is_evidence = source and hosting.is_below(source, self._root() / "evidence")
            if (self._place.is_own and (is_part or is_old)) or is_evidence:
                files.remove(file)

    def _put(
        self, path: str, content: str | bytes | Pieces, files: Files, config: MkDocsConfig, in_nav: Collection[str]
    ) -> File:
        """Adds one file of the guide, in place of what stands there. path: below the guide's address."""
        is_in_nav = path in in_nav or not path.endswith(".md")
        inclusion = InclusionLevel.INCLUDED if is_in_nav else InclusionLevel.NOT_IN_NAV
        uri = self._place.address + path
        if isinstance(content, (str, bytes)):
            file = File.generated(config, uri, content=content, inclusion=inclusion)
        else:
            file = _Download.generated(config, uri, content="", inclusion=inclusion)
            assert isinstance(file, _Download)
            file.pieces = content
        # The guide's links lead to folders, whatever the addresses of the site's own pages look like.
        file.use_directory_urls = True
        # Appending a path that exists would replace it with a warning: take the old one out first.
        old = files.get_file_from_path(file.src_uri)
        if old is not None:
            files.remove(old)
        files.append(file)
        return file

    def on_page_context(
        self, context: TemplateContext, *, page: Page, config: MkDocsConfig, nav: Navigation
    ) -> TemplateContext:
        """Hands the templates what stands in the frame of every page."""
        if page.file.src_uri in self._pages:
            context["frame"] = self._frame()  # type: ignore[typeddict-unknown-key]
        if page.file.src_uri in self._late and self.built is not None:
            text = self.built.files[page.file.src_uri.removeprefix(self._place.address)]
            page.content = text.partition("\n---\n\n")[2]
        asked = self._asked.get(page.file.src_uri)
        if asked and page.file.src_uri in self._pages - self._written:
            # MkDocs looks for them in Markdown, and there is none.
            page.present_anchor_ids = {anchor for anchor in asked if f'id="{anchor}"' in (page.content or "")}
        return context

    def on_env(self, env: Environment, *, config: MkDocsConfig, files: Files) -> None:
        """The same for templates without a page, like the one for unknown addresses; and our own under our name."""
        if self._place.is_own:
            env.globals["frame"] = self._frame()
        self._asked = _asked_anchors(files)
        if not isinstance(env.loader, _Templates):
            ours = PrefixLoader({"passageproof": FileSystemLoader(str(THEME_DIR))})
            env.loader = _Templates([*([env.loader] if env.loader is not None else []), ours])

    def _frame(self) -> Frame:
        assert self.built is not None
        good = self.built if self.built.guide is not None else self.last_good
        frame = frame_of(good.guide if good is not None else None, is_shown=good is self.built)
        return hosting.frame_in(frame, self._place, self._host)

    def on_page_markdown(self, markdown: str, *, page: Page, config: MkDocsConfig, files: Files) -> str:
        """A hand-written page gets a kind and the frame for written pages unless its front matter names one."""
        if page.file.src_uri not in self._pages:
            return markdown
        page.meta.update(hosting.front_matter(page.meta, self._place))
        if not self._place.is_own and self.built is not None and self.built.guide is not None:
            page.update_date = self.built.guide.evidence_date.isoformat()
        if page.file.src_uri in self._written:
            return markdown
        # A page of the guide is HTML already: reading it as Markdown would change nothing and take most of the time.
        self._ready[page.file.src_uri] = markdown
        return ""

    def on_page_content(self, html: str, *, page: Page, config: MkDocsConfig, files: Files) -> str:
        """The page of the guide as it was rendered, or the hand-written one as Markdown made it."""
        if page.file.src_uri in self._written:
            # Our policy allows no styles in a page; how cells of a table are aligned is the only one Markdown makes.
            return marked_numbers(re.sub(r' style="text-align: (\w+);"', r' align="\1"', html))
        return self._ready.pop(page.file.src_uri, html)

    def on_post_page(self, output: str, *, page: Page, config: MkDocsConfig) -> str:
        """The theme's own frame has no place for attributes of the body, nor for the urgent link before all else."""
        if page.file.src_uri in self._late:
            page.content = ""
        if page.file.src_uri not in self._pages or page.meta.get("template") != "main.html":
            return output
        return with_urgent_bar(output, str(page.meta["kind"]), self._frame(), page.url)

    def on_post_template(self, output_content: str, *, template_name: str, config: MkDocsConfig) -> str:
        """Keeps the theme's script away from the guide's pages, which it would not show."""
        is_instant = not self._place.is_own and hosting.INSTANT in (config.theme.get("features") or [])
        if template_name != "sitemap.xml" or not is_instant or not config.site_url:
            return output_content
        return hosting.sitemap_without_guide(output_content, config.site_url, self._place)

    @event_priority(_LAST)
    def on_post_build(self, *, config: MkDocsConfig) -> None:
        """Writes the search index, tells the service worker what was published, and leaves the list of it all."""
        self._clock.restore()
        self.write_search(config)
        hosting.fill_worker(Path(config.site_dir) / self._place.address)
        # Here and not in `publish`: a site that plain MkDocs made may be replaced as well.
        leave_list(Path(config.site_dir), self._place.address)

    def write_search(self, config: MkDocsConfig) -> None:
        """Puts what the guide is found by in place of what the site's search made of its pages."""
        guide = self.built.guide if self.built is not None else None
        if guide is not None:
            pages = (published_address(path) for path in self._pages)
            hosting.write_search(Path(config.site_dir), self._place, search_entries(guide), pages)

    def early_text(self, path: str) -> str | None:
        """While serving: what a page of the guide says now, before all is read again. path: as MkDocs names it."""
        if path not in self._late or self._before is None or self.built is None or self.built.guide is None:
            return None
        address = path.removeprefix(self._place.address).removesuffix("index.md")
        text = early_markdown(self._root(), self._before, self.built.guide, address)
        if text is not None:
            self.built = self.built._replace(files=self.built.files | {path.removeprefix(self._place.address): text})
        return text

    def is_written(self, path: str) -> bool:
        """True for a page of the guide that somebody wrote by hand. path: as MkDocs names it."""
        return path in self._written


class _Templates(ChoiceLoader):
    """The theme's templates, and ours under our name."""


class _Download(File):
    """A file of the guide that is written piece by piece, as it is made."""

    pieces: Pieces

    def copy_file(self, dirty: bool = False) -> None:
        """Writes it to its place in the site."""
        os.makedirs(os.path.dirname(self.abs_dest_path), exist_ok=True)
        with open(self.abs_dest_path, "wb") as out:
            out.writelines(self.pieces())


def _asked_anchors(files: Files) -> dict[str, set[str]]:
    asked: dict[str, set[str]] = {}
    for file in files.documentation_pages():
        links = file.page.links_to_anchors if file.page is not None else None
        for target, anchors in (links or {}).items():
            asked.setdefault(target.src_uri, set()).update(anchors)
    return asked


def _pages_of_host(config: MkDocsConfig, root: Path) -> dict[str, str]:
    """What the site's own folder of pages publishes, by its path there; the guide's own pages are no affair of ours."""
    docs = Path(config.docs_dir)
    if hosting.is_same(docs, root / WRITTEN_DIR) or hosting.is_below(docs, root / "evidence"):
        return {}
    paths = [Path(folder, name).relative_to(docs) for folder, _, names in os.walk(docs) for name in names]
    files = [File(path.as_posix(), str(docs), config.site_dir, config.use_directory_urls) for path in sorted(paths)]
    set_exclusions(files, config)
    to_docs = Path(os.path.relpath(docs, root)).as_posix()
    return {file.dest_uri: f"{to_docs}/{file.src_uri}" for file in files if file.inclusion.is_included()}


def _settle(config: MkDocsConfig) -> None:
    """In a site of the guide's own: its look, and what mkdocs.yml left open."""
    folders = [folder for folder in config.theme.dirs if Path(folder) != THEME_DIR]
    fault = hosting.theme_fault(config.theme.name, folders)
    if fault:
        raise PluginError(fault)
    if str(THEME_DIR) not in config.theme.dirs:
        # Behind a folder that mkdocs.yml names itself.
        config.theme.dirs.insert(1 if config.theme.custom_dir else 0, str(THEME_DIR))
    config.theme.update(hosting.own_look(config.theme.get("features") or []))
    config.extra.setdefault("generator", False)
    config.mdx_configs.setdefault("tables", {}).setdefault("use_align_attribute", True)
    if "attr_list" not in config.markdown_extensions:
        config.markdown_extensions.append("attr_list")
    # What MkDocs only notes unless somebody says otherwise is a fault here.
    nav, links = config.validation.nav, config.validation.links
    nav.omitted_files = max(nav.omitted_files, logging.WARNING)
    links.anchors = max(links.anchors, logging.WARNING)
    links.unrecognized_links = max(links.unrecognized_links, logging.WARNING)
