"""Impact tells every difference that whole builds of both versions have, and none besides."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from impact.changes import CHANGES, NOTHING, Edit
from passageproof.build import Before, Built, build_files
from passageproof.impact.comparing import compare
from passageproof.ledger import ledger_rows
from passageproof.reading.page_kinds import DESK, LETTERS
from passageproof.rendering.desk_page import desk_markdown

ROOT = Path(__file__).parent.parent.parent


def changed(edit: Edit, folder: Path) -> Path:
    for name in ("evidence", "site_src"):
        shutil.copytree(ROOT / name, folder / name)
    shutil.copy(ROOT / "mkdocs.yml", folder)
    edit(folder)
    return folder


@pytest.fixture(scope="module")
def before() -> Before:
    return Before()


@pytest.fixture(scope="module")
def old(before: Before) -> tuple[dict[str, str], dict[str, object]]:
    return whole(build_files(ROOT, before))


def whole(built: Built) -> tuple[dict[str, str], dict[str, object]]:
    """Every page as text, and every row of the ledger without lines and columns."""
    assert built.guide is not None, [str(problem) for problem in built.problems if problem.is_open]
    pages = {path: "".join(text) for path, text in built.files.items() if path.endswith(".md")}
    # Whether Python for browsers was fetched is no matter of the evidence.
    pages[f"{DESK}index.md"] = desk_markdown(built.guide, 0)
    # Letters say again where figures stand, which is compared figure by figure.
    del pages[f"{LETTERS}index.md"]
    return pages, {str(row["id"]): bare(row) for row in ledger_rows(built.guide)}


def bare(row: dict[str, object]) -> dict[str, object]:
    proof = row["proof"]
    if isinstance(proof, dict):
        proof = {name: value for name, value in proof.items() if name not in ("file", "line", "column")}
    return {**row, "written_in": None, "proof": proof}


def as_published(path: str) -> str:
    return path.removesuffix(".md") + ".html" if path.endswith("index.md") else path.removesuffix(".md") + "/index.html"


@pytest.mark.parametrize("name", CHANGES)
def test_every_page_and_row_that_moves_is_told_and_no_other(name, tmp_path, before, old) -> None:
    root = changed(CHANGES[name], tmp_path)
    pages, rows = whole(build_files(root, before))
    told = compare(ROOT, root, before.read, before.proved).impact
    assert told is not None
    moved = {as_published(path) for path in pages.keys() | old[0].keys() if pages.get(path) != old[0].get(path)}
    assert moved
    assert {page.path for page in told.pages} == moved
    differing = {key for key in rows.keys() | old[1].keys() if rows.get(key) != old[1].get(key)}
    assert {move.id for move in told.figures} == differing
    for move in told.figures:
        # Where else it stands is told of the pages that the change reaches.
        for said, row in ((move.before, old[1].get(move.id)), (move.after, rows.get(move.id))):
            assert (said and said["text"]) == (row and row["text"])


@pytest.mark.parametrize("name", NOTHING)
def test_what_nobody_reads_moves_nothing(name, tmp_path) -> None:
    told = compare(ROOT, changed(NOTHING[name], tmp_path)).impact
    assert told is not None
    assert told.is_nothing
