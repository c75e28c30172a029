"""Which numbers belong to which of several names, in sentences and tables as journals print them.

The ways of print are common practice of reports, no source; all figures are invented.
"""

from __future__ import annotations

from decimal import Decimal

import pytest
from demo import demo_evidence
from passageproof.numerals import FORMAT_1, read_numerals
from passageproof.printed.belonging import is_all_of_one, owners_of
from passageproof.printed.owner import is_inside
from passageproof.printed.tables import table_of
from passageproof.printed.wordings import Bounds, Name, Names, Plain, mentions_of
from passageproof.proof.declared_names import declared_names
from passageproof.proof.proving.fields import quoted_scopes
from passageproof.proof.proving.level_names import names_of
from passageproof.proof.proving.printed_passage import Reading

ARMS: Names = (Name("A", ("A", "alpha cement")), Name("B", ("B", "beta cement")))
THREE: Names = (*ARMS, Name("C", ("C",)))
SIZES: Names = (
    Name("small", ("up to 3 mm",), Bounds(None, Decimal(3), "mm")),
    Name("large", ("over 3 mm",), Bounds(Decimal(3), None, "mm")),
)
LESION: Names = (Name("none", ("no lesion", "without a lesion")), Name("lesion", ("lesion", "with a lesion")))
VISITS: Names = (Name("one", ("one visit", "single-visit")), Name("two", ("two visits", "two-visit")))


def told(passage: str, names: Names) -> str:
    """Each number with its owner: "39=A 30=B"; "?" where nothing says which of several, "~" where only the clause
    before says it, nothing for a number of nobody."""
    tokens = read_numerals(passage, FORMAT_1)
    owners = owners_of(
        passage, mentions_of(passage, Plain(passage), tokens, names), tokens, table_of(passage, tokens), names,
        FORMAT_1.beside_numbers,
    )  # fmt: skip
    return " ".join(
        f"{token.text}={owner.key or '?'}{'' if owner.is_sure or not owner.key else '~'}"
        for token, owner in zip(tokens, owners, strict=True)
        if owner is not None
    )


BOTH = "39=A 47=A 30=B 45=B"


