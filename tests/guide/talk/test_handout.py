"""What the sheet that is handed out says, and of whom."""

from __future__ import annotations

import re

from demo import before_demo, demo_built
from passageproof.audit.whole import audit
from passageproof.guide.named_results import named_result
from passageproof.guide.talk.handout import handout
from passageproof.results.findings.findings import Catalogue
from passageproof.results.values.document import StudyRows, walk
from passageproof.results.values.figures import Figure
from passageproof.results.values.handout import Handout
from passageproof.results.values.line import plain_text


def sheet(question: str, *answers: str) -> Handout:
    evidence = before_demo().evidence
    assert evidence is not None
    catalogue = Catalogue(evidence, audit(evidence))
    return handout(
        catalogue, evidence.questions[question], lambda text: named_result(catalogue, text), frozenset(answers)
    )  # fmt: skip


def said(found: Handout) -> str:
    return "\n".join(plain_text(line) for line in (*found.say, *found.not_say, *found.foot))


def test_a_case_gets_the_studies_of_its_answers() -> None:
    found = sheet("root-perforation", "hole-size=large", "site-lesion=present")
    titles = [plain_text(table.title) for table in found.tables]
    assert len(titles) == 3
    assert titles[1].startswith("Size of the hole, over 3 mm | ")
    assert titles[2].startswith("Bone lesion at the site, present | ")
    assert "over 3 mm" in plain_text(found.case)
    assert found.plot is not None
    assert isinstance(found.plot.drawn, StudyRows)
    assert "over 3 mm" in plain_text(found.plot.drawn.caption)


def test_an_answer_of_which_nothing_is_known_has_no_table() -> None:
    assert len(sheet("root-perforation", "no-such=answer").tables) == 1


def test_it_says_no_cause_no_sum_and_where_knowledge_ends() -> None:
    guide = demo_built().guide
    assert guide is not None
    for found in guide.handouts.values():
        words = said(found)
        assert "Not that one thing brings about the other" in words
        assert "nor factors added up or multiplied" in words
        assert "these counts are crude" in words
        assert re.search(r"the latest stated time is \d+", words)
        assert "Local protocol" in words
        assert "none in people in this guide, searched" in words


def test_how_groups_differed_stands_beside_what_not_to_say() -> None:
    assert "In Bramwick 2014 the groups differed at the start" in said(sheet("root-perforation", "hole-size=large"))


def test_a_ratio_of_another_event_is_told_in_words_of_that_event() -> None:
    rows = sheet("broken-instrument", "fragment-lesion=lesion").tables[1:]
    told = {plain_text(row[0]).split(" [")[0]: plain_text(row[-1]) for table in rows for row in table.rows}
    assert told.get("Tennborg 2013", "").startswith("more not healed")


def test_no_study_stands_twice_in_a_table_and_each_has_its_reference() -> None:
    guide = demo_built().guide
    assert guide is not None
    for found in guide.handouts.values():
        for table in found.tables:
            names = [plain_text(row[0]) for row in table.rows]
            assert len(set(names)) == len(names)
            numbers = [int(re.findall(r"\[(\d+)\]", name)[0]) for name in names]
            assert all(1 <= number <= len(found.references) for number in numbers)
            assert all("sure: " in plain_text(line) or "definition: " in plain_text(line) for line in table.below[:2])


def test_what_found_no_room_is_counted() -> None:
    table = sheet("root-perforation").tables[0]
    assert len(table.rows) == 7
    left = table.below[-1]
    (number,) = [item for item in walk(left) if isinstance(item, Figure)]
    assert plain_text(left) == f"The largest stand here; {number.text} more on the page."
    assert number.formula == "studies of the page less those of the sheet"
