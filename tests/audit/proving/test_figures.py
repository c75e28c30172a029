"""Every quoted number is proved by one printed number, and by no other."""

from pathlib import Path

import pytest
from passageproof.problems import as_text
from passageproof.proof.report_proof import FIGURE_RULES, Proved, prove_report
from passageproof.reading.evidence import read_evidence

EXAMPLE = Path(__file__).parents[2] / "example"

COMPENDIUM = """\
format: 1
title: A guide
programme: A programme
demonstration: yes
evidence: {date: 2026-10-30, release: 1.0.0}
licences: {text: CC-BY-4.0, data: CC0-1.0}
repository: https://example.org/guide
people: {IM: {name: Ines Marlow, interests: none declared}}
review: {questions: 24 months, status: 1 month}
"""
STUDY = (
    "  - {id: s, species: human, design: cohort, selection: consecutive, population: {dentition: permanent}, "
    "setting: not reported, unit: tooth}"
)


def prove(root: Path, passages: str, claim: str, study: str = STUDY) -> Proved:
    """The proof of one claim, its fields typed one a line, against passages typed one a line."""
    for folder in ("sources", "claims"):
        (root / "evidence" / folder).mkdir(parents=True, exist_ok=True)
    (root / "evidence/compendium.yaml").write_text(COMPENDIUM, encoding="utf-8")
    typed = "\n".join(f"    {line}" for line in passages.strip().splitlines())
    (root / "evidence/sources/a.bib").write_text(
        f"@article{{k,\n  author = {{Marlow, Ines}}, title = {{T}}, journal = {{J}}, year = 2019,\n"
        f"  annotation = {{\n{typed}\n  }}\n}}\n",
        encoding="utf-8",
    )
    fields = "".join(f"    {line}\n" for line in claim.strip().splitlines())
    if "follow_up" not in fields:
        fields += "    follow_up: not reported\n"
    (root / "evidence/claims/k.yaml").write_text(
        f"source: k\nread: {{by: IM, on: 2026-02-03, depth: full text}}\nstudies:\n{study}\nclaims:\n"
        f"  - id: c\n    question: q\n    outcome: o\n{fields}",
        encoding="utf-8",
    )
    evidence = read_evidence(root)
    assert not [problem for problem in evidence.problems if problem.position.file.endswith("k.yaml")], evidence.problems
    return prove_report(evidence.reports["k"], evidence.sources["k"])


def rules(proved: Proved) -> list[str]:
    return [problem.rule for problem in proved.problems]


def test_every_number_of_the_example_is_proved() -> None:
    evidence = read_evidence(EXAMPLE)
    proofs = {}
    for key, report in evidence.reports.items():
        proved = prove_report(report, evidence.sources[key], {"fenwick-2012": "tooth"})
        assert [as_text(problem) for problem in proved.problems] == []
        assert (proved.quoted, proved.unproved) == (len(proved.proofs), 0)
        proofs |= proved.proofs
    rows = {name: (proof.text, str(proof.value), proof.unit) for name, proof in proofs.items()}
    assert rows["marlow2019furcal/overall/events"] == ("39", "39", "tooth")
    assert rows["marlow2019furcal/overall/success_rate"] == ("83%", "83", "%")
    assert rows["marlow2019furcal/overall/follow_up/median"] == ("31", "31", "month")
    assert rows["marlow2019furcal/studies/fenwick-2012/flow/due"] == ("55", "55", "tooth")
    assert rows["arden2023recall/stayed-healed/estimate/at_risk"] == ("21", "21", "tooth")
    assert rows["arden2023recall/stayed-healed/estimate/interval/low"] == ("55", "55", "%")
    assert rows["arden2023recall/size-reversal/contrast/value"] == ("2.9", "2.9", "hazard ratio")
    assert rows["arden2023recall/size-reversal/contrast/p"] == (".02", "0.02", "P")
    assert rows["arden2023recall/size-multirooted/over-3-mm/events"] == ("3", "3", "tooth")
    assert rows["arden2023recall/last-visit/total/2"] == ("44", "44", "tooth")
    assert len(proofs) == 44


