"""Control characters, and those that turn the direction of reading, are errors on their place."""

from __future__ import annotations

import pytest
from passageproof.problems import Problem
from passageproof.reading.bibtex import read_bibtex
from passageproof.reading.yaml_text import Sheet, compose


@pytest.mark.parametrize("sign", list("\x00\x08\x0b\x0c\x1f\x7f\x9f\u202e\u2066\ufdd0"))
def test_such_a_character_in_a_bib_file_is_an_error_on_its_place(sign: str) -> None:
    problems: list[Problem] = []
    read_bibtex("a.bib", f"@misc{{key,\n  title = {{He{sign}aled}}}}\n", problems)
    assert [str(problem.position.line) + problem.rule for problem in problems] == ["2invisible-character"]
    assert f"U+{ord(sign):04X}" in problems[0].message
    assert problems[0].position.column == 14


@pytest.mark.parametrize("sign", list("\x00\x08\x1f\x7f\u202e\u2066"))
def test_such_a_character_in_a_yaml_file_is_an_error_on_its_place(sign: str) -> None:
    problems: list[Problem] = []
    compose(Sheet("a.yaml", f"id: a\ntitle: He{sign}aled\n", problems))
    assert [problem.rule for problem in problems] == ["invisible-character"]
    assert (problems[0].position.line, problems[0].position.column) == (2, 10)


def test_tab_line_end_and_soft_hyphen_are_no_fault() -> None:
    problems: list[Problem] = []
    read_bibtex("a.bib", "@misc{key,\n\ttitle = {He\u00adaled}}\n", problems)
    assert problems == []
