"""One run of MkDocs beside the old site, then a swap: the site is either the new one or, untouched, the old one."""

from __future__ import annotations

import contextlib
import logging
import os
import tempfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import yaml
from mkdocs.commands.build import build as build_site
from mkdocs.commands.serve import serve as serve_site
from mkdocs.config import load_config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import Abort, ConfigurationError, PluginError

from builder.build import WRITTEN_DIR, Built
from builder.plugin import EvidencePlugin

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

    root: the folder that holds evidence/. site: where it is put; an older one is replaced as a whole.
    built: what to publish; composed from root where it is left out.
    Raises CannotPublish, and then `site` is as it was.
    """
    site = Path(os.path.realpath(site))
    if site.exists() and not site.is_dir():
        raise CannotPublish(f"{site.name} is a file, and a site is a folder: name another place")
    if root.resolve().is_relative_to(site):
        raise CannotPublish(f"{site.name} holds the evidence itself, which the site would replace: name another place")
    try:
        site.parent.mkdir(parents=True, exist_ok=True)
        # Beside the old one, so that the swap stays on one filesystem and is two renames.
        with tempfile.TemporaryDirectory(prefix=f".{site.name}-", dir=site.parent) as beside:
            fresh = Path(beside) / "new"
            fresh.mkdir()
            _run(root.resolve(), fresh, built)
            _swap(fresh, site, Path(beside) / "old")
    except OSError as fault:
        raise CannotPublish(f"the site could not be written: {fault.strerror or fault}") from fault


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
        default.write_text(yaml.safe_dump(settings), encoding="utf-8")
        yield str(default), options
