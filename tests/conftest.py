"""The built sites that tests look at: each is built once for a whole run."""

from __future__ import annotations

import gc
import os
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from passageproof.build import Built, build_files, render
from passageproof.publishing import publish
from rendering.sample_guide import sample_guide
from site_server import SiteServer, serving

ROOT = Path(__file__).parent.parent

# Fifteen thousand tests are many objects that live as long as the run. Looked through for circles as often as those of
# a small program are, they take a third of the time of short tests.
gc.set_threshold(50_000, 20, 20)

# As in a workflow: no check keeps its proofs outside of the tests, or takes some from there.
os.environ.setdefault("CI", "true")


@pytest.fixture(scope="session")
def sample_built(tmp_path_factory: pytest.TempPathFactory) -> Built:
    """The guide made by hand, rendered."""
    return render(sample_guide(), tmp_path_factory.mktemp("no-pages"), lambda text: text.replace("\\%", "%"))


@pytest.fixture(scope="session")
def sample_site(sample_built: Built, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The guide made by hand, published through MkDocs."""
    folder = tmp_path_factory.mktemp("sample")
    (folder / "root" / "evidence").mkdir(parents=True)
    publish(folder / "root", folder / "site", sample_built)
    return folder / "site"


@pytest.fixture(scope="session")
def demo_site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The project's own demo, built from its evidence with its own mkdocs.yml."""
    folder = tmp_path_factory.mktemp("demo")
    for name in ("evidence", "site_src"):
        shutil.copytree(ROOT / name, folder / "root" / name)
    shutil.copy(ROOT / "mkdocs.yml", folder / "root")
    built = build_files(folder / "root")
    assert built.guide is not None, [str(problem.position) for problem in built.problems if problem.is_open]
    publish(folder / "root", folder / "site", built)
    return folder / "site"


@pytest.fixture(scope="session")
def graft_site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A guide of another trade: invented reports on corneal grafts."""
    folder = tmp_path_factory.mktemp("grafts")
    shutil.copytree(ROOT / "tests" / "other_trade", folder / "root")
    built = build_files(folder / "root")
    assert built.guide is not None, [str(problem.position) for problem in built.problems if problem.is_open]
    publish(folder / "root", folder / "site", built)
    return folder / "site"


@pytest.fixture(scope="session")
def sample_server(sample_site: Path) -> Iterator[SiteServer]:
    """The sample site below a prefix, as sites of one owner share an origin."""
    with serving(sample_site, "/guide/") as server:
        yield server


@pytest.fixture(scope="session")
def demo_server(demo_site: Path) -> Iterator[SiteServer]:
    """The demo site below a prefix."""
    with serving(demo_site, "/guide/") as server:
        yield server
