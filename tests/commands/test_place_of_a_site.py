"""`build --site`: a site takes the place of a site, and never that of anything else."""

from __future__ import annotations

import hashlib
import json
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

EXAMPLE = Path(__file__).parents[1] / "example"
LIST = "data/published.json"


def build(root: Path, site: Path) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "passageproof", "build", "--root", str(root), "--site", str(site)],
        capture_output=True, text=True, check=False,
    )  # fmt: skip


def contents(folder: Path) -> dict[str, bytes]:
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


@pytest.fixture(scope="module")
def root(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("root")
    shutil.copytree(EXAMPLE / "evidence", folder / "evidence")
    return folder


@pytest.fixture(scope="module")
def made(root: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A site that stands, to be copied."""
    site = tmp_path_factory.mktemp("made") / "site"
    ran = build(root, site)
    assert ran.returncode == 0, ran.stderr
    return site


@pytest.fixture
def site(made: Path, tmp_path: Path) -> Path:
    return Path(shutil.copytree(made, tmp_path / "site"))


def test_the_list_names_every_other_file_of_the_site(made: Path) -> None:
    said = json.loads((made / LIST).read_text("utf-8"))
    digests = {path: hashlib.sha256(held).hexdigest() for path, held in contents(made).items() if path != LIST}
    assert said["files"] == digests
    assert list(said["files"]) == sorted(digests)
    assert "service-worker.js" in said["files"]


@pytest.mark.parametrize("kind", ["absent", "empty", "site", "looked into"])
def test_a_free_place_and_an_older_site_are_taken(root: Path, made: Path, tmp_path: Path, kind: str) -> None:
    place = tmp_path / "below" / "site"
    if kind == "empty":
        place.mkdir(parents=True)
    elif kind in ("site", "looked into"):
        shutil.copytree(made, place)
    if kind == "looked into":
        (place / ".DS_Store").write_bytes(b"\0")
    ran = build(root, place)
    assert (ran.returncode, ran.stderr.startswith(f"{place}: "), ran.stderr.count("\n")) == (0, True, 1)
    # The same bytes from the same evidence, the list included.
    assert contents(place) == contents(made)


def refused(root: Path, site: Path, *named: str) -> None:
    before = contents(site)
    beside = sorted(path.name for path in site.parent.iterdir())
    ran = build(root, site)
    assert ran.returncode == 1
    assert "Traceback" not in ran.stderr
    assert ran.stderr.startswith(f"{site} holds files that were not published with the site there (") or (
        ran.stderr.startswith(f"{site} holds files and is no site that this program built (")
    )
    for name in named:
        assert name in ran.stderr
    assert "name another place" in ran.stderr
    assert ran.stderr.endswith("the site was not changed\n")
    assert contents(site) == before
    assert sorted(path.name for path in site.parent.iterdir()) == beside


@pytest.mark.parametrize(
    "files",
    [
        pytest.param(["thesis/a.docx"], id="a document alone"),
        pytest.param(["thesis/a.docx", "notes.html"], id="beside a saved page"),
        pytest.param(["index.html", "service-worker.js", "data/figures.jsonl"], id="names that a site has too"),
        pytest.param(["index.html", LIST], id="a list of somebody else"),
    ],
)
def test_a_folder_of_documents_is_refused(root: Path, tmp_path: Path, files: list[str]) -> None:
    site = tmp_path / "documents"
    for name in files:
        (site / name).parent.mkdir(parents=True, exist_ok=True)
        (site / name).write_text('{"files": ["index.html"]}', "utf-8")
    refused(root, site, files[0])


@pytest.mark.parametrize("name", ["thesis/a.docx", "notes.html", ".git/config", "data/mine.json", "v1.0.0/index.html"])
def test_a_file_put_into_a_site_is_kept_and_named(root: Path, site: Path, name: str) -> None:
    (site / name).parent.mkdir(parents=True, exist_ok=True)
    (site / name).write_text("mine", "utf-8")
    refused(root, site, name, "move them out")


def test_a_link_into_somebodys_folder_is_refused(root: Path, site: Path, tmp_path: Path) -> None:
    (tmp_path / "thesis").mkdir()
    (tmp_path / "thesis" / "a.docx").write_text("mine", "utf-8")
    (site / "thesis").symlink_to(tmp_path / "thesis")
    refused(root, site, "(thesis)")
    assert (tmp_path / "thesis" / "a.docx").read_text("utf-8") == "mine"


def test_three_of_many_files_are_named(root: Path, site: Path) -> None:
    for name in "abcde":
        (site / f"{name}.docx").write_text("mine", "utf-8")
    refused(root, site, "(a.docx, b.docx, c.docx and 2 more)")


def test_a_file_of_the_site_that_somebody_wrote_anew_is_kept_and_named(root: Path, site: Path) -> None:
    (site / "index.html").write_text("my own front page", "utf-8")
    refused(root, site, "(index.html)")


def test_a_list_that_somebody_wrote_takes_no_document(root: Path, tmp_path: Path) -> None:
    place = tmp_path / "documents"
    (place / "data").mkdir(parents=True)
    (place / "thesis.docx").write_text("mine", "utf-8")
    said = {"written_by": "passageproof", "at": "", "files": {"thesis.docx": ""}}
    (place / LIST).write_text(json.dumps(said), "utf-8")
    refused(root, place, "(thesis.docx)")


def test_a_site_of_the_first_release_which_left_no_list_is_refused(root: Path, site: Path) -> None:
    # Which of its files are whose, nobody can tell.
    (site / LIST).unlink()
    refused(root, site, "empty this one")
