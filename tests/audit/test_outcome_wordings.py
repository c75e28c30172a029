"""No words of the vocabulary stand for two outcomes."""

from __future__ import annotations

import pytest
from passageproof.problems import as_text

FIELDS = "construct: success, strictness: strict, basis: film, threshold: normal"
VOCABULARY = f"""\
outcomes:
  healed: {{title: healed, {FIELDS}, good: yes, synonyms: [success, complete healing]}}
  failed: {{title: failed, {FIELDS}, good: no, synonyms: [failure]}}
"""


@pytest.fixture
def found(audited):
    """Problems of the vocabulary in which one text stands in place of another."""

    def problems(old: str = "", new: str = "") -> list[str]:
        assert old in VOCABULARY
        text = VOCABULARY.replace(old, new, 1) if old else VOCABULARY
        told = [as_text(problem) for problem in audited({"vocabulary.yaml": text}).problems]
        return [each.removeprefix("evidence/vocabulary.yaml:") for each in told if "vocabulary.yaml" in each]

    return problems


@pytest.mark.parametrize(("old", "new"), [("", ""), ("[failure]", "[failure, Failed]"), ("[failure]", "[no success]")])
def test_words_of_one_outcome_alone_raise_nothing(found, old, new) -> None:
    assert found(old, new) == []


@pytest.mark.parametrize(
    ("old", "new", "column", "word"),
    [("[failure]", "[failure, Success]", 129, "Success"), ("title: failed", "title: Healed", 19, "Healed")],
)
def test_word_of_two_outcomes_is_an_error_at_the_second(found, old, new, column, word) -> None:
    (text,) = found(old, new)
    assert text.startswith(f'3:{column}: "{word}" stands for the outcome failed and, at evidence/vocabulary.yaml:2,')
    assert text.splitlines()[0].endswith("for the outcome healed [outcome-word-twice]")
    assert "keep it at one of the two" in text
