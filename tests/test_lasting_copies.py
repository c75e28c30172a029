"""Lasting copies: each stays as it was published, says so on every page, and never answers for the newest guide."""

from __future__ import annotations

import json
import re
import shutil
import tarfile
from pathlib import Path

import pytest
from passageproof.commands.verbs import main
from passageproof.lasting import CannotCopy, pack, place_copies
from passageproof.placing import damaged
from passageproof.writing.starting import write_compendium
from site_html import Site


def build(root: Path, *words: str) -> int:
    return main("x", ["build", "--root", str(root), *words])


def release(root: Path, number: str) -> None:
    file = root / "evidence/compendium.yaml"
    text = re.sub(r"release: [\d.]+", f"release: {number}", file.read_text("utf-8"))
    file.write_text(text, "utf-8")


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A compendium with the packed copy of one release and the folder of another in copies/, and its site."""
    root = tmp_path_factory.mktemp("lasting") / "ours"
    write_compendium(root)
    copies = root.parent / "copies"
    copies.mkdir()
    release(root, "0.9.0")
    packed = str(copies / "v0.9.0.tar.gz")
    assert build(root, "--copy", "--site", str(root.parent / "made"), "--pack", packed) == 0
    release(root, "0.10.0")
    assert build(root, "--copy", "--site", str(copies / "v0.10.0")) == 0
    release(root, "1.0.0")
    assert build(root, "--copies", str(copies)) == 0
    return root


def pages(folder: Path) -> list[Path]:
    found = sorted(folder.rglob("*.html"))
    assert len(found) > 8
    return found


@pytest.mark.parametrize("number", ["0.9.0", "0.10.0"])
def test_every_page_of_a_copy_says_what_it_is_and_where_the_newest_is(built: Path, number: str) -> None:
    folder = built / "site" / f"v{number}"
    for page in pages(folder):
        html = page.read_text("utf-8")
        said = re.search(r"<(?:main|div) id=\"main\">\s*<p class=\"notice\">(.*?)</p>", html)
        assert said is not None, page
        words = re.sub(r"<[^>]+>", "", said[1])
        assert words == (
            f"This is the lasting copy of release {number}, with evidence of {day(built)}. It is not kept up: "
            "the newest guide is here."
        )
        (newest,) = re.findall(r'<a href="([^"]*)"', said[1])
        assert (page.parent / newest).resolve() == (built / "site").resolve()


def day(root: Path) -> str:
    found = re.search(r"date: (\d{4}-\d\d-\d\d)", (root / "evidence/compendium.yaml").read_text("utf-8"))
    assert found is not None
    return found[1]


def test_a_search_engine_is_led_to_the_newest(built: Path) -> None:
    """robots noindex (the meta tag of the Robots Exclusion Protocol), `rel=canonical` of RFC 6596."""
    folder = built / "site" / "v0.9.0"
    for page in pages(folder):
        html = page.read_text("utf-8")
        assert len(re.findall(r'<meta name="robots" content="noindex', html)) == 1
        (canonical,) = re.findall(r'<link rel="canonical" href="([^"]*)"', html)
        assert (page.parent / canonical).resolve() == (built / "site" / page.relative_to(folder).parent).resolve()


def test_a_copy_has_nothing_that_would_answer_for_the_newest_or_keep_it_on_a_device(built: Path) -> None:
    names = {path.name for path in (built / "site" / "v0.9.0").rglob("*")}
    assert names.isdisjoint({"service-worker.js", "manifest.webmanifest", "sitemap.xml", "sitemap.xml.gz", "404.html"})
    assert all('rel="manifest"' not in page.read_text("utf-8") for page in pages(built / "site" / "v0.9.0"))


def test_the_worker_of_the_newest_keeps_neither_copies_nor_the_ways_to_the_newest(built: Path) -> None:
    worker = (built / "site/service-worker.js").read_text("utf-8")
    assert "urgent/" in worker
    assert "0.9.0" not in worker
    assert "latest/" not in worker
    assert r"^v\d+\.\d+\.\d+(\/|$)" in worker


def test_latest_leads_from_every_address_to_the_same_page_of_the_newest(built: Path) -> None:
    site = built / "site"
    newest = {page.relative_to(site).as_posix() for page in pages(site)}
    newest = {path for path in newest if not path.startswith(("v0.", "latest/")) and path != "404.html"}
    assert {page.relative_to(site / "latest").as_posix() for page in pages(site / "latest")} == newest
    for path in newest:
        html = (site / "latest" / path).read_text("utf-8")
        for way in (*re.findall(r"url=([^\"]*)\"", html), *re.findall(r'href="([^"]*)"', html)):
            assert ((site / "latest" / path).parent / way).resolve() == (site / path).parent.resolve()
        assert 'name="robots" content="noindex"' in html


def test_the_newest_is_what_it_is_without_copies(built: Path, tmp_path: Path) -> None:
    assert build(built, "--site", str(tmp_path / "alone")) == 0
    for path in (tmp_path / "alone").rglob("*"):
        name = path.relative_to(tmp_path / "alone").as_posix()
        if path.is_file() and name != "data/published.json":
            assert path.read_bytes() == (built / "site" / name).read_bytes(), name


def test_copies_stay_the_same_to_the_last_byte_and_the_site_can_be_built_over(built: Path) -> None:
    before = {path: path.read_bytes() for path in (built / "site").rglob("*") if path.is_file()}
    assert build(built, "--copies", str(built.parent / "copies")) == 0
    assert {path: path.read_bytes() for path in (built / "site").rglob("*") if path.is_file()} == before
    made = built.parent / "copies" / "v0.10.0"
    for path in (path for path in made.rglob("*") if path.is_file()):
        assert path.read_bytes() == (built / "site/v0.10.0" / path.relative_to(made)).read_bytes()
    assert damaged(built / "site") == damaged(made) == ""


def test_links_of_a_copy_lead_somewhere(built: Path) -> None:
    assert Site(built / "site").broken_links() == []


def test_a_packed_copy_is_the_same_file_each_time(built: Path, tmp_path: Path) -> None:
    for name in ("one", "two"):
        pack(built.parent / "made", tmp_path / name)
    assert (tmp_path / "one").read_bytes() == (tmp_path / "two").read_bytes()
    with tarfile.open(built.parent / "copies/v0.9.0.tar.gz") as packed:
        assert "index.html" in packed.getnames()


def spoilt(copies: Path, how: str) -> None:
    """One thing that is wrong with the copies."""
    copy = copies / "v0.10.0"
    if how == "changed":
        (copy / "index.html").write_text("better", "utf-8")
    elif how == "missing":
        (copy / "urgent/index.html").unlink()
    elif how == "beside":
        (copy / "mine.txt").write_text("mine", "utf-8")
    elif how == "another release":
        copy.rename(copies / "v0.11.0")
    elif how == "twice":
        with tarfile.open(copies / "v0.9.0.tar.gz") as packed:
            packed.extractall(copies / "v0.9.0", filter="data")
    elif how == "half":
        file = copies / "v0.9.0.tar.gz"
        file.write_bytes(file.read_bytes()[:5000])
    elif how == "no name":
        copy.rename(copies / "old")
    elif how == "no list":
        (copy / "data/published.json").unlink()


HOW = {
    "changed": "not as they were published", "missing": "files are missing", "beside": "not as they were published",
    "another release": "holds release 0.10.0, not 0.11.0", "twice": "two copies of release 0.9.0",
    "half": "cannot be unpacked", "no name": "a folder named v1.2.0", "no list": "no list of what was published",
}  # fmt: skip


@pytest.mark.parametrize("how", HOW)
def test_a_copy_that_is_not_whole_stops_the_build_and_the_old_site_stands(
    built: Path, tmp_path: Path, how: str, capsys: pytest.CaptureFixture[str]
) -> None:
    copies = tmp_path / "copies"
    shutil.copytree(built.parent / "copies", copies)
    spoilt(copies, how)
    (tmp_path / "site").mkdir()
    with pytest.raises(CannotCopy, match=HOW[how]):
        place_copies(tmp_path / "site", copies)
    if how == "changed":
        before = (built / "site/index.html").read_bytes()
        assert build(built, "--copies", str(copies)) == 1
        assert "not as they were published (index.html)\nthe site was not changed" in capsys.readouterr().err
        assert (built / "site/index.html").read_bytes() == before


def test_a_site_is_no_copy(built: Path, tmp_path: Path) -> None:
    shutil.copytree(built / "site", tmp_path / "copies/v1.0.0")
    (tmp_path / "site").mkdir()
    with pytest.raises(CannotCopy, match="is a site and no lasting copy"):
        place_copies(tmp_path / "site", tmp_path / "copies")


def test_an_archive_that_leads_out_of_its_folder_is_refused(tmp_path: Path) -> None:
    (tmp_path / "copies").mkdir()
    (tmp_path / "site").mkdir()
    (tmp_path / "evil").write_text("evil", "utf-8")
    with tarfile.open(tmp_path / "copies/v1.0.0.tar.gz", "w:gz") as packed:
        packed.add(tmp_path / "evil", "../../evil-too")
    with pytest.raises(CannotCopy):
        place_copies(tmp_path / "site", tmp_path / "copies")
    assert not (tmp_path / "evil-too").exists()


def test_the_guest_of_another_site_has_no_copies(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    write_compendium(tmp_path / "ours")
    (tmp_path / "ours/docs").mkdir()
    (tmp_path / "ours/docs/index.md").write_text("# Ours\n", "utf-8")
    (tmp_path / "ours/mkdocs.yml").write_text("site_name: Ours\ndocs_dir: docs\nplugins: [evidence]\n", "utf-8")
    assert build(tmp_path / "ours", "--copy") == 1
    assert "another site's guest" in capsys.readouterr().err
    assert not (tmp_path / "ours/site").exists()
    (tmp_path / "copies").mkdir()
    assert build(tmp_path / "ours", "--copies", str(tmp_path / "copies")) == 0
    assert not (tmp_path / "ours/site/latest").exists()


@pytest.mark.parametrize("words", [["--copy", "--copies", "."], ["--pack", "x"], ["--copies", "nowhere"]])
def test_words_that_do_not_go_together(tmp_path: Path, words: list[str]) -> None:
    write_compendium(tmp_path / "ours")
    assert build(tmp_path / "ours", *words) == 2


def test_what_a_copy_asks_the_newest_for_is_there(built: Path) -> None:
    newest = json.loads((built / "site/data/standing.json").read_text("utf-8"))
    old = json.loads((built / "site/v0.9.0/data/standing.json").read_text("utf-8"))
    assert (newest["release"], old["release"]) == ("1.0.0", "0.9.0")
