"""A number typed under another level than its passage gives it to, in each of the ways in which journals print two.

The ways of print are common practice of reports, no source; all figures are invented.
"""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal

import pytest
from passageproof.numerals import FORMAT_1, read_numerals
from passageproof.printed.belonging import owners_of
from passageproof.printed.tables import table_of
from passageproof.printed.wordings import Bounds, Name, Names, Plain, mentions_of
from passageproof.proof.proof import Audit

from .conftest import Asked

VOCABULARY = """\
factors:
  material:
    title: Material
    role: treatment
    levels:
      - {id: mta, title: MTA, synonyms: [mineral trioxide aggregate]}
      - {id: ca, title: calcium hydroxide}
      - {id: gic, title: glass ionomer}
  size:
    title: Size of the hole
    role: prognostic
    unit: mm
    levels: [{id: small, title: up to 3 mm, range: up to 3 mm}, {id: large, title: over 3 mm, range: over 3 mm}]
  lesion:
    title: Lesion
    role: prognostic
    levels: [{id: "yes", title: lesion}, {id: "no", title: no lesion, synonyms: [lesion absent]}]
  delay:
    title: Delay of repair
    role: prognostic
    unit: day
    levels: [{id: same, title: same day, range: under 1 day}, {id: later, title: over 1 day, range: over 1 day}]
  sex:
    title: Sex
    role: prognostic
    levels: [{id: women, title: women}, {id: men, title: men}]
outcomes:
  healed: {title: healed, construct: success, strictness: strict, basis: film, threshold: normal space, good: yes}
"""
FILES = {"vocabulary.yaml": VOCABULARY}


def claim(factor: str, *levels: tuple[str, str, str], more: str = "") -> str:
    """A table by one factor: wording, events and total of each level, the last the reference."""
    rows = "".join(f"\n  - {{level: {level}, events: {events}, total: {total}}}" for level, events, total in levels)
    return f"factor: {factor}\nknown_at: before\nreference: {levels[-1][0]}\nlevels:{rows}\n{more}"


def swapped(levels: list[tuple[str, str, str]]) -> list[tuple[str, str, str]]:
    """The same counts, each under the next level."""
    names = [level for level, _, _ in levels]
    return [(name, *row[1:]) for name, row in zip(names, [*levels[1:], levels[0]], strict=True)]


TWO = [("MTA", "39", "47"), ("calcium hydroxide", "30", "45")]
SIZES = [("up to 3 mm", "39", "47"), ("over 3 mm", "30", "45")]
LESIONS = [("no lesion", "39", "47"), ("lesion", "30", "45")]
THREE = [("MTA", "39", "47"), ("calcium hydroxide", "30", "45"), ("glass ionomer", "21", "44")]

