"""A sentence of faculty prints its count alone; what that counts stands below it, in order and in plain speech."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from demo import demo_built, demo_evidence
from guide.cohorts import by_size, catalogue, cohort, last_seen, ratio
from guide.compendium import html_of, nothing_named, report
from passageproof.build import Built
from passageproof.guide.about.long_sentences import NUMBERS_AT_MOST, WORDS_AT_MOST, long_sentences
from passageproof.guide.named_results import named_result
from passageproof.guide.question.patient_page import patient_page
from passageproof.guide.question.question_page import question_page
from passageproof.guide.sentences.prose import prose
from passageproof.results.findings.findings import Catalogue
from passageproof.results.values.document import Paragraph, walk
from passageproof.results.values.figures import Figure
from passageproof.results.values.line import Line, Span, above_and_below, plain_text

ROOT = Path(__file__).parents[3]
ARDEN = cohort("arden2011", 60, 72, more=", success_rate: 83%")
ARDEN["sources/arden2011.bib"] = ARDEN["sources/arden2011.bib"].replace("72 teeth", "72 teeth (83%)")
BEXLEY = cohort("bexley2012", 50, 58)
SIZE = by_size("corwen2013", (14, 25), (60, 69))


def told(text: str, *files: dict[str, str]) -> tuple[str, list[str]]:
    """The sentence, and the lines below it."""
    said, below = above_and_below(prose(text, catalogue(*files), nothing_named))
    return plain_text(said), [plain_text(part.line) for part in below if isinstance(part, Span)]


def test_a_sentence_reads_as_one_says_it_and_the_line_below_says_the_rest() -> None:
    said, below = told("$arden2011/all healed.", ARDEN)
    assert said == "60 of 72 (83%) healed."
    assert below == [
        "60 of 72 teeth (95% CI 73% to 90%, computed; how many were due is not reported): healed (stricter definition), "
        "24 months after repair, give or take 6 months; Arden 2011"
    ]


def test_those_seen_of_those_due_stand_below_a_sentence_and_never_in_it() -> None:
    said, below = told("$arden2011/all healed.", cohort("arden2011", 60, 72, flow=(90, 72)))
    assert said == "60 of 72 healed."
    assert below[0].startswith("60 of 72 teeth (95% CI 73% to 90%, computed; 72 of 90 due were seen): healed")
    # A rate that does not rest on all who were examined has no such share.
    _, below = told("$arden2011/all healed.", cohort("arden2011", 60, 72, flow=(90, 80)))
    assert "due were seen" not in below[0]
    # Whoever is known to have done badly without being examined is no part of the rate, and is named.
    flow = ", flow: {due: 90, examined: 72, lost: 12, extracted_related: 6, where: 'p. 4'}"
    left = cohort("arden2011", 60, 72, more=flow)
    left["sources/arden2011.bib"] = left["sources/arden2011.bib"].replace(
        "[p. 3]", "[p. 4] 90 due, 72 examined, 12 lost, 6 extracted for the treated root\n    [p. 3]"
    )
    _, below = told("$arden2011/all healed.", left)
    assert "; 72 of 90 due were seen; 6 of the others were extracted for the treated root): healed" in below[0]
    # Of a level nobody counts who was due for it.
    _, below = told("$corwen2013/by-size/over-3-mm", SIZE)
    assert "due" not in below[0]


def test_no_bracket_stands_in_a_bracket() -> None:
    assert told("Most healed ($arden2011/all).", ARDEN)[0] == "Most healed (60 of 72, 83%)."
    said, _ = told("Fewer (over 3 mm: $corwen2013/by-size/over-3-mm; all: $arden2011/all) of them.", SIZE, ARDEN)
    assert said == "Fewer (over 3 mm: 14 of 25; all: 60 of 72, 83%; other patients) of them."


def test_several_numbers_keep_their_order_and_what_they_share_is_said_once() -> None:
    said, below = told("Most healed ($bexley2012/all). So did others ($arden2011/all).", ARDEN, BEXLEY)
    assert said == "Most healed (50 of 58). So did others (60 of 72, 83%)."
    assert [line.split()[0] for line in below] == ["50", "60"]
    assert below[1].endswith("computed; how many were due is not reported): counted and timed alike; Arden 2011")


def test_what_was_timed_otherwise_says_so() -> None:
    later = cohort("dunmore2014", 40, 50, time=last_seen())
    _, below = told("$arden2011/all and, in other patients, $dunmore2014/all.", ARDEN, later)
    assert "healed (stricter definition), when last seen, 12 to 60 months after repair" in below[1]


def test_levels_of_one_claim_share_a_line_that_says_how_sure() -> None:
    said, below = told("Wide ones ($corwen2013/by-size/over-3-mm), narrow ones ($corwen2013/by-size/up-to-3-mm).", SIZE)
    assert said == "Wide ones (14 of 25), narrow ones (60 of 69)."
    assert len(below) == 1
    # Newcombe 1998, Stat Med 17:873-890, method 10, recomputed from the counts: -0.508 to -0.110
    assert below[0].startswith(
        "over 3 mm (25 teeth) against up to 3 mm (69): 31 points fewer (11 to 51 fewer): healed (stricter "
    )
    assert below[0].endswith("; certainty: not judged yet; Corwen 2013")


def test_a_claim_with_levels_names_each_in_the_sentence() -> None:
    assert told("Wide ones less often ($corwen2013/by-size).", SIZE)[0] == (
        "Wide ones less often (up to 3 mm: 60 of 69; over 3 mm: 14 of 25)."
    )


def stayed(kind: str, at_risk: int, outcome: str = "healed") -> dict[str, str]:
    rows = ((5, 71, 40), (9, 43, at_risk)) if kind == "survival" else ((5, 29, 40), (9, 57, at_risk))
    claim = "\n".join(
        f"- {{id: at-{years}, question: hole, outcome: {outcome}, follow_up: not applicable, where: 'p. {years}', "
        f"estimate: {{kind: {kind}, at: {years} years, value: {value}%, interval: {value - 9}% to {value + 9}%, "
        f"starting: 85, at_risk: {risk}, from: healing}}}}"
        for years, value, risk in rows
    )
    passages = [
        f"[p. {years}] 85 teeth at the start; {value}% at {years} years (95% CI {value - 9} to {value + 9}), {risk} at risk"
        for years, value, risk in rows
    ]
    return report("elgin2015", claim, *passages)


def test_a_share_at_a_time_is_said_in_the_words_of_the_sentence_and_never_without_what_it_counts() -> None:
    said, below = told(
        "After $elgin2015/at-5/estimate/at $elgin2015/at-5/estimate/value were still healed.", stayed("survival", 20)
    )
    assert said == "After 5 years 71% were still healed."
    assert below == [
        "71% still so 5 years after healing (95% CI 62% to 80%); 85 teeth at the start, 40 still followed then: healed (stricter "
        "definition); Elgin 2015"
    ]


def test_shares_at_several_times_share_a_line() -> None:
    text = "$elgin2015/at-5/estimate/value, then $elgin2015/at-9/estimate/value."
    said, below = told(text, stayed("survival", 9))
    assert said == "71%, then 43% (fewer than ten still followed)."
    assert len(below) == 1
    assert (
        "; 43% still so 9 years after healing (95% CI 34% to 52%); 85 teeth at the start, 9 still followed then: healed"
        in below[0]
    )
    assert told(f"As found ({text[:-1]}).", stayed("survival", 9))[0] == (
        "As found (71%, then 43%, fewer than ten still followed)."
    )


@pytest.mark.parametrize(
    ("kind", "outcome", "shown"),
    [
        ("survival", "healed", "healed: 71% still so after 5 years"),
        ("survival", "lost", "healing lost: 71% still without it after 5 years"),
        ("cumulative incidence", "lost", "healing lost: 29% within 5 years"),
    ],
)
def test_a_share_that_the_sentence_does_not_name_says_what_it_is_of(kind: str, outcome: str, shown: str) -> None:
    # "A part was lost again (71%)" would read as 71% lost.
    assert told("A part was lost again ($elgin2015/at-5).", stayed(kind, 20, outcome))[0] == (
        f"A part was lost again ({shown})."
    )


def test_a_ratio_says_below_its_interval_and_what_it_was_adjusted_for() -> None:
    files = ratio(
        "farley2016",
        "hazard ratio",
        "reversal, bad",
        "2.9",
        more=", interval: 1.2 to 7.1",
        printed=" (95% CI 1.2 to 7.1)",
    )
    said, below = told("More were lost ($farley2016/ratio).", files)
    assert said == "More were lost (hazard ratio 2.9 for reversal, over 3 mm against up to 3 mm)."
    assert below[0].startswith("hazard ratio 2.9 (95% CI 1.2 to 7.1) for reversal (a bad event), over 3 mm against")
    assert "crude" in below[0]


def test_a_withdrawn_report_leaves_nothing_below() -> None:
    status = {"status.yaml": "arden2011: {state: retracted, on: 2026-10-20, by: hand}\n"}
    assert told("Most healed ($arden2011/all).", ARDEN | status) == ("Most healed (withdrawn, 2026-10-20).", [])


def test_which_units_a_number_speaks_of_stands_below_it() -> None:
    of_some = cohort("gower2017", 39, 47, more=", given: teeth still in the mouth")
    assert "; of teeth still in the mouth; Gower 2017" in told("Most healed ($gower2017/all).", of_some)[1][0]


def test_a_number_in_the_words_for_a_patient_says_how_sure_it_is_even_where_nobody_judged() -> None:
    question = "id: hole\ntitle: There is a hole\npatient: {chair: [Most such teeth healed ($arden2011/all).]}\n"
    made = catalogue(ARDEN, question=question)
    html = html_of(patient_page(made, made.evidence.questions["hole"], nothing_named))
    found = re.search(r'<ul class="say">\s*<li>(.*?)</li>', html, re.DOTALL)
    assert found is not None
    words = " ".join(re.sub(r"<[^>]+>", "", found[1]).split())
    assert words.startswith(
        "Most such teeth healed (60 of 72, 83%). 60 of 72 teeth (95% CI 73% to 90%, computed; how many were due is not reported)"
    )
    assert words.endswith("; certainty: not judged yet; Arden 2011")


def test_a_computed_result_in_a_bracket_opens_no_other() -> None:
    made = catalogue(ARDEN)
    whole = prose("Most healed ($hole/overall/rate).", made, lambda text: named_result(made, text))
    said, below = above_and_below(whole)
    assert plain_text(said) == "Most healed (60 of 72, 83% healed)."
    assert plain_text(below).startswith(
        "60 of 72 teeth (95% CI 73% to 90%, computed; how many were due is not reported): healed (stricter definition)"
    )


def page_of(answer: str, *files: dict[str, str]) -> str:
    made = catalogue(*files, question=f"id: hole\ntitle: There is a hole\nanswer: {answer}\n")
    return html_of(question_page(made, made.evidence.questions["hole"], nothing_named))


def test_sentence_mark_and_line_below_are_one_paragraph() -> None:
    html = page_of("Most healed ($arden2011/all).", ARDEN)
    found = re.search(r'<p class="answer">(.*?)</p>', html, re.DOTALL)
    assert found is not None
    sentence, mark, below = found[1].partition(' <span class="invented">invented for demonstration</span>')
    assert "60</data> of" in sentence
    assert mark
    assert re.fullmatch(r" <small>.*Arden 2011</a></small>", below)
    # Its figures are tapped like any other: the count leads to its passage, the interval to its workings.
    assert '<a href="../sources/arden2011/#p-3">' in below
    assert 'href="#workings-hole-told-arden2011-all"' in below


@pytest.fixture(scope="module")
def demo() -> Built:
    return demo_built()


def answers(demo: Built) -> list[tuple[str, Line]]:
    assert demo.guide is not None
    addresses = ("", "root-perforation/", "exposed-pulp/", "broken-instrument/")
    return [
        (address, part.line)
        for address in addresses
        for part in walk(demo.guide.pages[address].blocks)
        if isinstance(part, Paragraph) and part.kind == "answer"
    ]


def test_no_percentage_of_an_answer_stands_without_what_it_counts(demo: Built) -> None:
    found = answers(demo)
    assert len(found) == 6
    for address, whole in found:
        said, below = above_and_below(whole)
        named = {item.id.rpartition("/")[0] for item in walk(said) if isinstance(item, Figure) and item.unit == "%"}
        counted = {item.id.rpartition("/")[0] for item in walk(below) if isinstance(item, Figure)}
        assert named, address
        assert named <= counted, address


def test_an_answer_of_the_demo_has_two_numbers_at_most_and_says_how_sure_each_is(demo: Built) -> None:
    # What faculty judged leads; a number that nobody judged says so beside it.
    for address, whole in answers(demo):
        said, below = above_and_below(whole)
        told = plain_text(below)
        figures = [item for item in walk(said) if isinstance(item, Figure) and item.unit == "%"]
        assert 1 <= len(figures) <= 2, address
        assert told.count("certainty: ") == len(figures), (address, told)
        assert "not judged yet" not in told.split("certainty: ")[1], (address, told)
        # Neither a cause nor one result told as a comparison.
        assert not re.search(r"\bcosts\b|\bcauses?\b|\bwhether the fragment stayed", plain_text(said)), address


def test_no_answer_of_the_demo_is_long_to_hear_or_speaks_the_words_of_the_file(demo: Built) -> None:
    for address, whole in answers(demo):
        said, _ = above_and_below(whole)
        text = plain_text(said)
        assert len(text.split()) <= WORDS_AT_MOST, (address, text)
        assert len(plain_text(whole).split()) <= 125, address
        assert not re.search(r"\([^)]*\(", text), address
        assert not re.search(r"\bstrict\b|\blenient\b|\(within|lesion came back|, at \d", plain_text(whole)), address


LONG = "Most healed " + "and so on " * 14 + "to the end."
MANY = "Wide $corwen2013/by-size/over-3-mm, narrow $corwen2013/by-size/up-to-3-mm, all $arden2011/all."


@pytest.mark.parametrize(
    ("answer", "is_long", "has_many"),
    [(LONG, True, False), (MANY, False, True), ("Most healed ($arden2011/all). Short.", False, False)],
    ids=["words", "numbers", "neither"],
)
def test_sentences_over_forty_words_or_two_numbers_are_found(answer: str, is_long: bool, has_many: bool) -> None:
    made = catalogue(ARDEN, SIZE, question=f"id: hole\ntitle: There is a hole\nanswer: {answer}\n")
    found = list(long_sentences(made, nothing_named))
    assert [(item.place, item.is_long, item.has_many) for item in found] == (
        [("answer", is_long, has_many)] if is_long or has_many else []
    )


def test_a_share_with_its_time_is_one_number() -> None:
    text = "$elgin2015/at-5/estimate/value after $elgin2015/at-5/estimate/at, $elgin2015/at-9/estimate/value later."
    made = catalogue(stayed("survival", 20), question=f"id: hole\ntitle: There is a hole\nanswer: {text}\n")
    assert NUMBERS_AT_MOST == 2
    assert not list(long_sentences(made, nothing_named))


def test_no_sentence_of_the_demo_is_long_to_hear(demo: Built) -> None:
    from passageproof.audit.whole import audit

    evidence = demo_evidence()
    made = Catalogue(evidence, audit(evidence))
    found = list(long_sentences(made, lambda text: named_result(made, text)))
    assert [(item.question.id, item.place, plain_text(above_and_below(item.line)[0])) for item in found] == []
