"""The tray card: stop list, links to the urgent page, what to have ready, whom to call, how old."""

from __future__ import annotations

from guide.compendium import catalogue_of, nothing_named, said
from passageproof.guide.sections.tray_card import tray_card
from passageproof.results.values.document import Sheet, walk
from passageproof.results.values.line import Link

STOP = "stop: [{words: Take the file out., basis: {kind: common practice}, caution: Count it.}]"
OPTIONS = (
    "options: [{id: now, title: Repair now, for: [], against: [], ready: [dry field, cement]}, "
    "{id: later, title: Dress it, for: [], against: [], ready: [dry field, dressing]}]"
)
URGENT = {
    "urgent.yaml": "irrigant:\n  title: Irrigant beyond the root\n  signs: [pain]\n"
    "  until_help: [{words: Stop., basis: {kind: common practice}}]\n"
}


def card_of(*lines: str, files: dict[str, str] | None = None) -> Sheet:
    text = "\n".join(["id: hole", "title: There is a hole", *lines]) + "\n"
    catalogue = catalogue_of({"questions/hole.yaml": text} | (files or {}))
    return tray_card(catalogue, catalogue.evidence.questions["hole"], nothing_named)


def test_stop_list_keeps_basis_and_caution():
    shown = said(card_of(STOP))
    for wanted in ("Take the file out.", "common practice, no source", "Count it."):
        assert wanted in shown


def test_missing_stop_list_is_said_aloud():
    assert "Nobody has written a stop list" in said(card_of())


def test_what_all_ways_need_stands_once():
    shown = said(card_of(OPTIONS))
    assert shown.count("dry field") == 1
    assert "For every way" in shown


def test_own_dangers_lead_to_their_place_on_the_urgent_page():
    card = card_of("urgent: [irrigant]", files=URGENT)
    targets = [link.target for link in walk(card) if isinstance(link, Link)]
    assert targets == ["urgent/#irrigant", "urgent/"]


def test_urgent_door_stands_though_the_question_names_no_danger():
    assert "something worse is happening" in said(card_of())


def test_missing_contact_is_said_aloud():
    assert "contact not set by this programme" in said(card_of())


def test_contact_can_be_tapped():
    card = card_of(files={"local.yaml": "call: {name: Duty desk, number: 555 01 23}\n"})
    assert "tel:5550123" in [link.target for link in walk(card) if isinstance(link, Link)]
    assert "contact not set" not in said(card)


def test_card_says_how_old_its_evidence_is():
    assert "evidence to 2026-10-30" in said(card_of())


def test_missing_kit_is_said_aloud():
    assert "kit not set by this programme" in said(card_of(OPTIONS))


NOW = (
    "steps: [{words: Press a pellet., when: now, basis: {kind: common practice}}, "
    "{words: Seal it., basis: {kind: common practice}}]"
)


def test_what_to_do_now_and_whom_to_call_stand_after_what_not_to_do_and_before_the_kit():
    shown = said(card_of(STOP, OPTIONS, NOW))
    order = ["Do not", "Take the file out.", "Do now", "Press a pellet.", "Call the supervisor", "Have ready"]
    places = [shown.index(words) for words in order]
    assert places == sorted(places)
    assert "Seal it." not in shown
    assert "Do now" not in said(card_of(STOP))
