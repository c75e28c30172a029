"""Patterns that are asked only where a stem of theirs stands: whatever they find holds one.

Of each pattern as many texts are made as EXAMPLES says: 20, and 200 in `make prove`.
"""

from __future__ import annotations

import os
import pkgutil
import re
from collections.abc import Iterator
from importlib import import_module

import passageproof.numerals
import passageproof.printed
import passageproof.proof.ties
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis.strategies import data, from_regex
from passageproof.numerals.late import _Late, _Small, in_small, late, lowered
from passageproof.printed.whose_words import LED, TOLD, may_lead, may_tell


def _made_late() -> Iterator[tuple[str, _Late]]:
    for room in (passageproof.numerals, passageproof.printed, passageproof.proof.ties):
        for module in pkgutil.iter_modules(room.__path__, f"{room.__name__}."):
            for name, value in vars(import_module(module.name)).items():
                pattern = getattr(value, "__self__", value)
                if isinstance(pattern, _Late):
                    yield f"{module.name.rpartition('.')[2]}.{name}", pattern


EXAMPLES = int(os.environ.get("EXAMPLES", "20"))
LATE = dict(_made_late())
PATTERNS = {name: pattern for name, pattern in LATE.items() if pattern.holds}


@pytest.mark.parametrize("name", PATTERNS)
@given(data())
@settings(max_examples=EXAMPLES, derandomize=True, deadline=None, suppress_health_check=list(HealthCheck))
def test_whatever_a_pattern_finds_holds_one_of_its_stems(name: str, data) -> None:  # type: ignore[no-untyped-def]
    pattern = PATTERNS[name]
    compiled = re.compile(pattern.pattern, pattern.flags)
    text = data.draw(from_regex(compiled))
    if compiled.search(text) is not None:
        assert pattern.of(text) is not None, text


SMALL = {name: pattern for name, pattern in LATE.items() if isinstance(pattern, _Small)}


@pytest.mark.parametrize("name", SMALL)
def test_a_pattern_that_is_looked_for_in_small_letters_has_no_other(name: str) -> None:
    letters = re.sub(r"\\[A-Z]|\(\?P<\w+>", "", SMALL[name].pattern)
    assert letters == letters.lower()


def test_in_small_letters_the_same_is_found_at_the_same_places_as_without_regard_to_case() -> None:
    text = "\u0130nci: Crude OR 1.4, ADJUSTED for Age; crude"
    small, plain = (
        in_small("crude|adjusted (?:for )?", holds=("cru", "adj")),
        re.compile("crude|adjusted (?:for )?", re.I),
    )
    assert [found.span() for found in small.finditer(text)] == [found.span() for found in plain.finditer(text)]
    assert small.search(text, 10).span() == plain.search(text, 10).span()  # type: ignore[union-attr]
    assert small.match(text) is None is small.fullmatch(text)
    assert small.match(text, 6).span() == (6, 11)  # type: ignore[union-attr]
    assert small.fullmatch("CRUDE").span() == (0, 5)  # type: ignore[union-attr]
    assert small.search("1.4 of all") is None
    assert len(lowered(text)) == len(text)


@pytest.mark.parametrize(("pattern", "may"), [(LED, may_lead), (TOLD, may_tell)], ids=["LED", "TOLD"])
@given(data())
@settings(max_examples=max(EXAMPLES, 50), derandomize=True, deadline=None, suppress_health_check=list(HealthCheck))
def test_whatever_names_others_may_do_so(pattern, may, data) -> None:  # type: ignore[no-untyped-def]
    compiled = re.compile(pattern.pattern, pattern.flags)
    text = data.draw(from_regex(compiled))
    if compiled.search(text) is not None:
        assert may(text), text


def test_a_pattern_with_stems_finds_what_one_without_them_finds() -> None:
    text = "Assuming that 30 of 40 heal, a power of 80%"
    plain, stemmed = late("assum|power", re.IGNORECASE), late("assum|power", re.IGNORECASE, holds=("assum", "power"))
    assert stemmed.search(text)[0] == plain.search(text)[0] == "Assum"  # type: ignore[index]
    assert [found[0] for found in stemmed.finditer(text)] == stemmed.findall(text) == ["Assum", "power"]
    assert stemmed.match(text) is not None
    assert stemmed.fullmatch(text) is None
    assert stemmed.split(text) == plain.split(text)


def test_where_no_stem_stands_nothing_is_compiled() -> None:
    stemmed = late("assum|power", holds=("assum", "power"))
    assert stemmed.search("39 of 47") is None
    assert list(stemmed.finditer("39 of 47")) == stemmed.findall("39 of 47") == []
    assert stemmed.split("39 of 47") == ["39 of 47"]
    assert stemmed.match("39 of 47") is None is stemmed.fullmatch("39 of 47")
    assert "_whole" not in vars(stemmed)


def test_of_two_groups_of_stems_each_must_stand_there() -> None:
    both = late("before [a-z]*ing", holds=("before",), also=("ing",))
    assert both.search("before loading")[0] == "before loading"  # type: ignore[index]
    assert both.search("before 12 weeks") is None


def test_patterns_with_stems_are_found() -> None:
    assert {"whose_words.ASSUMED", "statistics._YEARLY", "groups._may_be_aged"} <= PATTERNS.keys()