OF_MATERIALS = (
    "MTA and calcium hydroxide: 39 of 47 and 30 of 45, respectively",
    "MTA and calcium hydroxide healed in 39 of 47 (83%) and 30 of 45 (67%)",
    "MTA (n = 47) and calcium hydroxide (n = 45) healed in 39 and 30 teeth",
    "Healing followed in 39/47 (MTA) and 30/45 (calcium hydroxide)",
    "Of the 47 MTA and 45 calcium hydroxide teeth, 39 and 30 healed",
    "In the MTA group 39 of 47 teeth healed, in the calcium hydroxide group 30 of 45",
    "In the MTA group, 39 of 47 teeth healed (83%), whereas 30 of 45 (67%) did in the calcium hydroxide group",
    "Healing was more frequent with MTA than with calcium hydroxide (39 of 47 versus 30 of 45; P = .03)",
    "Compared with calcium hydroxide, MTA healed more often (39 of 47 against 30 of 45)",
    "MTA 39/47 83%; calcium hydroxide 30/45 67%",
    "Of 47 teeth with MTA 39 healed, of 45 with calcium hydroxide 30 did.",
    "39 of 47 teeth (83%) with mineral trioxide aggregate and 30 of 45 (67%) with calcium-hydroxide healed",
    "MTA was compared with calcium hydroxide. In the former 39 of 47 healed, in the latter 30 of 45",
    "Group A (MTA) had 47 teeth and group B (calcium hydroxide) 45. In group A 39 healed; in group B 30",
    "calcium hydroxide (CH) was used in 45 teeth, MTA in 47. Of those with CH 30 healed; with MTA 39",
    "Outcome | MTA | calcium hydroxide\n  healed | 39 of 47 | 30 of 45",
    "Material | n | healed\n MTA | 47 | 39\n calcium hydroxide | 45 | 30",
    "Material | n | healed; MTA | 47 | 39; calcium hydroxide | 45 | 30",
    "| | MTA (n = 47) | calcium hydroxide (n = 45) |\n|---|---|---|\n| healed | 39 | 30 |",
    "Material    n    healed\nMTA    47    39\ncalcium hydroxide    45    30",
    "Material\tn\thealed\nMTA\t47\t39\ncalcium hydroxide\t45\t30",
    "MTA\n healed | 39 of 47\ncalcium hydroxide\n healed | 30 of 45",
)
OF_SIZES = (
    "Size: up to 3 mm 39/47, over 3 mm 30/45",
    "≤ 3 mm: 39 of 47; > 3 mm: 30 of 45",
    "3 mm or less: 39/47; larger than 3 mm: 30/45",
    "39 of 47 holes of at most 3 mm and 30 of 45 exceeding 3 mm healed",
    "Size | n | healed\n <=3 mm | 47 | 39\n >3 mm | 45 | 30",
)
OF_LESIONS = (
    "39 of 47 teeth without a lesion and 30 of 45 with a lesion healed",
    "Lesion absent 39/47, lesion present 30/45",
    "no periapical lesion: 39 of 47; lesion: 30 of 45",
    "Teeth with a lesion healed less often (67%, 30 of 45) than those without (83%, 39 of 47)",
)
OF_THREE = (
    "for MTA, calcium hydroxide and glass ionomer 39, 30 and 21 of 47, 45 and 44 healed, respectively",
    "MTA, calcium hydroxide and glass ionomer: 39/47, 30/45 and 21/44",
    "MTA 39 of 47, calcium hydroxide 30 of 45 and glass ionomer 21 of 44",
    "Outcome | MTA | calcium hydroxide | glass ionomer\n healed | 39/47 | 30/45 | 21/44",
)
CASES = [
    *(("material", TWO, passage) for passage in OF_MATERIALS),
    *(("size", SIZES, passage) for passage in OF_SIZES),
    *(("lesion", LESIONS, passage) for passage in OF_LESIONS),
    *(("material", THREE, passage) for passage in OF_THREE),
]


@pytest.mark.parametrize(("factor", "levels", "passage"), CASES)
def test_numbers_under_their_own_levels_are_silent(
    open_problems: Asked, factor: str, levels: list[tuple[str, str, str]], passage: str
) -> None:
    assert open_problems(passage, claim(factor, *levels), files=FILES) == []


@pytest.mark.parametrize(("factor", "levels", "passage"), CASES)
def test_levels_exchanged_are_asked_about_at_each(
    open_problems: Asked, factor: str, levels: list[tuple[str, str, str]], passage: str
) -> None:
    problems = open_problems(passage, claim(factor, *swapped(levels)), files=FILES)
    assert {problem.rule for problem in problems} <= {"other-level", "level-not-named"}
    assert len({problem.position.line for problem in problems}) == len(levels)
    assert any(problem.rule == "other-level" for problem in problems)


def test_question_gives_both_readings_and_what_mends_it(open_problems: Asked) -> None:
    first, _ = open_problems(
        "mineral trioxide aggregate and calcium hydroxide: 39 of 47 and 30 of 45, respectively",
        claim("material", *swapped(TWO)),
        files=FILES,
    )
    assert first.message == (
        '"30 of 45": the passage typed from p. 2 (evidence/sources/x.bib:4) gives it by its place to "calcium '
        'hydroxide", the claim to "MTA"; which is meant?'
    )
    assert first.hint is not None
    assert first.hint.startswith("where the passage is right, type it under level: calcium hydroxide\n")


