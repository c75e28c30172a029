"""Side and clearness of a comparison told apart, in the event's own words, on every page that compares."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from demo import demo_built
from guide.cohorts import at, by_size, catalogue, ratio
from guide.compendium import nothing_named, report, said
from passageproof.guide.factor.factor_page import factor_page
from passageproof.guide.question.conference_page import conference_page
from passageproof.guide.question.patient_beside import levels_apart
from passageproof.guide.question.question_page import question_page
from passageproof.guide.sections.one_study import which_way
from passageproof.results.findings.direction import sides_of
from passageproof.results.findings.findings import Catalogue
from passageproof.results.values.document import walk
from passageproof.results.values.line import Span

ROOT = Path(__file__).parents[3]
QUESTION = "id: hole\ntitle: There is a hole\nsituation: [{factor: size, ask: How wide?}]\nfactors: [size]\n"


def told(*files: dict[str, str]) -> str:
    """What the one study of these files says of holes over 3 mm."""
    made = catalogue(*files)
    (side,) = [side for side in sides_of(made, "hole", "size") if side.finding.level_ids]
    return said(which_way(side, "hole/size"))


def pages(made: Catalogue) -> dict[str, str]:
    question = made.evidence.questions["hole"]
    return {
        "situation": said(question_page(made, question, nothing_named)),
        "factor": said(factor_page(made, question, "size", nothing_named)),
        "conference": said(conference_page(made, question, nothing_named)),
    }


@pytest.mark.parametrize(
    ("large", "small", "words"),
    [
        # Limits of the difference by Newcombe 1998, method 10; each recomputed with statsmodels (method="newcomb").
        ((14, 25), (60, 69), "fewer healed, more than chance alone usually gives (11 to 51 points fewer)"),
        ((33, 37), (36, 38), "fewer healed; too few to tell (20 points fewer to 8 more)"),
        ((33, 41), (64, 79), "fewer healed; too few to tell (17 points fewer to 13 more)"),
        ((16, 16), (31, 36), "more healed; too few to tell (7 points fewer to 29 more)"),
        ((45, 50), (45, 50), "no clear difference (13 points fewer to 13 more)"),
    ],
)
def test_one_study_tells_its_side_and_how_clear_it_is(large, small, words) -> None:
    assert told(by_size("arden2011", large, small)) == words


def test_a_bad_event_is_told_in_its_own_words() -> None:
    assert told(by_size("arden2011", (9, 20), (4, 40), outcome="lost")).startswith("healing lost more often, more than")


@pytest.mark.parametrize(
    ("measure", "event", "value", "interval", "words"),
    [
        ("odds ratio", "healed, good", "0.55", "0.25 to 1.21", "fewer healed; too few to tell"),
        ("odds ratio", "healed, good", "0.38", "0.15 to 0.99", "fewer healed, more than chance alone usually gives"),
        (
            "hazard ratio",
            "reversal, bad",
            "2.6",
            "1.1 to 6.0",
            "reversal more often, more than chance alone usually gives",
        ),
        ("odds ratio", "not healed, bad", "1.4", "0.60 to 3.3", "more not healed; too few to tell"),
    ],
)
def test_a_ratio_is_as_clear_as_its_printed_interval(measure, event, value, interval, words) -> None:
    more, printed = f", interval: {interval}", f" (95% CI {interval})"
    assert told(ratio("arden2011", measure, event, value, more=more, printed=printed)) == words


def test_an_interval_of_another_level_decides_nothing() -> None:
    more, printed = ", interval: 0.15 to 0.99, confidence: 90%", " (90% CI 0.15 to 0.99)"
    found = told(ratio("arden2011", "odds ratio", "healed, good", "0.38", more=more, printed=printed))
    assert found == "fewer healed; this decides nothing: its interval is of another level"


def test_a_ratio_without_its_interval_decides_nothing() -> None:
    found = told(ratio("arden2011", "odds ratio", "healed, good", "0.38"))
    assert found == "fewer healed; this decides nothing: its interval is not reported"


def test_a_cut_chosen_from_the_data_decides_nothing() -> None:
    found = told(by_size("arden2011", (21, 35), (92, 99), more="  cut: chosen from the data\n"))
    assert found.startswith("fewer healed (")
    assert found.endswith("; this decides nothing: the cut was chosen from the data")


def with_unit(files: dict[str, str], unit: str, more: str = "") -> dict[str, str]:
    """The same report, whose study counts something else. more: further facts of the study."""
    return {
        name: text.replace("unit: tooth", f"unit: {unit}{more}").replace("residents, one", "9 patients; residents, one")
        if more and name.endswith(".yaml")
        else text.replace("unit: tooth", f"unit: {unit}").replace("[p. 1, Methods]", "[p. 1, Methods] 9 patients;")
        for name, text in files.items()
    }


def test_several_teeth_of_a_patient_without_their_number_decide_nothing() -> None:
    files = by_size("arden2011", (14, 25), (60, 69))
    each = "{unit: tooth, per: patient, rule: each}"
    found = told(with_unit(files, each))
    assert "this decides nothing: several teeth of one patient were counted" in found
    numbered = with_unit(files, each, "\n    patients: {treated: 9}")
    assert told(numbered).startswith("fewer healed, more than chance alone usually gives")


@pytest.mark.parametrize(
    ("unit", "more", "decides"),
    [
        ("{unit: tooth, per: patient}", "", False),
        ("{unit: tooth, per: patient}", "\n    patients: {treated: 9}", True),
        ("{unit: tooth, per: patient, rule: worst}", "", True),
        ("tooth", "\n    patients: {treated: not reported}", False),
        ("tooth", "", True),
    ],
    ids=["no rule", "no rule but their number", "one of each", "their number not reported", "silent"],
)
def test_whether_several_teeth_of_a_patient_decide(unit: str, more: str, decides: bool) -> None:
    found = told(with_unit(by_size("arden2011", (14, 25), (60, 69)), unit, more))
    assert found.startswith("fewer healed, more than chance alone usually gives") is decides
    assert ("this decides nothing: several teeth of one patient were counted" in found) is not decides


def test_a_page_says_what_it_takes_for_granted_where_reports_are_silent_about_patients() -> None:
    reports = [by_size("arden2011", (14, 25), (60, 69)), by_size("bexley2012", (40, 58), (40, 51))]
    told_numbers = [with_unit(files, "tooth", "\n    patients: {treated: 9}") for files in reports]
    said_once = "Where a report does not say of how many patients its teeth were, each tooth counts as a patient's own;"
    silent = pages(catalogue(*reports, question=QUESTION))
    assert [silent[name].count(said_once) for name in ("situation", "factor", "conference")] == [1, 1, 1]
    assert said_once not in pages(catalogue(*told_numbers, question=QUESTION))["factor"]


def test_words_only_decide_nothing() -> None:
    claim = """
    - id: words
      question: hole
      factor: size
      known_at: before
      outcome: healed
      reference: up to 3 mm
      levels: [{level: over 3 mm, direction: worse, stated: words only}]
      where: p. 5
      follow_up: not reported
    """
    found = told(report("arden2011", claim, "[p. 5] over 3 mm did worse than up to 3 mm"))
    assert found == "fewer healed, in words only, which decides nothing"


def test_every_page_that_compares_tells_both_and_no_page_a_bold_side() -> None:
    made = catalogue(by_size("arden2011", (33, 41), (64, 79)), question=QUESTION)
    for name, text in pages(made).items():
        assert "fewer healed; too few to tell (17 points fewer to 13 more)" in text, name
        assert not re.search(r"did (worse|better)|For the patient: (worse|better)", text), name
    shown = question_page(made, made.evidence.questions["hole"], nothing_named)
    bold = [said(item.line) for item in walk(shown.blocks) if isinstance(item, Span) and item.kind == "strong"]
    assert bold
    assert not [text for text in bold if re.search("worse|better|fewer|more", text)]


def test_both_counts_stand_beside_the_side() -> None:
    made = catalogue(by_size("arden2011", (33, 41), (64, 79)), question=QUESTION)
    for name, text in pages(made).items():
        assert "33 of 41 teeth" in text, name
        assert "64 of 79 teeth" in text, name


def test_limits_are_computed_figures_with_the_counts_they_come_from() -> None:
    made = catalogue(by_size("arden2011", (33, 41), (64, 79)), question=QUESTION)
    question_page(made, made.evidence.questions["hole"], nothing_named)
    low = made.book.get("hole/size/arden2011-by-size-over-3-mm-from")
    assert low is not None
    assert (low.text, low.unit, low.is_quoted) == ("17", "risk difference", False)
    assert low.derived_from == (
        "arden2011/by-size/over-3-mm/events", "arden2011/by-size/over-3-mm/total",
        "arden2011/by-size/up-to-3-mm/events", "arden2011/by-size/up-to-3-mm/total",
    )  # fmt: skip
    assert "√((p1 - l1)² + (u0 - p0)²)" in made.book.working(low.workings).formula


def test_the_counts_of_sides_stay_in_the_data() -> None:
    made = catalogue(by_size("arden2011", (33, 41), (64, 79)), question=QUESTION)
    factor_page(made, made.evidence.questions["hole"], "size", nothing_named)
    figure = made.book.get("hole/size/worse-large-healed")
    assert figure is not None
    assert figure.value == "1"


FOUR = (((33, 41), (64, 79)), ((14, 25), (60, 69)), ((13, 20), (47, 52)), ((31, 36), (16, 16)))


def test_several_studies_are_told_by_side_then_by_how_many_are_clear() -> None:
    made = catalogue(*(by_size(f"arden{2011 + n}", *pair) for n, pair in enumerate(FOUR)), question=QUESTION)
    text = pages(made)["situation"]
    assert (
        "healed: fewer healed in 4 of 4 studies that state a side; 2 of them clear by themselves, by more than chance "
        "alone usually gives (a small true difference is often not clear in a small study)."
    ) in text


def test_the_typical_study_comes_first_where_it_is_earned() -> None:
    pairs = (*FOUR, ((12, 17), (43, 49)))
    made = catalogue(*(by_size(f"arden{2011 + n}", *pair) for n, pair in enumerate(pairs)), question=QUESTION)
    for name in ("situation", "factor"):
        found = re.search(
            r"healed(?:\))?: [^.]*the typical study, crude: odds ratio 0\.\d+ \(95% CI", pages(made)[name]
        )
        assert found is not None or "By study: the typical study, crude: odds ratio" in pages(made)[name]
        assert re.search(r"the typical study, crude: [^;]*, 5 studies; fewer healed in 5 of 5", pages(made)[name])


def test_of_a_study_with_counts_and_an_adjusted_ratio_the_page_says_which_counts() -> None:
    own = by_size("arden2011", (14, 25), (60, 69))
    both = ratio("bexley2012", "odds ratio", "healed, good", "0.4", adjusted="[age]", more=", interval: 0.2 to 0.9",
                 printed=" (95% CI 0.2 to 0.9), adjusted for age", study="arden2011", described=False)  # fmt: skip
    made = catalogue(own, both, by_size("cavendell2013", (13, 20), (47, 52)), question=QUESTION)
    assert "counted by its adjusted ratio and not by its counts: Bexley 2012" in pages(made)["situation"]
    # Two numbers of one study are one comparison: Cochrane Handbook, section 6.2.4 (from memory), a unit counted once.
    for name in ("situation", "factor", "conference"):
        assert "On this page, with an interval: 2; clear by themselves: 2." in pages(made)[name], name


def test_a_page_says_once_how_many_comparisons_it_holds_and_how_many_look_clear_by_chance() -> None:
    made = catalogue(*(by_size(f"arden{2011 + n}", *pair) for n, pair in enumerate(FOUR)), question=QUESTION)
    said_once = (
        "A comparison is two groups, one ending and one study. On this page, with an interval: 4; clear by themselves: 2. "
        "Were nothing to differ, "
    )
    for name in ("situation", "factor", "conference"):
        text = pages(made)[name]
        assert text.count(said_once) == 1, name
        assert "chance alone would still make one in twenty look clear: of so many fewer than one." in text


def test_pages_with_the_same_comparisons_take_their_number_from_the_page_of_the_question() -> None:
    made = catalogue(*(by_size(f"arden{2011 + n}", *pair) for n, pair in enumerate(FOUR)), question=QUESTION)
    pages(made)
    figures = {name: made.book.get(f"hole/{name}") for name in (
        "overall/comparisons", "size/comparisons", "overall/comparisons-all-studies", "size/comparisons-clear",
    )}  # fmt: skip
    derived = {name: figure.derived_from for name, figure in figures.items() if figure is not None}
    assert len(derived.pop("overall/comparisons")) == 4 * len(FOUR)
    assert derived == {
        "size/comparisons": ("hole/overall/comparisons",),
        "overall/comparisons-all-studies": ("hole/overall/comparisons",),
        "size/comparisons-clear": ("hole/size/comparisons",),
    }


def test_so_many_by_chance_is_a_twentieth_rounded() -> None:
    many = [by_size(f"arden{2000 + n}", (33, 41), (64, 79)) for n in range(10)]
    text = pages(catalogue(*many, *(by_size("arden2011", (3, 4), (3, 4)),), question=QUESTION))["factor"]
    assert "On this page, with an interval: 11; clear by themselves: 0." in text
    assert "of so many about 1." in text


SILENT = """
- id: by-size
  question: hole
  factor: size
  known_at: before
  outcome: healed
  reference: up to 3 mm
  levels: [{level: over 3 mm, direction: not stated, stated: words only}]
  where: p. 9
  follow_up: not reported
