"""What an answer has against a way to go on stands on the sheet of the patient, and no way is dropped."""

from __future__ import annotations

import pytest
from guide.compendium import VOCABULARY, catalogue_of, nothing_named, report, said
from passageproof.guide.question.patient_page import patient_page
from passageproof.guide.question.ways_advised import ways_advised
from passageproof.results.values.document import Paragraph, Sheet, walk

LEVELS = """\
  wet:
    title: Blood
    role: prognostic
    levels: [{id: dry, title: dry}, {id: damp, title: damp}, {id: flood, title: flood}]
"""
FOLLOW = "{from: repair, timing: at, at: 24 months, tolerance: 6 months, where: 'p. 2'}"
FIELDS = "{factor: wet, ask: How wet?}, {factor: size, ask: How wide?}"
FEW = report(
    "marlow2019",
    f"""
    - id: by-wet
      question: hole
      outcome: healed
      factor: wet
      known_at: before
      reference: dry
      levels: [{{level: dry, events: 9, total: 10}}, {{level: flood, events: 8, total: 10}}]
      where: 'p. 4'
      follow_up: {FOLLOW}
    """,
    "[p. 2] at 24 months, give or take 6 months", "[p. 4] dry: 9 of 10 healed; flood: 8 of 10",
)  # fmt: skip


def question(*options: str) -> str:
    return (
        f"id: hole\ntitle: There is a hole\nfactors: [wet, size]\nsituation: [{FIELDS}]\noptions:\n"
        + "".join(f"  - {option}\n" for option in options)
        + "patient: {chair: [It can be closed today.]}\n"
    )


def advised(*options: str) -> dict[str, str]:
    files = FEW | {"questions/hole.yaml": question(*options)}
    made = catalogue_of(files | {"vocabulary.yaml": VOCABULARY.replace("factors:\n", f"factors:\n{LEVELS}")})
    asked = made.evidence.questions["hole"]
    found = ways_advised(made, asked, nothing_named)
    sheets = [part for part in walk(patient_page(made, asked, nothing_named).blocks) if isinstance(part, Sheet)]
    for sheet in sheets:
        told = [part for part in sheet.blocks if isinstance(part, Paragraph) and part.kind == "if-answered"]
        assert told == ([] if sheet.kind == "afterwards" else list(found))
    return {part.of: said(part) for part in found}


RATHER_NOT = "with what we see here, we may advise against it. Ask me why."
DRY = "{words: A dry hole., basis: {kind: common practice}, is: {factor: wet, level: dry}}"


def test_what_a_way_asks_is_against_it_by_each_other_answer() -> None:
    words = f"Close it: {RATHER_NOT} It needs this: A dry hole."
    assert advised(f"{{id: now, title: Close it, asks: [{DRY}]}}") == {"wet=damp": words, "wet=flood": words}


def test_of_several_answers_that_it_asks_any_will_do() -> None:
    either = DRY.replace("{factor: wet, level: dry}", "[{factor: wet, level: dry}, {factor: wet, level: damp}]")
    assert list(advised(f"{{id: now, title: Close it, asks: [{either}]}}")) == ["wet=flood"]


def test_what_speaks_against_it_is_told_by_its_own_answer_and_with_what_it_asks_in_one_sentence() -> None:
    flood = "{words: It drowns., basis: {kind: common practice}, is: {factor: wet, level: flood}}"
    told = advised(f"{{id: now, title: Close it, asks: [{DRY}], against: [{flood}]}}")
    assert told["wet=flood"].endswith("Ask me why. It needs this: A dry hole. This speaks against it: It drowns.")
    assert "drowns" not in told["wet=damp"]
    alone = advised(f"{{id: now, title: Close it, against: [{flood}]}}")
    assert alone == {"wet=flood": f"Close it: {RATHER_NOT} This speaks against it: It drowns."}


def test_what_speaks_against_it_by_two_answers_waits_for_both() -> None:
    both = "{words: Too much., basis: {kind: common practice}, is: [{factor: wet, level: flood}, {factor: size, level: large}]}"
    assert list(advised(f"{{id: now, title: Close it, against: [{both}]}}")) == ["wet=flood&size=large"]


def test_what_would_speak_for_it_and_is_not_so_is_not_told() -> None:
    assert advised(f"{{id: now, title: Close it, for: [{DRY}]}}") == {}


@pytest.mark.parametrize("side", ["for", "against"])
def test_what_decides_nothing_is_no_reason(side: str) -> None:
    entry = (
        "{words: Dry ones healed more often; too few to tell., basis: {kind: study, claim: marlow2019/by-wet}, "
        "is: {factor: wet, level: dry}}"
    )
    assert advised(f"{{id: now, title: Close it, {side}: [{entry}]}}") == {}
