"""The question page: in the order of need, with what each line rests on."""

from __future__ import annotations

import datetime
import re

import pytest
from guide.compendium import catalogue_of, html_of, nothing_named, report, said
from passageproof.guide.question.question_page import question_page
from passageproof.results.saying.review_date import months_later, review_due
from passageproof.results.values.document import Page, Paragraph, Section, walk

QUESTION = """\
id: hole
title: There is a hole
searched: {on: 2026-09-12, where: [a database], by: IM}
answer: Most had healed ($marlow2019/overall).
stop: [{words: Take the file out., basis: {kind: common practice}, caution: Count it.}]
is_it_this: [{words: Bleeding from the side., basis: {kind: local protocol, state: not set}}]
situation: [{factor: size, ask: "How wide?"}]
options:
  - {id: now, title: Repair now, for: [{words: Small ones healed., basis: {kind: study, claim: marlow2019/overall}}], against: [], ready: [dry field]}
steps: [{words: Dry it., basis: {kind: common practice}, ratified: {by: [IM], on: 2026-10-01}}]
call: [{words: It bleeds on., basis: {kind: common practice}}]
medical: [{words: Ask about bone drugs., basis: {kind: local protocol, state: not set}}]
factors: [size]
dissent: [{by: TO, on: 2026-10-02, words: I would wait.}]
"""
OVERALL = """
- id: overall
  question: hole
  outcome: healed
  events: 39
  total: 47
  success_rate: 83%
  where: p. 2
  follow_up: {from: repair, timing: at, at: 24 months, tolerance: 3 months}
"""
PASSAGE = "[p. 2] healed: 39 of 47 teeth (83%) at 24 months (within 3 months)"
URGENT = "burst:\n  title: It burst\n  signs: [pain]\n  until_help: [{words: Stop., basis: {kind: common practice}}]\n"


def page_of(question: str = QUESTION, **files: str) -> Page:
    texts = {"questions/hole.yaml": question, "urgent.yaml": URGENT}
    texts |= {name.replace("__", "/") + ".yaml": text for name, text in files.items()}
    catalogue = catalogue_of(texts | report("marlow2019", OVERALL, PASSAGE))
    return question_page(catalogue, catalogue.evidence.questions["hole"], nothing_named)


def titles(page: Page) -> list[str]:
    return [block.title for block in page.blocks if isinstance(block, Section)]


def test_what_not_to_do_now_comes_before_everything_else():
    assert isinstance(page_of().blocks[0], Section)
    assert titles(page_of())[:4] == ["Do not", "Call", "Is it really this?", "What do you see?"]


STEPS = """\
steps:
  - {words: Keep the canals open., basis: {kind: common practice}}
  - {words: Press a pellet., basis: {kind: common practice}, when: now}
  - {words: Close the crown., basis: {kind: common practice}, when: later}
"""


def test_steps_stand_where_they_are_due_and_their_numbers_go_on():
    page = page_of(re.sub(r"(?m)^steps:.*\n", STEPS, QUESTION))
    html = html_of(page)
    order = [
        html.index(words) for words in ("Press a pellet.", "How wide?", "Keep the canals open.", "Close the crown.")
    ]
    assert order == sorted(order)
    assert titles(page)[:3] == ["Do not", "Do now", "Call"]
    assert '<ol class="advice steps" start="2">' in html
    assert '<ol class="advice steps" start="3">' in html
    assert '<details class="part" id="steps"><summary>' in html


def test_where_no_step_is_due_now_all_of_them_stand_open():
    assert '<details class="part" id="steps" open><summary>' in html_of(page_of())


def test_four_lines_say_what_not_to_do_each_opens_its_caution_and_the_rest_is_one_tap_away():
    entry = "{words: Do not %s it., basis: {kind: common practice}, caution: Careful with %s.}"
    stops = ", ".join(entry % (word, word) for word in ("cut", "rub", "dry", "bend", "fill"))
    html = html_of(page_of(re.sub(r"(?m)^stop:.*\n", f"stop: [{stops}]\n", QUESTION)))
    first, _, rest = html[html.index('id="stop"') :].partition('<details class="rest">')
    assert [word for word in ("cut", "rub", "dry", "bend", "fill") if f"Do not {word} it." in first] == [
        "cut", "rub", "dry", "bend",
    ]  # fmt: skip
    assert '<details><summary><span class="do">Do not cut it.</span></summary>' in first
    assert first.index("Do not cut it.") < first.index("Careful with cut.") < first.index("Do not rub it.")
    assert rest.startswith("<summary>One more not to do</summary>")
    assert rest.index("Do not fill it.") < rest.index("Careful with fill.")
    assert "Do not cut it." not in rest[: rest.index("</details>")]


def test_where_nobody_is_named_the_page_says_what_to_do_instead():
    assert "Call the supervisor in the room, or have the desk fetch one. contact not set by this programme" in said(
        page_of()
    )
    assert "Ask whoever" not in said(page_of(local='call: {name: Desk, number: "112 33"}\n'))