def test_level_that_the_claim_leaves_out_is_another_level_too(open_problems: Asked) -> None:
    passage = "MTA 39 of 47, calcium hydroxide 30 of 45 and glass ionomer 21 of 44"
    (problem,) = open_problems(
        passage, claim("material", ("calcium hydroxide", "21", "44"), ("MTA", "39", "47")), files=FILES
    )
    assert 'gives it to "glass ionomer", the claim to "calcium hydroxide"' in problem.message


UNNAMED = "In 39 of 47 teeth with ProCem and in 30 of 45 with calcium hydroxide the hole healed"


def test_level_named_nowhere_is_asked_about_once_with_the_synonym_to_add(open_problems: Asked) -> None:
    (problem,) = open_problems(UNNAMED, claim("material", *TWO), files=FILES)
    assert problem.rule == "level-not-named"
    assert problem.printed == "39 of 47"
    assert 'names "MTA" nowhere in the words beside it (there stands "ProCem")' in problem.message
    assert problem.hint is not None
    assert "level mta:\nsynonyms: [mineral trioxide aggregate, ProCem]\n" in problem.hint
    assert 'in_words: "In 39 of 47 teeth with ProCem' in problem.hint


@pytest.mark.parametrize(
    "passage",
    [
        "Cement | n | healed\n ProCem | 47 | 39\n calcium hydroxide | 45 | 30",
        "ProCem: 39 of 47; calcium hydroxide: 30 of 45",
        "39/47 (ProCem) and 30/45 (calcium hydroxide)",
        "39 of 47; with calcium hydroxide 30 of 45",
    ],
)
@pytest.mark.parametrize("is_swapped", [False, True])
def test_level_named_nowhere_is_asked_about_whichever_way_it_was_typed(
    open_problems: Asked, passage: str, *, is_swapped: bool
) -> None:
    levels = swapped(TWO) if is_swapped else TWO
    problems = open_problems(passage, claim("material", *levels), files=FILES)
    assert "level-not-named" in {problem.rule for problem in problems}


def test_the_synonym_answers_it(open_problems: Asked) -> None:
    files = {"vocabulary.yaml": VOCABULARY.replace("[mineral", "[ProCem, mineral")}
    assert open_problems(UNNAMED, claim("material", *TWO), files=files) == []
    assert open_problems(UNNAMED, claim("material", *swapped(TWO)), files=files) != []


def pinned(first: tuple[str, str], second: tuple[str, str]) -> str:
    """Both levels with the words that are said to hold them."""
    text = claim("material", ("MTA", "39", "47"), ("calcium hydroxide", "30", "45"))
    for total, words in (("47", first[1]), ("45", second[1])):
        text = text.replace(f"total: {total}}}", f'total: {total}, in_words: "{words}"}}')
    return text.replace("events: 39", f"events: {first[0]}").replace("events: 30", f"events: {second[0]}")


def test_quoted_words_answer_silence(open_problems: Asked) -> None:
    words = pinned(("39", "In 39 of 47 teeth with ProCem"), ("30", "30 of 45 with calcium hydroxide"))
    assert open_problems(UNNAMED, words, files=FILES) == []


def test_quoted_words_answer_no_contradiction(open_problems: Asked) -> None:
    passage = "MTA and calcium hydroxide healed in 39 of 47 and 30 of 45 teeth"
    words = claim("material", ("MTA", "30", "45"), ("calcium hydroxide", "39", "47")).replace(
        "total: 45}", f'total: 45, in_words: "{passage}"}}'
    )
    assert "other-level" in {problem.rule for problem in open_problems(passage, words, files=FILES)}


def test_own_title_of_a_measured_level_needs_no_number(open_problems: Asked) -> None:
    passage = "Delay | n | healed\n same day | 22 | 20\n over 1 day | 18 | 14"
    right = [("same day", "20", "22"), ("over 1 day", "14", "18")]
    assert "other-level" not in {each.rule for each in open_problems(passage, claim("delay", *right), files=FILES)}
    wrong = open_problems(passage, claim("delay", *swapped(right)), files=FILES)
    assert "other-level" in {each.rule for each in wrong}