def test_proof_points_at_the_number_in_the_file_of_the_source() -> None:
    evidence = read_evidence(EXAMPLE)
    proof = prove_report(evidence.reports["marlow2019furcal"], evidence.sources["marlow2019furcal"]).proofs[
        "marlow2019furcal/overall/success_rate"
    ]
    line = (EXAMPLE / proof.position.file).read_text(encoding="utf-8").splitlines()[proof.position.line - 1]
    assert line[proof.position.column - 1 :].startswith("83%")


def test_wrong_percentage_is_reported_with_the_printed_one(tmp_path: Path) -> None:
    proved = prove(
        tmp_path,
        "[p. 46, Table 2] healed: 39 of 47 teeth (83%)",
        "where: p. 46, Table 2\nevents: 39\ntotal: 47\nrate: 84%",
    )
    (problem,) = proved.problems
    assert as_text(problem) == (
        'evidence/claims/k.yaml:12:11: "84%" is not in the passage typed from p. 46, Table 2 '
        "(evidence/sources/a.bib:4), which has 83% [figure-not-in-passage]"
        "\n    look at the paper: correct the number here, or the passage in a.bib, line 4"
    )
    assert proved.unproved_at == {problem.position}


def test_number_of_another_passage_is_reported_with_its_place(tmp_path: Path) -> None:
    proved = prove(
        tmp_path, "[p. 1] 39 of 47 healed\n[p. 2] 83% healed", "where: p. 1\nevents: 39\ntotal: 47\nrate: 83%"
    )
    (problem,) = proved.problems
    assert problem.rule == "figure-elsewhere"
    assert problem.message.endswith("but in the one from p. 2")


def test_unknown_where_offers_the_nearest_bracket_once(tmp_path: Path) -> None:
    proved = prove(tmp_path, "[p. 46, Table 2] 39 of 47", "where: p. 46, Tabel 2\nevents: 39\ntotal: 47")
    (problem,) = proved.problems
    assert problem.rule == "where-unknown"
    assert 'did you mean "p. 46, Table 2"?' in problem.message
    assert proved.unproved == 2


@pytest.mark.parametrize(
    ("passage", "claim"),
    [
        pytest.param("45% were women; 39 of 47 healed", "events: 39\ntotal: 47\nrate: 45%", id="percentage of women"),
        pytest.param("n = 20; 39 of 47 healed", "events: 20\ntotal: 47", id="size of a group"),
        pytest.param("39 of 47 healed; 12 months", "events: 12\ntotal: 47", id="months for teeth"),
        pytest.param("39 of 47 patients", "events: 39\ntotal: 47", id="patients for teeth"),
        pytest.param("83% healed (95% CI 62 to 90)", "events: not reported\ntotal: not reported\nrate: 95%", id="CI"),
        pytest.param("39 of 47 healed, P = .02; 83%", "events: 39\ntotal: 47\nrate: 2%", id="P value"),
        pytest.param("39 of 47 healed (Table 12)", "events: 12\ntotal: 47", id="number of a table"),
        pytest.param("39 of 47 healed, 21 at risk", "events: 21\ntotal: 47", id="number at risk"),
        pytest.param("20 of 47 failed", "events: 20\ntotal: 47\nsuccess_rate: not reported", id="failures"),
    ],
)  # fmt: skip
def test_number_in_another_role_proves_nothing(tmp_path: Path, passage: str, claim: str) -> None:
    assert prove(tmp_path, f"[p. 1] {passage}", f"where: p. 1\n{claim}").problems


def test_printed_precision_is_the_precision_typed(tmp_path: Path) -> None:
    proved = prove(tmp_path, "[p. 1] 39 of 47 (83.0%)", "where: p. 1\nevents: 39\ntotal: 47\nrate: 83%")
    assert rules(proved) == ["figure-precision"]


def test_one_printed_number_proves_one_field(tmp_path: Path) -> None:
    proved = prove(tmp_path, "[p. 1] film only 8, volume only 1, both 28, neither 3",
                   "where: p. 1\npairs: {a: film, b: volume, both: 28, only_a: 8, only_b: 8, neither: 3}")  # fmt: skip
    assert len(proved.problems) == 1


FURTHER = "where: p. 1\nevents: 14\ntotal: 52"


@pytest.mark.parametrize(
    "passage",
    [
        "At seven days 8 of the 52 teeth had healed, 14 had not and 3 were lost.",
        "8 of 52 were sound, 14 had healed.",
        "Of the teeth 8/52 (15%) were sound and 14 (27%) had healed.",
        "8 of 52 teeth were sound, but 14 had healed.",
    ],
)
def test_a_count_that_is_told_further_has_the_whole_of_the_first(tmp_path: Path, passage: str) -> None:
    assert "figure-pair" not in rules(prove(tmp_path, f"[p. 1] {passage}", FURTHER))