@pytest.mark.parametrize("local", ["", 'call: {name: Desk, number: "112 33"}\n'])
def test_whom_to_call_for_a_life_has_a_row_of_its_own_and_nobody_is_left_without_an_answer(local: str):
    page = page_of(local=local) if local else page_of()
    (call,) = (block for block in walk(page.blocks) if isinstance(block, Section) and block.anchor == "call")
    rows = [said((block,)) for block in call.blocks if isinstance(block, Paragraph)][:3]
    assert ("Desk" if local else "supervisor") in rows[0]
    assert "emergency" not in rows[0]
    assert rows[1].startswith("Life in danger? The emergency service first.")
    assert rows[2].startswith("Nobody answers? Go no further, cover it, ")
    # It leans on nothing that a programme may have left unset.
    assert "protocol" not in rows[2]
    assert "set" not in rows[2].split()


def test_the_urgent_door_leads_to_what_is_worse():
    assert 'href="../urgent/#burst"' in html_of(page_of())


def test_the_answer_names_its_count_and_says_below_what_it_counts():
    shown = said(page_of())
    assert "Most had healed (39 of 47, 83%)." in shown
    assert (
        "39 of 47 teeth (95% CI 70% to 91%, computed; how many were due is not reported): healed (stricter definition), 24 months after repair, give or take "
        "3 months; certainty: not judged yet; Marlow 2019"
    ) in shown


@pytest.mark.parametrize(
    "wanted",
    [
        "common practice, no source",
        "local protocol, not set",
        "ratified by Ines Marlow on 2026-10-01",
        "not yet ratified",
        "contact not set by this programme",
        "Dissent: I would wait. (Tam Okafor, 2026-10-02)",
        "study: Marlow 2019, 39 of 47 teeth (83%): healed (stricter definition), 24 months after repair, give or take 3 months",
    ],
)
def test_every_line_says_what_it_rests_on_and_who_stands_behind_it(wanted: str):
    assert wanted in said(page_of())


def test_what_leaned_on_a_withdrawn_report_says_so_and_shows_no_number():
    status = "marlow2019: {state: retracted, on: 2026-10-20, by: hand, notice: {on: 2026-09-09, words: withdrawn}}\n"
    shown = said(page_of(status=status))
    assert "Most had healed (withdrawn, 2026-09-09)." in shown
    assert "the study it rested on was withdrawn (2026-09-09)" in shown
    assert "39" not in shown


def test_a_step_of_which_the_study_was_withdrawn_says_what_to_do():
    step = QUESTION.replace(
        "steps: [{words: Dry it., basis: {kind: common practice}",
        "steps: [{words: Dry it., basis: {kind: study, claim: marlow2019/overall}",
    )
    advised = "ask whom you call before you do it"
    status = "marlow2019: {state: retracted, on: 2026-10-20, by: hand, notice: {on: 2026-09-09, words: withdrawn}}\n"
    shown = said(page_of(step, status=status))
    # Whoever does what is read as it is read has to be warned first.
    assert shown.index(advised) < shown.index("Dry it.")
    assert advised not in said(page_of(step))


def test_a_way_has_the_steps_that_are_its_own_in_their_order():
    dress = QUESTION.replace(
        "ready: [dry field]}",
        "ready: [dry field], steps: [{words: Lay it in., basis: {kind: common practice}}, "
        "{words: Cover it., basis: {kind: local protocol, state: not set}, caution: Never press.}]}",
    )
    shown = said(page_of(dress))
    places = [
        shown.index(words) for words in ("Speaks for it", "Step by step", "Lay it in.", "Cover it.", "Have ready")
    ]
    assert places == sorted(places)
    assert "Never press." in shown
    assert re.search(r'<ol class="advice steps">\s*<li><p class="do">Lay it in\.', html_of(page_of(dress)))
    assert "Step by step" not in said(page_of())


def test_advice_that_names_the_urgent_page_opens_it():
    burns = QUESTION.replace("caution: Count it.", "caution: 'If some went through, open the urgent page now.'")
    shown = html_of(page_of(burns))
    assert re.search(r'open the <a [^>]*href="../urgent/"[^>]*>urgent page</a> now', shown)


AIR_AND_BLOOD = """\
air: {title: "Air: swelling that crackles", signs: [swelling], until_help: [{words: Stop., basis: {kind: common practice}}]}
blood: {title: "Heavy bleeding, or in beats", signs: [pain], until_help: [{words: Press., basis: {kind: common practice}}]}
sick: {title: Faint, signs: [swelling of the lips], until_help: [{words: Lay down., basis: {kind: common practice}}]}
"""


