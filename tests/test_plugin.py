"""Publishing through MkDocs: all or nothing, the same bytes, and nothing of the machine in them."""

from __future__ import annotations

import gzip
import hashlib
import json
import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from mkdocs.commands.build import build as build_site
from mkdocs.config import load_config
from passageproof.build import Built, build_files, render
from passageproof.plugin import EvidencePlugin
from passageproof.publishing import CannotPublish, publish
from rendering.sample_guide import sample_guide

TESTS = Path(__file__).parent
FAULTY = """\
format: 1
title: A guide
programme: Fenwick
demonstration: perhaps
evidence: {date: 2026-10-30, release: 1.0.0}
"""


def contents(site: Path) -> dict[str, str]:
    """Every file below a folder with a digest of its bytes."""
    return {
        file.relative_to(site).as_posix(): hashlib.sha256(file.read_bytes()).hexdigest()
        for file in sorted(site.rglob("*"))
        if file.is_file()
    }


@pytest.fixture
def root(tmp_path: Path) -> Path:
    """A folder with evidence/ alone: neither mkdocs.yml nor site_src."""
    (tmp_path / "root" / "evidence").mkdir(parents=True)
    return tmp_path / "root"


def test_every_page_stands_at_its_address(sample_site: Path) -> None:
    for page in sample_guide().pages:
        assert (sample_site / page.address / "index.html").is_file()


def test_the_old_site_is_replaced_as_a_whole(root: Path, sample_built: Built, tmp_path: Path) -> None:
    site = tmp_path / "site"
    publish(root, site, sample_built._replace(files=sample_built.files | {"old/page.md": "# old"}))
    assert (site / "old" / "page" / "index.html").is_file()
    publish(root, site, sample_built)
    assert not (site / "old").exists()
    assert (site / "index.html").is_file()


def test_nothing_is_left_beside_the_site(root: Path, sample_built: Built, tmp_path: Path) -> None:
    publish(root, tmp_path / "site", sample_built)
    assert sorted(path.name for path in tmp_path.iterdir()) == ["root", "site"]


def test_a_fault_in_the_evidence_leaves_the_old_site_as_it_was(root: Path, sample_built: Built, tmp_path: Path) -> None:
    site = tmp_path / "site"
    publish(root, site, sample_built)
    before = contents(site)
    (root / "evidence" / "compendium.yaml").write_text(FAULTY, "utf-8")
    with pytest.raises(CannotPublish, match=r"evidence/compendium\.yaml:4:16"):
        publish(root, site)
    assert contents(site) == before


def test_a_fault_of_mkdocs_leaves_the_old_site_as_it_was(root: Path, sample_built: Built, tmp_path: Path) -> None:
    site = tmp_path / "site"
    publish(root, site, sample_built)
    before = contents(site)
    (root / "site_src").mkdir()
    (root / "site_src" / "about.md").write_text("[nowhere](nowhere.md)", "utf-8")
    broken = sample_built.files | {"about.md": "[nowhere](nowhere.md)"}
    with pytest.raises(CannotPublish, match=r"nowhere\.md"):
        publish(root, site, sample_built._replace(files=broken))
    assert contents(site) == before


def test_a_plain_run_of_mkdocs_fails_before_it_empties_the_site(root: Path, tmp_path: Path) -> None:
    (root / "evidence" / "compendium.yaml").write_text(FAULTY, "utf-8")
    (root / "site_src").mkdir()
    (root / "mkdocs.yml").write_text(
        'site_name: "x"\ndocs_dir: site_src\ntheme: {name: material, font: false}\nplugins: [search, evidence]\n',
        "utf-8",
    )
    site = tmp_path / "site"
    site.mkdir()
    (site / "index.html").write_text("the last good one", "utf-8")
    ran = subprocess.run(
        [sys.executable, "-m", "mkdocs", "build", "-q", "-f", str(root / "mkdocs.yml"), "-d", str(site)],
        capture_output=True,
        text=True,
        env=os.environ | {"NO_MKDOCS_2_WARNING": "1"},
        check=False,
    )
    assert ran.returncode == 1
    assert "evidence/compendium.yaml:4:16" in ran.stderr
    assert "Traceback" not in ran.stderr
    assert (site / "index.html").read_text("utf-8") == "the last good one"


