"""The urgent page: every danger in its own words behind its own anchor, and whom to call."""

from __future__ import annotations

import re

import pytest
from guide.compendium import catalogue_of, html_of, nothing_named, said
from passageproof.guide.about.urgent_page import urgent_page
from passageproof.results.values.document import AdviceList, Details, Page, Paragraph, Section, walk
from passageproof.results.values.page_lines import page_lines

URGENT = """\
irrigant:
  title: Irrigant beyond the root
  signs: [sudden pain, swelling]
  stop:
    - {words: Do not rinse again., basis: {kind: common practice}}
  until_help:
    - {words: Stop., basis: {kind: common practice}}
    - {words: Stay with the patient., basis: {kind: common practice}, caution: Watch breathing.}
  call:
    - {words: Call a senior colleague., basis: {kind: local protocol, state: not set}}
  say:
    - {words: It hurts now., basis: {kind: common practice}}
  afterwards:
    - {words: Ring the next day., basis: {kind: common practice}}
bleeding:
  title: Bleeding that does not stop
  signs: [blood in beats]
  until_help: [{words: Press., basis: {kind: common practice}}]
"""


def page_of(files: dict[str, str]) -> Page:
    return urgent_page(catalogue_of(files), nothing_named)


def test_every_entry_has_its_id_as_anchor():
    page = page_of({"urgent.yaml": URGENT})
    anchors = [block.anchor for block in page.blocks if isinstance(block, Details) and block.kind == "danger"]
    assert anchors == ["irrigant", "bleeding"]


@pytest.mark.parametrize("words", ["sudden pain", "swelling", "Stop.", "Watch breathing.", "Call a senior colleague."])
def test_entries_keep_their_own_words(words: str):
    assert words in said(page_of({"urgent.yaml": URGENT}).blocks)


def test_what_to_do_and_whom_to_call_are_lists_of_advice():
    page = page_of({"urgent.yaml": URGENT})
    kinds = [block.kind for block in walk(page.blocks) if isinstance(block, AdviceList)]
    assert kinds == ["stop", "until-help", "call", "say", "afterwards", "until-help"]


def entry_of(anchor: str) -> Details:
    page = page_of({"urgent.yaml": URGENT})
    (entry,) = (block for block in page.blocks if isinstance(block, Details) and block.anchor == anchor)
    return entry


def test_parts_of_an_emergency_stand_in_the_order_in_which_they_are_needed():
    entry = entry_of("irrigant")
    words = said(entry.blocks)
    order = (
        "Do not rinse again.", "Stop.", "Stay with the patient.", "not yet ratified here", "Call a senior colleague.",
        "Call the supervisor in the room", "It hurts now.", "sudden pain; swelling", "Ring the next day.",
    )  # fmt: skip
    places = [words.index(part) for part in order]
    assert places == sorted(places)
    headed = [(block.title, block.anchor) for block in entry.blocks if isinstance(block, Section)]
    assert headed == [
        ("Do not", "stop-irrigant"),
        ("Do now", "now-irrigant"),
        ("Call", "call-irrigant"),
        ("Say to the patient", "say-irrigant"),
    ]


def test_signs_are_found_by_the_search():
    assert ("irrigant", "Signs: sudden pain; swelling.") in page_lines(page_of({"urgent.yaml": URGENT}))


def test_what_to_do_is_one_series_of_numbers():
    ordered = [block for block in walk(entry_of("irrigant").blocks) if isinstance(block, AdviceList) and block.ordered]
    assert [(block.start, len(block.entries)) for block in ordered] == [(1, 2)]


def test_emergency_without_further_lists_has_no_empty_part():
    titles = [block.title for block in entry_of("bleeding").blocks if isinstance(block, Section)]
    assert titles == ["Do now", "Call"]
    folded = [block.summary for block in entry_of("bleeding").blocks if isinstance(block, Details)]
    assert folded == ["Is it really this?", "For the record"]


def test_what_most_lines_rest_on_is_said_once_below_all_lists_and_an_exception_beside_its_line():
    words = said(entry_of("irrigant").blocks)
    assert words.count("common practice, no source") == 1
    assert "Basis: common practice, no source, except where noted." in words
    assert words.count("not yet ratified") == 1
    assert words.count("local protocol, not set") == 1


def kind_of_standing(entry: Details) -> list[str]:
    """Kinds of the paragraphs that say whether the lines of an emergency were ratified."""
    paragraphs = [block for block in walk(entry.blocks) if isinstance(block, Paragraph)]
    return [block.kind for block in paragraphs if "until local protocol says otherwise" in said((block,))]