@pytest.mark.parametrize(
    ("passage", "expected"),
    [
        ("A and B: 39 of 47 and 30 of 45, respectively", BOTH),
        ("A and B healed in 39/47 and 30/45", BOTH),
        ("Success for A and B was 83% (39/47) and 67% (30/45), respectively, at most", "83=A 39=A 47=A 67=B 30=B 45=B"),
        ("A (n = 47) and B (n = 45) healed in 39 and 30", "47=A 45=B 39=A 30=B"),
        ("Of the 47 A and 45 B teeth, 39 and 30 healed", "47=A 45=B 39=A 30=B"),
        ("Two cements, A and B. Of 47 and 45 teeth, 39 and 30 healed, respectively", "Two=? 47=A 45=B 39=A 30=B"),
        ("39/47 (A) and 30/45 (B)", BOTH),
        ("39 (A) versus 30 (B) teeth healed", "39=A 30=B"),
        ("Healing (A 39/47, B 30/45) differed", BOTH),
        ("A: 39/47, 83% (95% CI 70 to 91); B: 30/45", "39=A 47=A 83=A 95=A 70=A 91=A 30=B 45=B"),
        ("A, B: 39/47 v 30/45", BOTH),
        ("Success favoured A (39/47) over B (30/45)", BOTH),
        ("Success favoured A over B, 39/47 against 30/45", BOTH),
        ("More of the A-treated teeth (39 of 47) than of the B-treated teeth (30 of 45) healed", BOTH),
        ("Eight A teeth and 15 B teeth failed", "Eight=A 15=B"),
        ("With A 39 of 47 teeth healed compared with 30 of 45 teeth filled with B", BOTH),
        ("Teeth filled with A healed more often, 39 of 47, than teeth filled with B, 30 of 45", BOTH),
        ("Compared with B, A healed more often (39/47 versus 30/45)", "39=A 47=A 30=B 45=B"),
        ("B was inferior to A (30/45 versus 39/47)", "30=B 45=B 39=A 47=A"),
        ("Overall 69 of 92 teeth healed: 39 of 47 with A and 30 of 45 with B", BOTH),
        ("39 of 47 with A, 30 of 45 with B and 75% overall", BOTH),
        ("Of 92 teeth, 47 were filled with A (39 healed) and 45 with B (30 healed)", "92=A~ 47=A 39=A 45=B 30=B"),
        ("A: 47 treated; 39 healed. B: 45 treated; 30 healed", "47=A 39=A 45=B 30=B"),
        ("In A 39 healed and 8 failed, and in B 30 and 15", "39=A 8=A~ 30=B 15=B~"),
        ("39 healed and 8 failed with A, 30 healed and 15 failed with B", "39=A 8=A 30=B 15=B"),
        ("A was used in 47 teeth and B in 45; 39 and 30 healed", "47=A 45=B 39=A 30=B"),
        ("A and B, healed: 39/47 vs 30/45; failed: 8/47 vs 15/45", f"{BOTH} 8=A 47=A 15=B 45=B"),
        ("A against B: OR 2.4 (1.1 to 5.2)", "2.4=? 1.1=? 5.2=?"),
        ("92 teeth had A or B", "92=?"),
        ("A, unlike B, healed in 39 of 47", "39=A 47=A"),
        ("Unlike B (30/45), A healed in 39/47", "30=B 45=B 39=A 47=A"),
        ("Compared with B, 39 of 47 teeth with A healed", "39=A 47=A"),
        ("A rather than B was used in 47", "47=A"),
        ("Of the A teeth 39 healed. Eight failed and of the B teeth 15 did", "39=A Eight=B~ 15=B"),
        ("In the A group two were lost, 47 seen and 39 healed. In B 30 healed", "two=A 47=A 39=A 30=B"),
        ("A and B at 12 and 24 months: 30 and 39; 25 and 31", "12=? 24=? 30=? 39=? 25=? 31=?"),
        ("A (39/47) did better than B did (30/45)", BOTH),
        ("A and B: 39, 30 and 21, respectively", "39=? 30=? 21=?"),
        ("mean 2.7 mm (SD 1.2; n = 29) with A and 2.1 mm (SD 1.0; n = 31) with B", "2.7=A 1.2=A 29=A 2.1=B 1.0=B 31=B"),
        ("alpha cement (A) in 47, beta cement in 45; A healed 39, beta-cements 30", "47=A 45=B 39=A 30=B"),
        ("Group 1 (A) and group 2 (B): group 1 healed in 39, group 2 in 30", "39=A 30=B"),
        ("A was compared with B: the former healed in 39, the latter in 30", "39=A 30=B"),
        ("A, then B. The first group healed in 39, the second group in 30", "39=A 30=B"),
    ],
)
def test_two_arms(passage: str, expected: str) -> None:
    assert told(passage, ARMS) == expected


@pytest.mark.parametrize(
    ("passage", "expected"),
    [
        ("A, B and C: 39/47, 30/45 and 21/44", f"{BOTH} 21=C 44=C"),
        ("A, B, C: 3 (5%), 5 (9%) and 8 (13%) of the 60, 57 and 62", "3=A 5=A 5=B 9=B 8=C 13=C 60=A 57=B 62=C"),
        ("With A, B and C, 39, 30 and 21 of 47, 45 and 44 teeth, respectively, healed",
         "39=A 30=B 21=C 47=A 45=B 44=C"),
        ("The 47 A, 45 B and 44 C healed in 39, 30 and 21", "47=A 45=B 44=C 39=A 30=B 21=C"),
        ("39 (83%), 30 (67%) and 21 (48%) of the 47 A, 45 B and 44 C healed",
         "39=A 83=A 30=B 67=B 21=C 48=C 47=A 45=B 44=C"),
        ("A, B and C healed in 83%, 67% and 48% (39/47, 30/45 and 21/44)",
         "83=A 67=B 48=C 39=A 47=A 30=B 45=B 21=C 44=C"),
    ],
)  # fmt: skip
def test_three_arms(passage: str, expected: str) -> None:
    assert told(passage, THREE) == expected