def test_a_site_never_takes_the_place_of_a_file_or_of_its_own_evidence(
    root: Path, sample_built: Built, tmp_path: Path
) -> None:
    (tmp_path / "file").write_text("mine", "utf-8")
    with pytest.raises(CannotPublish, match="file is a file"):
        publish(root, tmp_path / "file", sample_built)
    with pytest.raises(CannotPublish, match="holds the evidence itself"):
        publish(root, root, sample_built)


BUILDING = """\
import sys
from pathlib import Path
sys.path.insert(0, sys.argv[1])
from rendering.sample_guide import sample_guide
from passageproof.build import render
from passageproof.publishing import publish
root = Path(sys.argv[2])
(root / "evidence").mkdir(parents=True)
publish(root, root / "site", render(sample_guide(), root, str))
"""


@pytest.mark.slow
def test_clock_folder_locale_time_zone_and_hash_seed_change_no_byte(tmp_path: Path) -> None:
    surroundings = [
        {"PYTHONHASHSEED": "1", "TZ": "Pacific/Kiritimati", "LC_ALL": "C", "SOURCE_DATE_EPOCH": "1000000000"},
        {"PYTHONHASHSEED": "2", "TZ": "Pacific/Pago_Pago", "LC_ALL": "C.UTF-8"},
    ]
    made = []
    for number, more in enumerate(surroundings):
        root = tmp_path / ("deeper/" * number) / "root"
        subprocess.run(
            [sys.executable, "-c", BUILDING, str(TESTS), str(root)],
            cwd=TESTS.parent if number else TESTS,
            env=os.environ | more | {"NO_MKDOCS_2_WARNING": "1"},
            check=True,
        )
        made.append(contents(root / "site"))
    assert made[0] == made[1]


def test_the_sitemap_has_the_date_of_the_evidence(root: Path, sample_built: Built, tmp_path: Path) -> None:
    (root / "mkdocs.yml").write_text(
        "site_name: x\nsite_url: https://example.org/guide/\ndocs_dir: site_src\n"
        "theme: {name: material, font: false}\nplugins: [search, evidence]\n",
        "utf-8",
    )
    publish(root, tmp_path / "site", sample_built)
    text = (tmp_path / "site" / "sitemap.xml").read_text("utf-8")
    assert "<loc>https://example.org/guide/root-perforation/size/</loc>" in text
    assert set(re.findall(r"<lastmod>(.*?)</lastmod>", text)) == {"2026-10-30"}
    assert gzip.decompress((tmp_path / "site" / "sitemap.xml.gz").read_bytes()).decode() == text


@pytest.mark.parametrize("before", [None, "123456789"], ids=["unset", "set"])
def test_the_clock_comes_back(
    root: Path, sample_built: Built, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, before: str | None
) -> None:
    if before is None:
        monkeypatch.delenv("SOURCE_DATE_EPOCH", raising=False)
    else:
        monkeypatch.setenv("SOURCE_DATE_EPOCH", before)
    publish(root, tmp_path / "site", sample_built)
    assert os.environ.get("SOURCE_DATE_EPOCH") == before


def test_the_clock_comes_back_after_a_fault(root: Path, sample_built: Built, tmp_path: Path) -> None:
    broken = sample_built.files | {"about.md": "[nowhere](nowhere.md)"}
    with pytest.raises(CannotPublish):
        publish(root, tmp_path / "site", sample_built._replace(files=broken))
    assert "SOURCE_DATE_EPOCH" not in os.environ


