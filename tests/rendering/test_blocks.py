"""Blocks of a page: what stands open, what is one tap away, and who is named once for a whole list."""

from __future__ import annotations

import datetime
import re

import pytest
from passageproof.rendering.blocks import Setting, blocks_html
from passageproof.rendering.inline import Place
from passageproof.rendering.pages import LOOK, _words_first
from passageproof.results.values.document import (
    AdviceList,
    Block,
    Details,
    Entry,
    Facts,
    Paragraph,
    Sheet,
    Table,
    WorkingsSection,
)
from passageproof.results.values.figures import Figure, Working
from passageproof.results.values.line import Line, Link, Span, date, line, typed

IM_AND_TO = line("ratified by ", typed("Ines Marlow, Tam Okafor"), " on ", date(datetime.date(2026, 10, 1)))
NOBODY = line("not yet ratified")
PRACTICE = line("common practice, no source")
STUDY = line(
    "study: ",
    Link("sources/marlow2019/", ("Marlow",)),
    ", more of the small ones healed, when last seen, than of others",
)


def html(*blocks: Block, is_demonstration: bool = True) -> str:
    return blocks_html(blocks, Setting(Place("hole/"), is_demonstration, str))


def entry(words: str, basis: Line = PRACTICE, ratified: Line = IM_AND_TO) -> Entry:
    return Entry(line(words), basis, (), ratified)


@pytest.mark.parametrize("kind", ["stop", "is-it-this", "until-help", "for", "against"])
def test_what_is_read_in_a_hurry_keeps_its_basis_open(kind: str) -> None:
    assert "<details" not in html(AdviceList((entry("Stop."),), kind))


@pytest.mark.parametrize("kind", ["steps", "medical", "call"])
def test_a_short_basis_of_a_step_stands_open(kind: str) -> None:
    assert "<details" not in html(AdviceList((entry("Dry it."),), kind))


@pytest.mark.parametrize("kind", ["steps", "medical", "call"])
def test_a_long_basis_of_a_step_is_one_tap_away_and_its_kind_is_said(kind: str) -> None:
    shown = html(AdviceList((entry("Dry it.", STUDY, NOBODY),), kind))
    assert '<details class="basis"><summary>study · not yet ratified</summary>' in shown
    assert "than of others · not yet ratified</p></details></li>" in shown


def test_a_step_that_rested_on_a_withdrawn_report_says_so_openly() -> None:
    gone = line("the study it rested on was ", date(datetime.date(2022, 6, 30)))
    shown = html(AdviceList((entry("Seal it.", gone),), "steps"))
    assert "<details" not in shown
    assert "the study it rested on was" in shown


@pytest.mark.parametrize("kind", ["stop", "now", "is-it-this", "steps", "medical", "call", "until-help"])
def test_what_most_entries_rest_on_and_who_ratified_them_is_said_once_below(kind: str) -> None:
    shown = html(AdviceList((entry("One."), entry("Two."), entry("Three.", STUDY, NOBODY)), kind))
    said = "Basis: common practice, no source; ratified by Ines Marlow, Tam Okafor on <time"
    assert "</time>; except where noted." in shown
    assert shown.count("Ines Marlow, Tam Okafor") == shown.count("common practice") == shown.count(said) == 1
    assert '<li><p class="do">Two.</p></li>' in shown
    assert shown.count("not yet ratified") > 0
    assert shown.count("invented for demonstration") == 1


def test_what_holds_of_all_entries_is_said_of_all() -> None:
    assert "Basis: common practice, no source; ratified by" in html(AdviceList((entry("One."), entry("Two.")), "stop"))


UNSET = line("local protocol, not set")


def test_an_entry_whose_protocol_is_not_set_is_never_among_those_ratified() -> None:
    shown = html(AdviceList((entry("One."), entry("Two."), entry("Three.", UNSET, line())), "stop"))
    assert "Basis: common practice, no source; ratified by Ines Marlow, Tam Okafor on <time" in shown
    assert "</time>; except where noted." in shown
    assert '<p class="do">Three.</p><p class="basis">local protocol, not set</p>' in shown


def test_where_most_protocols_are_not_set_the_line_below_says_whose_the_marked_entries_are() -> None:
    unset = [entry(words, UNSET, line()) for words in ("One.", "Two.", "Three.")]
    shown = html(AdviceList((*unset, entry("Four."), entry("Five.")), "stop"))
    assert "A line with another basis is ratified by Ines Marlow, Tam Okafor on <time" in shown
    shown = html(AdviceList((*unset, entry("Four."), entry("Five."), entry("Six.", PRACTICE, NOBODY)), "stop"))
    assert "</time> or says otherwise." in shown
    assert "Basis: local protocol, not set; the lines hold until it is. <" in html(AdviceList(tuple(unset), "medical"))


