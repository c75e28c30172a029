"""The folder of pages that mkdocs.yml names is there, or it is said on its line."""

from __future__ import annotations

from pathlib import Path

import pytest
from passageproof.problems import as_text
from passageproof.reading.site_settings import find_in_settings


@pytest.fixture
def root(tmp_path: Path) -> Path:
    for name in ("docs", "evidence", "pages"):
        (tmp_path / name).mkdir()
    return tmp_path


def told(root: Path, text: str) -> list[str]:
    (root / "mkdocs.yml").write_text(text, "utf-8")
    return [as_text(problem) for problem in find_in_settings(root)]


def test_misspelt_folder_is_told_with_the_one_that_was_meant(root: Path) -> None:
    (line,) = told(root, "site_name: Us\ndocs_dir: dcos\nplugins: [evidence]\n")
    assert line == (
        'mkdocs.yml:2:11: the folder of pages "dcos" is not there [no-folder-of-pages]\n'
        "    did you mean docs? name the folder of the site's own pages; "
        "in a site of the guide alone: docs_dir: evidence"
    )


def test_usual_folder_is_told_where_none_is_named_and_it_is_not_there(root: Path) -> None:
    assert told(root, "site_name: Us\n") == []
    (root / "docs").rmdir()
    (line,) = told(root, "site_name: Us\n")
    assert line.startswith("mkdocs.yml:1:1: no folder of pages is named (docs_dir), and docs, which is the usual one,")


def test_file_in_place_of_the_folder_is_told(root: Path) -> None:
    (root / "notes").write_text("", "utf-8")
    assert 'the folder of pages "notes" is not there' in told(root, "docs_dir: notes\n")[0]


@pytest.mark.parametrize(
    "text",
    [
        "docs_dir: pages\n", "docs_dir: ./pages/\n", "docs_dir: evidence\n", "docs_dir: site_src\n",
        "docs_dir: !ENV [PAGES, pages]\n", "INHERIT: other.yml\n", "a: [\n", "- a\n", "", "docs_dir: [a]\n",
        "docs_dir: pages\nmarkdown_extensions:\n- x: {y: !!python/name:material.extensions.emoji.twemoji }\n",
    ],
    ids=[
        "there", "with signs of a path", "evidence", "pages that nobody wrote yet", "from the surroundings",
        "from another file", "no YAML", "a list", "empty", "no name", "a tag of another program",
    ],
)  # fmt: skip
def test_all_else_is_left_to_mkdocs(root: Path, text: str) -> None:
    if "INHERIT" in text:
        (root / "docs").rmdir()
    assert told(root, text) == []


def test_no_file_is_no_fault(root: Path) -> None:
    assert list(find_in_settings(root)) == []