"""


def test_the_only_study_that_states_a_side_is_no_fraction() -> None:
    silent = report("bexley2012", SILENT, "[p. 9] size was no matter for over 3 mm and up to 3 mm", study="bexley2012")
    made = catalogue(by_size("arden2011", (14, 25), (60, 69)), silent, question=QUESTION)
    for name, text in pages(made).items():
        assert "of 1 stud" not in text, name
    assert "fewer healed in 1 study that states a side; " in pages(made)["situation"]


def test_the_demo_makes_no_fraction_of_one_study() -> None:
    for address, text in demo_pages({"question", "factor", "conference", "patient", "over-time", "front"}).items():
        assert "of 1 stud" not in text, address


def demo_pages(kinds: set[str]) -> dict[str, str]:
    built = demo_built()
    assert built.guide is not None
    return {page.address: said(page) for page in built.guide.pages if page.kind in kinds}


def test_the_demo_tells_no_side_as_if_it_were_clear() -> None:
    shown = demo_pages({"question", "factor", "conference", "source", "patient", "over-time"})
    for address, text in shown.items():
        if address.startswith("sources/"):
            # Its passages are the paper's own words.
            text = text.partition("What was drawn from it")[2]
        assert not re.search(r"did (worse|better)\b(?! in)", text), address
    perforation = shown["root-perforation/"]
    assert "fewer healed at the site; too few to tell (20 points fewer to 8 more)" in perforation
    assert "fewer free of pain; too few to tell (17 points fewer to 13 more)" in shown["broken-instrument/"]
    for address in ("root-perforation/", "exposed-pulp/", "broken-instrument/"):
        assert shown[address].count("chance alone would still make one in twenty look clear") == 1
        # But in a formula, and as what one of its results is called, it never stands without its interval.
        told = re.findall(r"(?<!is )(?<!: )no clear difference", shown[address])
        assert len(told) == len(re.findall(r"no clear difference \(\d", shown[address])), address


def test_a_trial_with_a_margin_tells_its_side_and_its_margin() -> None:
    shown = demo_pages({"question", "factor"})
    margin = "not worse by more than the margin of 10 percentage points fixed beforehand"
    way = f"{margin}; in this study tooth free of disease less often, but too few to tell"
    assert f"tooth free of disease: one study: {way}." in shown["exposed-pulp/"]
    factor = shown["exposed-pulp/pulp-treatment/"]
    # What was judged is the margin: of the side the interval shows nothing.
    assert f": tooth free of disease probably {margin}. Certainty: moderate" in factor
    assert "goes with not" not in factor
    # The difference that was held against the margin stands in the row too.
    assert "risk difference -2.0 percentage points (95% CI -9.6 to 5.6)" in factor.partition(f"1 study: {way}")[2]


def test_what_rows_are_of_stands_before_they_are_opened() -> None:
    shown = demo_pages({"factor"})
    ways = shown["exposed-pulp/pulp-treatment/"]
    assert "24 months, of teeth treated as the protocol asked" in ways
    assert "Of studies that compared these ways; those of one way alone stand over time." in ways
    assert "Of studies that compared these ways" not in shown["exposed-pulp/exposure-size/"]
    minutes = shown["broken-instrument/removal-minutes/"]
    assert "one report of several studies together, fragment out of the canal less often" in minutes
    assert minutes.count("less, clear, several studies taken together") == 1


@pytest.mark.parametrize(
    ("value", "interval", "words"),
    [
        ("0.97", "0.86 to 1.09", "not worse by more than the margin%s; in this study no clear difference"),
        (
            "0.90",
            "0.74 to 1.09",
            "that it is worse by more than the margin%s is not ruled out; in this study healing less often, but too few "
            "to tell",
        ),
        (
            "0.60",
            "0.49 to 0.73",
            "worse by more than the margin%s; in this study healing less often, more than chance alone usually gives",
        ),
    ],
)
def test_within_not_shown_within_and_beyond_a_margin(value, interval, words) -> None:
    more = f", interval: {interval}, margin: {{value: 0.80, by: the protocol}}"
    printed = f" (95% CI {interval}); the margin was 0.80"
    assert told(ratio("arden2011", "risk ratio", "healing, good", value, more=more, printed=printed)) == (
        words % " (risk ratio 0.80) fixed beforehand"
    )


def test_similar_is_said_only_inside_a_margin_on_both_sides() -> None:
    more = ", interval: 0.91 to 1.14, margin: {value: 1.25, by: the protocol, sides: two}"
    printed = " (95% CI 0.91 to 1.14); the margin was 1.25"
    found = told(ratio("arden2011", "risk ratio", "reversal, bad", "1.02", more=more, printed=printed))
    assert found == (
        "similar, neither better nor worse by more than the margin (risk ratio 1.25) fixed beforehand; in this study no "
        "clear difference"
    )


NOT_WORSE = "not worse by more than the margin of %s fixed beforehand"


def with_difference(small: str = "", large: str = "", printed: str = "", question: str = QUESTION) -> Catalogue:
    """A table of healing with its difference inside a margin. small, large: more of each level; printed: its proof."""
    follow_up, passage = at()
    claim = f"""
    - id: by-size
      question: hole
      factor: size
      known_at: before
      outcome: healed
      reference: up to 3 mm
      levels:
        - {{level: up to 3 mm, events: 102, total: 111{small}}}
        - {{level: over 3 mm, events: 98, total: 109{large}}}
      contrast: {{measure: risk difference, event: healed, event_is: good, level: over 3 mm, reference: up to 3 mm,
        value: -2.0, interval: -9.6 to 5.6, adjusted_for: none, unit: percentage points,
        margin: {{value: 10, by: the protocol}}}}
      where: p. 3
      follow_up: {follow_up}
    """
    table = (
        "[p. 3] healed, over 3 mm 98 of 109 teeth, up to 3 mm 102 of 111 teeth; over 3 mm against up to 3 mm, "
        "crude difference in healed -2.0 percentage points (95% CI -9.6 to 5.6); margin 10 percentage points" + printed
    )
    return catalogue(report("arden2011", claim, passage, table), question=question)


def test_a_table_with_its_difference_and_margin_tells_the_margin() -> None:
    made = with_difference()
    for name in ("situation", "factor"):
        told = f"{NOT_WORSE % '10 percentage points'}; in this study fewer healed, but too few to tell"
        assert told in pages(made)[name], name


def test_the_margin_of_one_outcome_is_told_of_no_other_on_the_sheet_for_the_patient() -> None:
    made = with_difference(
        ", grades: [{outcome: kept, events: 103}]", ", grades: [{outcome: kept, events: 80}]",
        "; tooth there, over 3 mm 80 of 109 teeth, up to 3 mm 103 of 111 teeth",
    )  # fmt: skip
    told = {}
    for outcome in ("healed", "kept"):
        rows = [row for row in made.of_claim("arden2011/by-size") if row.level and row.outcome.id == outcome]
        (said_of_large,) = levels_apart(made, made.evidence.questions["hole"], rows)
        told[outcome] = said(said_of_large)
    assert told["healed"] == (
        f"over 3 mm beside up to 3 mm: {NOT_WORSE % '10 of every 100'}; in this study fewer healed, but too few to tell."
    )
    assert told["kept"].startswith(
        "over 3 mm beside up to 3 mm: tooth there less often, more than chance alone usually gives ("
    )
