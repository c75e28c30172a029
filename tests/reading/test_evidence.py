"""The example of the format, read whole; and what becomes of what cannot be read."""

from __future__ import annotations

import datetime
import subprocess
import sys
from collections.abc import Callable
from decimal import Decimal
from pathlib import Path

import pytest
from passageproof.problems import Position
from passageproof.reading.evidence import read_evidence
from passageproof.reading.model import Evidence, FollowUp
from passageproof.reading.values import Missing, Percentage, Words

EXAMPLE = Path(__file__).parents[1] / "example"
Read = Callable[[dict[str, str]], Evidence]

CLAIM_FILE = """\
source: a2001word
read: {by: IM, on: 2026-02-03, depth: full text}
studies:
  - id: a-study
claims:
  - id: sound
    question: a-question
    outcome: an-outcome
    events: 39
    total: 47
    where: p. 1
    follow_up: not reported
"""


@pytest.fixture(scope="module")
def example() -> Evidence:
    return read_evidence(EXAMPLE)


def test_example_has_no_problem_and_nothing_unreadable(example: Evidence) -> None:
    assert example.problems == ()
    assert example.unreadable == frozenset()


def test_example_has_its_sources_with_passages_and_places(example: Evidence) -> None:
    source = example.sources["marlow2019furcal"]
    assert (source.type, source.position) == ("article", Position("evidence/sources/furcal.bib", 1, 1))
    assert source.fields["year"].text == "2019"
    assert [passage.bracket for passage in source.passages] == ["p. 44, Methods", "p. 46, Table 2", "p. 47, Table 3"]
    passage = source.passages[1]
    assert (passage.slug, passage.text) == ("p-46-table-2", "healed: 39 of 47 teeth (83%)")
    assert passage.position == Position("evidence/sources/furcal.bib", 7, 22)
    assert passage.place(8) == Position("evidence/sources/furcal.bib", 7, 30)


def test_example_has_its_claims_with_values_and_places(example: Evidence) -> None:
    report = example.reports["marlow2019furcal"]
    claim = report.claim("overall")
    assert claim is not None
    file = "evidence/claims/marlow2019furcal.yaml"
    assert claim.success_rate == Percentage("83%", Position(file, 18, 19), Decimal(83), 0)
    assert claim.question == (Words("root-perforation", Position(file, 16, 15)),)
    assert isinstance(claim.follow_up, FollowUp)
    assert claim.follow_up.median is not None
    assert (claim.follow_up.median.text, claim.follow_up.median.months) == ("31 months", 31)
    by_size = report.claim("by-size")
    assert by_size is not None
    assert [level.level.text for level in by_size.levels] == ["up to 3 mm", "over 3 mm"]
    assert by_size.follow_up == Words("overall", Position(file, 33, 16))


def test_example_keeps_what_is_missing_apart_from_words(example: Evidence) -> None:
    claim = example.reports["arden2023recall"].claim("stayed-healed")
    assert claim is not None
    assert claim.follow_up == Missing("not applicable", Position("evidence/claims/arden2023recall.yaml", 11, 16))


def test_example_has_its_question_and_the_other_files(example: Evidence) -> None:
    question = example.questions["root-perforation"]
    assert question.ratified is not None
    assert [person.text for person in question.ratified.by] == ["IM", "TO"]
    assert question.certainty[0].steps[0].down is not None
    assert example.compendium is not None
    assert example.compendium.evidence_date.value == datetime.date(2026, 10, 30)
    assert example.compendium.people["TO"].name.text == "Tam Okafor"
    assert example.vocabulary.factors["size"].levels[1].range is not None
    assert example.vocabulary.outcomes["healed-strict"].good is True
    assert example.urgent["irrigant-extruded"].until_help[0].basis.kind.text == "local protocol"
    assert example.local.call_name is None
    assert example.statuses["marlow2019furcal"].state.text == "none found"


def test_folder_without_compendium_is_no_evidence(tmp_path: Path) -> None:
    (tmp_path / "evidence").mkdir()
    with pytest.raises(FileNotFoundError):
        read_evidence(tmp_path)


def test_compendium_alone_is_enough(read: Read) -> None:
    assert read({}).problems == ()


def test_broken_claim_keeps_its_name_and_leaves_the_others(read: Read) -> None:
    second = "  - id: broken\n    question: a-question\n    events: 1\n    total: 2\n    follow_up: not reported\n"
    evidence = read({"claims/a2001word.yaml": CLAIM_FILE + second})
    assert [claim.id.text for claim in evidence.reports["a2001word"].claims] == ["sound"]
    assert "claim:a2001word/broken" in evidence.unreadable


def test_claim_with_an_unreadable_value_is_kept_without_it(read: Read) -> None:
    evidence = read({"claims/a2001word.yaml": CLAIM_FILE.replace("events: 39", "events: some")})
    claim = evidence.reports["a2001word"].claim("sound")
    assert claim is not None
    assert (claim.events, claim.total is not None) == (None, True)
    assert len(evidence.problems) == 1


def test_names_in_a_file_with_a_fault_of_syntax_stay_known(read: Read) -> None:
    evidence = read({"claims/a2001word.yaml": CLAIM_FILE + "  - {"})
    assert {"report:a2001word", "claim:a2001word/sound", "study:a-study"} <= evidence.unreadable
    assert len(evidence.problems) == 1


def test_all_problems_of_all_files_are_told_at_once_in_order(read: Read) -> None:
    evidence = read(
        {
            "sources/all.bib": "@article{a2001word, title={x}, journal=nejm}\n",
            "claims/a2001word.yaml": CLAIM_FILE.replace("events: 39", "evnts: 39").replace("47", "47.5"),
            "local.yaml": "call: {nam: x}\n",
        }
    )
    assert [(problem.position.file, problem.rule) for problem in evidence.problems] == [
        ("evidence/claims/a2001word.yaml", "unknown-field"),
        ("evidence/claims/a2001word.yaml", "not-a-count"),
        ("evidence/local.yaml", "unknown-field"),
        ("evidence/sources/all.bib", "undefined-string"),
    ]


def test_reading_loads_nothing_that_only_the_build_needs() -> None:
    code = (
        "import sys; from pathlib import Path; from passageproof.reading.evidence import read_evidence;"
        f"read_evidence(Path({str(EXAMPLE)!r}));"
        "heavy = ('numpy', 'scipy', 'jinja2', 'mkdocs', 'pydantic', 'passageproof.audit');"
        "print([name for name in heavy if name in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout == "[]\n"
