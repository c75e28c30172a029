"""A report is added: its entry becomes a claim file in which only what a reader knows is empty."""

from __future__ import annotations

import json
import re
import shutil
from pathlib import Path

import pytest
from passageproof.commands.verbs import main
from passageproof.writing.layout import laid_out
from passageproof.writing.starting import write_compendium

ENTRY = r"""
@article{sampler2021repairs,
  author = {Sampler, Edda}, title = {Calls in a {made-up} practice: caf{\'e}},
  journal = {Journal of Supposed Results}, year = 2021, pages = {10--19},
  annotation = {
    [p. 12, Methods] 64 patients were asked at booking; 52 of them were seen at 14 days
    [p. 14, Table 2: all] 41 of 52 came (79%)
  }
}
@book{sampler2022none, author = {Sampler, Edda}, title = {Nothing quoted yet}, year = 2022}
"""


@pytest.fixture
def root(tmp_path: Path) -> Path:
    write_compendium(tmp_path / "ours")
    (tmp_path / "ours/evidence/sources/more.bib").write_text(ENTRY, "utf-8")
    return tmp_path / "ours"


def add(root: Path, key: str) -> int:
    return main("python -m builder", ["add", key, "--root", str(root)])


def told(root: Path, capsys: pytest.CaptureFixture[str]) -> list[str]:
    capsys.readouterr()
    main("python -m builder", ["check", "--root", str(root)])
    return [line for line in capsys.readouterr().out.splitlines() if line.startswith("evidence/")]


def test_each_passage_becomes_a_claim_with_its_place_below_its_words(root: Path, capsys: pytest.CaptureFixture[str]):
    assert add(root, "sampler2021repairs") == 0
    assert capsys.readouterr().out.startswith("evidence/claims/sampler2021repairs.yaml: fill in")
    text = (root / "evidence/claims/sampler2021repairs.yaml").read_text("utf-8")
    assert text.startswith("# yaml-language-server: $schema=../schema/claims.json\n")
    assert "# Calls in a made-up practice: café\n# people: AE, BS\n# questions: call-before-visit\n" in text
    assert "  # [p. 14, Table 2: all] 41 of 52 came (79%)\n  - id: p-14-table-2-all\n" in text
    assert '    where: "p. 14, Table 2: all"\n' in text
    assert "    where: p. 12, Methods\n" in text
    assert laid_out(text) == text


def test_its_schema_is_there_in_a_site_around_the_guide_and_before_any_build(root: Path):
    """Where somebody else's site stands, and what its folder is called, is not known to a file of the evidence."""
    (root / "mkdocs.yml").write_text(
        "site_name: Rota\nsite_dir: public\ndocs_dir: docs\nplugins: [evidence]\n", "utf-8"
    )
    shutil.rmtree(root / "evidence/schema")
    assert add(root, "sampler2021repairs") == 0
    file = root / "evidence/claims/sampler2021repairs.yaml"
    named = file.read_text("utf-8").split("\n", 1)[0].partition("=")[2]
    assert json.loads((file.parent / named).read_text("utf-8"))["title"] == "What one report says"


def test_the_check_asks_for_every_empty_field_in_words_and_for_nothing_else(
    root: Path, capsys: pytest.CaptureFixture[str]
):
    add(root, "sampler2021repairs")
    problems = told(root, capsys)
    lines = (root / "evidence/claims/sampler2021repairs.yaml").read_text("utf-8").splitlines()
    is_block = re.compile(r" *(?:- )?(?:read|studies|population|setting|flow|claims|follow_up):$").fullmatch
    empty = {number for number, line in enumerate(lines, 1) if re.fullmatch(r"[^#]*:", line) and not is_block(line)}
    assert {int(problem.split(":")[1]) for problem in problems} == empty
    assert len(problems) == len(empty) > 20
    assert all("the value is missing: type " in problem and problem.endswith("[empty-field]") for problem in problems)


def test_filled_in_it_passes_the_check(root: Path, capsys: pytest.CaptureFixture[str]):
    add(root, "sampler2021repairs")
    path = root / "evidence/claims/sampler2021repairs.yaml"
    text = path.read_text("utf-8")
    at = text.index("  # [p. 12, Methods]")
    text = text[:at] + text[text.index("  # [p. 14") :]
    for name, typed in (
        ("by", "AE"), ("on", "2026-10-20"), ("depth", "full text"), ("species", "human"), ("design", "cohort"),
        ("selection", "consecutive"), ("cause", "not reported"), ("operators", "not reported"), ("unit", "patient"),
        ("centre", "Made-up practice"), ("recruited", "not reported"), ("treated", "64"), ("examined", "52"),
        ("question", "call-before-visit"), ("outcome", "came"), ("events", "41"), ("total", "52"), ("from", "booking"),
        ("where", '"p. 12, Methods"'), ("timing", "at"),
    ):  # fmt: skip
        text = re.sub(rf"^( *){name}:$", rf"\1{name}: {typed}", text, count=1, flags=re.MULTILINE)
    text = text.replace("  - id:\n", "  - id: made-up-practice-2020\n").replace("      due:\n", "")
    path.write_text(text + "      at: 14 days\n      where: p. 12, Methods\n", "utf-8")
    assert told(root, capsys) == []


def test_an_entry_without_passages_says_so(root: Path, capsys: pytest.CaptureFixture[str]):
    assert add(root, "sampler2022none") == 0
    text = (root / "evidence/claims/sampler2022none.yaml").read_text("utf-8")
    assert "# the entry has no passages yet: type them in its annotation" in text
    assert all(problem.endswith("[empty-field]") for problem in told(root, capsys))


def test_nothing_is_overwritten_and_an_unknown_key_is_asked_about(root: Path, capsys: pytest.CaptureFixture[str]):
    assert add(root, "sampler2021repairs") == 0
    before = (root / "evidence/claims/sampler2021repairs.yaml").read_bytes()
    assert add(root, "sampler2021repairs") == 1
    assert "evidence/claims/sampler2021repairs.yaml is there already" in capsys.readouterr().err
    assert (root / "evidence/claims/sampler2021repairs.yaml").read_bytes() == before
    assert add(root, "sampler2021repair") == 1
    assert 'the key "sampler2021repair": did you mean sampler2021repairs?' in capsys.readouterr().err
    assert add(root, "zzz") == 1
    assert "add its BibTeX entry first" in capsys.readouterr().err
    assert add(root / "nowhere", "zzz") == 2