def test_where_nobody_ratified_anything_an_unset_protocol_is_no_exception() -> None:
    shown = html(
        AdviceList(
            (entry("One.", ratified=NOBODY), entry("Two.", ratified=NOBODY), entry("Three.", UNSET, line())), "stop"
        )
    )
    assert "All: not yet ratified." in shown


def test_what_speaks_for_a_way_keeps_its_basis_beside_every_entry() -> None:
    shown = html(AdviceList((entry("One."), entry("Two.")), "for"))
    assert shown.count("common practice, no source · ratified by") == 2


def test_a_line_of_the_first_screens_has_the_kind_of_its_basis_and_opens_the_whole_of_it() -> None:
    listed = AdviceList((entry("One.", STUDY), entry("Two."), entry("Three.")), "stop", shown=2, rest="more not to do")
    first, _, rest = html(listed, is_demonstration=False).partition('<details class="rest">')
    closed, _, behind = first.partition("</summary>")
    assert '<details><summary><span class="do">One.</span> <span class="basis">study</span>' in closed
    assert "Marlow" in behind
    assert '<li><p class="do">Two.</p></li>' in behind
    assert rest.startswith("<summary>One more not to do</summary>")
    assert "Three." in rest
    # What stands open is not said again where the rest are.
    assert "One." not in rest
    assert "Two." not in rest


@pytest.mark.parametrize("there", [0, 1, 4])
def test_what_opens_the_rest_of_a_list_says_how_many_they_are(there: int) -> None:
    entries = tuple(entry(f"Line {name}.") for name in "abcdefg"[: there + 3])
    shown = html(AdviceList(entries, "stop", shown=3, rest="more not to do"))
    said = {0: "", 1: "One more not to do", 4: "Four more not to do"}[there]
    assert re.findall(r"<summary>(.*?)</summary>", shown) == ([said] if said else [])


def test_a_line_with_a_link_is_nothing_that_one_taps_to_open() -> None:
    listed = AdviceList(
        (entry("See ", STUDY)._replace(words=line("See ", Link("urgent/", ("the page",)))),), "stop", shown=1
    )
    shown = html(listed)
    assert "<summary>See" not in shown
    assert '<p class="do">See <a' in shown


def test_a_withdrawn_basis_is_said_on_the_first_screens_too() -> None:
    gone = line("the study it rested on was ", date(datetime.date(2022, 6, 30)))
    assert "the study it rested on was" in html(AdviceList((entry("One.", gone),), "stop", shown=4))


def test_a_sheet_and_a_way_carry_the_mark_of_the_demonstration_once() -> None:
    lists = AdviceList((entry("One."),), "for"), AdviceList((entry("Two."),), "against")
    assert html(Details("Repair now", lists, "way")).count("invented for demonstration") == 1
    assert html(Sheet("A card", "tray", lists)).count("invented for demonstration") == 1


def test_who_ratified_a_single_entry_is_named_beside_it() -> None:
    shown = html(AdviceList((entry("One."), entry("Two.", ratified=NOBODY)), "stop"))
    assert "Where no name stands" not in shown
    assert "ratified by Ines Marlow, Tam Okafor" in shown


def test_a_way_to_go_on_is_a_heading_that_opens() -> None:
    shown = html(Details("Repair now", (Paragraph(line("Speaks for it")),), "way", anchor="way-repair"))
    assert '<details class="way" id="way-repair"><summary><h2>Repair now</h2></summary>' in shown


@pytest.mark.parametrize(
    ("kind", "is_marked"),
    [("before", True), ("chair", True), ("afterwards", True), ("tray", False), ("recall", False)],
)
def test_sheets_for_patients_alone_are_marked_not_for_use(kind: str, is_marked: bool) -> None:
    sheet = Sheet("A sheet", kind, (Paragraph(line("text")),))
    assert ("not for use with a patient" in html(sheet)) is is_marked
    assert "not for use with a patient" not in html(sheet, is_demonstration=False)


def working(name: str, count: int = 0) -> Working:
    inputs = tuple(Figure(f"hole/{number}", str(number), str(number), "study", None) for number in range(count))
    return Working(name, f"Workings of {name}", inputs, "a / b", "", "", ())


def test_a_term_that_is_looked_up_by_itself_has_an_address() -> None:
    facts = Facts((((Span("code", ("events",)),), ("how many",)), (("total",), ("of how many",))), "", ("a", "b"))
    assert '<dt id="a"><code>events</code></dt><dd>how many</dd>' in html(facts)
    assert '<dt id="b">total</dt>' in html(facts)