@pytest.mark.parametrize(
    "passage",
    [
        "45 of the 52 teeth were re-examined, 14 had healed.",
        "8 of the 52 teeth were sound, of 14 nothing is known.",
        "8 of 52 teeth were sound. In the years before, 14 had healed.",
        "8 of 52 teeth were sound, 3 of 20 in pain, 14 had healed.",
    ],
)
def test_a_count_of_another_whole_has_not(tmp_path: Path, passage: str) -> None:
    assert rules(prove(tmp_path, f"[p. 1] {passage}", FURTHER)) == ["figure-pair"]


def test_events_and_total_must_be_printed_together(tmp_path: Path) -> None:
    proved = prove(tmp_path, "[p. 1] 32 of 35 in one arm, 7 of 12 in the other", "where: p. 1\nevents: 32\ntotal: 12")
    assert rules(proved) == ["figure-pair"]


def test_equal_numbers_without_a_word_ask_for_a_narrower_place(tmp_path: Path) -> None:
    proved = prove(tmp_path, "[p. 1] 8 and 8 of the roots", "where: p. 1\nevents: 8\ntotal: not reported")
    assert rules(proved) == ["figure-ambiguous"]


def test_role_word_decides_between_equal_numbers(tmp_path: Path) -> None:
    study = STUDY.replace("unit: tooth", "unit: tooth, flow: {treated: 40, lost: 12, extracted: 12}, where: p. 1")
    proved = prove(
        tmp_path, "[p. 1] 40 treated, 12 lost, 12 extracted\n[p. 2] 3 of 4", "where: p. 2\nevents: 3\ntotal: 4", study
    )
    assert not proved.problems
    assert proved.proofs["k/studies/s/flow/lost"].start < proved.proofs["k/studies/s/flow/extracted"].start


CONTRAST = (
    "contrast: {measure: odds ratio, event_is: good, level: over 3 mm, reference: up to 3 mm, value: 0.71, "
    "adjusted_for: none}"
)
LEVELS = """\
where: p. 1
factor: size
known_at: before
reference: {0}
levels:
  - {{level: {0}, events: 8, total: 20}}
  - {{level: {1}, events: 8, total: 25}}
"""


def test_wording_of_the_level_decides_between_equal_numbers(tmp_path: Path) -> None:
    proved = prove(
        tmp_path, "[p. 1] small: teeth 20, healed 8; large: teeth 25, healed 8", LEVELS.format("small", "large")
    )
    assert not proved.problems
    assert proved.proofs["k/c/small/events"].start < proved.proofs["k/c/large/events"].start


def test_wording_printed_again_beside_the_ratio_is_the_contrast_s(tmp_path: Path) -> None:
    proved = prove(
        tmp_path,
        "[p. 1] up to 3 mm: 8 of 20; over 3 mm: 8 of 25; over 3 mm against up to 3 mm, crude OR 0.71",
        LEVELS.format("up to 3 mm", "over 3 mm") + CONTRAST,
    )
    assert not proved.problems
    assert proved.proofs["k/c/over-3-mm/level"].start < proved.proofs["k/c/contrast/level"].start


def test_row_whose_wording_was_changed_is_not_covered_by_the_ratio_s(tmp_path: Path) -> None:
    proved = prove(
        tmp_path,
        "[p. 1] up to 3 mm: 8 of 20; over 4 mm: 8 of 25; over 3 mm against up to 3 mm, crude OR 0.71",
        LEVELS.format("up to 3 mm", "over 3 mm") + CONTRAST,
    )
    assert proved.unproved == 1


def test_number_in_the_wording_of_a_level_is_proved(tmp_path: Path) -> None:
    proved = prove(tmp_path, "[p. 1] up to 3 mm: 8 of 20; over 3 mm: 8 of 25", LEVELS.format("up to 3 mm", "over 4 mm"))
    assert [problem.message.split(" is not")[0] for problem in proved.problems] == ['"over 4 mm"']