def test_list_that_nobody_ratified_says_so_in_ordinary_weight_below_what_is_done():
    page = page_of({"urgent.yaml": URGENT})
    for entry in (block for block in page.blocks if isinstance(block, Details) and block.kind == "danger"):
        (now,) = (block for block in entry.blocks if isinstance(block, Section) and block.title == "Do now")
        # Seen without a tap, since it guards whoever acts on the list; but no louder than what is to be done.
        assert "This holds until local protocol says otherwise; not yet ratified here." in said(now.blocks[-1:])
        assert kind_of_standing(entry) == ["basis"]


def test_list_that_is_ratified_in_part_or_whole_is_told_so():
    people = "ratified: {by: [IM], on: 2026-01-05}"
    lines = """\
bleeding:
  title: Bleeding that does not stop
  signs: [blood in beats]
  until_help: [{words: Press., basis: {kind: common practice}, %s}]
  call: [{words: Call the ward., basis: {kind: common practice}%s}]
"""
    for last, told in (("", ["basis"]), (f", {people}", [])):
        page = page_of({"urgent.yaml": lines % (people, last)})
        (entry,) = (block for block in page.blocks if isinstance(block, Details) and block.kind == "danger")
        assert kind_of_standing(entry) == told
        assert ("; not all of it is ratified." in said(entry.blocks)) == bool(told)
        assert "not yet ratified here" not in said(entry.blocks)


def test_the_lines_of_an_emergency_on_its_call_come_before_whom_the_house_has():
    # They say when it is the emergency service.
    words = said(entry_of("irrigant").blocks)
    assert words.index("Call a senior colleague.") < words.index("Call the supervisor in the room")


def test_emergency_service_is_named_before_every_entry_and_where_nothing_fits():
    # Common practice, no source: whoever collapses or cannot breathe is not waited with.
    page = page_of({"urgent.yaml": URGENT})
    dangers = [block for block in page.blocks if isinstance(block, Details)]
    above = said(page.blocks[: page.blocks.index(dangers[0])])
    assert "no breath" in above
    assert "Call the emergency service first" in above
    assert "Call the emergency service first" in said(dangers[-1].blocks)


def test_missing_contact_is_said_aloud_at_the_top_in_every_entry_and_at_the_end():
    page = page_of({"urgent.yaml": URGENT})
    words = said(page.blocks)
    assert words.count("contact not set by this programme") == 4
    assert words.count("Call the supervisor in the room, or have the desk fetch one. contact not") == 4
    assert "call" in [block.anchor for block in page.blocks if isinstance(block, Details)]


def test_contact_of_the_programme_stands_in_every_entry():
    page = page_of({"urgent.yaml": URGENT, "local.yaml": "call: {name: Duty desk, number: 555 01 23}\n"})
    assert said(page.blocks).count("Call Duty desk: 555 01 23") == 4


def test_entry_without_reasons_to_call_asks_for_a_call_at_once():
    assert "When to call for this is not set: call at once." in said(page_of({"urgent.yaml": URGENT}).blocks)


def test_where_nobody_answers_nothing_is_covered_that_a_list_may_want_open():
    last = [block for block in page_of({"urgent.yaml": URGENT}).blocks if isinstance(block, Details)][-1]
    assert "Nobody answers? Go no further, stay, and send for help." in said(last.blocks)


def test_page_without_entries_says_so():
    assert "This programme has written nothing here. Call for help." in said(page_of({}).blocks)


def test_page_holds_no_number_of_its_own():
    # No dose stands on the page, common practice, no source: whatever digit is there was typed as a contact.
    assert not re.search(r"\d", said(page_of({"urgent.yaml": URGENT}).blocks))


def test_phrase_that_every_page_shares_stands_on_it():
    assert "something worse is happening" in html_of(page_of({"urgent.yaml": URGENT}))


def test_protocols_that_are_not_set_are_said_behind_what_to_do_instead():
    told = "Ask the person you call which emergency protocol holds here (local protocols not set by this programme)."
    assert told in said(page_of({"urgent.yaml": URGENT}).blocks)


def test_protocol_of_the_programme_is_linked():
    local = {"local.yaml": "protocols: [{title: Emergency sheet, link: 'https://example.org/sheet'}]\n"}
    assert 'href="https://example.org/sheet"' in html_of(page_of({"urgent.yaml": URGENT} | local))
