"""From a folder of evidence to files in memory, or to what must be mended."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import pytest
from passageproof.build import build_files, render
from rendering.sample_guide import sample_guide

ROOT = Path(__file__).parent.parent
EXAMPLE = ROOT / "tests" / "example"


def as_typed(text: str) -> str:
    return text


@pytest.fixture(scope="module")
def example(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The complete example of the format's own page, alone in a folder."""
    root = tmp_path_factory.mktemp("example")
    shutil.copytree(EXAMPLE / "evidence", root / "evidence")
    return root


def test_the_example_of_the_format_becomes_files(example: Path) -> None:
    built = build_files(example)
    assert built.guide is not None
    assert {"index.md", "root-perforation/index.md", "sources/marlow2019furcal/index.md", "data/figures.jsonl"} <= set(
        built.files
    )


def test_the_same_evidence_gives_the_same_files(example: Path) -> None:
    assert build_files(example).files == build_files(example).files


def test_evidence_that_does_not_agree_gives_problems_and_no_file(example: Path, tmp_path: Path) -> None:
    root = tmp_path / "root"
    shutil.copytree(example, root)
    claims = root / "evidence" / "claims" / "marlow2019furcal.yaml"
    claims.write_text(claims.read_text("utf-8").replace("events: 39", "events: 38"), "utf-8")
    built = build_files(root)
    assert built.guide is None
    assert built.files == {}
    assert any(problem.position.file == "evidence/claims/marlow2019furcal.yaml" for problem in built.problems)


@pytest.mark.parametrize(
    ("path", "address"),
    [
        ("urgent.md", "/urgent/"),
        ("urgent/index.md", "/urgent/"),
        ("index.md", "/"),
        ("Urgent.md", "/Urgent/"),
        ("data/claims.csv", "/data/claims.csv"),
        ("root-perforation/size.md", "/root-perforation/size/"),
    ],
    ids=["page", "folder", "front page", "another case", "download", "page of a question"],
)
def test_a_hand_written_file_at_an_address_of_the_guide_is_a_problem(tmp_path: Path, path: str, address: str) -> None:
    file = tmp_path / "site_src" / path
    file.parent.mkdir(parents=True)
    file.write_text("# Mine", "utf-8")
    built = render(sample_guide(), tmp_path, as_typed)
    assert built.guide is None
    assert [str(problem.position) for problem in built.problems] == [f"site_src/{path}:1:1"]
    assert f"would stand at {address}," in built.problems[0].message


def test_a_hand_written_page_of_its_own_address_is_taken_with_its_figures(tmp_path: Path) -> None:
    (tmp_path / "site_src").mkdir()
    (tmp_path / "site_src" / "about.md").write_text("# About", "utf-8")
    built = render(sample_guide(), tmp_path, as_typed)
    assert 'data-figure="marlow2019furcal/overall/events" value="39">39</data>' in built.files["about.md"]


def test_the_ledger_lists_where_each_figure_is_shown(tmp_path: Path) -> None:
    rows = [
        json.loads(row) for row in render(sample_guide(), tmp_path, as_typed).files["data/figures.jsonl"].splitlines()
    ]
    shown = {row["id"]: row["shown_on"] for row in rows}
    assert "root-perforation/index.html" in shown["marlow2019furcal/overall/events"]
    assert "sources/marlow2019furcal/index.html" in shown["marlow2019furcal/overall/events"]
    assert "about/index.html" in shown["marlow2019furcal/overall/events"]