def test_two_ends_of_a_level_are_printed_together(tmp_path: Path) -> None:
    proved = prove(tmp_path, "[p. 1] 1 to 2 mm: 8 of 20; 3 to 5 mm: 8 of 25", LEVELS.format("1 to 2 mm", "1 to 5 mm"))
    assert proved.problems


def test_steps_of_the_flow_may_share_one_number(tmp_path: Path) -> None:
    study = STUDY.replace("unit: tooth", "unit: tooth, flow: {treated: 40, due: 40, examined: 38}, where: p. 1")
    proved = prove(
        tmp_path, "[p. 1] 40 teeth treated, 38 examined\n[p. 2] 3 of 4", "where: p. 2\nevents: 3\ntotal: 4", study
    )
    assert not proved.problems


def test_step_that_the_passage_names_has_its_own_number(tmp_path: Path) -> None:
    study = STUDY.replace("unit: tooth", "unit: tooth, flow: {treated: 58, due: 58, examined: 47}, where: p. 1")
    proved = prove(
        tmp_path, "[p. 1] 58 treated, 55 due, 47 examined\n[p. 2] 3 of 4", "where: p. 2\nevents: 3\ntotal: 4", study
    )
    assert len(proved.problems) == 1


def test_twelve_months_are_proved_by_one_year(tmp_path: Path) -> None:
    proved = prove(tmp_path, "[p. 1] 39 of 47 healed at 1 year",
                   "where: p. 1\nevents: 39\ntotal: 47\n"
                   "follow_up: {from: repair, timing: at, at: 12 months}")  # fmt: skip
    proof = proved.proofs["k/c/follow_up/at"]
    assert (proof.typed, proof.text, str(proof.value), proof.unit) == ("12 months", "1", "1", "year")


def test_interval_without_its_percent_sign_is_proved(tmp_path: Path) -> None:
    proved = prove(tmp_path, "[p. 1] 39 of 47 (83%; 95% CI 70 to 91)",
                   "where: p. 1\nevents: 39\ntotal: 47\nrate: 83%\ninterval: 70% to 91%\nconfidence: 95%")  # fmt: skip
    assert not proved.problems
    assert proved.proofs["k/c/interval/high"].unit == "%"


def test_unreadable_number_is_named(tmp_path: Path) -> None:
    proved = prove(tmp_path, "[p. 1] 39 of 47 (83%; 95% CI 70.291.4)",
                   "where: p. 1\nevents: 39\ntotal: 47\nrate: 83%\ninterval: 70.2% to 91.4%")  # fmt: skip
    assert rules(proved) == ["figure-unreadable"] * 2


def test_number_in_a_note_must_stand_in_the_passage_and_proves_nothing(tmp_path: Path) -> None:
    passage = "[p. 1] 39 of 47 teeth, 6 with a sinus tract"
    claim = "where: p. 1\nevents: 39\ntotal: 47\nnote: {} with a sinus tract"
    assert not prove(tmp_path, passage, claim.format(6)).problems
    proved = prove(tmp_path, passage, claim.format(7))
    assert (rules(proved), proved.unproved) == (["figure-not-in-passage"], 0)


@pytest.mark.parametrize(
    "note",
    [
        "so many do not fit two groups; see Table 3 and p. 46 of the paper",
        "the 4th report of one cohort, recruited in 2012",
        "no figure here",
    ],
)
def test_words_places_and_years_in_a_note_are_no_figures(tmp_path: Path, note: str) -> None:
    claim = f"where: p. 1\nevents: 39\ntotal: 47\nnote: {note.replace('4th', 'fourth')}"
    assert not prove(tmp_path, "[p. 1] 39 of 47 teeth", claim).problems


def test_as_many_equal_numbers_as_fields_prove_them_all(tmp_path: Path) -> None:
    study = STUDY.replace(
        "unit: tooth", "unit: tooth, where: p. 1, shares: [{of: 157, what: arms, parts: [{level: first, count: 51}, "
        "{level: second, count: 55}, {level: third, count: 51}]}]",
    )  # fmt: skip
    claim = "where: p. 2\nevents: 3\ntotal: 4"
    assert not prove(tmp_path, "[p. 1] of 157: 51, 55 and 51\n[p. 2] 3 of 4", claim, study).problems
    assert len(prove(tmp_path, "[p. 1] of 157: 51, 55 and 52\n[p. 2] 3 of 4", claim, study).problems) == 1


