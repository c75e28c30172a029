"""MkDocs run: a site published beside the old one and put in its place, or previewed."""

from __future__ import annotations

import contextlib
import logging
import os
import tempfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from mkdocs.commands.build import build as build_site
from mkdocs.commands.serve import serve as serve_site
from mkdocs.config import load_config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import Abort, ConfigurationError, PluginError

from . import hosting
from .build import Built
from .placing import leave_list, refusal
from .plugin import EvidencePlugin
from .reading.files import WRITTEN_DIR
from .replacing import replacement

# The theme prints a notice of its end of life at every run; the ranges of releases are our answer to it.
os.environ.setdefault("NO_MKDOCS_2_WARNING", "1")


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
        with replacement(site) as fresh:
            _run(root.resolve(), fresh, built)
            leave_list(fresh)
            # Making it took a while: what somebody has put there since is kept too.
            _may_take(root, site)
    except OSError as fault:
        raise CannotPublish(f"the site could not be written: {fault.strerror or fault}") from fault


def _may_take(root: Path, site: Path) -> None:
    own = root / "mkdocs.yml"
    with _faults():
        pages = (os.path.relpath(_docs_dir(own), root),) if own.is_file() else ()
    reason = refusal(root, site, ("evidence", WRITTEN_DIR, *pages))
    if reason:
        raise CannotPublish(reason)


def serve(root: Path) -> None:
    """A live preview on this machine; the evidence, the hand-written pages and mkdocs.yml are watched.

    root: the folder that holds evidence/. Ends when it is interrupted.
    Raises CannotPublish where MkDocs cannot start.
    """
    with _faults(), _configuration(root.resolve()) as (config_file, options):
        serve_site(config_file=config_file, **options)


def _run(root: Path, fresh: Path, built: Built | None) -> None:
    with _faults(), _configuration(root) as (config_file, options):
        config = load_config(config_file, site_dir=str(fresh), **options)
        plugin = _plugin(config)
        # MkDocs keeps a plugin over the runs of one process: what an earlier run left in it must not count.
        plugin.root, plugin.handed, plugin.last_good = root, built, None
        config.strict = config.strict or plugin.place(config).is_own
        config.plugins.on_startup(command="build", dirty=False)
        build_site(config)


@contextlib.contextmanager
def _faults() -> Iterator[None]:
    """What MkDocs cannot do becomes one kind of fault; what it logged before is part of the message."""
    heard: list[str] = []
    listener = logging.Handler(logging.WARNING)
    listener.emit = lambda record: heard.append(record.getMessage())  # type: ignore[method-assign]
    logger = logging.getLogger("mkdocs")
    logger.addHandler(listener)
    try:
        yield
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

    Where there is neither the folder of pages that mkdocs.yml names nor site_src, the pages come from an empty
    temporary folder, which lies outside the site.
    """
    with tempfile.TemporaryDirectory(prefix="guide-") as folder:
        pages = root / WRITTEN_DIR
        if not pages.is_dir():
            pages = Path(folder) / "pages"
            pages.mkdir()
        own = root / "mkdocs.yml"
        if own.is_file():
            yield str(own), {} if _docs_dir(own).is_dir() else {"docs_dir": str(pages)}
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
