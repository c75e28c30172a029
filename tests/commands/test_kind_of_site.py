"""A site with pages of its own and the guide in it is never replaced by the guide alone, nor the other way round."""

from __future__ import annotations

import json
import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

EXAMPLE = Path(__file__).parents[1] / "example"
HOST = "site_name: Us\ndocs_dir: docs\ntheme: material\nplugins: [search, evidence]\n"
ALONE = HOST.replace("docs_dir: docs", "docs_dir: evidence")
LIST = "data/published.json"


def run(root: Path, *words: str) -> subprocess.CompletedProcess[str]:
    ran = subprocess.run(
        [sys.executable, "-m", *words], cwd=root, capture_output=True, text=True, check=False,
        env=os.environ | {"NO_MKDOCS_2_WARNING": "1"},
    )  # fmt: skip
    assert "Traceback" not in ran.stderr
    return ran


def contents(folder: Path) -> dict[str, bytes]:
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def started(root: Path, settings: str) -> Path:
    shutil.copytree(EXAMPLE / "evidence", root / "evidence")
    (root / "docs").mkdir()
    (root / "docs" / "index.md").write_text("# Home\n", "utf-8")
    (root / "docs" / "rota.md").write_text("# Rota\n", "utf-8")
    (root / "mkdocs.yml").write_text(settings, "utf-8")
    return root


