"""The whole audit: the example of the form passes, and what is not proved or not readable starts no other question."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest
from passageproof.audit.rules import AUDIT_RULES
from passageproof.audit.whole import audit
from passageproof.reading.evidence import read_evidence

ROOT = Path(__file__).parent.parent.parent

BIB = """\
@article{x, author = {Marlow, Ines}, title = {T}, year = 2019, annotation = {
  [p. 1] 58 teeth treated, 47 examined, 11 lost
  [p. 2] healed: 39 of 47 teeth (83%), 95% CI 70% to 91%
  [p. 3] one: 32 of 35 healed (91%); more than one: 7 of 12 (58%)
}}
"""
STUDY = """\
- id: fenwick
  species: human
  design: cohort
  population: {dentition: permanent}
  setting: not reported
  unit: tooth
  flow: {treated: 58, examined: 47, lost: 11}
  where: p. 1
"""
CLAIMS = """\
- id: overall
  question: hole
  outcome: healed
  events: 39
  total: 47
  success_rate: 83%
  interval: 70% to 91%
  where: p. 2
  follow_up: {from: repair, timing: not reported}
- id: by-roots
  question: hole
  factor: roots
  known_at: before
  outcome: healed
  reference: one
  levels:
    - {level: one, events: 32, total: 35, success_rate: 91%}
    - {level: more than one, events: 7, total: 12, success_rate: 58%, direction: worse}
  where: p. 3
  follow_up: overall
"""


@pytest.fixture
def files(report_text):
    return {"claims/x.yaml": report_text("x", CLAIMS, STUDY), "sources/x.bib": BIB}


def test_example_of_the_form_has_no_problem_and_every_figure_proved():
    result = audit(read_evidence(ROOT / "tests" / "example"))
    assert result.problems == ()
    assert result.unproved == 0
    assert len(result.proofs) >= 40


def test_compendium_alone_passes(audited):
    assert audited(only=True).problems == ()


def test_whole_report_passes_and_proves_its_figures(audited, files):
    result = audited(files)
    assert result.problems == ()
    assert result.passes
    assert result.proofs["x/overall/events"].text == "39"


# Each number of the report, changed in the claim file alone: it has no proof then, and nothing is reckoned with it.
@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("treated: 58", "treated: 59"),
        ("examined: 47", "examined: 46"),
        ("lost: 11", "lost: 12"),
        ("events: 39", "events: 38"),
        ("total: 47\n", "total: 48\n"),
        ("success_rate: 83%", "success_rate: 84%"),
        ("interval: 70% to", "interval: 40% to"),
        ("to 91%", "to 81%"),
        ("events: 32", "events: 31"),
        ("total: 35", "total: 36"),
        ("success_rate: 58%", "success_rate: 59%"),
    ],
)
def test_figure_without_proof_is_one_problem_and_takes_part_in_no_other_rule(audited, files, old, new):
    assert old in files["claims/x.yaml"]
    result = audited(files | {"claims/x.yaml": files["claims/x.yaml"].replace(old, new, 1)})
    rules = {each.rule for each in result.problems}
    assert rules, "the change went unseen"
    assert all(rule.startswith("figure-") for rule in rules), rules


# The same number changed in both places has a proof, and does not fit any more.
@pytest.mark.parametrize(
    ("claim", "passage", "rule"),
    [
        (("events: 39", "events: 37"), ("39 of 47", "37 of 47"), "percent-impossible"),
        (("success_rate: 83%", "success_rate: 85%"), ("(83%)", "(85%)"), "percent-impossible"),
        (("interval: 70%", "interval: 40%"), ("CI 70%", "CI 40%"), "interval-not-from-counts"),
        (("lost: 11", "lost: 14"), ("11 lost", "14 lost"), "flow-does-not-add-up"),
        (("direction: worse", "direction: better"), ("", ""), "direction-disagrees"),
    ],
)
def test_figures_that_agree_with_their_passage_and_not_among_themselves_are_asked(audited, files, claim, passage, rule):
    changed = {
        "claims/x.yaml": files["claims/x.yaml"].replace(*claim, 1),
        "sources/x.bib": BIB.replace(*passage) if passage[0] else BIB,
    }
    result = audited(changed)
    assert rule in {each.rule for each in result.problems}
    assert not result.passes


def test_problems_are_sorted_and_each_stands_once(audited, files):
    broken = files["claims/x.yaml"].replace("question: hole", "question: hol").replace("events: 39", "events: 38")
    problems = audited(files | {"claims/x.yaml": broken}).problems
    assert list(problems) == sorted(problems, key=lambda each: (each.position, each.rule, each.message))
    assert len(problems) == len(set(problems)) >= 3


def test_file_that_cannot_be_read_makes_references_to_it_silent(audited, files):
    question = "id: hole\ntitle: T\npatient: {show: [x/overall]}\nanswer: $x/overall healed.\n"
    result = audited(files | {"questions/hole.yaml": question, "claims/x.yaml": "source: [x\n"})
    assert {each.position.file for each in result.problems} == {"evidence/claims/x.yaml"}


def test_claim_that_cannot_be_read_makes_references_to_it_silent(audited, files):
    question = "id: hole\ntitle: T\npatient: {show: [x/overall]}\nanswer: $x/overall healed.\n"
    broken = files["claims/x.yaml"].replace("outcome: healed", "outcom: healed", 1)
    result = audited(files | {"questions/hole.yaml": question, "claims/x.yaml": broken})
    assert {each.position.file for each in result.problems} == {"evidence/claims/x.yaml"}
    assert "claim-unknown" not in {each.rule for each in result.problems}


def test_same_evidence_gives_the_same_audit(audited, files):
    assert audited(files) == audited(files)


def test_every_rule_that_the_audit_names_has_its_paragraph():
    named = set()
    for path in [*(ROOT / "builder" / "audit").glob("*.py"), *(ROOT / "builder" / "proof").glob("*.py")]:
        text = path.read_text("utf-8")
        # A rule is the second thing that ask() and error() take, and unknown() makes "KIND-unknown".
        named |= set(re.findall(r'(?:ask|error)\(\s*[^"()]*(?:\([^()]*\)[^"()]*)*,\s*"([a-z]+(?:-[a-z]+)+)"', text))
        named |= {f"{kind}-unknown" for kind in re.findall(r'unknown\("([a-z]+)"', text)}
    assert len(named) >= 40
    assert named <= AUDIT_RULES.keys(), named - AUDIT_RULES.keys()


def test_every_paragraph_says_what_and_why_and_names_its_basis():
    for rule, paragraph in AUDIT_RULES.items():
        assert "is wrong" not in paragraph, rule
        assert re.fullmatch(r"[a-z]+(-[a-z]+)+", rule), rule
        assert len(paragraph) > 60, rule
        assert paragraph.endswith("."), rule
        assert not re.search(r"\b(fraud|misconduct)\b", paragraph, re.IGNORECASE), rule


def test_a_place_that_a_comma_cut_is_reported_once_and_proves_nothing(tmp_path: Path) -> None:
    shutil.copytree(Path(__file__).parent.parent / "example" / "evidence", tmp_path / "evidence")
    path = tmp_path / "evidence" / "claims" / "marlow2019furcal.yaml"
    text = path.read_text("utf-8")
    path.write_text(text.replace('where: "p. 44, Methods"}', "where: p. 44, Methods}"), "utf-8")
    result = audit(read_evidence(tmp_path))
    assert [problem.rule for problem in result.problems] == ["comma-cut-text"]
    assert result.unproved == 3