def test_total_of_each_level_is_nobody_else_s(open_problems: Asked) -> None:
    passage = "There were 20 teeth in each group; MTA healed in 17, calcium hydroxide in 12"
    assert open_problems(passage, claim("material", ("MTA", "17", "20"), ("calcium hydroxide", "12", "20")),
                         files=FILES) == []  # fmt: skip


RATIO = """\
factor: material
known_at: during
reference: calcium hydroxide
contrast:
  measure: odds ratio
  event: healing
  event_is: good
  level: MTA
  reference: calcium hydroxide
  value: 2.4
  interval: 1.1 to 5.2
  adjusted_for: none
"""
RATIOS = (
    "Material | crude OR (95% CI)\n MTA against calcium hydroxide | 2.4 (1.1 to 5.2)\n"
    " glass ionomer against calcium hydroxide | 1.7 (0.8 to 3.6)",
    "crude OR of healing against calcium hydroxide\n MTA | 2.4 (95% CI 1.1 to 5.2)\n"
    " glass ionomer | 1.7 (95% CI 0.8 to 3.6)",
)


def test_ratio_in_the_row_of_a_third_level_is_asked_about(open_problems: Asked) -> None:
    passage = RATIOS[1]
    assert "other-level" not in {each.rule for each in open_problems(passage, RATIO, files=FILES)}
    wrong = RATIO.replace("2.4", "1.7").replace("1.1 to 5.2", "0.8 to 3.6")
    (problem,) = [each for each in open_problems(passage, wrong, files=FILES) if each.rule == "other-level"]
    assert 'gives it to "glass ionomer", the claim to "MTA against calcium hydroxide"' in problem.message


def test_ratio_beside_both_its_levels_is_silent(open_problems: Asked) -> None:
    assert "other-level" not in {each.rule for each in open_problems(RATIOS[0], RATIO, files=FILES)}


ABSOLUTE = RATIO + "  absolute: {per: 1000, reference: %s, level: %s}\n"
RISKS = "MTA against calcium hydroxide, crude OR 2.4 (95%% CI 1.1 to 5.2); per 1000: %s"


@pytest.mark.parametrize("words", ["118 with calcium hydroxide and 53 with MTA", "calcium hydroxide 118, MTA 53"])
def test_absolute_risks_belong_to_their_levels(open_problems: Asked, words: str) -> None:
    def asked(reference: str, level: str) -> set[str]:
        return {each.rule for each in open_problems(RISKS % words, ABSOLUTE % (reference, level), files=FILES)}

    assert "other-level" not in asked("118", "53")
    assert "other-level" in asked("53", "118")


SHARES = """\
- id: s
  species: human
  design: cohort
  selection: consecutive
  population: {dentition: permanent}
  setting: not reported
  unit: tooth
  shares: [{of: 29, what: sex, parts: [{level: women, count: %s}, {level: men, count: %s}]}]
  where: p. 1
"""


@pytest.mark.parametrize(
    "words", ["29 patients, 15 women and 14 men", "women 15, men 14 of 29", "men and women: 14 and 15"]
)
def test_parts_of_a_study_exchanged_are_asked_about(open_problems: Asked, words: str) -> None:
    passages = f"[p. 1] {words}\n[p. 2] 12 of 29 healed"
    claims = "events: 12\ntotal: 29"
    assert "other-level" not in {each.rule for each in open_problems(passages, claims, SHARES % (15, 14), files=FILES)}
    assert "other-level" in {each.rule for each in open_problems(passages, claims, SHARES % (14, 15), files=FILES)}


PAIRS = "pairs: {a: film, b: volume, both: 20, only_a: %s, only_b: %s, neither: 9}"


def test_pairs_exchanged_are_asked_about(open_problems: Asked) -> None:
    passage = "both 20; only film 3; only volume 7; neither 9"
    assert "other-level" not in {each.rule for each in open_problems(passage, PAIRS % (3, 7), files=FILES)}
    assert "other-level" in {each.rule for each in open_problems(passage, PAIRS % (7, 3), files=FILES)}


WITHIN = "within: [{factor: sex, level: %s}]\nevents: 12\ntotal: 15"