@pytest.mark.parametrize(
    ("passage", "expected"),
    [
        ("Outcome | A | B\nhealed | 39 of 47 | 30 of 45", BOTH),
        ("Cement | n | healed\nA | 47 | 39\nB | 45 | 30", "47=A 39=A 45=B 30=B"),
        ("Cement    n    healed\nA    47    39\nB    45    30", "47=A 39=A 45=B 30=B"),
        ("Outcome | A | | B |\n | n | % | n | %\nhealed | 39 | 83 | 30 | 67", "39=A 83=A 30=B 67=B"),
        ("Outcome | A | B\n | n | % | n | %\nhealed | 39 | 83 | 30 | 67", "39=A 83=A 30=B 67=B"),
        ("Arm A\nhealed | 39\nArm B\nhealed | 30", "39=A 30=B"),
        ("A, 39/47\nB, 30/45", BOTH),
        ("Cement: A\nhealed: 39\nfailed: 8\nCement: B\nhealed: 30\nfailed: 15", "39=A 8=A 30=B 15=B"),
    ],
)
def test_tables(passage: str, expected: str) -> None:
    assert told(passage, ARMS) == expected


@pytest.mark.parametrize(
    ("passage", "expected"),
    [
        ("≤3 mm 32/35, > 3 mm 7/12", "32=small 35=small 7=large 12=large"),
        ("holes not larger than 3 mm healed in 32 of 35, larger ones in 7 of 12", "32=small 35=small 7=large 12=large"),
        ("small (≤ 3 mm) 32/35, large (> 3 mm) 7/12", "32=small 35=small 7=large 12=large"),
        ("Width (mm) | n | healed\n≤ 3 | 35 | 32\n> 3 | 12 | 7", "35=small 32=small 12=large 7=large"),
        ("up to 2 mm 11/12; over 3 mm 7/13", "7=large 13=large"),
    ],
)
def test_bounds(passage: str, expected: str) -> None:
    assert told(passage, SIZES) == expected


@pytest.mark.parametrize(
    ("passage", "expected"),
    [
        ("33/36 teeth without a lesion and 41/55 with a lesion", "33=none 36=none 41=lesion 55=lesion"),
        ("33/36 without and 41/55 with a preoperative lesion", "33=none 36=none 41=lesion 55=lesion"),
        ("teeth with lesions: 41 of 55; with no periapical lesion: 33 of 36", "41=lesion 55=lesion 33=none 36=none"),
        ("Lesion: yes 41/55, no 33/36", "41=lesion 55=lesion 33=none 36=none"),
        ("Lesion | n | healed\nabsent | 36 | 33\npresent | 55 | 41", "36=none 33=none 55=lesion 41=lesion"),
        ("In the presence of a lesion 41/55; in its absence 33/36", "41=lesion 55=lesion 33=none 36=none"),
    ],
)
def test_what_is_there_or_not(passage: str, expected: str) -> None:
    assert told(passage, LESION) == expected


def test_number_inside_a_name_is_nobody_s() -> None:
    assert told("Pain after single-visit care 18/60, after two visits 9/58", VISITS) == "18=one 60=one 9=two 58=two"


def test_a_passage_that_begins_with_the_only_name_in_it_gives_that_one_every_number() -> None:
    """In the demonstration, wherever the short way answers, the long one says the same."""
    evidence = demo_evidence()
    declared = declared_names(evidence)
    answered = 0
    for key, report in evidence.reports.items():
        readings = [Reading(passage, declared.lexicon) for passage in evidence.sources[key].passages]
        scopes = quoted_scopes(report, {}, declared.outcomes, declared.lexicon)
        for names in {names_of(scope, declared.factors) for scope in scopes} - {()}:
            for reading in readings:
                sole, mentions = reading.sole_owner(names), reading.mentions(names)
                for token, owner in zip(reading.tokens, reading.owners(names), strict=True):
                    if sole and not is_inside(token, mentions):
                        assert owner is not None, (reading.passage.text, token)
                        assert owner.key in ("", sole), (reading.passage.text, token)
                        answered += 1
    assert answered > 100


@pytest.mark.parametrize(
    "passage",
    [
        "In all A eyes 39 of 47 healed",
        "A: 39 of 47 healed, overall 69 of 92",
        "A: 39 of 47 healed\n30 of 45",
        "A: 39 of 47 healed; B: 30 of 45",
        "A (group 1): 39 of 47 healed, in the other group 30 of 45",
        "39 of 47 healed with A",
        "| A | 39 of 47 |",
    ],
)
def test_any_other_passage_has_to_be_read(passage: str) -> None:
    tokens = read_numerals(passage, FORMAT_1)
    mentions = mentions_of(passage, Plain(passage), tokens, ARMS)
    assert not is_all_of_one(passage, mentions, table_of(passage, tokens), ARMS)