def test_the_title_always_comes_from_the_evidence(root: Path, sample_built: Built, tmp_path: Path) -> None:
    (root / "mkdocs.yml").write_text(
        "site_name: Another name\ndocs_dir: evidence\ntheme: {name: material, font: false}\n"
        "plugins: [search, evidence]\n",
        "utf-8",
    )
    publish(root, tmp_path / "site", sample_built)
    assert "Another name" not in (tmp_path / "site" / "contribute" / "index.html").read_text("utf-8")


def test_a_configuration_without_the_plugin_says_what_to_add(root: Path, sample_built: Built, tmp_path: Path) -> None:
    (root / "mkdocs.yml").write_text(
        "site_name: x\ndocs_dir: evidence\ntheme: {name: material, font: false}\nplugins: [search]\n", "utf-8"
    )
    with pytest.raises(CannotPublish, match='no plugin "evidence": add it'):
        publish(root, tmp_path / "site", sample_built)


def test_the_navigation_of_a_page_holds_questions_and_main_pages_only(sample_site: Path) -> None:
    text = (sample_site / "contribute" / "index.html").read_text("utf-8")
    assert 'href="../root-perforation/"' in text
    assert 'href="../methods/"' in text
    assert 'href="../about/"' in text
    assert "root-perforation/size/" not in text
    assert "sources/marlow2019furcal/" not in text


def test_a_page_links_to_the_evidence_file_behind_it(sample_site: Path) -> None:
    text = (sample_site / "root-perforation" / "index.html").read_text("utf-8")
    assert 'href="https://example.org/fenwick/guide/edit/main/evidence/questions/root-perforation.yaml"' in text


def test_the_search_index_holds_titles_authors_answers_and_synonyms_alone(sample_site: Path) -> None:
    index = json.loads((sample_site / "search" / "search_index.json").read_text("utf-8"))
    entries = {doc["location"]: doc for doc in index["docs"]}
    assert entries["sources/marlow2019furcal/"]["text"] == "Marlow; Okafor"
    assert entries["root-perforation/size/"] == {
        "location": "root-perforation/size/",
        "title": "Size of the hole",
        "text": "diameter; width",
    }


def test_source_maps_of_the_theme_are_not_published(sample_site: Path) -> None:
    assert list(sample_site.rglob("*.min.js"))
    assert list(sample_site.rglob("*.map")) == []


def test_languages_that_the_search_does_not_read_are_not_published(sample_site: Path) -> None:
    index = json.loads((sample_site / "search" / "search_index.json").read_text("utf-8"))
    assert index["config"]["lang"] == ["en"]
    assert (sample_site / "assets" / "javascripts").is_dir()
    assert not (sample_site / "assets" / "javascripts" / "lunr").exists()


def test_a_search_in_another_language_keeps_what_it_reads_that_with(
    root: Path, sample_built: Built, tmp_path: Path
) -> None:
    plugins = "plugins: [{search: {lang: [en, sv]}}, evidence]"
    written = f"site_name: A guide\ndocs_dir: evidence\ntheme: {{name: material}}\n{plugins}\n"
    (root / "mkdocs.yml").write_text(written, "utf-8")
    publish(root, tmp_path / "site", sample_built)
    assert (tmp_path / "site" / "assets" / "javascripts" / "lunr" / "min" / "lunr.sv.min.js").exists()


def test_the_worker_keeps_pages_and_of_downloads_the_small_ones_people_take_along(sample_site: Path) -> None:
    worker = (sample_site / "service-worker.js").read_text("utf-8")
    kept = json.loads(worker.partition("const KEPT = ")[2].partition(";\n")[0])
    assert {"", "urgent/", "root-perforation/size/", "stylesheets/reading.css", "search/search_index.json"} <= set(kept)
    large = [path for path in kept if path.endswith((".map", ".csv", ".jsonl", ".bib")) or "lunr" in path]
    assert large == ["data/claims.csv", "data/sources.bib"]
    assert all((sample_site / path).exists() for path in kept)