@pytest.mark.parametrize(
    "passage", ["Women 12 of 15; men 9 of 14", "In women and men 12 of 15 and 9 of 14 healed, respectively"]
)
def test_numbers_of_another_subgroup_are_asked_about(open_problems: Asked, passage: str) -> None:
    assert open_problems(passage, WITHIN % "women", files=FILES) == []
    (problem,) = open_problems(passage, WITHIN % "men", files=FILES)
    assert problem.rule == "other-level"


def test_a_proof_keeps_the_words_that_tie_it(audited: Callable[..., Audit], report_text: Callable[..., str]) -> None:
    passage = "MTA and calcium hydroxide healed in 39 of 47 and 30 of 45 teeth"
    text = "- id: c\n  question: hole\n  outcome: healed\n  where: p. 2\n  follow_up: not reported\n  "
    text += claim("material", *TWO).replace("\n", "\n  ")
    entry = f"@article{{x,\n  author = {{M, I}}, title = {{T}}, year = 2019,\n  annotation = {{[p. 2] {passage}}}\n}}\n"
    found = audited({"claims/x.yaml": report_text("x", text), "sources/x.bib": entry, **FILES})
    (tie,) = [tie for tie in found.proofs["x/c/mta/events"].ties if tie.of == "level"]
    assert (tie.says, tie.by) == ("MTA", "position")
    assert [found.proofs["x/c/mta/events"].passage.text[start:end] for start, end in tie.words] == ["MTA"]


RATES = [("up to 3 mm", "37", "41, success_rate: 90%"), ("over 3 mm", "15", "22, success_rate: 68%")]


@pytest.mark.parametrize(
    "passage",
    [
        "Size | n | Healed | %\n up to 3 mm | 41 | 37 | 90\n over 3 mm | 22 | 15 | 68",
        "Size     n     Healed     Healed (%)\n up to 3 mm     41     37     90\n over 3 mm     22     15     68",
        "Outcome | up to 3 mm (n = 41) | over 3 mm (n = 22)\n Healed, n (%) | 37 (90) | 15 (68)",
    ],
)
def test_per_cent_in_the_heading_of_a_table_proves_a_rate(open_problems: Asked, passage: str) -> None:
    assert open_problems(passage, claim("size", *RATES), files=FILES) == []
    assert {each.rule for each in open_problems(passage, claim("size", *swapped(RATES)), files=FILES)} == {
        "other-level"
    }


# What the reader of a passage says by itself

NAMES: Names = (Name("A", ("A",)), Name("B", ("B",)))
BANDS: Names = (
    Name("up to 3 mm", ("up to 3 mm",), Bounds(None, Decimal(3), "mm")),
    Name("over 3 mm", ("over 3 mm",), Bounds(Decimal(3), None, "mm")),
)


def told(passage: str, names: Names = NAMES) -> dict[str, str]:
    """By number as printed the name it belongs to, "?" where several stand beside it; nameless ones left out."""
    tokens = read_numerals(passage, FORMAT_1)
    owners = owners_of(
        passage, mentions_of(passage, Plain(passage), tokens, names), tokens, table_of(passage, tokens), names,
        FORMAT_1.beside_numbers,
    )  # fmt: skip
    return {token.text: owner.key or "?" for token, owner in zip(tokens, owners, strict=True) if owner is not None}


def test_one_number_beside_two_names_is_nobody_s() -> None:
    assert told("92 teeth had A or B") == {"92": "?"}


def test_a_list_of_another_length_is_nobody_s() -> None:
    assert set(told("A and B: 39, 30 and 21 healed, respectively").values()) == {"?"}


def test_two_rows_of_headings_are_read() -> None:
    passage = "Outcome | A | B\n | n | % | n | %\nhealed | 39 | 83 | 30 | 67"
    assert told(passage) == {"39": "A", "83": "A", "30": "B", "67": "B"}


def test_a_letter_is_a_name_as_it_was_typed() -> None:
    assert told("in a tooth 39, in b 30") == {}
    assert told("in a tooth of A 39, of B 30") == {"39": "A", "30": "B"}


def test_other_bounds_are_other_levels() -> None:
    assert told("up to 2 mm 11/12; over 3 mm 7/13", BANDS) == {"7": "over 3 mm", "13": "over 3 mm"}