@pytest.mark.parametrize(
    ("said_there", "place"),
    [
        ("In beats: urgent page.", "#blood"),
        ("It bleeds in beats. First the urgent page.", "#blood"),
        ("Swelling? Open the urgent page.", ""),
        ("Crackles, or bleeding: urgent page.", ""),
        ("In beats. Press first. No better? Open the urgent page.", ""),
        ("Open the urgent page if it comes in beats.", ""),
    ],
    ids=["named", "named before", "a sign of another too", "two are named", "another sentence", "said behind it"],
)
def test_the_door_opens_one_emergency_only_where_the_words_before_it_name_no_other(said_there, place):
    told = QUESTION.replace("caution: Count it.", f'caution: "{said_there}"')
    assert f'href="../urgent/{place}">urgent page</a>' in html_of(page_of(told, urgent=AIR_AND_BLOOD))


def test_the_contact_of_the_programme_is_printed():
    assert "Call Desk: 112 33" in said(page_of(local='call: {name: Desk, number: "112 33"}\n'))


def test_words_of_a_clinician_are_never_read_as_markup():
    html = html_of(page_of(QUESTION.replace("Take the file out.", '"<b>*Stop* & think</b>"')))
    assert "&lt;b&gt;*Stop* &amp; think&lt;/b&gt;" in html


# The rule of the recall planner holds for reviews too: 31 August and six months is the last day of February.
@pytest.mark.parametrize(
    ("day", "months", "expected"),
    [
        ("2026-08-31", 6, "2027-02-28"),
        ("2027-08-31", 6, "2028-02-29"),
        ("2024-02-29", 12, "2025-02-28"),
        ("2026-12-01", 24, "2028-12-01"),
    ],
)
def test_the_same_day_of_a_later_month_or_its_last(day: str, months: int, expected: str):
    assert months_later(datetime.date.fromisoformat(day), months).isoformat() == expected


def test_a_review_is_due_an_interval_after_the_search():
    catalogue = catalogue_of(
        {"questions/hole.yaml": QUESTION, "compendium.yaml": COMPENDIUM} | report("marlow2019", OVERALL, PASSAGE)
    )
    assert review_due(catalogue, catalogue.evidence.questions["hole"]) == datetime.date(2028, 9, 12)


COMPENDIUM = """\
format: 1
title: Hard questions
programme: Fenwick
demonstration: no
evidence: {date: 2026-10-30, release: 1.2.0}
people: {IM: {name: Ines Marlow}, TO: {name: Tam Okafor}}
review: {questions: 24 months, status: 1 month}
"""


def test_a_figure_of_a_report_read_as_an_abstract_says_so_where_it_stands():
    files = report("marlow2019", OVERALL, PASSAGE)
    files["claims/marlow2019.yaml"] = files["claims/marlow2019.yaml"].replace("depth: full text", "depth: abstract")
    catalogue = catalogue_of({"questions/hole.yaml": QUESTION, "urgent.yaml": URGENT} | files)
    shown = said(question_page(catalogue, catalogue.evidence.questions["hole"], nothing_named))
    assert "give or take 3 months; certainty: not judged yet; Marlow 2019, read as an abstract only" in shown
    assert "study: Marlow 2019, read as an abstract only, 39 of 47 teeth" in shown


BY_WAY = (
    "- {id: by-way, question: hole, outcome: healed, factor: way, known_at: during, reference: direct cap, "
    "where: p. 3, follow_up: overall, levels: [{level: direct cap, events: 20, total: 24}, "
    "{level: full pulpotomy, events: 19, total: 23}]}"
)


@pytest.mark.parametrize(("claims", "is_mixed"), [(f"{OVERALL}{BY_WAY}", True), (OVERALL, False)])
def test_what_speaks_for_a_way_says_where_its_study_counted_all_ways_together(claims: str, is_mixed: bool) -> None:
    passages = (PASSAGE, "[p. 3] direct cap: 20 of 24 healed; full pulpotomy: 19 of 23") if is_mixed else (PASSAGE,)
    way = "title: Repair now, is: {factor: way, level: cap},"
    asked = {"questions/hole.yaml": QUESTION.replace("title: Repair now,", way), "urgent.yaml": URGENT}
    catalogue = catalogue_of(asked | report("marlow2019", claims, *passages))
    page = question_page(catalogue, catalogue.evidence.questions["hole"], nothing_named)
    assert ("; all ways together" in said(page.blocks)) is is_mixed


def test_what_nobody_knows_of_the_ways_stands_before_their_numbers():
    text = re.sub(
        r"(?m)^answer: .*\n", lambda found: f"{found[0].rstrip()} Whether waiting does better is not known.\n", QUESTION
    )
    assert text != QUESTION
    html = html_of(page_of(text))
    assert html.count("Whether waiting does better is not known.") == 1
    assert html.index('id="ways"') < html.index("Whether waiting does better is not known.") < html.index('class="way"')
    assert html.index('class="way"') < html.index("Most had healed")
