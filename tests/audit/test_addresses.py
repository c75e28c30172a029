"""A hand-written file at an address of the guide is told by the check, not only by the build."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from passageproof.audit.whole import audit, check
from passageproof.build import build_files
from passageproof.reading.evidence import read_evidence

ROOT = Path(__file__).parent.parent.parent


@pytest.fixture
def root(tmp_path: Path) -> Path:
    shutil.copytree(ROOT / "tests" / "example" / "evidence", tmp_path / "evidence")
    return tmp_path


def told(root: Path) -> list[str]:
    problems = check(read_evidence(root)).problems
    assert problems == audit(read_evidence(root)).problems
    return [f"{problem.position.file} [{problem.rule}]" for problem in problems]


def write(root: Path, path: str) -> None:
    file = root / "site_src" / path
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_text("# Mine", "utf-8")


def test_every_page_and_download_of_the_guide_is_kept(root: Path) -> None:
    generated = list(build_files(root).files)
    for path in generated:
        write(root, path)
    assert set(told(root)) == {f"site_src/{path} [address-taken]" for path in generated}


@pytest.mark.parametrize(
    "path",
    [
        "README.md", "Urgent.md", "root-perforation.md", "root-perforation/size/index.md",
        "sources/marlow2019furcal.md",
        "service-worker.js", "manifest.webmanifest", "404.html", "stylesheets/reading.css", "assets/mark.svg",
    ],
)  # fmt: skip
def test_file_at_an_address_of_the_guide_is_told(root: Path, path: str) -> None:
    write(root, path)
    assert told(root) == [f"site_src/{path} [address-taken]"]


@pytest.mark.parametrize(
    "path",
    [
        "about.md",
        "about/index.md",
        "root-perforation/notes.md",
        "sources/how-we-read.md",
        "assets/clinic.png",
        "size.md",
    ],
)
def test_file_at_an_address_of_its_own_is_nobodys_affair(root: Path, path: str) -> None:
    write(root, path)
    assert told(root) == []


def test_message_names_the_address_and_the_way_out(root: Path) -> None:
    write(root, "methods.md")
    (problem,) = check(read_evidence(root)).problems
    assert (str(problem.position), problem.hint) == ("site_src/methods.md:1:1", "give the file another name")
    assert problem.message.startswith("this file would stand at /methods/, where the guide has")
