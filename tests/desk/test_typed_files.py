"""What was typed comes out as files that the formatter would leave as they are, and that say what was typed."""

from __future__ import annotations

from pathlib import Path

import pytest
import yaml
from desk.drafts import drafts_of
from passageproof.desk.typed_files import Passage, claim_file_text, key_of, passages_in, with_passages, without_passages
from passageproof.writing.layout import laid_out

ROOT = Path(__file__).parent.parent.parent
DRAFTS = drafts_of(ROOT)


@pytest.mark.parametrize("key", sorted(DRAFTS))
def test_a_claim_file_says_what_was_typed_and_is_what_the_formatter_writes(key: str) -> None:
    said = DRAFTS[key]["claims"]
    text = claim_file_text({"source": key, **said})
    assert yaml.load(text, Loader=yaml.CBaseLoader) == {"source": key, **said}
    assert yaml.load(text, Loader=yaml.BaseLoader) == {"source": key, **said}
    assert laid_out(text) == text


@pytest.mark.parametrize("key", sorted(DRAFTS))
def test_an_entry_keeps_its_passages(key: str) -> None:
    draft = DRAFTS[key]
    passages = [Passage(each["where"], each["text"]) for each in draft["passages"]]
    entry = with_passages(draft["entry"], passages)
    again = passages_in("entry.bib", entry.text)
    assert [each.where for each in again] == [each.where for each in passages]
    assert [each.text.split() for each in again] == [each.text.split() for each in passages]
    assert key_of(entry.text) == f"desk{key}"
    assert with_passages(without_passages(entry.text), passages) == entry


SIGNS = [
    *("a: b", "a #b", "# a", "- a", "[a", "a]", "{a}", "a, b", "'a'", '"a"', "&a", "*a", "!a", "%a", "@a", "`a`"),
    *("| a", "> 3 mm", "? a", "yes", "null", "~", "1,5", "12:30", "a:", ":a", "é – ‘x’", "\\", "a\nb"),
]


@pytest.mark.parametrize("text", SIGNS)
def test_any_text_is_read_as_it_was_typed(text: str) -> None:
    said = {"note": text, "where": text, "levels": [{"level": text, "events": "1"}], "in_words": [text, "b"]}
    assert yaml.load(claim_file_text(said), Loader=yaml.CBaseLoader) == said


def test_what_is_empty_is_left_out() -> None:
    said = {"source": "a", "read": {"by": " ", "on": ""}, "claims": [{"id": ""}], "studies": [{"id": "s", "flow": {}}]}
    assert yaml.load(claim_file_text(said), Loader=yaml.CBaseLoader) == {"source": "a", "studies": [{"id": "s"}]}


@pytest.mark.parametrize("entry", ["", "   ", "marlow", "@article{", "@article{a", "@article{a,\n title = {x}", "}"])
def test_an_entry_that_is_none_stays_as_it_is_typed_or_is_closed(entry: str) -> None:
    assert with_passages(entry, [Passage("p. 1", "x")]).text.startswith(entry.strip()[:3])