def test_a_new_standing_is_a_new_cache(root: Path, sample_built: Built, tmp_path: Path) -> None:
    def cache(files: dict[str, str]) -> str:
        publish(root, tmp_path / "site", sample_built._replace(files=files))
        worker = (tmp_path / "site" / "service-worker.js").read_text("utf-8")
        return worker.partition("const CACHE = ")[2].partition(";")[0]

    files = sample_built.files
    changed = files | {"data/standing.json": files["data/standing.json"].replace("2026-10-20", "2026-11-20")}
    assert cache(files) == cache(files)
    assert cache(files) != cache(changed)


def test_a_preview_shows_what_is_wrong_instead_of_stopping(root: Path, tmp_path: Path) -> None:
    (root / "evidence" / "compendium.yaml").write_text(FAULTY, "utf-8")
    (root / "site_src").mkdir()
    (root / "mkdocs.yml").write_text(
        "site_name: x\ndocs_dir: site_src\nstrict: true\ntheme: {name: material, font: false}\n"
        "plugins: [search, evidence]\n",
        "utf-8",
    )
    config = load_config(str(root / "mkdocs.yml"), site_dir=str(tmp_path / "site"))
    plugin = config.plugins["evidence"]
    assert isinstance(plugin, EvidencePlugin)
    plugin.root = plugin.last_good = None
    config.plugins.on_startup(command="serve", dirty=False)
    build_site(config, serve_url="http://127.0.0.1:8000/")
    plugin.serving = False
    text = (tmp_path / "site" / "index.html").read_text("utf-8")
    assert "evidence/compendium.yaml:4:16" in text
    assert str(root / "evidence") in config.watch


def test_the_manifest_has_relative_addresses_and_icons_that_exist(sample_site: Path) -> None:
    manifest = json.loads((sample_site / "manifest.webmanifest").read_text("utf-8"))
    assert manifest["start_url"] == "./"
    for icon in manifest["icons"]:
        data = (sample_site / icon["src"]).read_bytes()
        # PNG, section 11.2.2: width and height are the first eight bytes of IHDR.
        assert f"{int.from_bytes(data[16:20])}x{int.from_bytes(data[20:24])}" == icon["sizes"]


def run(*arguments: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "builder", *arguments],
        capture_output=True,
        text=True,
        cwd=TESTS.parent,
        env=os.environ | {"NO_MKDOCS_2_WARNING": "1"},
        check=False,
    )


@pytest.mark.parametrize("verb", ["build", "figures", "serve"])
def test_a_folder_without_a_compendium_exits_with_2(verb: str, tmp_path: Path) -> None:
    ran = run(verb, "--root", str(tmp_path))
    assert (ran.returncode, ran.stdout) == (2, "")
    assert "there is no evidence/compendium.yaml" in ran.stderr


@pytest.mark.parametrize("verb", ["build", "figures"])
def test_evidence_with_a_fault_exits_with_1_and_says_so_on_stderr_alone(verb: str, root: Path) -> None:
    (root / "evidence" / "compendium.yaml").write_text(FAULTY, "utf-8")
    ran = run(verb, "--root", str(root))
    assert (ran.returncode, ran.stdout) == (1, "")
    assert "evidence/compendium.yaml:4:16" in ran.stderr
    assert not (root / "site").exists()


def test_the_example_of_the_format_is_built_by_one_command(root: Path, tmp_path: Path) -> None:
    shutil.copytree(TESTS / "example" / "evidence", root / "evidence", dirs_exist_ok=True)
    ran = run("build", "--root", str(root), "--site", str(tmp_path / "out"))
    assert (ran.returncode, ran.stdout) == (0, ""), ran.stderr
    assert (tmp_path / "out" / "root-perforation" / "size" / "index.html").is_file()