def test_taken_number_names_the_field_that_has_it(tmp_path: Path) -> None:
    study = STUDY.replace(
        "unit: tooth", "unit: tooth, where: p. 1, shares: [{of: 106, what: arms, parts: [{level: first, count: 51}, "
        "{level: second, count: 51}]}]",
    )  # fmt: skip
    proved = prove(tmp_path, "[p. 1] of 106: 51 and 55\n[p. 2] 3 of 4", "where: p. 2\nevents: 3\ntotal: 4", study)
    (problem,) = proved.problems
    assert problem.rule == "figure-taken"
    assert (
        "already proves the number in one part (`count` under `shares`) at evidence/claims/k.yaml:4" in problem.message
    )


def test_failure_among_grades_is_a_grade_of_a_success_table(tmp_path: Path) -> None:
    claim = """\
where: p. 1
total: 65
grades:
  - {words: complete healing, events: not reported, rate: 71%}
  - {words: failure, events: not reported, rate: 15%}"""
    assert not prove(tmp_path, "[p. 1] 65 perforated teeth: complete healing 71%, failure 15%", claim).problems


def test_range_below_the_smallest_printed_is_its_other_side(tmp_path: Path) -> None:
    claim = """\
where: p. 1
factor: size
known_at: before
reference: smaller
levels:
  - {level: 2 mm to 3 mm, events: 3, total: 8}
  - {level: smaller, range: %s, events: 5, total: 9}"""
    passage = "[p. 1] 2 mm to 3 mm: 3 of 8; smaller: 5 of 9"
    assert not prove(tmp_path, passage, claim % "under 2 mm").problems
    assert prove(tmp_path, passage, claim % "under 3 mm").unproved == 1


def test_time_beside_another_figure_is_not_this_figure_s_time(tmp_path: Path) -> None:
    claim = "where: p. 1\nestimate: {kind: survival, at: %s, value: 97%%, from: treatment}\nfollow_up: not applicable"
    passage = "[p. 1] kept 97% at 1 year, 89% at 5 years"
    assert not prove(tmp_path, passage, claim % "1 year").problems
    assert len(prove(tmp_path, passage, claim % "5 years").problems) == 1


def test_reference_is_the_other_side_of_the_printed_level_unless_printed_itself(tmp_path: Path) -> None:
    claim = ("where: p. 1\nfactor: size\nknown_at: before\nreference: up to 3 mm\nlevels:\n"
             "  - {level: over 3 mm, events: 3, total: 8}")  # fmt: skip
    assert not prove(tmp_path, "[p. 1] over 3 mm: 3 of 8", claim).problems
    assert prove(tmp_path, "[p. 1] over 3 mm: 3 of 8; up to 4 mm: 5 of 7", claim).unproved == 1


def test_adjusted_ratio_is_no_crude_one(tmp_path: Path) -> None:
    claim = ("where: p. 1\nfactor: size\nknown_at: before\nreference: small\n"
             "contrast: {measure: odds ratio, event_is: bad, level: large, reference: small, value: 2.9, "
             "adjusted_for: none}")  # fmt: skip
    assert not prove(tmp_path, "[p. 1] large against small: crude OR 2.9", claim).problems
    assert len(prove(tmp_path, "[p. 1] large against small: adjusted OR 2.9", claim).problems) == 1
    assert len(prove(tmp_path, "[p. 1] large against small: crude HR 2.9", claim).problems) == 1


def test_interval_of_a_difference_in_per_cent_is_proved(tmp_path: Path) -> None:
    claim = (
        "where: p. 1\nfactor: size\nknown_at: before\nreference: small\n"
        "contrast: {measure: risk difference, event_is: good, level: large, reference: small, value: 14.4%, "
        "interval: -0.9% to 29.8%, adjusted_for: none}"
    )
    assert not prove(tmp_path, "[p. 1] large against small: RD 14.4% (95% CI -0.9 to 29.8)", claim).problems


def test_every_rule_has_its_paragraph() -> None:
    folder = Path(prove_report.__code__.co_filename).parent / "proving"
    texts = [(folder / f"{name}.py").read_text("utf-8") for name in ("figure_messages", "unknown_places")]
    used = "".join(text.partition("def ")[2] for text in texts)
    assert all(f'"{rule}"' in used for rule in FIGURE_RULES)
    assert all(paragraph.endswith(".") and len(paragraph) > 80 for paragraph in FIGURE_RULES.values())
