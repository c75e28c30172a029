"""What argues for a way to go on, what argues against it, and what argues neither."""

from __future__ import annotations

import functools
import re
from pathlib import Path

import pytest
from demo import demo_built
from guide.cohorts import by_size, catalogue
from guide.compendium import nothing_named, said
from guide.sections.test_which_way import with_difference
from passageproof.guide.question.question_page import question_page

ROOT = Path(__file__).parents[3]

QUESTION = """\
id: hole
title: There is a hole
options:
  - {id: now, title: Repair now, for: [{words: "%s", basis: {kind: study, claim: %s}}], against: [], ready: [dry field]}
factors: [size]
"""
# What stands between the title of the way and what to have ready.
_WAY = re.compile(r"Repair now.*?Have ready", re.DOTALL)


def way(files, words: str = "Small ones healed more often.", claim: str = "arden2011/by-size") -> str:
    made = catalogue(files, question=QUESTION % (words, claim))
    found = _WAY.search(said(question_page(made, made.evidence.questions["hole"], nothing_named)))
    assert found is not None
    return " ".join(found[0].split())


def test_a_clear_comparison_speaks_for_the_way() -> None:
    shown = way(by_size("arden2011", (7, 20), (33, 35)))
    assert "Speaks for it Small ones healed more often.study: " in shown
    assert "Too few to tell" not in shown


def test_what_is_too_few_to_tell_stands_apart_with_how_far_apart_they_may_be() -> None:
    shown = way(by_size("arden2011", (16, 20), (31, 35)))
    assert "Speaks for it nothing that is clear Speaks against it nothing recorded Too few to tell Small ones" in shown
    # Newcombe 1998, Stat Med 17:873-890, method 10: 16/20 against 31/35 is -31.2 to 10.2 points.
    assert re.search(r"how far apart they may be: over 3 mm, 31 points fewer to 10 more", shown)


@pytest.mark.parametrize(
    "words", ["Small ones did as well as wide ones.", "Both healed alike.", "It made no difference.", "Better than wide ones."]
)  # fmt: skip
def test_words_that_compare_in_any_way_are_weighed(words: str) -> None:
    assert "Speaks for it nothing that is clear" in way(by_size("arden2011", (16, 20), (31, 35)), words)


def test_a_sentence_that_compares_with_nobody_tells_of_its_own_number() -> None:
    shown = way(by_size("arden2011", (16, 20), (31, 35)), "Most healed, small or wide.")
    assert "Speaks for it Most healed, small or wide." in shown


def test_all_or_none_of_so_many_stand_with_their_interval() -> None:
    shown = way(by_size("arden2011", (16, 16), (31, 36)), "Most healed, small or wide.")
    # Wilson 1927, J Am Stat Assoc 22:209-212, as in Newcombe 1998, Stat Med 17:857, method 3: 16/16 is 80.6% to 100%.
    assert "over 3 mm 16 of 16 (95% CI 81% to 100%, computed)" in shown
    assert "31 of 36 teeth (" not in shown
    none = way(by_size("arden2011", (0, 16), (31, 36)), "Most healed, small or wide.")
    assert "over 3 mm 0 of 16 (95% CI 0% to 19%, computed)" in none


def test_what_decides_nothing_stands_apart_with_the_reason() -> None:
    chosen = by_size("arden2011", (7, 20), (33, 35))
    cut = {
        name: text.replace("known_at: before", "known_at: before\n    cut: chosen from the data")
        for name, text in chosen.items()
    }
    assert cut != chosen
    shown = way(cut)
    assert "Decides nothing Small ones healed more often." in shown
    assert "this decides nothing: the cut was chosen from the data" in shown
    assert "Too few to tell" not in shown


def test_within_a_margin_is_said_first_and_argues_nothing() -> None:
    made = with_difference(question=QUESTION % ("Slightly fewer healed, within the margin.", "arden2011/by-size"))
    shown = " ".join(said(question_page(made, made.evidence.questions["hole"], nothing_named)).split())
    assert "Speaks for it nothing that is clear" in shown
    told = (
        "Not worse by more than a margin Slightly fewer healed, within the margin.study: Arden 2011, not worse by more "
    )
    assert (
        f"{told}than the margin of 10 percentage points fixed beforehand: up to 3 mm 102 of 111 teeth, over 3 mm 98"
        in shown
    )
    assert "risk difference -2.0 percentage points (95% CI -9.6 to 5.6), crude; certainty" in shown


@functools.cache
def demo(question: str) -> str:
    built = demo_built()
    assert built.guide is not None
    return " ".join(said(built.guide.pages[f"{question}/"]).split())


def test_no_way_of_the_demo_is_argued_for_by_what_is_too_few_to_tell_or_within_a_margin() -> None:
    for question in ("root-perforation", "broken-instrument", "exposed-pulp"):
        for part in re.findall(
            r"Speaks (?:for|against) it (.*?)(?=Speaks against it|Not worse by|Similar, within|Too few to tell [A-Z]|Decides nothing [A-Z]|Counts no longer|Have ready)",
            demo(question),
        ):
            assert "too few to tell" not in part, question
            assert "margin" not in part, question
            assert "cannot be told" not in part, question


def test_the_trial_of_the_demo_with_a_margin_is_read_right_the_first_time() -> None:
    told = (
        "study: Kvistmoen 2021, not worse by more than the margin of 10 percentage points fixed beforehand: full pulpotomy "
        "98 of 109 teeth (89.9%), pulp removed 102 of 111 (91.9%): tooth free of disease"
    )
    shown = demo("exposed-pulp")
    assert told in shown
    assert shown.index("Not worse by more than a margin") < shown.index(told)