def test_figures_prints_the_ledger_of_the_site(root: Path) -> None:
    shutil.copytree(TESTS / "example" / "evidence", root / "evidence", dirs_exist_ok=True)
    ran = run("figures", "--root", str(root))
    assert ran.returncode == 0, ran.stderr
    assert ran.stdout == build_files(root).files["data/figures.jsonl"]


def test_a_guide_is_rendered_the_same_from_another_folder(tmp_path: Path) -> None:
    first = render(sample_guide(), tmp_path / "a", str)
    assert render(sample_guide(), tmp_path / "b", str).files == first.files


def test_a_preview_comes_back_once_the_fault_is_mended(root: Path, tmp_path: Path) -> None:
    shutil.copytree(TESTS / "example" / "evidence", root / "evidence", dirs_exist_ok=True)
    (root / "mkdocs.yml").write_text(
        "site_name: x\ndocs_dir: site_src\nstrict: true\ntheme: {name: material, font: false}\n"
        "plugins: [search, evidence]\n",
        "utf-8",
    )
    (root / "site_src").mkdir()
    compendium = root / "evidence" / "compendium.yaml"
    good = compendium.read_text("utf-8")
    shown = []
    for text in (good, FAULTY, good):
        compendium.write_text(text, "utf-8")
        config = load_config(str(root / "mkdocs.yml"), site_dir=str(tmp_path / "site"))
        plugin = config.plugins["evidence"]
        assert isinstance(plugin, EvidencePlugin)
        plugin.root = None
        config.plugins.on_startup(command="serve", dirty=False)
        build_site(config, serve_url="http://127.0.0.1:8000/")
        plugin.serving = False
        shown.append((tmp_path / "site" / "root-perforation" / "index.html").read_text("utf-8"))
    assert "What has to be mended" not in shown[0]
    assert "evidence/compendium.yaml:4:16" in shown[1]
    assert shown[2] == shown[0]


@pytest.mark.parametrize("place", ["evidence", "evidence/claims", "site_src", "documents"])
def test_a_build_never_replaces_what_people_wrote(root: Path, place: str) -> None:
    (root / "evidence" / "compendium.yaml").write_text(SOUND, "utf-8")
    for folder in ("evidence/claims", "site_src", "documents"):
        (root / folder).mkdir(parents=True)
    (root / "documents" / "thesis.odt").write_text("years of work", "utf-8")
    (root / "site_src" / "about.md").write_text("# About", "utf-8")
    before = contents(root)
    ran = run_builder("build", "--root", str(root), "--site", str(root / place))
    assert ran.returncode == 1
    assert "name another place" in ran.stderr
    assert contents(root) == before


def test_a_hand_written_page_never_takes_the_place_of_the_front_page(root: Path) -> None:
    (root / "evidence" / "compendium.yaml").write_text(SOUND, "utf-8")
    (root / "site_src").mkdir()
    (root / "site_src" / "index.md").write_text("# Mine", "utf-8")
    ran = run_builder("build", "--root", str(root))
    assert (ran.returncode, "[address-taken]" in ran.stderr) == (1, True)


def test_a_compendium_alone_and_without_a_repository_is_a_site(root: Path) -> None:
    (root / "evidence" / "compendium.yaml").write_text(SOUND, "utf-8")
    ran = run_builder("build", "--root", str(root))
    pages = [path for path in (root / "site").rglob("*.html") if path.name != "404.html"]
    assert (ran.returncode, ran.stderr) == (0, f"{root / 'site'}: {len(pages)} pages\n")
    assert (root / "site" / "index.html").is_file()


SOUND = FAULTY.replace("perhaps", "no") + "people: {IM: {name: Ines Marlow}}\n"


def run_builder(*words: str) -> subprocess.CompletedProcess[str]:
    """A command as a person types it."""
    command = [sys.executable, "-m", "builder", *words]
    return subprocess.run(command, cwd=TESTS.parent, capture_output=True, text=True, check=False)