@pytest.fixture(scope="module")
def sites(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    """One of each kind, to be copied: the site with its evidence and settings."""
    made = {}
    for settings in (HOST, ALONE):
        made[settings] = started(tmp_path_factory.mktemp("made") / "programme", settings)
        assert run(made[settings], "passageproof", "build").returncode == 0
    return made


@pytest.fixture
def host(sites: dict[str, Path], tmp_path: Path) -> Path:
    return Path(shutil.copytree(sites[HOST], tmp_path / "programme"))


VERBS = [("passageproof", "build"), ("mkdocs", "build")]
BY = ["our verb", "mkdocs"]


@pytest.mark.parametrize("words", VERBS, ids=BY)
@pytest.mark.parametrize("was", [HOST, ALONE], ids=["pages of its own", "the guide alone"])
def test_site_of_the_other_kind_is_not_replaced(
    sites: dict[str, Path], tmp_path: Path, was: str, words: tuple[str, str]
) -> None:
    root = Path(shutil.copytree(sites[was], tmp_path / "programme"))
    before = contents(root / "site")
    (root / "mkdocs.yml").write_text(ALONE if was == HOST else HOST, "utf-8")
    ran = run(root, *words)
    assert ran.returncode == 1
    told = {
        HOST: "holds a site with pages of its own and the guide at /evidence/, and what would take its place is the",
        ALONE: "holds a site of the guide alone, and what would take its place is a site with pages of its own",
    }[was]
    assert told in ran.stderr
    assert contents(root / "site") == before
    # Told to: whoever empties the place means it.
    shutil.rmtree(root / "site")
    assert run(root, *words).returncode == 0
    assert (root / "site" / "rota").exists() == (was == ALONE)


@pytest.mark.parametrize("words", VERBS, ids=BY)
def test_site_of_the_same_kind_is_replaced_wherever_the_guide_stands_in_it(host: Path, words: tuple[str, str]) -> None:
    (host / "mkdocs.yml").write_text(HOST.replace("evidence]", "{evidence: {at: papers/}}]"), "utf-8")
    ran = run(host, *words)
    assert ran.returncode == 0, ran.stderr
    assert (host / "site" / "papers" / LIST).is_file()
    assert not (host / "site" / "evidence").exists()


def test_misspelt_folder_of_pages_changes_no_site_and_is_told_by_the_check(host: Path) -> None:
    before = contents(host / "site")
    (host / "mkdocs.yml").write_text(HOST.replace("docs_dir: docs", "docs_dir: dcos"), "utf-8")
    told = 'mkdocs.yml:2:11: the folder of pages "dcos" is not there [no-folder-of-pages]'
    ran = run(host, "passageproof", "check")
    assert (ran.returncode, told in ran.stdout) == (1, True)
    ran = run(host, "passageproof", "build")
    assert (ran.returncode, told in ran.stderr) == (1, True)
    assert contents(host / "site") == before
    ran = run(host, "passageproof", "serve")
    assert (ran.returncode, 'the folder of pages "dcos" is not there: did you mean docs?' in ran.stderr) == (1, True)
    shutil.rmtree(host / "site")
    assert run(host, "passageproof", "build").returncode == 1
    assert not (host / "site").exists()


def test_folder_that_another_file_names_is_told_too(host: Path) -> None:
    (host / "base.yml").write_text("docs_dir: dcos\n", "utf-8")
    (host / "mkdocs.yml").write_text(HOST.replace("docs_dir: docs", "INHERIT: base.yml"), "utf-8")
    before = contents(host / "site")
    ran = run(host, "passageproof", "build")
    assert (ran.returncode, 'the folder of pages "dcos" is not there' in ran.stderr) == (1, True)
    assert contents(host / "site") == before


def test_list_stands_below_the_guide_and_a_file_of_the_host_at_its_name_is_kept(host: Path) -> None:
    said = json.loads((host / "site" / "evidence" / LIST).read_text("utf-8"))
    assert list(said["files"]) == sorted(contents(host / "site").keys() - {f"evidence/{LIST}"})
    assert said["at"] == "evidence/"
    assert not (host / "site" / "data").exists()
    (host / "docs" / "data").mkdir()
    (host / "docs" / LIST).write_text('{"mine": 1}', "utf-8")
    assert run(host, "passageproof", "build").returncode == 0
    assert (host / "site" / LIST).read_text("utf-8") == '{"mine": 1}'
    # And once more over a site that holds both.
    assert run(host, "passageproof", "build").returncode == 0


@pytest.mark.parametrize("words", VERBS, ids=BY)
def test_file_of_the_host_where_the_list_stands_is_told(host: Path, words: tuple[str, str]) -> None:
    (host / "docs" / "evidence" / "data").mkdir(parents=True)
    (host / "docs" / "evidence" / LIST).write_text('{"mine": 1}', "utf-8")
    before = contents(host / "site")
    ran = run(host, *words)
    assert ran.returncode == 1
    assert f"docs/evidence/{LIST}:1:1: this file of the site and the guide both want" in ran.stderr
    assert contents(host / "site") == before


def test_list_of_a_copy_below_the_site_is_not_taken_for_its_own(sites: dict[str, Path], tmp_path: Path) -> None:
    site = Path(shutil.copytree(sites[HOST] / "site", tmp_path / "copy"))
    shutil.copytree(sites[ALONE] / "site", site / "a" / "v1.0.0")
    ran = run(sites[HOST], "passageproof", "build", "--site", str(site))
    assert (ran.returncode, "holds files that were not published with the site there (a/v1.0.0/" in ran.stderr) == (
        1,
        1,
    )


@pytest.mark.parametrize("name", ["added.md", "index.md"])
def test_pages_that_another_plugin_adds_are_not_replaced_by_the_guide(tmp_path: Path, name: str) -> None:
    root = started(tmp_path / "programme", HOST + "hooks: [adds.py]\n")
    shutil.rmtree(root / "docs")
    (root / "docs").mkdir()
    (root / "adds.py").write_text(
        "from mkdocs.structure.files import File\n"
        "def on_files(files, config):\n"
        f"    files.append(File.generated(config, {name!r}, content='# Theirs'))\n",
        "utf-8",
    )
    ran = run(root, "passageproof", "build")
    assert (ran.returncode, f"another plugin adds pages to this site ({name})" in ran.stderr) == (1, True)
    assert not (root / "site").exists()
    (root / "mkdocs.yml").write_text(
        (root / "mkdocs.yml").read_text("utf-8").replace("evidence]", "{evidence: {at: evidence/}}]"), "utf-8"
    )
    assert run(root, "passageproof", "build").returncode == 0
    page = "added/index.html" if name == "added.md" else "index.html"
    assert "Theirs" in (root / "site" / page).read_text("utf-8")


def test_first_page_of_the_guide_leads_back_to_the_site_in_words_of_its_own(host: Path) -> None:
    # WCAG 2.2, technique H30: the words of a link say where it leads.
    text = (host / "site" / "evidence" / "index.html").read_text("utf-8")
    top = text.partition('<header class="top">')[2].partition("</header>")[0]
    ways = re.findall(r'<a href="([^"]+)">(.*?)</a>', top)
    assert [words for _, words in ways] == ["Back to Us", "Search"]
    assert (host / "site" / "evidence" / ways[0][0]).resolve() == (host / "site").resolve()
    # Search stands at the other side, as on every page.
    assert "Back to Us</a>\n<nav" in top


def test_entry_of_the_navigation_may_lead_to_one_page_of_the_guide(host: Path) -> None:
    nav = "nav:\n- Home: index.md\n- What we read: evidence/sources/\n"
    (host / "mkdocs.yml").write_text(f"{HOST}{nav}", "utf-8")
    ran = run(host, "mkdocs", "build", "--strict")
    assert (ran.returncode, "WARNING" in ran.stderr) == (0, False), ran.stderr
    assert 'href="evidence/sources/"' in (host / "site" / "index.html").read_text("utf-8")


def test_mkdocs_says_where_there_is_no_compendium(host: Path) -> None:
    before = contents(host / "site")
    (host / "evidence").rename(host / "elsewhere")
    ran = run(host, "mkdocs", "build")
    told = (
        f'there is no evidence/compendium.yaml in {host}: name the folder that holds evidence/ with the option "root"'
    )
    assert (ran.returncode, told in ran.stderr) == (1, True)
    assert contents(host / "site") == before
