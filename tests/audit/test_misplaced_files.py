"""A file that is not read is one problem: what it would have held is known by its name."""

from __future__ import annotations

import pytest

BIB = """\
@article{x,
  author = {Marlow, Ines}, title = {T}, journal = {J}, year = 2019, volume = 7, pages = {1--12},
  annotation = {
    [p. 1] 58 teeth treated
    [p. 2] healed: 39 of 47 teeth
  }
}
"""
CLAIM = """\
- id: a
  question: hole
  outcome: healed
  events: 39
  total: 47
  where: p. 2
  follow_up: {from: repair, timing: last recall}
"""
QUESTION = """\
id: hole
title: There is a hole
answer: Most ($x/a) healed.
stop:
  - {words: Wait., basis: {kind: study, claim: x/a}}
patient:
  show: [x/a]
  chair:
    - We can close it.
"""


@pytest.fixture
def found(compendium, audited, report_text):
    """What the check finds where one file stands under another name: found("claims/x.yaml", "claims/x.yml")."""

    def problems(name: str, instead: str) -> list[str]:
        files = {
            "evidence/sources/x.bib": BIB,
            "evidence/claims/x.yaml": report_text("x", CLAIM),
            "evidence/questions/hole.yaml": QUESTION,
        }
        root = compendium()
        (root / "evidence/questions/hole.yaml").unlink()
        for file, text in files.items():
            path = root / (instead if file.endswith(name) else file)
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text, "utf-8")
        vocabulary = (root / "evidence/vocabulary.yaml").read_text("utf-8")
        return [
            f"{each.position.file} {each.rule}" for each in audited({"vocabulary.yaml": vocabulary}, only=True).problems
        ]

    return problems


INSTEAD = [
    ("claims/x.yaml", "evidence/claims/x.yml"),
    ("claims/x.yaml", "evidence/claims/x.yaml.txt"),
    ("claims/x.yaml", "evidence/x.yaml"),
    ("claims/x.yaml", "evidence/sources/x.yaml"),
    ("claims/x.yaml", "x.yaml"),
    ("sources/x.bib", "evidence/claims/x.bib"),
    ("sources/x.bib", "evidence/sources/x.bib.txt"),
    ("questions/hole.yaml", "evidence/hole.yaml"),
    ("questions/hole.yaml", "evidence/questions/hole.yml"),
]


@pytest.mark.parametrize(("name", "instead"), INSTEAD, ids=[each[1] for each in INSTEAD])
def test_only_the_file_itself_is_told(found, name: str, instead: str) -> None:
    assert found(name, instead) == [f"{instead} misplaced-file"]


def test_where_it_is_read_nothing_is_told(found) -> None:
    assert found("claims/x.yaml", "evidence/claims/x.yaml") == []