def test_where_the_methods_were_published_stands_once_where_the_page_says_so() -> None:
    one = html(WorkingsSection((working("a"),)))
    named = html(WorkingsSection((working("a"), working("b")), names_methods=True))
    assert "methods/" not in one
    assert named.count('href="../methods/"') == 1


def test_neighbours_that_say_the_same_stand_as_one_cell_under_both_names() -> None:
    row = (line("A"), line("not known"), line("not known"), line("one visit"))
    table = Table(line("Ways"), tuple(line(name) for name in ("Way", "Healed", "Kept", "Visits")), (row,), "Ways")
    apart = html(table)
    assert apart.count("not known") == 2
    assert "colspan" not in apart
    together = html(table._replace(joins=True))
    assert '<td colspan="2" data-column="Healed, Kept">not known</td>' in together
    assert '<td data-column="Visits">one visit</td>' in together


def test_neighbours_with_a_number_are_never_joined() -> None:
    number = Figure("x/all/events", "39", "39", "tooth", None)
    row = (line("A"), line(number), line(number))
    table = Table(line("Ways"), tuple(line(name) for name in ("Way", "Healed", "Kept")), (row,), "Ways", joins=True)
    assert "colspan" not in html(table)


def test_many_numbers_of_several_workings_are_listed_once() -> None:
    shown = html(WorkingsSection((working("a", 9), working("b", 9), working("c", 10))))
    assert shown.count('data-figure="hole/8"') == 2
    assert 'the same numbers as <a href="#workings-a">Workings of a</a>' in shown


def test_few_numbers_are_listed_again() -> None:
    shown = html(WorkingsSection((working("a", 2), working("b", 2))))
    assert shown.count('data-figure="hole/1"') == 2


def test_the_look_is_asked_for_behind_the_first_screen_and_between_blocks() -> None:
    body = "\n".join(f"<p>{'word ' * 60}{number}</p>" for number in range(12)) + "\n"
    before, after = _words_first(body).split(LOOK)
    assert before + after == body
    assert before.endswith("</p>\n")
    assert 1500 <= len(before) < 1900


def test_a_short_page_has_its_look_in_the_head() -> None:
    assert LOOK not in _words_first("<p>short</p>\n")


def table_of(*rows: tuple[Line, ...]) -> Table:
    header = (line("Report"), line("Which way"), line("Groups differed in"))
    return Table(line("One row a study"), header, rows, "Which way")


def test_what_every_row_of_a_table_says_is_said_once_above_it() -> None:
    ways = ("fewer", "more", "fewer still")
    text = html(
        table_of(*((line(name), line(way), line("not reported")) for name, way in zip("ABC", ways, strict=True)))
    )
    assert "<caption>One row a study<span" in text
    assert "In each row: Groups differed in: not reported</span>" in text
    assert text.count("not reported") == 1
    assert text.count('<th scope="col">') == 2
    assert text.count("<td ") == 3


def test_two_rows_that_say_the_same_keep_it_and_so_does_a_table_of_nothing_else() -> None:
    few = html(table_of(*((line(name), line("fewer"), line("not reported")) for name in "AB")))
    assert few.count("not reported") == 2
    alike = html(table_of(*((line(name), line("fewer"), line("not reported")) for name in "ABC")))
    assert alike.count("not reported") == 3


def test_a_number_stays_in_its_row_though_every_row_has_it() -> None:
    figure = Figure("key/claim/total", "47", "47", "tooth", None, workings="x")
    text = html(table_of(*((line(name), line(way), (figure,)) for name, way in (("A", "a"), ("B", "b"), ("C", "c")))))
    assert text.count(">47<") == 3


@pytest.mark.parametrize("kind", ["stop", "now", "is-it-this", "steps", "medical", "call", "until-help"])
@pytest.mark.parametrize("basis", [PRACTICE, UNSET])
def test_what_a_list_rests_on_never_reads_as_if_its_lines_were_a_matter_of_choice(kind: str, basis: Line) -> None:
    people = line() if basis == UNSET else entry("").ratified
    entries = tuple(entry(words, basis, people) for words in ("One.", "Two.", "Three."))
    shown = html(AdviceList((*entries, entry("Four.", STUDY)), kind))
    said = shown.rpartition('<p class="basis">')[2]
    # It begins with what holds; what is otherwise comes after it.
    assert said.startswith("Basis: ")
    assert not re.search(r"(?i)unless|marked|optional", said)
